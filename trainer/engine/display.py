"""Values in the form in which the trade writes them: 005°, 3,500 lb, :24, 12:45, angels 12.

Standard library only: the first question is on the screen before numpy is loaded.
"""

import math
from decimal import Decimal

from trainer.engine.units import UNITS

NO_SEPARATOR = ("mhz", "year", "channel", "hpa", "day", "ratio", "mach", "latlon", "inhg")
FIXED_DECIMALS = ("inhg", "latlon", "klb")  # an altimeter setting is 29.90, a state 5.0
MOST_DECIMALS = 6
ASCII = {"°": " deg", "–": "-", "—": "-", "−": "-", "→": "->", "≥": ">=", "≤": "<=", "×": "x",
         "·": "*", "√": "sqrt", "’": "'", "‘": "'", "“": '"', "”": '"', "…": "...", "±": "+/-", "½": "1/2",
         "¼": "1/4", "¾": "3/4", "÷": "/", "²": "^2", "³": "^3"}  # fmt: skip


def value(value, unit_name, step=None):
    """Return the number ``value`` of ``unit_name`` as the trade writes it, rounded to ``step``.

    Without a ``step`` the decimals usual for the unit are shown; trailing zeros are left out.
    Raises ``ValueError`` for NaN and infinity.

    >>> value(5, "heading"), value(3500, "lb"), value(24, "minute"), value(765, "clock")
    ('005°', '3,500 lb', ':24', '12:45')
    >>> value(90, "s"), value(4.5, "min"), value(12, "angels"), value(359.7, "heading")
    ('1:30', '4.5 min', 'angels 12', '360°')
    """
    if isinstance(value, str):
        return value
    unit = UNITS[unit_name]
    return _in_form(float(value), unit, step or 10.0 ** -_usual_decimals(unit))


def exact(value, unit_name):
    """Return ``value`` with every decimal that it has, so that a drawn input is shown as it is used.

    >>> exact(0.25, "nm"), exact(9.0, "deg")
    ('0.25 nm', '9°')
    """
    if isinstance(value, str):
        return value
    decimals = min(MOST_DECIMALS, _decimals(float(value)))
    return _in_form(float(value), UNITS[unit_name], 10.0**-decimals)


def coded(value, words):
    """Return the word of the coded ``value`` ({1: "right", -1: "left"}); raises ``KeyError``."""
    return words[int(value)]


def other_way(text):
    """Return a trim's ``text`` with nose up and nose down changed over.

    >>> other_way("24° nose up")
    '24° nose down'
    """
    return text.replace(" down", " up") if " down" in text else text.replace(" up", " down")


def plain_ascii(text):
    """Return ``text`` for a screen that knows ASCII alone."""
    for sign, replacement in ASCII.items():
        text = text.replace(sign, replacement)
    return text.encode("ascii", "replace").decode("ascii")


def _in_form(number, unit, step):
    """Return ``number`` rounded to ``step`` in the form of ``unit``."""
    return _FORMS.get(unit.form, _number)(_rounded(number, step), unit, _decimals(step))


def _usual_decimals(unit):
    return max(1, unit.decimals) if unit.name == "angels" else unit.decimals


def _decimals(number):
    """Return how many decimals are needed to write ``number`` in full."""
    exponent = Decimal(repr(float(number))).normalize().as_tuple().exponent
    return max(0, -int(exponent))  # "n" and "F" stand for what is no number


def _rounded(number, step):
    """Return ``number`` rounded half up to ``step``; a hair below the half counts as the half."""
    if not math.isfinite(number):
        raise ValueError(f"{number} can't be shown")
    count = math.floor(round(number / step, 7) + 0.5)
    return float(Decimal(repr(step)) * count) + 0.0  # + 0.0 turns -0.0 into 0.0


def _digits(number, decimals, unit):
    """Return the digits with thousands separators, without trailing zeros unless the unit keeps them."""
    separator = "" if unit.name in NO_SEPARATOR else ","
    decimals = max(decimals, unit.decimals) if unit.name in FIXED_DECIMALS else decimals
    text = f"{number:{separator}.{decimals}f}"
    return text if unit.name in FIXED_DECIMALS or "." not in text else text.rstrip("0").rstrip(".")


def _number(number, unit, decimals):
    if unit.name == "angels":
        return f"angels {_digits(number, decimals, unit)}"
    if unit.name == "mach":
        return f"Mach {_digits(number, decimals, unit)}"
    symbol = unit.symbol
    if symbol.endswith(("nose up", "nose down")) and number < 0:
        number, symbol = -number, other_way(symbol)
    if unit.name in ("radials", "points") and number == 1:
        symbol = symbol.removesuffix("s")
    return _digits(number, decimals, unit) + symbol


def _heading(number, unit, decimals):
    wrapped = number % 360.0 or 360.0
    return f"{wrapped:0{3 + (decimals + 1 if decimals else 0)}.{decimals}f}°"


def _minute(number, unit, decimals):
    seconds = round((number % 60.0) * 60)
    minutes, seconds = divmod(seconds % 3600, 60)
    return f":{minutes:02d}" + (f":{seconds:02d}" if seconds else "")


def _clock(number, unit, decimals):
    seconds = round((number % 1440.0) * 60) % 86400
    hours, rest = divmod(seconds, 3600)
    minutes, seconds = divmod(rest, 60)
    return f"{hours:02d}:{minutes:02d}" + (f":{seconds:02d}" if seconds else "")


def _duration(number, unit, decimals):
    if unit.name != "s" or abs(number) < 60 or number != int(number):
        return _digits(number, decimals, unit) + unit.symbol
    sign, seconds = "-" if number < 0 else "", int(abs(number))
    minutes, seconds = divmod(seconds, 60)
    if minutes < 60:
        return f"{sign}{minutes}:{seconds:02d}"
    return f"{sign}{minutes // 60}:{minutes % 60:02d}:{seconds:02d}"


_FORMS = {"heading": _heading, "minute": _minute, "clock": _clock, "duration": _duration}
