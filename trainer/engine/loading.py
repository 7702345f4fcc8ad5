"""The aircraft's weight on deck, the weight board, the trim that goes with the weight.

The trim table is the type's own: a step per band of weight, or points to interpolate between.  Weights are
pounds; trim is in the unit of its table, degrees nose up where it has none.
Source of the sum: FAA-H-8083-25, weight and balance.
"""

import numpy as np

from trainer.engine.domain import inside, require

HEAVIEST_LB = 150_000


def gross_weight_lb(basic_weight_lb, crew_lb, fuel_lb, stores_lb):
    """Return the gross weight in pounds: the sum of its four parts, floats or arrays, none negative."""
    parts = (basic_weight_lb, crew_lb, fuel_lb, stores_lb)
    for name, part in zip(("basic weight", "crew", "fuel", "stores"), parts, strict=True):
        inside(name, part, 0, HEAVIEST_LB)
    return np.sum(np.broadcast_arrays(*parts), axis=0, dtype=float)[()]


def board_signal(own_weight_lb, board_weight_lb, board_tolerance_lb):
    """Return (signal, difference): 0 accept, 1 have the board raised, -1 lowered; own minus board in pounds.

    The board is accepted up to and including ``board_tolerance_lb`` of difference.
    """
    inside("own weight", own_weight_lb, 0, HEAVIEST_LB)
    inside("board weight", board_weight_lb, 0, HEAVIEST_LB)
    inside("board tolerance", board_tolerance_lb, 0, 5_000)
    difference = np.asarray(own_weight_lb, dtype=float) - board_weight_lb
    return np.where(np.abs(difference) <= board_tolerance_lb, 0.0, np.sign(difference))[()], difference[()]


def trim_deg(gross_weight_lb, trim_table):
    """Return the take-off trim in the unit of ``trim_table`` (a ``StepTable`` or ``InterpolatedTable``).

    A weight between two printed bands takes the heavier one.  Raises ``DomainError`` outside the table.
    """
    return np.asarray(trim_table(gross_weight_lb), dtype=float)[()]


def neighbouring_step(gross_weight_lb, trim_table, rows):
    """Return the value ``rows`` rows further down a ``StepTable`` (negative: up), at its ends the last one."""
    band = np.clip(trim_table.band(gross_weight_lb) + rows, 0, len(trim_table.values) - 1)
    return np.asarray(trim_table.values, dtype=float)[band][()]


def rows_around(gross_weight_lb, trim_table):
    """Return (lower argument, upper argument, lower value, upper value) of an ``InterpolatedTable``."""
    at, values = np.asarray(trim_table.at, dtype=float), np.asarray(trim_table.values, dtype=float)
    above = np.clip(np.searchsorted(at, gross_weight_lb, side="left"), 1, len(at) - 1)
    return at[above - 1], at[above], values[above - 1], values[above]


def signalled_fuel_lb(first_fingers, first_way, second_fingers, second_way):
    """Return the fuel in pounds of a hand signal of two digits, thousands and then hundreds.

    Fingers 0 (closed fist) to 5; way 1 upright, -1 on the side, which adds five (one to four fingers).
    Source: CNATRA P-1211, manning (700 lb: closed fist, then two fingers on the side).
    """
    first = _digit(first_fingers, first_way)
    return first * 1000 + _digit(second_fingers, second_way) * 100


def fingers_for(hundreds):
    """Return (fingers, way) that show the digit ``hundreds``, 0 to 9: 1 upright for 1-5, -1 on the side."""
    inside("digit", hundreds, 0, 9)
    digit = np.asarray(hundreds, dtype=float)
    require(digit == np.floor(digit), "a digit is a whole number")
    return np.where(digit > 5, digit - 5, digit)[()], np.where(digit > 5, -1.0, 1.0)[()]


def _digit(fingers, way):
    inside("fingers", fingers, 0, 5)
    count = np.asarray(fingers, dtype=float)
    require(count == np.floor(count), "fingers are whole")
    require(np.isin(way, (1, -1)), "fingers are upright (1) or on the side (-1)")
    require((np.asarray(way) == 1) | (count < 5), "five fingers are never shown on the side")
    return np.where((np.asarray(way) == -1) & (count > 0), count + 5, count)[()]
