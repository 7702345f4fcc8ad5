"""Radio calls: words and numbers as they are said, and which of them belongs to which item."""
