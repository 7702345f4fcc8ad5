"""The use-cases: a practice session and its relatives.  Nothing here prints."""
