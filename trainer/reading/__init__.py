"""Typed or spoken text becomes a value, a step, a choice or a call."""
