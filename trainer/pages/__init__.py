"""Pages that a person keeps or hands over."""
