"""Quantities of the moon: rising and setting, how much of it is lit, and the rule for when it rises."""

import numpy as np

from trainer.engine import moon
from trainer.engine.quantities.air_sources import MOON_RULE, MOON_TIMES
from trainer.engine.quantities.entries import clock, get, give, num, slip
from trainer.engine.quantities.sun import DATE, DAY_AND_PLACE, OFFSET, PLACE
from trainer.engine.quantity import EXACT, Quantity

NOON_MIN = 720


def _age_in_the_head(age_days):
    """Return the lines that tell when a moon of that age rises and sets, by the rule of fifty minutes."""
    later = moon.LATER_MIN_A_DAY * age_days
    return (
        "a new moon goes with the sun; each day it is fifty minutes later",
        f"{num(age_days)} days after new moon: {num(age_days)} x 50 = {num(later)} min behind the sun, "
        f"highest about {clock(NOON_MIN + later)}; it rises some six hours before that and sets six after",
    )


def _times_in_the_head(year, month, day, latitude_deg, longitude_deg, utc_offset_h):
    age = moon.days_since_new(year, month, day, NOON_MIN, utc_offset_h)
    return (*_age_in_the_head(np.round(age)), "the almanac tells it to the minute")


def _times_exact(**place):
    rise, sets = moon.moon_times(**place)
    return (f"upper limb on the horizon, lifted 34′ by the air: {clock(rise)} rising, {clock(sets)} setting",)


def _utc(value, place):
    return np.mod(value - 60 * np.asarray(place["utc_offset_h"]), 1440)


TIMES = Quantity(
    name="moon_times",
    title="moonrise and moonset on a local date",
    area="navigation",
    words=("moonrise", "moonset", "moon", "rise", "set", "night"),
    inputs=DAY_AND_PLACE,
    results=(
        get("moonrise_clock", "moonrise", "clock", 2, 10, round_to=1),
        get("moonset_clock", "moonset", "clock", 2, 10, round_to=1),
    ),
    methods={EXACT: moon.moon_times},
    mental=_times_in_the_head,
    exact=_times_exact,
    slips=(
        slip("gave UTC", "that is the time in UTC; the local offset is still to be applied",
             lambda **place: _utc(moon.moon_times(**place)[0], place), "moonrise_clock"),
        slip("gave moonset", "that is when it sets",
             lambda **place: moon.moon_times(**place)[1], "moonrise_clock"),
        slip("the time of the day before", "that was the day before; each day it rises about fifty minutes later",
             lambda **place: np.mod(moon.moon_times(**place)[0] - moon.LATER_MIN_A_DAY, 1440), "moonrise_clock"),
    ),
    source=MOON_TIMES,
)  # fmt: skip


def _light_in_the_head(year, month, day, local_clock, latitude_deg, longitude_deg, utc_offset_h):
    age = moon.days_since_new(year, month, day, local_clock, utc_offset_h)
    from_full = abs(age - moon.MONTH_DAYS / 2)
    return (
        "full half a month after new moon; half of it is lit a week (7.4 days) before and after that",
        f"{num(age)} days after new moon, {num(from_full)} from full: "
        + ("more than half is lit" if from_full < moon.MONTH_DAYS / 4 else "less than half is lit"),
        *_age_in_the_head(np.round(age))[1:],
    )


def _light_exact(**where):
    light, altitude = moon.moon_light(**where)
    stands = f"{num(altitude, 1)}° above" if altitude >= 0 else f"{num(-altitude, 1)}° below"
    return (f"{num(light, 1)} % of the disc is lit; it stands {stands} the horizon",)


LIGHT = Quantity(
    name="moon_light",
    title="how much of the moon is lit, and how high it stands",
    area="navigation",
    words=("illumination", "illuminated", "phase", "moon", "moonlight", "night", "lit"),
    inputs=(*DATE, give("local_clock", "local time", "clock", 0, 1_440), *PLACE, OFFSET),
    results=(
        get("lit_pct", "lit", "%", 3, 10, round_to=1),
        get("altitude_deg", "altitude, below the horizon negative", "deg", 2, 5, round_to=1),
    ),
    methods={EXACT: moon.moon_light},
    mental=_light_in_the_head,
    exact=_light_exact,
    slips=(
        slip("the dark part", "that is the part that is not lit",
             lambda **where: 100 - np.asarray(moon.moon_light(**where)[0])),
        slip("clock taken as UTC", "the clock shows local time; the offset was left out",
             lambda **where: moon.moon_light(
                 **{**where, "utc_offset_h": 0 * np.asarray(where["utc_offset_h"])})[1], "altitude_deg"),
    ),
    source=MOON_TIMES,
)  # fmt: skip


def _rise_in_the_head(sunset_clock, days_after_full):
    rises = moon.moonrise_by_rule(sunset_clock, days_after_full)
    days, word = abs(days_after_full), "after" if days_after_full >= 0 else "before"
    sign = "+" if days_after_full >= 0 else "-"
    return (
        "a full moon rises when the sun sets; each day later it rises fifty minutes later",
        f"{num(days)} x 50 min = {num(days * moon.LATER_MIN_A_DAY)} min {word} sunset",
        f"{clock(sunset_clock)} {sign} {num(days * moon.LATER_MIN_A_DAY)} min = {clock(rises)}",
    )


def _by(minutes):
    """Return the rule with that many minutes a day."""
    return lambda sunset_clock, days_after_full: np.mod(
        np.asarray(sunset_clock, dtype=float) + minutes * np.asarray(days_after_full, dtype=float), 1440
    )


RISE_BY_RULE = Quantity(
    name="moonrise_by_rule",
    title="moonrise from the days since full moon",
    area="navigation",
    words=("moonrise", "full moon", "moon", "dark", "night", "days"),
    inputs=(
        give("sunset_clock", "sunset", "clock", 0, 1_440),
        give("days_after_full", "days after full moon, before it negative", "count", -7, 10),
    ),
    results=(get("moonrise_clock", "moonrise", "clock", 10, 20, round_to=1),),
    methods={EXACT: moon.moonrise_by_rule},
    mental=_rise_in_the_head,
    slips=(
        slip("earlier each day", "after full moon it rises later each day, not earlier", _by(-50)),
        slip("half an hour a day", "each day makes fifty minutes, not thirty", _by(30)),
        slip("a quarter of an hour a day", "each day makes fifty minutes, not fifteen", _by(15)),
        slip("gave sunset", "only the full moon rises at sunset", _by(0)),
    ),
    source=MOON_RULE,
)  # fmt: skip

QUANTITIES = (TIMES, LIGHT, RISE_BY_RULE)
