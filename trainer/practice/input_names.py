"""Which input of a quantity a typed name means; one typed text may stand for several inputs."""

import re
from datetime import date

from trainer.errors import UsageError
from trainer.patterns import Late
from trainer.reading.language.plain_text import quoted

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
    "arc_deg": ("arc",),
    "ship_course_deg": ("brc", "ship_heading"),
    "now_minute": ("now",),
    "side": ("catapult", "cat"),
    "push_minute": ("push",),
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
_BANDED = Late(r"\s*(\d{1,3})\s*([xyXY])\s*", re.ASCII)
_WIND = Late(r"\s*(\d{1,3})\s*/\s*(\d{1,3})\s*", re.ASCII)
_MINUTE_SECOND = Late(r"\s*(\d{1,2}):(\d{2})\s*", re.ASCII)
_DATE = Late(r"(\d{4})-(\d{1,2})-(\d{1,2})", re.ASCII)


def option(name):
    """Return the option of an input, as it is typed."""
    return "--" + name.replace("_", "-")


def input_name(quantity, typed):
    """Return the name of the input that ``typed`` means: full, without its unit, its beginning, or its title's words.

    Raises ``UsageError`` with the nearest names where that is none or more than one.
    """
    wanted = typed.lower().replace("-", "_")
    spelt_out = "_".join(SHORT.get(part) or part for part in wanted.split("_"))
    for found in (*_meant(quantity, wanted), *_meant(quantity, spelt_out)):
        if len(found) == 1:
            return found[0]
    names = [spec.name for spec in quantity.inputs]
    from difflib import get_close_matches

    close = [name for name in names if name.startswith(wanted)] or get_close_matches(wanted, names, 2, 0.5)
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
    names = {spec.name for spec in quantity.inputs}
    pair = _WIND.fullmatch(text) if typed.lower().startswith("wind") else None
    if pair and {"wind_from_deg", "wind_speed_kn"} <= names:
        return {"wind_from_deg": pair[1], "wind_speed_kn": pair[2]}
    name = input_name(quantity, typed)
    clock = _MINUTE_SECOND.fullmatch(text) if name.endswith("_minute") else None
    if clock and int(clock[1]) < 24:
        raise UsageError(
            f"{option(name)}: {quoted(text)} may be minutes and seconds past the hour, or a clock time",
            hint=f"write :{clock[1]}:{clock[2]} or :{clock[2]}",
        )
    if clock and name.replace("_minute", "_second") in names:
        return {name: clock[1], name.replace("_minute", "_second"): clock[2]}
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
