"""Deck files: reading, checking, and the library that they make up."""
