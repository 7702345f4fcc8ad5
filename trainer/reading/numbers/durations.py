"""A duration as people type it: 1+30, 1:30, 1 h 30 min."""

import re

from trainer.patterns import Late

MOST_HOURS = 5
LARGEST = 1e9  # nobody means a larger number
_H_PLUS_M = Late(r"(\d{1,2})\+(\d{2})", re.ASCII)
_COLONS = Late(r"(-?)(\d{0,3}):(\d{2})(?::(\d{2}))?", re.ASCII)
_AMOUNT = r"(?:(\d+(?:\.\d+)?) ?(?:{}))?"
_IN_WORDS = Late(
    "(-?)"
    + _AMOUNT.format("hours|hour|hrs|hr|h") + " ?(?:and )?"
    + _AMOUNT.format("minutes|minute|mins|min|m|'") + " ?(?:and )?"
    + _AMOUNT.format('seconds|second|secs|sec|s|"|\'\''),
    re.ASCII,
)  # fmt: skip
_CUT_SHORT = Late(r"(\d{1,3}) ?(hours|hour|hrs|hr|h|minutes|minute|mins|min|m|') ?(?:and )?(\d{1,2})", re.ASCII)
_TWO_PARTS = Late(r"(\d{1,3})([:+.])([0-5]\d)", re.ASCII)


def seconds_of(plain, unit):
    """Return the seconds of a duration written with a plus, colons or units; None for any other.

    The last unit may be left out: "1 h 14", "1 min 10".
    """
    match = _CUT_SHORT.fullmatch(plain)
    if match and int(match[3]) < 60:
        size = 3600 if match[2].startswith("h") else 60
        return int(match[1]) * size + int(match[3]) * size // 60
    match = _H_PLUS_M.fullmatch(plain)
    if match and int(match[2]) < 60:
        return int(match[1]) * 3600 + int(match[2]) * 60
    match = _COLONS.fullmatch(re.sub(r" ?(min|mins|s|h|hrs|hours)$", "", plain) if ":" in plain else plain)
    if match:
        return _seconds_of_colons(match, unit)
    match = _IN_WORDS.fullmatch(plain)
    if match and any(match.groups()[1:]):
        hours, minutes, seconds = (float(part or 0) for part in match.groups()[1:])
        total = hours * 3600 + minutes * 60 + seconds
        return (-total if match[1] else total) if total <= LARGEST else None
    return None


def _seconds_of_colons(match, unit):
    """Return the seconds of 1:30 or 1:02:30; two parts are hours and minutes where hours are asked."""
    sign, first, second, third = match[1], int(match[2] or 0), int(match[3]), match[4]
    if second > 59 or int(third or 0) > 59:
        return None
    if third is not None:
        total = first * 3600 + second * 60 + int(third)
    else:
        total = (first * 60 + second) * (60 if unit.name == "h" else 1)
    return -total if sign else total


def readings(plain, unit, seconds):
    """Return the seconds that a duration of two parts may mean, ``seconds`` first: 0:30 is 30 s or 30 min.

    Where seconds are asked 1:10 is minutes and seconds, where hours are asked hours and minutes; nobody asks in
    minutes for more hours than ``MOST_HOURS``.
    """
    match = _TWO_PARTS.fullmatch(plain)
    if not match:
        return [seconds]
    large, sign, small = int(match[1]), match[2], int(match[3])
    hours, minutes = large * 3600 + small * 60, large * 60 + small
    meant = {
        ("min", ":"): [hours] * (large <= MOST_HOURS), ("min", "+"): [minutes], ("min", "."): [minutes],
        ("s", "+"): [minutes], ("s", "."): [minutes], ("h", "."): [hours],
    }  # fmt: skip
    return [seconds, *meant.get((unit.name, sign), ())]


def written(seconds):
    """Return a duration with its units, which nobody can read in two ways.

    >>> written(95), written(5400), written(30)
    ('1 min 35 s', '1 h 30 min', '30 s')
    """
    whole = round(seconds)
    sizes = ((whole // 3600, "h"), (whole % 3600 // 60, "min"), (whole % 60, "s"))
    return " ".join(f"{count} {name}" for count, name in sizes if count) or f"{seconds:.10g} s"
