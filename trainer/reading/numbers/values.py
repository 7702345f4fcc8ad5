"""A number as people type it, with or without a unit, as a value in the unit that was asked for."""

import re
from functools import cache
from typing import NamedTuple

from trainer.engine.display import other_way
from trainer.engine.display import value as shown_value
from trainer.engine.units import UNITS, convert
from trainer.errors import AnswerError
from trainer.patterns import Late
from trainer.reading.language.plain_text import normalise, quoted
from trainer.reading.numbers import durations
from trainer.reading.numbers.durations import LARGEST, seconds_of
from trainer.reading.numbers.forms import EXAMPLES
from trainer.reading.numbers.misspelt import mended
from trainer.reading.numbers.spelled_out import bare, in_figures, named_by, of_ordinal

SMALL = 100.0  # below it, a bare weight or state was said in thousands
_NUMBER = Late(r"([+-]?) ?((?:\d+ )?\d+/\d+|\d[\d,. ]*|\.\d+) ?(.*)", re.ASCII | re.DOTALL)
_PLAIN = Late(r"\d+\.?\d*|\.\d+", re.ASCII)
_GROUPED = Late(r"[1-9]\d{0,2}(?:,\d{3})+(?:\.\d+)?", re.ASCII)
_SPACED = Late(r"[1-9]\d{0,2}(?: \d{3})+(?:\.\d+)?", re.ASCII)
_FRACTION = Late(r"(?:(\d{1,3}) )?(\d{1,2})/(\d{1,2})", re.ASCII)
_DOT_GROUPED = Late(r"[1-9]\d{0,2}\.\d{3}", re.ASCII)
_CLOCK = Late(r"(\d{1,2}):?(\d{2})(?::(\d{2}))? ?(?:z|zulu|utc|h|hrs)?( ?[ap]m)?", re.ASCII)
_MINUTE = Late(r":? ?(\d{1,2})(?::(\d{2})|(\.\d+))?(?: ?(?:past|min|mins|minutes|minute))?", re.ASCII)
_PREFIXES = {"angels": "angels", "angel": "angels", "angles": "angels", "cherubs": "cherubs", "fl": "fl",
             "level": "fl", "mach": "mach", "state": "klb", "channel": "channel", "ch": "channel"}  # fmt: skip
_MILES = Late(r"(\d+(?:\.\d+)?|\.\d+) ?mi", re.ASCII)
_SHARE = Late(r"0?\.\d+", re.ASCII)
_WAY = Late(r"(?P<way>up|down|above|below)(?: by)? (?P<number>[-+]?\.?\d.*)", re.ASCII)
_WAY_BEHIND = Late(r"(?P<number>[-+]?\.?\d.*?) (?P<way>up|down|above|below)", re.ASCII)
_WAY_IS_MINUS = Late(r"\b(?:down|below) (?:is )?(?:minus|negative)|(?:minus|negative): ?(?:down|below)")
_SIDED = ("deg", "kn")
_LEFT, _LEFT_WORDS, _RIGHT_WORDS = ("left", "port", "l"), ("left", "port"), ("right", "starboard")
_SIDES = "(?P<side>left|right|port|starboard|stbd|[lr])"
_SIDE_BEFORE = Late(rf"{_SIDES}(?: by)? (?P<number>[-+]?[\d.].*)", re.ASCII)
_SIDE_BEHIND = Late(
    rf"(?P<number>[-+]?[\d.]+ ?(?:degrees?|deg|°|kts?|knots?)?) ?(?:(?:to|from|off|of) )?(?:(?:the|my|your) )?{_SIDES}"
    r"(?: side)?",
    re.ASCII,
)
_NOSE_BEFORE = Late(r"(?:nose )?(?P<way>up|down) (?:by )?(?P<number>[\d.].*)", re.ASCII)
_NOSE_BEHIND = Late(r" (?:nose )?(up|down)$")
_SIGNS = Late(r"\b(?:negative|minus|positive)\b")
_RIGHT_IS_MINUS = Late(
    r"\b(?:right|starboard)\b(?:(?!\b(?:left|port)\b)[^.?;,])*\b(?:negative|minus)\b"
    r"|\b(?:left|port)\b(?:(?!\b(?:right|starboard)\b)[^.?;,])*\bpositive\b"
)
# What turns a trim round, by the last word of its unit.
_OTHER_WAY = {"up": re.compile(r"\b(?:nose )?down$"), "down": re.compile(r"\b(?:nose )?up$")}
_UNIT_WORDS = tuple(
    (Late(pattern), replacement)
    for pattern, replacement in (
        (r"^(?:of )?(?:(?:an?|the|1) )?(?=[a-z])", ""),
        (r" an? (?=minute|mile|second|hour|nautical)", " per "),
        (r"^(?:degrees?|deg|°) ?(?=c$|f$|k$|celsius|fahrenheit|kelvin)", ""),
        (r"\bnautical miles?\b", "nm"),
        (r"^(?:degrees?|deg|°) (?:true|magnetic|mag)$", "deg"),
        (r"^(inches|in) of mercury$", r"inches"),
    )
)
_HEADING_WORDS = ("heading", "hdg", "course", "radial", "bearing", "brc", "fb", "steer", "from")


class Reading(NamedTuple):
    """One way to read a number: its ``value`` in the unit asked for, and how that is ``written`` beyond doubt."""

    value: float
    written: str


def read_number(text: str, unit_name: str, about: float | None = None, asked: str = "") -> float:
    """Return the value of the likeliest of ``readings``."""
    return readings(text, unit_name, about, asked)[0].value


def readings(text: str, unit_name: str, about: float | None = None, asked: str = "") -> list[Reading]:
    """Return the ways in which the number in ``text`` can be read in ``unit_name``, the likeliest first.

    Other units of its kind are converted; numbers may be in words; what the question ``asked`` names, or says by
    itself, may stand around the number.  ``about`` is the size that is expected: it decides whether a bare "60" for
    a weight means pounds or thousands.  Raises ``AnswerError`` for what can't be read, for the wrong kind of unit,
    and for what is no direction, minute or time of day.

    >>> read_number("3.5", "lb"), read_number("half an hour", "min"), read_number("7nm", "nm")
    (3500.0, 30.0, 7.0)
    >>> [one.written for one in readings("0:30", "min")]
    ['30 s', '30 min']
    """
    typed, unit = mended(normalise(text), asked), UNITS[unit_name]
    if not typed:
        raise AnswerError("nothing was typed", hint=_example(unit, about))
    typed = of_ordinal(typed) if unit.dimension == "count" else typed
    figures, way = _without_way(in_figures(typed), asked)
    plain, sign = _without_side(bare(figures, asked), unit, asked)
    sign *= way
    value = _READERS.get(unit.form, _read_plain)(plain, unit, about, asked)
    if value is None:
        raise AnswerError(f"I can't read {quoted(text)}", hint=_example(unit, about))
    return _meant(plain, unit, sign * value)


def _meant(plain, unit, value):
    """Return the ``Reading``s of ``plain``, that of ``value`` first."""
    if unit.form == "duration":
        seconds = durations.readings(plain, unit, value * unit.factor)
        return [Reading(one / unit.factor, durations.written(one)) for one in seconds]
    if unit.dimension == "length" and (miles := _MILES.fullmatch(plain)):
        nautical = round(float(convert(float(miles[1]), "nm", unit.name)), 9)
        return [Reading(value, f"{miles[1]} sm"), Reading(nautical, f"{miles[1]} nm")]
    if unit.name == "%" and _SHARE.fullmatch(plain):
        return [Reading(value, f"{value:.10g} %"), Reading(round(value * 100.0, 9), f"{value * 100.0:.10g} %")]
    return [Reading(value, shown_value(value, unit.name))]


def _without_way(plain, asked):
    """Return ``plain`` without "down" or "below", and -1 where ``asked`` says that this way is minus."""
    found = _WAY.fullmatch(plain) or _WAY_BEHIND.fullmatch(plain)
    minus = _WAY_IS_MINUS.search(asked.casefold())
    if not found or not minus:
        return plain, 1.0
    if found["number"].startswith(("-", "+")):
        raise AnswerError(f"{quoted(plain)} can be read in two ways", hint="type a sign or a word, not both")
    return found["number"], -1.0 if found["way"] in ("down", "below") else 1.0


def _without_side(plain, unit, asked):
    """Return ``plain`` without "left" or "to starboard", and the sign that the side has in the question ``asked``."""
    found = _SIDE_BEFORE.fullmatch(plain) or _SIDE_BEHIND.fullmatch(plain) if unit.name in _SIDED else None
    if not found:
        return plain, 1.0
    side, question = found["side"], asked.casefold()
    sign = -1.0 if side in _LEFT else 1.0
    if _SIGNS.search(question) or not asked:
        if found["number"].startswith(("-", "+")):
            raise AnswerError(f"{quoted(plain)} can be read in two ways", hint="type a sign or a side, not both")
        return found["number"], sign if not _RIGHT_IS_MINUS.search(question) else -sign
    if any(word in question for word in (_LEFT_WORDS if sign < 0 else _RIGHT_WORDS)):
        return found["number"], 1.0
    raise AnswerError(f"{quoted(side)} is not asked", hint="type the number alone")


def _read_plain(plain, unit, about, asked):
    """Return a plain number with an optional unit behind (or a word like "angels" before) it."""
    plain, typed_unit = _without_prefix(plain, unit)
    if " nose " in unit.symbol:
        plain = _NOSE_BEHIND.sub(r" nose \1", _NOSE_BEFORE.sub(r"\g<number> \g<way>", plain))
    match = _NUMBER.fullmatch(plain)
    if not match:
        return None
    sign, digits, suffix = match.groups()
    digits = digits.rstrip()
    number = _number(digits.rstrip(".,") if digits.endswith((".", ",")) else digits, unit)
    if number is None:
        return None
    number = -number if sign == "-" else number
    turned_round = _OTHER_WAY.get(unit.symbol.rpartition(" nose ")[2])
    if turned_round and turned_round.search(suffix):
        number, suffix = -number, other_way(suffix)
    if suffix or typed_unit:
        return _converted(number, suffix, typed_unit, unit, asked)
    return _bare(number, unit, about, "." in digits)


def _without_prefix(plain, unit):
    """Return ``plain`` without a leading word such as "angels", and the unit that the word stands for."""
    plain = re.sub(r"^(?:flight level|fl) ?(?=\d)", "fl ", plain)
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


def _converted(number, suffix, typed_unit, unit, asked):
    """Return ``number`` of the unit written as ``suffix`` in ``unit``; raises where they differ in kind."""
    if typed_unit == "cherubs":
        number, typed_unit = number * 100.0, "ft"
    names = (typed_unit,) if typed_unit else ()
    if suffix:
        number, suffix = _thousands(number, _plain_suffix(suffix), unit)
        names = _units_meant(suffix, unit, asked) or names
        if not _units_meant(suffix, unit, asked):
            raise AnswerError(f"I don't know the unit {quoted(suffix)}", hint=_example(unit))
    for name in names:
        if UNITS[name].dimension == unit.dimension:
            return round(float(convert(number, name, unit.name)), 9)
    if unit.name.partition("/")[0] in names:  # "457 feet" where feet a mile are asked
        return number
    if unit.dimension == "count" and (named_by(suffix, asked) or _named_unit(names, asked)):
        return number
    raise AnswerError(f"{quoted(suffix or typed_unit)} measures something else", hint=_example(unit))


def _named_unit(names, asked):
    """Return whether the question ``asked`` itself counts in a unit of ``names``: "how many MHz"."""
    return any(set(names) & set(_spellings().get(word, ())) for word in re.findall("[a-z]+", asked.casefold()))


def _plain_suffix(suffix):
    """Return the words of a unit in the form that the table of units has."""
    for pattern, replacement in _UNIT_WORDS:
        suffix = pattern.sub(replacement, suffix)
    return suffix.strip()


def _units_meant(suffix, unit, asked):
    """Return the names of the units that ``suffix`` may mean; words of the question may stand behind the unit."""
    words = suffix.split()
    for count in range(len(words), 0, -1):
        names = _units_spelt(" ".join(words[:count]), unit)
        if names and (count == len(words) or named_by(" ".join(words[count:]), asked)):
            return names
    return (unit.name,) if named_by(suffix, asked) else ()


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
    above, per, below = suffix.partition(" per ")
    for over in _spellings().get(above, ()) if per else ():
        for under in _spellings().get(below, ()):
            if f"{over}/{under}" in UNITS:
                return (f"{over}/{under}",)
    if unit.dimension == "temperature" and suffix in ("deg", "degree", "degrees", "°"):
        return (unit.name,)
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


def _read_heading(plain, unit, about, asked):
    """Return a direction from 1 to 360; 0 and 000 are north."""
    value = _read_plain(plain, unit, about, asked)
    if value is None:
        return None
    if not 0 <= value <= 360:
        raise AnswerError(f"{value:g} is no direction", hint="type 1 to 360, like 005 or 355")
    return value or 360.0


def _read_minute(plain, unit, about, asked):
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


def _read_clock(plain, unit, about, asked):
    """Return minutes since midnight: 12:45, 1245, 0845z."""
    match = _CLOCK.fullmatch(plain)
    if not match:
        return None
    hours, minutes, seconds = (int(part or 0) for part in match.groups()[:3])
    if match[4]:
        hours = hours % 12 + (12 if match[4].strip() == "pm" else 0)
    if minutes > 59 or seconds > 59 or hours * 60 + minutes > 1440:
        raise AnswerError(f"{quoted(plain)} is no time of day", hint="type 00:00 to 23:59")
    return (hours * 60 + minutes + seconds / 60) % 1440.0


def _read_duration(plain, unit, about, asked):
    """Return a duration: 90, 90 s, 1.5 min, 1:30 (hours and minutes where hours are asked), 1+30."""
    seconds = seconds_of(plain, unit)
    if seconds is not None:
        return seconds / unit.factor
    if plain.isdigit() and plain.startswith("0") and len(plain) > 2:
        return None
    return _read_plain(plain, unit, about, asked)


def _example(unit, about=None):
    """Return the hint that shows once how a number of this kind is typed, never the number asked for."""
    examples = EXAMPLES.get(unit.name, (12, 34))
    far = max(examples, key=lambda one: abs(one - about)) if about is not None else examples[0]
    return f"type it like {shown_value(far, unit.name)}"


_READERS = {
    "heading": _read_heading,
    "minute": _read_minute,
    "clock": _read_clock,
    "duration": _read_duration,
}
