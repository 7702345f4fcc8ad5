"""Spaced practice of computed drills, flows and calls for carrier operations in a simulator."""

__version__ = "0.1.0"
