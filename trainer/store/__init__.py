"""The only code that touches the database."""
