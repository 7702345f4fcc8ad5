"""The closed list of functions that a formula of a deck may call, over floats and arrays alike.

Angles are degrees.  ``round``, ``floor`` and ``ceil`` take a step as second argument (``round(weight_lb,
100)``) and are forgiving about a hair of floating-point error; halves are rounded up.
"""

from functools import reduce

import numpy as np

from trainer.engine.angles import wrap_360

HAIR = 1e-9


def _steps(value, step):
    count = np.asarray(value, dtype=float) / step
    whole = np.rint(count)
    return np.where(np.abs(count - whole) < HAIR, whole, count)


def _round(value, step=1.0):
    return np.floor(_steps(value, step) + 0.5) * step


def _floor(value, step=1.0):
    return np.floor(_steps(value, step)) * step


def _ceil(value, step=1.0):
    return np.ceil(_steps(value, step)) * step


def _least(*values):
    return reduce(np.minimum, values)


def _greatest(*values):
    return reduce(np.maximum, values)


# name: (function, fewest arguments, most arguments)
FUNCTIONS = {
    "abs": (np.abs, 1, 1),
    "min": (_least, 2, 10),
    "max": (_greatest, 2, 10),
    "round": (_round, 1, 2),
    "floor": (_floor, 1, 2),
    "ceil": (_ceil, 1, 2),
    "sqrt": (np.sqrt, 1, 1),
    "sin": (lambda degrees: np.sin(np.radians(degrees)), 1, 1),
    "cos": (lambda degrees: np.cos(np.radians(degrees)), 1, 1),
    "tan": (lambda degrees: np.tan(np.radians(degrees)), 1, 1),
    "wrap360": (wrap_360, 1, 1),
}
TABLE = "table"
RESERVED = frozenset((*FUNCTIONS, TABLE, "answer"))
