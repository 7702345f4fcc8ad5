"""Published values, each with its source beside it."""
