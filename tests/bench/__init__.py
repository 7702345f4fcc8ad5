"""Measurements, run by hand; none of them is part of the test suite."""
