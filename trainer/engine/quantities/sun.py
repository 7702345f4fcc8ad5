"""Quantities of the sun: rising, setting, twilight, night for the Case rules, position."""

from datetime import date

import numpy as np

from trainer.engine import almanac, sun
from trainer.engine.quantities.air_sources import CASE_NIGHT, SUN_POSITION, SUN_TIMES
from trainer.engine.quantities.entries import choose, clock, get, give, num, slip
from trainer.engine.quantity import EXACT, Quantity

DATE = (
    give("year", "year", "year", almanac.FIRST_YEAR, almanac.LAST_YEAR),
    give("month", "month", "count", 1, 12),
    give("day", "day of the month", "count", 1, 31),
)
PLACE = (
    give("latitude_deg", "latitude, north positive", "latlon", -90, 90, take="ship.latitude_deg"),
    give("longitude_deg", "longitude, east positive", "latlon", -360, 360, take="ship.longitude_deg"),
)
OFFSET = give("utc_offset_h", "hours of local time ahead of UTC, west negative", "h", -14, 14)
DAY_AND_PLACE = (*DATE, *PLACE, OFFSET)


def _noon_in_the_head(longitude_deg, utc_offset_h):
    longitude = (longitude_deg + 180) % 360 - 180
    meridian = 15 * utc_offset_h
    behind_min = 4 * (meridian - longitude)
    where, when = ("west", "later") if behind_min >= 0 else ("east", "earlier")
    return (
        "the sun takes four minutes for each degree; the clock's own meridian is fifteen degrees an hour",
        f"the clock's is {_side(meridian, 'east', 'west')}, you are at {_side(longitude, 'east', 'west')}: "
        f"{num(abs(behind_min) / 4, 1)}° further {where}, {num(abs(behind_min))} min {when}; "
        f"the mean sun is highest at {clock(720 + behind_min)}",
    )


def _side(degrees, positive, negative):
    """Return an angle with the side it lies on."""
    return f"{num(abs(degrees), 1)}° {positive if degrees >= 0 else negative}"


def _times_in_the_head(year, month, day, latitude_deg, longitude_deg, utc_offset_h):
    rise, noon, sets = sun.sun_times(year, month, day, latitude_deg, longitude_deg, utc_offset_h)
    half_h = (sets - rise) / 120
    return (
        *_noon_in_the_head(longitude_deg, utc_offset_h),
        f"the season moves that to {clock(noon)}; rising and setting lie half a day each side of it",
        f"half a day is {num(half_h, 2)} h here: {clock(rise)} and {clock(sets)}",
    )


def _times_exact(year, month, day, latitude_deg, longitude_deg, utc_offset_h):
    rise, noon, sets = sun.sun_times(year, month, day, latitude_deg, longitude_deg, utc_offset_h)
    return (
        f"centre of the sun 90°50′ from the zenith: {clock(rise)} rising, {clock(sets)} setting; "
        f"highest at {clock(noon)}",
        f"all on the local date, {num(utc_offset_h, 2)} h from UTC",
    )


def _sunset(**place):
    return np.mod(sun.sun_times(**place)[2], 1440)


TIMES = Quantity(
    name="sun_times",
    title="sunrise, noon and sunset on a local date",
    area="navigation",
    words=("sunset", "sunrise", "transit", "night", "day", "sun"),
    inputs=DAY_AND_PLACE,
    results=(
        get("sunrise_clock", "sunrise", "clock", 2, 10, round_to=1),
        get("transit_clock", "sun highest", "clock", 2, 10, round_to=1),
        get("sunset_clock", "sunset", "clock", 2, 10, round_to=1),
    ),
    methods={EXACT: lambda **place: tuple(np.mod(value, 1440) for value in sun.sun_times(**place))},
    mental=_times_in_the_head,
    exact=_times_exact,
    slips=(
        slip("gave UTC", "that is the time in UTC; the local offset is still to be applied",
             lambda **place: np.mod(_sunset(**place) - 60 * np.asarray(place["utc_offset_h"]), 1440),
             "sunset_clock"),
        slip("offset the wrong way", "west of Greenwich local time is behind UTC, not ahead",
             lambda **place: np.mod(_sunset(**place) - 120 * np.asarray(place["utc_offset_h"]), 1440),
             "sunset_clock"),
        slip("the end of twilight", "that is the end of civil twilight; sunset comes before it",
             lambda **place: np.mod(sun.twilight_times(**place, twilight=6)[1], 1440), "sunset_clock"),
    ),
    source=SUN_TIMES,
)  # fmt: skip


def _twilight_in_the_head(year, month, day, latitude_deg, longitude_deg, utc_offset_h, twilight):
    place = (year, month, day, latitude_deg, longitude_deg, utc_offset_h)
    dawn, dusk = sun.twilight_times(*place, twilight)
    vertical_min = 4 * (twilight - 0.8) / max(0.05, np.cos(np.radians(latitude_deg)))
    return (
        "the sun sinks a degree in four minutes on the equator, more slowly the higher the latitude",
        f"{num(twilight)} degrees at latitude {num(abs(latitude_deg), 1)}: at least "
        f"{num(vertical_min)} minutes after sunset and before sunrise",
        f"on that date {clock(dawn)} and {clock(dusk)}",
    )


def _twilight_exact(**place):
    dawn, dusk = sun.twilight_times(**place)
    return (f"centre of the sun {num(place['twilight'])} degrees below the horizon: {clock(dawn)} and {clock(dusk)}",)


TWILIGHT = Quantity(
    name="twilight",
    title="dawn and dusk: civil, nautical or astronomical",
    area="navigation",
    words=("civil", "nautical", "astronomical", "dusk", "dawn", "night", "sun"),
    inputs=(*DAY_AND_PLACE, choose("twilight", "kind of twilight", sun.TWILIGHTS)),
    results=(
        get("dawn_clock", "dawn", "clock", 3, 10, round_to=1),
        get("dusk_clock", "dusk", "clock", 3, 10, round_to=1),
    ),
    methods={EXACT: lambda **place: tuple(np.mod(value, 1440) for value in sun.twilight_times(**place))},
    mental=_twilight_in_the_head,
    exact=_twilight_exact,
    slips=(
        slip("gave sunset", "that is sunset; twilight ends when the sun is well below the horizon",
             lambda twilight, **place: _sunset(**place), "dusk_clock"),
        slip("gave UTC", "that is the time in UTC; the local offset is still to be applied",
             lambda **place: np.mod(
                 sun.twilight_times(**place)[1] - 60 * np.asarray(place["utc_offset_h"]), 1440),
                 "dusk_clock"),
    ),
    source=SUN_TIMES,
)  # fmt: skip


def _night_in_the_head(sunset_clock, sunrise_clock):
    begins, ends = sun.night(sunset_clock, sunrise_clock)
    return (
        "half an hour after the sun is gone until half an hour before it is back",
        f"sunset {clock(sunset_clock)} + 30 = {clock(begins)}",
        f"sunrise {clock(sunrise_clock)} - 30 = {clock(ends)}",
    )


NIGHT_RESULTS = (
    get("night_begins_clock", "night begins", "clock", 0.5, 2, round_to=1),
    get("night_ends_clock", "night ends", "clock", 0.5, 2, round_to=1),
)
NIGHT = Quantity(
    name="case_night",
    title="when it is night for the Case rules",
    area="launch",
    words=("night", "case iii", "sunset", "sunrise"),
    inputs=(
        give("sunset_clock", "sunset", "clock", 0, 1_440),
        give("sunrise_clock", "next sunrise", "clock", 0, 1_440),
    ),
    results=NIGHT_RESULTS,
    methods={EXACT: sun.night},
    mental=_night_in_the_head,
    slips=(
        slip("gave sunset", "at sunset it is not night yet; half an hour is added",
             lambda sunset_clock, sunrise_clock: sunset_clock),
        slip("half an hour before sunset", "night begins half an hour AFTER sunset",
             lambda sunset_clock, sunrise_clock: np.mod(sunset_clock - 30.0, 1440)),
        slip("an hour", "the margin is half an hour, not an hour",
             lambda sunset_clock, sunrise_clock: np.mod(sunset_clock + 60.0, 1440)),
        slip("gave sunrise", "night ends half an hour before sunrise",
             lambda sunset_clock, sunrise_clock: sunrise_clock, "night_ends_clock"),
        slip("half an hour after sunrise", "night ends half an hour BEFORE sunrise",
             lambda sunset_clock, sunrise_clock: np.mod(sunrise_clock + 30.0, 1440), "night_ends_clock"),
    ),
    source=CASE_NIGHT,
)  # fmt: skip


def _night_at_in_the_head(year, month, day, latitude_deg, longitude_deg, utc_offset_h):
    begins, ends = sun.night_at(year, month, day, latitude_deg, longitude_deg, utc_offset_h)
    return (
        *_noon_in_the_head(longitude_deg, utc_offset_h),
        *_night_in_the_head(np.mod(begins - 30, 1440), np.mod(ends + 30, 1440)),
    )


NIGHT_AT = Quantity(
    name="case_night_at",
    title="when it is night for the Case rules, from date and place",
    area="launch",
    words=("night", "case iii", "sunset", "sunrise", "ship"),
    inputs=DAY_AND_PLACE,
    results=NIGHT_RESULTS,
    methods={EXACT: sun.night_at},
    mental=_night_at_in_the_head,
    slips=(
        slip("gave sunset", "at sunset it is not night yet; half an hour is added", _sunset),
        slip("half an hour before sunset", "night begins half an hour AFTER sunset",
             lambda **place: np.mod(_sunset(**place) - 30, 1440)),
        slip("gave UTC", "that is the time in UTC; the local offset is still to be applied",
             lambda **place: np.mod(sun.night_at(**place)[0] - 60 * np.asarray(place["utc_offset_h"]), 1440)),
    ),
    source=CASE_NIGHT,
)  # fmt: skip


def _declination_deg(year, month, day):
    """Return the sun's declination to about a degree, as it is estimated in the head."""
    day_of_year = date(int(year), int(month), int(day)).timetuple().tm_yday
    return -23.4 * np.cos(np.radians(360 / 365 * (day_of_year + 10)))


def _position_in_the_head(year, month, day, local_clock, latitude_deg, longitude_deg, utc_offset_h, **air):
    declination = float(_declination_deg(year, month, day))
    return (
        *_noon_in_the_head(longitude_deg, utc_offset_h),
        f"the sun stands over {_side(declination, 'north', 'south')} that day, you are at "
        f"{_side(latitude_deg, 'north', 'south')}: {num(abs(latitude_deg - declination))}° apart; "
        f"at noon it is 90 - {num(abs(latitude_deg - declination))} = "
        f"{num(90 - abs(latitude_deg - declination))}° high",
        f"at {clock(local_clock)} it is lower, and has moved about 15 degrees for each hour from noon",
    )


def _position_exact(**where):
    altitude, azimuth, zenith = sun.position(**where)
    lift = sun.refraction_deg(altitude, where["pressure_hpa"], where["temperature_c"])
    return (
        f"apparent altitude {altitude:.3f}°, zenith distance {zenith:.3f}°, azimuth {azimuth:.3f}° true; "
        f"refraction lifts it {lift:.3f}°",
    )


POSITION = Quantity(
    name="sun_position",
    title="altitude and azimuth of the sun",
    area="navigation",
    words=("glare", "azimuth", "zenith", "elevation"),
    inputs=(
        *DATE,
        give("local_clock", "local time", "clock", 0, 1_440),
        *PLACE,
        OFFSET,
        give("elevation_m", "height of the observer", "m", -500, 12_000, default=0),
        give("pressure_hpa", "pressure", "hpa", 0, 1_100, default=1_013.25),
        give("temperature_c", "temperature", "c", -100, 60, default=15),
    ),
    results=(
        get("altitude_deg", "apparent altitude", "deg", 1, 5, round_to=0.1),
        get("azimuth_deg", "true azimuth", "heading", 2, 10, round_to=1),
        get("zenith_deg", "apparent zenith distance", "deg", 1, 5, round_to=0.1),
    ),
    methods={EXACT: sun.position},
    mental=_position_in_the_head,
    exact=_position_exact,
    slips=(
        slip("gave the zenith distance",
             "that is counted from overhead; the altitude is counted from the horizon",
             lambda **where: sun.position(**where)[2]),
        slip("clock taken as UTC", "the clock shows local time; the offset was left out",
             lambda **where: sun.position(**{**where,
             "utc_offset_h": 0 * np.asarray(where["utc_offset_h"])})[0]),
    ),
    source=SUN_POSITION,
)  # fmt: skip

QUANTITIES = (TIMES, TWILIGHT, NIGHT, NIGHT_AT, POSITION)
