"""A duration as people type it: 1+30, 1:30, 1 h 30 min."""

import re

LARGEST = 1e9  # nobody means a larger number
_H_PLUS_M = re.compile(r"(\d{1,2})\+(\d{2})", re.ASCII)
_COLONS = re.compile(r"(-?)(\d{0,3}):(\d{2})(?::(\d{2}))?", re.ASCII)
_AMOUNT = r"(?:(\d+(?:\.\d+)?) ?(?:{}))?"
_IN_WORDS = re.compile(
    "(-?)"
    + _AMOUNT.format("hours|hour|hrs|hr|h") + " ?(?:and )?"
    + _AMOUNT.format("minutes|minute|mins|min|m|'") + " ?(?:and )?"
    + _AMOUNT.format('seconds|second|secs|sec|s|"|\'\''),
    re.ASCII,
)  # fmt: skip


def seconds_of(plain, unit):
    """Return the seconds of a duration written with a plus, colons or units; None for any other."""
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
