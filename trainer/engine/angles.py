"""Directions and the differences between them.

Convention: a heading, course, bearing or radial is 1-360 where it is *shown*, and rounded before it is
wrapped, so that 359.7 becomes 360 and never 0.  Differences are signed, right (clockwise) positive,
-180 < d <= 180.  All functions take floats or arrays.
"""

import numpy as np


def wrap_360(direction_deg):
    """Return ``direction_deg`` in (0, 360]; not rounded.

    >>> float(wrap_360(-4.0)), float(wrap_360(360.0)), float(wrap_360(0.0))
    (356.0, 360.0, 360.0)
    """
    wrapped = np.mod(direction_deg, 360.0)
    # -1e-14 % 360 is 360.0 in floating point, which is in our range already.
    return np.where(wrapped == 0.0, 360.0, wrapped)[()]


def rounded_heading(direction_deg):
    """Return ``direction_deg`` rounded half up to whole degrees, then wrapped to 1-360.

    >>> float(rounded_heading(359.7)), float(rounded_heading(0.2))
    (360.0, 360.0)
    """
    return wrap_360(np.floor(np.asarray(direction_deg, dtype=float) + 0.5))


def turn_deg(from_deg, to_deg):
    """Return the shortest turn in degrees from one direction to another, right positive, (-180, 180].

    >>> float(turn_deg(350, 10)), float(turn_deg(10, 350)), float(turn_deg(0, 180))
    (20.0, -20.0, 180.0)
    """
    difference = np.mod(np.asarray(to_deg, dtype=float) - from_deg, 360.0)
    return np.where(difference > 180.0, difference - 360.0, difference)[()]


def reciprocal(direction_deg):
    """Return the opposite direction in (0, 360]."""
    return wrap_360(np.asarray(direction_deg, dtype=float) + 180.0)


def components(direction_deg, size):
    """Return (east, north) of a vector *towards* ``direction_deg`` with length ``size``."""
    radians = np.radians(direction_deg)
    return size * np.sin(radians), size * np.cos(radians)


def direction_and_size(east, north):
    """Return (direction in (0, 360], length) of the vector (east, north); 360 for a vector of length 0."""
    return wrap_360(np.degrees(np.arctan2(east, north))), np.hypot(east, north)
