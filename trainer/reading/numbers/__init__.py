"""Numbers, durations and spoken figures, read in the unit of the question."""
