"""Spaced practice of computed drills, flows and calls for carrier operations in a simulator."""

import os

__version__ = "0.1.0"

# Read by numpy's linear algebra when it is loaded: our arrays are many and small, and threads that wait for each other
# make a plan half as slow again.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
