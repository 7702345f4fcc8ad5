"""The sortie of an evening, event by event."""
