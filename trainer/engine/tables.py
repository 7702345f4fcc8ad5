"""Tables of a handbook: a step per band of weight, or values to interpolate between."""

import numpy as np

from trainer.engine.domain import inside
from trainer.frozen import frozen


@frozen
class StepTable:
    """Bands that each have one value: up to and including ``upto[i]`` the value is ``values[i]``.

    ``low`` is the lowest argument of the first band.  Arguments outside the table are refused.  ``unit`` is that of
    the values, "" where nobody said.
    """

    low: float
    upto: tuple[float, ...]
    values: tuple[float, ...]
    name: str = "table"
    unit: str = ""

    def __post_init__(self):
        _check(self.name, (self.low, *self.upto), self.values, extra=1)

    @property
    def high(self):
        """Return the highest argument of the table."""
        return self.upto[-1]

    def __call__(self, argument):
        """Return the value of the band that ``argument`` (float or array) falls into."""
        inside(f"{self.name} argument", argument, self.low, self.high, why="the table ends there")
        return np.asarray(self.values)[self.band(argument)]

    def band(self, argument):
        """Return the index of the band that ``argument`` falls into."""
        return np.searchsorted(np.asarray(self.upto), argument, side="left")


@frozen
class InterpolatedTable:
    """Points between which the value changes linearly; arguments outside are refused.

    ``unit`` is that of the values, "" where nobody said.
    """

    at: tuple[float, ...]
    values: tuple[float, ...]
    name: str = "table"
    unit: str = ""

    def __post_init__(self):
        _check(self.name, self.at, self.values, extra=0)

    @property
    def low(self):
        """Return the lowest argument of the table."""
        return self.at[0]

    @property
    def high(self):
        """Return the highest argument of the table."""
        return self.at[-1]

    def __call__(self, argument):
        """Return the linearly interpolated value at ``argument`` (float or array)."""
        inside(f"{self.name} argument", argument, self.low, self.high, why="the table ends there")
        return np.interp(argument, self.at, self.values)


def _check(name, arguments, values, *, extra):
    """Raise ``ValueError`` unless the columns have one length and the arguments rise."""
    if len(arguments) != len(values) + extra or len(values) < 1:
        raise ValueError(f"{name}: the columns have different lengths")
    if not all(np.isfinite((*arguments, *values))):
        raise ValueError(f"{name}: every entry must be a finite number")
    if any(b <= a for a, b in zip(arguments, arguments[1:], strict=False)):
        raise ValueError(f"{name}: the arguments must rise from row to row")
