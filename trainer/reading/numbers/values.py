"""A number as people type it, with or without a unit, as a value in the unit that was asked for."""

import re
from functools import cache

from trainer.engine.display import value as shown_value
from trainer.engine.units import UNITS, convert
from trainer.errors import AnswerError
from trainer.reading.language.plain_text import normalise, quoted
from trainer.reading.numbers.durations import LARGEST, seconds_of

SMALL = 100.0  # below it, a bare weight or state was said in thousands
_NUMBER = re.compile(r"([+-]?) ?((?:\d+ )?\d+/\d+|\d[\d,. ]*|\.\d+) ?(.*)", re.ASCII | re.DOTALL)
_PLAIN = re.compile(r"\d+\.?\d*|\.\d+", re.ASCII)
_GROUPED = re.compile(r"[1-9]\d{0,2}(?:,\d{3})+(?:\.\d+)?", re.ASCII)
_SPACED = re.compile(r"[1-9]\d{0,2}(?: \d{3})+(?:\.\d+)?", re.ASCII)
_FRACTION = re.compile(r"(?:(\d{1,3}) )?(\d{1,2})/(\d{1,2})", re.ASCII)
_DOT_GROUPED = re.compile(r"[1-9]\d{0,2}\.\d{3}", re.ASCII)
_CLOCK = re.compile(r"(\d{1,2}):?(\d{2})(?::(\d{2}))? ?(?:z|zulu|utc|h|hrs)?", re.ASCII)
_MINUTE = re.compile(r":? ?(\d{1,2})(?::(\d{2})|(\.\d+))?(?: ?(?:past|min|mins|minutes|minute))?", re.ASCII)
_PREFIXES = {"angels": "angels", "angel": "angels", "mach": "mach", "state": "klb", "channel": "channel",
             "ch": "channel"}  # fmt: skip
_HEADING_WORDS = ("heading", "hdg", "course", "radial", "bearing", "brc", "fb", "steer", "from")


def read_number(text, unit_name, about=None):
    """Return the number in ``text`` as a value in ``unit_name``; other units of its kind are converted.

    ``about`` is the size that is expected: it decides whether a bare "60" for a weight means pounds or
    thousands.  Raises ``AnswerError`` for what can't be read, for the wrong kind of unit, and for what is
    no direction, minute or time of day.

    >>> read_number("3.5", "lb"), read_number("1+30", "min"), read_number("7nm", "nm")
    (3500.0, 90.0, 7.0)
    """
    plain = normalise(text)
    unit = UNITS[unit_name]
    if not plain:
        raise AnswerError("nothing was typed", hint=_example(unit))
    value = _READERS.get(unit.form, _read_plain)(plain, unit, about)
    if value is None:
        raise AnswerError(f"I can't read {quoted(text)}", hint=_example(unit))
    return value


def _read_plain(plain, unit, about):
    """Return a plain number with an optional unit behind (or a word like "angels" before) it."""
    plain, typed_unit = _without_prefix(plain, unit)
    match = _NUMBER.fullmatch(plain)
    if not match:
        return None
    sign, digits, suffix = match.groups()
    digits = digits.rstrip()
    number = _number(digits.rstrip(".,") if digits.endswith((".", ",")) else digits, unit)
    if number is None:
        return None
    number = -number if sign == "-" else number
    if unit.name == "trim" and suffix in ("nose down", "down", "° nose down", "deg nose down"):
        return -number
    if suffix or typed_unit:
        return _converted(number, suffix, typed_unit, unit)
    return _bare(number, unit, about, "." in digits)


def _without_prefix(plain, unit):
    """Return ``plain`` without a leading word such as "angels", and the unit that the word stands for."""
    word, _, rest = plain.partition(" ")
    if unit.form == "heading" and word in _HEADING_WORDS and rest:
        return rest, ""
    if word in _PREFIXES and rest:
        return rest, _PREFIXES[word]
    return plain, ""


def _number(digits, unit):
    """Return the number that ``digits`` spell, None where they spell none; raises where they spell two."""
    fraction = _FRACTION.fullmatch(digits)
    if fraction:
        whole, over, under = (int(part or 0) for part in fraction.groups())
        return whole + over / under if under else None
    if unit.decimals == 0 and unit.form == "number" and unit.name != "angels" and _DOT_GROUPED.fullmatch(digits):
        raise AnswerError(f"{quoted(digits)} can be read in two ways", hint=f"type {digits.replace('.', '')}")
    if _GROUPED.fullmatch(digits) or _SPACED.fullmatch(digits):
        digits = digits.replace(",", "").replace(" ", "")
    elif "," in digits:
        raise AnswerError(
            f"{quoted(digits)} can be read in two ways",
            hint="type a point for decimals: 3.5, and 3500 or 3,500",
        )
    if not _PLAIN.fullmatch(digits) or len(digits) > 15:
        return None
    number = float(digits)
    return number if number <= LARGEST else None


def _bare(number, unit, about, has_point):
    """Return the value of a number typed without a unit."""
    if unit.form == "thousands" and _said_in_thousands(number, about):
        return number * 1000.0
    if unit.name in ("klb", "angels") and _said_in_full(number, about):
        return number / 1000.0
    if unit.name == "inhg" and not has_point and 2000 <= number < 3400:
        return number / 100.0  # "two niner niner two", as it is spoken
    if unit.name == "ft" and has_point and abs(number) < SMALL and about is not None and abs(about) >= 500:
        raise AnswerError(f"{number:g} what?", hint="type it in feet, or write angels before it")
    return number


def _said_in_thousands(number, about):
    """Decide whether a bare weight is meant in thousands; ``about`` settles it where it is known."""
    if not 0 < abs(number) < SMALL:
        return False
    if not about:
        return True
    # The reading that is nearer in proportion: 60 for 60 lb burnt, 3.5 for 3,500 lb.
    return abs(about) > abs(number) * 1000.0**0.5


def _said_in_full(number, about):
    """Decide whether a bare state or altitude was typed in pounds or feet where thousands are asked."""
    return abs(number) >= SMALL and (not about or abs(about) < abs(number) / 1000.0**0.5)


def _converted(number, suffix, typed_unit, unit):
    """Return ``number`` of the unit written as ``suffix`` in ``unit``; raises where they differ in kind."""
    names = (typed_unit,) if typed_unit else ()
    if suffix:
        number, suffix = _thousands(number, suffix, unit)
        names = _units_spelt(suffix, unit) or names
        if not _units_spelt(suffix, unit):
            raise AnswerError(f"I don't know the unit {quoted(suffix)}", hint=_example(unit))
    for name in names:
        if UNITS[name].dimension == unit.dimension:
            return round(float(convert(number, name, unit.name)), 9)
    raise AnswerError(f"{quoted(suffix or typed_unit)} measures something else", hint=_example(unit))


def _thousands(number, suffix, unit):
    """Return number and suffix with a leading "k" (3.5k, 3.5 k lb) put into the number."""
    rest = suffix[1:].strip()
    base = {"mass": "lb", "length": "ft"}.get(unit.dimension)
    if base and suffix.startswith("k") and (suffix == "k" or suffix not in _spellings()):
        if not rest or UNITS.get(rest) or rest in _spellings():
            return number * 1000.0, rest or base
    return number, suffix


def _units_spelt(suffix, unit):
    """Return the names of the units that ``suffix`` may mean, that of ``unit`` first."""
    own = (unit.name, unit.symbol.strip().casefold(), *unit.spellings)
    if suffix in own or suffix.rstrip("s") in own:
        return (unit.name,)
    return _spellings().get(suffix, ())


@cache
def _spellings():
    """Return {spelling: names of the units that are written so}."""
    found = {}
    for unit in UNITS.values():
        for spelling in {unit.name, unit.symbol.strip().casefold(), *unit.spellings} - {""}:
            found[spelling] = (*found.get(spelling, ()), unit.name)
    return found


def _read_heading(plain, unit, about):
    """Return a direction from 1 to 360; 0 and 000 are north."""
    value = _read_plain(plain, unit, about)
    if value is None:
        return None
    if not 0 <= value <= 360:
        raise AnswerError(f"{value:g} is no direction", hint="type 1 to 360, like 005 or 355")
    return value or 360.0


def _read_minute(plain, unit, about):
    """Return a minute of the hour: 24, :24, :24:30."""
    match = _MINUTE.fullmatch(plain)
    if not match:
        return None
    minute, seconds, part = match.groups()
    if seconds and not plain.startswith(":"):
        raise AnswerError(f"{quoted(plain)} can be read in two ways", hint="type the minute of the hour, like :24")
    value = int(minute) + int(seconds or 0) / 60 + float(part or 0)
    if value >= 60 or int(seconds or 0) >= 60:
        raise AnswerError(f"{quoted(plain)} is no minute of the hour", hint="type :00 to :59")
    return value


def _read_clock(plain, unit, about):
    """Return minutes since midnight: 12:45, 1245, 0845z."""
    match = _CLOCK.fullmatch(plain)
    if not match:
        return None
    hours, minutes, seconds = (int(part or 0) for part in match.groups())
    if minutes > 59 or seconds > 59 or hours * 60 + minutes > 1440:
        raise AnswerError(f"{quoted(plain)} is no time of day", hint="type 00:00 to 23:59")
    return (hours * 60 + minutes + seconds / 60) % 1440.0


def _read_duration(plain, unit, about):
    """Return a duration: 90, 90 s, 1.5 min, 1:30 (hours and minutes where hours are asked), 1+30."""
    seconds = seconds_of(plain, unit)
    if seconds is not None:
        return seconds / unit.factor
    if plain.isdigit() and plain.startswith("0") and len(plain) > 2:
        return None
    return _read_plain(plain, unit, about)


_EXAMPLES = {"heading": 355, "minute": 24, "clock": 765, "thousands": 3500, "duration": 90}


def _example(unit):
    """Return the hint that shows how this unit is typed."""
    text = shown_value(_EXAMPLES.get(unit.form, 12), unit.name)
    other = {"duration": "90 s", "clock": "1245", "minute": "24", "heading": "355", "thousands": "3500"}
    return f"try {text} or {other.get(unit.form, '12')}"


_READERS = {
    "heading": _read_heading,
    "minute": _read_minute,
    "clock": _read_clock,
    "duration": _read_duration,
}
