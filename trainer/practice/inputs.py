"""The inputs of a quantity as people type them: by short names, with units, sides, dates and positions."""

import difflib
import re
from datetime import date

from trainer.drills import answers, numbers
from trainer.drills.cleaning import normalise, quoted
from trainer.engine.units import UNITS
from trainer.errors import AnswerError, UsageError

SHORT = {
    "gs": "groundspeed", "hdg": "heading", "alt": "altitude", "lat": "latitude", "long": "longitude",
    "lon": "longitude", "dist": "distance", "brg": "bearing", "var": "variation", "temp": "temperature",
    "wt": "weight", "angle": "deg", "crs": "course", "spd": "speed", "declination": "variation",
}  # fmt: skip
# Other names that pages give to an input, without its unit.
KNOWN_AS = {
    "speed_kn": ("tas", "groundspeed", "airspeed"),
    "tas_kn": ("true_airspeed", "airspeed", "speed"),
    "cas_kn": ("calibrated_airspeed", "ias", "airspeed"),
    "groundspeed_kn": ("speed", "ground_speed"),
    "turn_deg": ("heading_change", "change"),
    "intercept_deg": ("angle", "intercept_angle"),
    "glide_slope_deg": ("angle", "slope", "descent_angle"),
    "wind_from_deg": ("true_wind_from", "wind_direction", "true_wind_direction"),
    "wind_speed_kn": ("true_wind_speed", "wind"),
    "wind_over_deck_kn": ("relative_wind_speed", "wod", "apparent_wind_speed"),
    "relative_wind_deg": ("desired_relative_wind", "apparent_wind", "relative_wind_direction"),
    "wanted_kn": ("desired_relative_wind_speed", "desired_wind_speed", "desired_wod", "wod"),
    "arc_nm": ("arc_dme", "dme"),
    "height_ft": ("height_1", "eye_height", "height_of_eye"),
    "other_height_ft": ("height_2", "object_height"),
    "from_latitude_deg": ("lat1", "lat_1", "latitude_1"),
    "from_longitude_deg": ("lon1", "lon_1", "longitude_1"),
    "to_latitude_deg": ("lat2", "lat_2", "latitude_2"),
    "to_longitude_deg": ("lon2", "lon_2", "longitude_2"),
    "local_clock": ("time", "clock", "local_time"),
    "utc_offset_h": ("timezone", "zone", "offset"),
    "outbound_s": ("outbound_time",),
    "inbound_s": ("inbound_time",),
    "wanted_inbound_s": ("target_inbound", "inbound_wanted"),
    "step_lb": ("round_up_to", "rounded_to"),
    "interval_min": ("time", "minutes"),
    "altitude_ft": ("pressure_altitude", "height"),
    "oat_c": ("temperature", "temp", "outside_air"),
    "altimeter_inhg": ("qnh", "setting"),
    "slant_nm": ("dme", "dme_reading"),
    "ground_nm": ("distance", "ground_range"),
    "true_deg": ("heading", "course"),
    "magnetic_deg": ("heading", "course"),
}
# A side stands for a sign where the title of an input has the word that leads its row here.
SIDES = {
    "right": (("right", "starboard", "stbd", "r"), ("left", "port", "l")),
    "east": (("east", "e"), ("west", "w")),
    "north": (("north", "n"), ("south", "s")),
    "early": (("early",), ("late",)),
    "against": (("headwind", "head", "against"), ("tailwind", "tail", "behind")),
}
_POSITION = re.compile(
    r"(?P<deg>\d{1,3}(?:\.\d+)?)(?:(?:°| ?deg\w*| |-|:)\s?(?P<min>\d{1,2}(?:\.\d+)?)"
    r"(?:(?:'| |-|:)\s?(?P<sec>\d{1,2}(?:\.\d+)?))?)?\s?[°'\"]*",
    re.ASCII,
)
_BANDED = re.compile(r"\s*(\d{1,3})\s*([xyXY])\s*", re.ASCII)
_DECIMAL = re.compile(r"(?<![\d,.])(\d{1,9})\.(?:\d{3}|\d{9,})(?![\d,.])", re.ASCII)
_DATE = re.compile(r"(\d{4})-(\d{1,2})-(\d{1,2})", re.ASCII)


def option(name):
    """Return the option of an input, as it is typed."""
    return "--" + name.replace("_", "-")


def input_name(quantity, typed):
    """Return the name of the input that ``typed`` means: full, without its unit, its beginning, or its title's words.

    Raises ``UsageError`` with the nearest names where that is none or more than one.
    """
    wanted = typed.lower().replace("-", "_")
    spelt_out = "_".join(SHORT.get(part, part) for part in wanted.split("_"))
    for found in (*_meant(quantity, wanted), *_meant(quantity, spelt_out)):
        if len(found) == 1:
            return found[0]
    names = [spec.name for spec in quantity.inputs]
    close = [name for name in names if name.startswith(wanted)] or difflib.get_close_matches(wanted, names, 2, 0.5)
    hint = f"did you mean {' or '.join(map(option, close))}?" if close else f"it takes {list_options(quantity.inputs)}"
    raise UsageError(f"{quantity.name} has no input {typed!r}", hint=hint)


def _meant(quantity, wanted):
    """Yield the lists of names that ``wanted`` may mean, the strictest reading first."""
    parts = wanted.split("_")
    names = [spec.name for spec in quantity.inputs]
    yield [name for name in names if name == wanted]
    yield [name for name in names if name.rsplit("_", 1)[0] == wanted]
    yield [name for name in names if wanted in KNOWN_AS.get(name, ())]
    yield [name for name in names if name.startswith(wanted)]
    yield [name for name in names if set(parts) <= set(name.split("_"))]
    yield [
        s.name for s in quantity.inputs if set(parts) <= set(re.split(r"\W+", s.title.lower())) | set(s.name.split("_"))
    ]


def list_options(specs):
    """Return options with their titles, as a sentence lists them."""
    return ", ".join(f"{option(spec.name)} ({spec.title})" for spec in specs)


def texts_by_name(quantity, given):
    """Return {name of the input: text} of the typed ``given``; one text may stand for several inputs.

    A ``date`` is a year, month and day; a channel may carry its band, as in 72Y.
    """
    texts = {}
    for typed, text in given.items():
        for name, part in _parts(quantity, typed, text).items():
            if name in texts:
                raise UsageError(f"{option(name)} is given twice", hint="leave one out")
            texts[name] = part
    return texts


def _parts(quantity, typed, text):
    if typed.lower() == "date":
        return _date_parts(quantity, text)
    name = input_name(quantity, typed)
    banded = _BANDED.fullmatch(text) if name == "channel" else None
    if banded and any(spec.name == "band" for spec in quantity.inputs):
        return {"channel": banded[1], "band": banded[2]}
    return {name: text}


def _date_parts(quantity, text):
    """Return the texts of year, month and day, or of the year with its decimal part, of a date."""
    names = {spec.name: spec for spec in quantity.inputs}
    match = _DATE.fullmatch(text.strip())
    try:
        day = date(*map(int, match.groups())) if match else None
    except ValueError:
        day = None
    if "year" not in names:
        raise UsageError(f"{quantity.name} takes no date", hint=f"it takes {list_options(quantity.inputs)}")
    if day is None:
        raise UsageError(f"--date: I can't read {quoted(text)}", hint="try 2026-03-10")
    if "month" in names:
        return {"year": str(day.year), "month": str(day.month), "day": str(day.day)}
    begins, ends = date(day.year, 1, 1), date(day.year + 1, 1, 1)
    return {"year": f"{day.year + (day - begins).days / (ends - begins).days:.4f}"}


def read(spec, text, library):
    """Return the value of the input ``spec`` that ``text`` gives; raises ``UsageError`` with an example."""
    if spec.unit == "table":
        if text in library.tables:
            return library.tables[text]
        raise UsageError(f"there is no table {text!r}", hint=f"tables: {', '.join(sorted(library.tables)) or 'none'}")
    try:
        if spec.words:
            return answers.read_word(text, spec.words)
        return _number(spec, text)
    except AnswerError as error:
        raise UsageError(f"{option(spec.name)}: {error.message}", hint=error.hint) from None


def _number(spec, text):
    plain, sign = _without_side(spec, _in_plain_figures(normalise(text)))
    value = _position(plain) if spec.unit == "latlon" else None
    if value is None:
        value = _turned_back(plain, spec.unit) or numbers.read_number(plain, spec.unit)
    if sign and value < 0:
        raise AnswerError(f"{quoted(text)} has a sign and a side", hint="leave one out")
    return sign * value if sign else value


def _in_plain_figures(plain):
    """Return ``plain`` with FL180 as 180 fl, and decimals that no reader takes for thousands or finds too long."""
    plain = re.sub(r"^fl ?(\d+)$", r"\1 fl", plain)
    return _DECIMAL.sub(lambda match: f"{float(match[0]):.{max(4, 13 - len(match[1]))}f}", plain)


def _turned_back(plain, unit_name):
    """Return the direction of a negative bearing such as -32.4, None for any other text."""
    if UNITS[unit_name].cycle != 360 or not plain.startswith("-"):
        return None
    return -numbers.read_number(plain[1:], unit_name) % 360 or 360.0


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
