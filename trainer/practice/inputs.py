"""The inputs of a quantity as people type them: with units, sides and positions."""

import re

from trainer.drills import answers
from trainer.engine.units import UNITS
from trainer.errors import AnswerError, UsageError
from trainer.patterns import Late
from trainer.practice.input_names import option
from trainer.reading.language.plain_text import normalise, quoted
from trainer.reading.numbers import values

# A side stands for a sign where the title of an input has the word that leads its row here.
SIDES = {
    "right": (("right", "starboard", "stbd", "r"), ("left", "port", "l")),
    "east": (("east", "e"), ("west", "w")),
    "north": (("north", "n"), ("south", "s")),
    "early": (("early",), ("late",)),
    "against": (("headwind", "head", "against"), ("tailwind", "tail", "behind")),
}
_POSITION = Late(
    r"(?P<deg>\d{1,3}(?:\.\d+)?)(?:(?:°| ?deg\w*| |-|:)\s?(?P<min>\d{1,2}(?:\.\d+)?)"
    r"(?:(?:'| |-|:)\s?(?P<sec>\d{1,2}(?:\.\d+)?))?)?\s?[°'\"]*",
    re.ASCII,
)
_DECIMAL = Late(r"(?<![\d,.])(\d{1,9})\.(?:\d{3}|\d{9,})(?![\d,.])", re.ASCII)


def read(spec, text, library):
    """Return the value of the input ``spec`` that ``text`` gives; raises ``UsageError`` with an example."""
    if spec.unit == "table":
        if text in library.tables:
            return library.tables[text]
        raise UsageError(f"there is no table {text!r}", hint=f"tables: {', '.join(sorted(library.tables)) or 'none'}")
    try:
        if spec.words:
            return answers.read_word(_side_of_deck(spec, text), spec.words)
        return _number(spec, text)
    except AnswerError as error:
        raise UsageError(f"{option(spec.name)}: {error.message}", hint=error.hint) from None


# One and two are on the bow and clear to the right, three and four on the waist.
_DECK = {"bow": ("1", "2", "right"), "waist": ("3", "4", "left")}


def _side_of_deck(spec, text):
    """Return ``text`` with a catapult's number as the side it stands on, where sides are asked."""
    if set(spec.words.values()) != set(_DECK):
        return text
    number = normalise(text).removeprefix("catapult").removeprefix("cat").strip()
    return next((side for side, numbers in _DECK.items() if number in numbers), text)


_POINT_OF_THOUSANDS = Late(r"-?\d{1,3}\.\d{3}", re.ASCII)


def _checked(spec, plain):
    """Raise ``AnswerError`` for a bare number that people of two countries, or of two units, read differently."""
    if spec.unit in ("ft", "lb", "lb/h") and _POINT_OF_THOUSANDS.fullmatch(plain):
        thousands, less = plain.replace(".", ""), f"{float(plain):g}"
        raise AnswerError(f"{quoted(plain)} may be {thousands} or {less}", hint=f"write {thousands} or {less}")
    if spec.name == "runway_deg" and re.fullmatch(r"0?[1-9]|[12]\d|3[0-6]", plain):
        along, bare = f"{int(plain) * 10:03d}", f"{int(plain):03d}"
        raise AnswerError(f"runway {plain} points to {along}°", hint=f"write {along} or {bare}")
    if spec.unit == "lb/h" and re.fullmatch(r"\d{1,2}(?:\.\d+)?", plain):
        raise AnswerError(f"no engine burns {plain} lb/h", hint=f"write {float(plain) * 1000:.0f}")
    if (clock := _HOURS_OR_MINUTES.fullmatch(plain)) and _may_be_hours(spec, *map(int, clock.groups())):
        raise AnswerError(
            f"{quoted(plain)} may be hours or minutes",
            hint=f"write {clock[1]}+{clock[2]} or {clock[1]} min {clock[2]} s",
        )
    if spec.unit == "inhg" and re.fullmatch(r"\d{3,4}(?:\.\d)?", plain) and 850 <= float(plain) <= 1090:
        raise AnswerError(f"{quoted(plain)} is no setting in inches", hint=f"write {plain} hPa")


_HOURS_OR_MINUTES = Late(r"(\d{1,2}):(\d{2})", re.ASCII)


def _may_be_hours(spec, first, second):
    """Return whether 1:45 may be meant as hours of a time that may be so long; seconds are always written so."""
    unit = UNITS[spec.unit]
    return spec.unit in ("min", "h") and spec.low <= (first * 3600 + second * 60) / unit.factor <= spec.high


def _number(spec, text):
    _checked(spec, normalise(text))
    plain, sign = _without_side(spec, _in_plain_figures(normalise(text)))
    value = _position(plain) if spec.unit == "latlon" else None
    if value is None:
        value = _turned_back(plain, spec.unit) or _in_pounds(spec, values.read_number(plain, spec.unit), plain)
    if sign and value < 0:
        raise AnswerError(f"{quoted(text)} has a sign and a side", hint="leave one out")
    return sign * value if sign else value


def _in_plain_figures(plain):
    """Return ``plain`` with FL180 as 180 fl, and decimals that no reader takes for thousands or finds too long."""
    plain = re.sub(r"^fl ?(\d+)$", r"\1 fl", plain)
    return _DECIMAL.sub(lambda match: f"{float(match[0]):.{max(4, 13 - len(match[1]))}f}", plain)


def _in_pounds(spec, value, plain):
    """Return ``value``, or the pounds as they stand where a bare 10 can't have been meant in thousands.

    That is so where thousands lie outside the range, and for a load that may also be taken off.
    """
    bare = UNITS[spec.unit].form == "thousands" and re.fullmatch(r"-?[\d.]+", plain)
    return value / 1000 if bare and abs(float(plain)) < 100 and (value > spec.high or spec.low < 0) else value


def _turned_back(plain, unit_name):
    """Return the direction of a negative bearing such as -32.4, None for any other text."""
    if UNITS[unit_name].cycle != 360 or not plain.startswith("-"):
        return None
    return -values.read_number(plain[1:], unit_name) % 360 or 360.0


def _without_side(spec, plain):
    """Return ``plain`` without a side before or behind it, and the sign of the side, 0 for none."""
    title = re.split(r"\W+", spec.title.lower()) if spec.low < 0 else ()
    for leading in SIDES.keys() & set(title):
        for sign, words in zip((1.0, -1.0), SIDES[leading], strict=True):
            match = re.fullmatch(_side_pattern("|".join(words)), plain)
            if match:
                return (match["after"] or match["before"]).strip(), sign
    return plain, 0.0


def _side_pattern(side):
    return rf"(?:{side})\.? ?(?P<after>[\d.].*)|(?P<before>[\d.].*?) ?(?:{side})"


def _position(plain):
    """Return the degrees of 35 36.5, 35°36'30 or 35-36-30, None for a plain number of degrees."""
    sign = -1.0 if plain.startswith("-") else 1.0
    match = _POSITION.fullmatch(plain.removeprefix("-"))
    if not match or match["min"] is None:
        return None
    minutes, seconds = float(match["min"]), float(match["sec"] or 0)
    if minutes >= 60 or seconds >= 60:
        raise AnswerError(f"I can't read {quoted(plain)}", hint="try 35 36.5 N or 35.608")
    return sign * (float(match["deg"]) + minutes / 60 + seconds / 3600)


def unit_typed(spec, text):
    """Return the name of the unit that was written behind the number, "" where it is the input's own or none."""
    suffix = re.sub(r"^[-+\d.,/ ]*", "", normalise(text))
    own = UNITS[spec.unit]
    for unit in UNITS.values() if suffix else ():
        if unit.dimension == own.dimension and suffix in (unit.name, unit.symbol.strip().casefold(), *unit.spellings):
            return "" if unit.name == own.name or suffix in own.spellings else unit.name
    return ""
