"""Short forms for the entries of the carrier work: records of one line, and numbers as they are said."""

import operator

import numpy as np

from trainer.engine.angles import rounded_heading
from trainer.engine.quantity import Input, QuantitySlip, Result
from trainer.model import Tolerance

CATAPULT_SIDE = {1: "bow", -1: "waist"}
TURN_SIDE = {1: "right", -1: "left"}
SIGNS = {"x": operator.mul, "/": operator.truediv, "+": operator.add, "-": operator.sub}
MOST_DECIMALS_MORE = 3
HALF_AND_A_HAIR = 0.52  # of the last digit of a result: a tie may go either way
YES_NO = {1: "yes", 0: "no"}
CASES = {1: "Case I", 2: "Case II", 3: "Case III"}


def give(name, title, unit, low, high, **more):
    """Return an ``Input`` with the range ``low`` to ``high``."""
    return Input(name=name, title=title, unit=unit, low=low, high=high, **more)


def choose(name, title, words, **more):
    """Return a coded ``Input`` whose values are the keys of ``words``."""
    return Input(name=name, title=title, unit="word", words=words, **more)


def get(name, title, unit, on, inside, **more):
    """Return a ``Result`` whose usual tolerance is ``on`` the number, ``inside`` limits."""
    return Result(name=name, title=title, unit=unit, tolerance=Tolerance(on=on, inside=inside), **more)


def verdict(name, title, words):
    """Return a coded ``Result``: right or wrong, nothing between."""
    return Result(name=name, title=title, unit="word", tolerance=Tolerance(on=0, inside=0), words=words)


def slip(name, words, wrong, result=""):
    """Return a ``QuantitySlip``."""
    return QuantitySlip(name=name, words=words, wrong=wrong, result=result)


def hdg(direction_deg):
    """Return a direction as it is shown.

    >>> hdg(4.6), hdg(359.8), hdg(-4)
    ('005°', '360°', '356°')
    """
    return f"{float(rounded_heading(direction_deg)):03.0f}°"


def past_north(sum_deg):
    """Return what people make of a sum that passed north: -4 becomes 4, 370 becomes 70 (300 taken away).

    >>> float(past_north(-4)), float(past_north(370)), float(past_north(90))
    (4.0, 70.0, 90.0)
    """
    total = np.asarray(sum_deg, dtype=float)
    return np.where(total <= 0, -total, np.where(total > 360, total - 300, total))[()]


def num(value, decimals=0):
    """Return a number with commas, without needless zeros after the point.

    >>> num(12345), num(2.50, 2), num(-0.0, 1)
    ('12,345', '2.5', '0')
    """
    text = f"{float(value):,.{decimals}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text == "-0" else text


def as_printed(function, values, places, decimals):
    """Return (the ``values`` as texts, the result as text), so that the line made of them is true as it is printed.

    The values get the decimals ``places`` and as many more as that takes, the result gets ``decimals``.
    """
    result = num(function(*values), decimals)
    for more in range(MOST_DECIMALS_MORE):
        told = [num(value, place + more) for value, place in zip(values, places, strict=True)]
        off = function(*(float(text.replace(",", "")) for text in told)) - float(result.replace(",", ""))
        if abs(off) <= HALF_AND_A_HAIR * 10.0**-decimals:
            break
    return told, result


def reckoned(left, sign, right, decimals, *, places=(2, 1)):
    """Return a product, quotient, sum or difference as a line that is true as it is printed.

    >>> reckoned(14 / 15, "x", 35, 1), reckoned(500 / 3, "x", 3.5, 0, places=(0, 1))
    ('0.933 x 35 = 32.7', '166.7 x 3.5 = 583')
    """
    told, result = as_printed(SIGNS[sign], (left, right), places, decimals)
    return f"{told[0]} {sign} {told[1]} = {result}"


def clock(minutes):
    """Return minutes since midnight as a clock time.

    >>> clock(765)
    '12:45'
    """
    whole = int(float(minutes) + 0.5) % 1440
    return f"{whole // 60:02d}:{whole % 60:02d}"


def past(minute):
    """Return a minute of the hour as it is spoken in marshal.

    >>> past(4), past(59.5)
    (':04', ':59:30')
    """
    seconds = int(float(minute) * 60 + 0.5) % 3600
    return f":{seconds // 60:02d}" + (f":{seconds % 60:02d}" if seconds % 60 else "")


def min_s(seconds):
    """Return seconds as minutes and seconds.

    >>> min_s(270)
    '4:30'
    """
    whole = int(float(seconds) + 0.5)
    return f"{whole // 60}:{whole % 60:02d}"
