"""What is known, what to ask next, and what to expect on a date."""
