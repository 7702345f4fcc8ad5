"""What an entry of the table of quantities is made of.

A quantity is a thing the engine computes: inputs with units and ranges, one or more results, the ways to
work it out, the slips people make, and the source of the rule.  The functions named in an entry take the
inputs by keyword, as floats or arrays, and are pure.
"""

from collections.abc import Callable, Mapping
from dataclasses import field, replace
from typing import Any

import numpy as np

from trainer.engine.domain import inside, require
from trainer.engine.picture import Picture
from trainer.engine.units import UNITS
from trainer.frozen import frozen
from trainer.model import Source, Tolerance

EXACT = "exact"
RULE = "rule of thumb"


@frozen
class Input:
    """One input.  ``name`` ends in its unit where it has one; ``low`` to ``high`` is the valid range.

    ``words`` names the values of a coded input ({1: "right", -1: "left"}); ``take`` is where a default
    comes from in the user's files ("ship.deck_angle_deg"); ``default`` is used when nothing else is known.
    ``careful`` is told where it was not given: what the value that is taken leaves out.
    """

    name: str
    title: str
    unit: str
    low: float = 0.0
    high: float = 0.0
    words: Mapping[int, str] = field(default_factory=dict)
    take: str = ""
    default: float | None = None
    careful: str = ""


@frozen
class Result:
    """One result.  ``tolerance`` is the usual one for an answer done in the head.

    ``round_to`` is the step to which the trade states it, in the direction ``rounding``
    ("nearest", "up", "down"); ``words`` names the values of a coded result.  ``table`` names the input that is
    the table which the result is read from: a table with a unit of its own gives it to the result.
    """

    name: str
    title: str
    unit: str
    tolerance: Tolerance
    round_to: float = 1.0
    rounding: str = "nearest"
    words: Mapping[int, str] = field(default_factory=dict)
    table: str = ""

    def of(self, inputs: Mapping[str, Any]) -> "Result":
        """Return this result in the unit of the table among ``inputs`` that it is read from."""
        unit = inputs[self.table].unit if self.table else ""
        return replace(self, unit=unit) if unit and unit != self.unit else self


@frozen
class QuantitySlip:
    """A typical mistake: ``wrong`` computes (from the same inputs) the answer that it leads to.

    It is a mistake in the result named ``result`` ("" for the first).
    """

    name: str
    words: str
    wrong: Callable[..., Any]
    result: str = ""


@frozen
class Quantity:
    """A thing the engine computes.

    ``methods`` maps EXACT and, where the trade has one, RULE to a function that returns one value, or a
    tuple with one value per entry of ``results``.  ``mental`` and ``exact`` turn scalar inputs into the
    lines of a worked solution, the way done in the head first; ``picture`` turns them into a small picture.
    """

    name: str
    title: str
    area: str
    inputs: tuple[Input, ...]
    results: tuple[Result, ...]
    methods: Mapping[str, Callable[..., Any]]
    mental: Callable[..., tuple[str, ...]]
    slips: tuple[QuantitySlip, ...]
    source: Source
    exact: Callable[..., tuple[str, ...]] | None = None
    picture: Callable[..., Picture] | None = None
    words: tuple[str, ...] = ()

    def input(self, name):
        """Return the input called ``name``; raises ``KeyError``."""
        return _named(self.inputs, name)

    def result(self, name=""):
        """Return the result called ``name``, the first for ""; raises ``KeyError``."""
        return _named(self.results, name) if name else self.results[0]

    def compute(self, inputs, *, method=""):
        """Return {result name: value} for ``inputs`` by ``method`` (the first one for "").

        Raises ``DomainError`` outside the valid range and ``KeyError`` for an unknown method.
        """
        function = self.methods[method] if method else next(iter(self.methods.values()))
        for spec in self.inputs:
            if spec.unit != "table":
                check_range(spec, inputs[spec.name])
        values = function(**inputs)
        values = values if isinstance(values, tuple) else (values,)
        return {result.name: value for result, value in zip(self.results, values, strict=True)}


def check_range(spec, value):
    """Raise ``DomainError`` unless ``value`` lies in the range (or among the words) of the input ``spec``."""
    if spec.words:
        known = ", ".join(spec.words.values())
        allowed = np.isin(np.asarray(value, dtype=float), tuple(spec.words))
        require(allowed, f"{spec.title} is not one of: {known}")
    else:
        inside(spec.title, value, spec.low, spec.high)


def stated(result, value):
    """Return ``value`` as the trade states it: rounded to ``result.round_to`` in its direction.

    Halves go up.  Directions are rounded before they are wrapped, so 359.7 is 360.

    >>> from trainer.engine.quantities import QUANTITIES
    >>> float(stated(QUANTITIES["marshal_radial"].result(), 359.7))
    360.0
    """
    if result.words or not result.round_to:
        return value
    count = np.asarray(value, dtype=float) / result.round_to
    # A hair of floating-point error must not push 20.0000000001 up to the next step.
    count = np.round(count, 9)
    whole = {"nearest": np.floor(count + 0.5), "up": np.ceil(count), "down": np.floor(count)}[result.rounding]
    cycle = UNITS[result.unit].cycle
    value = whole * result.round_to
    if not cycle:
        return value
    wrapped = np.mod(value, cycle)
    return np.where(wrapped == 0.0, cycle, wrapped)[()] if cycle == 360 else wrapped


def _named(records, name):
    for record in records:
        if record.name == name:
            return record
    raise KeyError(name)
