"""The small library of the drills, for texts that need a whole question."""

from tests.drills.conftest import library

__all__ = ["library"]
