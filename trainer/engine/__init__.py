"""The calculation engine: pure functions of numbers and arrays."""
