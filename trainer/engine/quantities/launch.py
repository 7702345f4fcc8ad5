"""Quantities of the launch: Case, legal pairs, end speed, side of the clearing turn."""

import numpy as np

from trainer.engine import launch
from trainer.engine.quantities.carrier_sources import CASE_PAIRS, CLEARING, ENDSPEED, WEATHER
from trainer.engine.quantities.entries import (
    CASES,
    TURN_SIDE,
    YES_NO,
    choose,
    clock,
    get,
    give,
    num,
    slip,
    verdict,
)
from trainer.engine.quantity import EXACT, Quantity

CATAPULTS = {1: "catapult 1", 2: "catapult 2", 3: "catapult 3", 4: "catapult 4"}
CEILING = give("ceiling_ft", "ceiling", "ft", 0, 60_000)
VISIBILITY = give("visibility_nm", "visibility", "nm", 0, 100)
WOD = give("wod_kn", "wind over deck", "kn", 0, 60)
MINIMUM = give("min_end_airspeed_kn", "minimum end airspeed", "kn", 50, 250, take="airframe.min_end_airspeed_kn")


def _case_lines(ceiling_ft, visibility_nm, night):
    if night:
        return ("night is always Case III, whatever the weather",)
    case = CASES[int(launch.weather_case(ceiling_ft, visibility_nm, night))]
    return (
        "below five miles or below a thousand feet is Case III; three thousand and five is Case I; between is Case II",
        f"{num(ceiling_ft)} ft and {num(visibility_nm, 1)} nm by day: {case}",
    )


def _ceiling_only(ceiling_ft, **_):
    ceiling = np.asarray(ceiling_ft, dtype=float)
    return np.where(ceiling >= 3000, 1.0, np.where(ceiling >= 1000, 2.0, 3.0))[()]


def _both_needed(ceiling_ft, visibility_nm):
    ceiling, visibility = np.asarray(ceiling_ft, dtype=float), np.asarray(visibility_nm, dtype=float)
    better = np.where((ceiling >= 3000) & (visibility >= 5), 1.0, 2.0)
    return np.where((ceiling < 1000) & (visibility < 5), 3.0, better)[()]


WEATHER_CASE = Quantity(
    name="case_from_weather",
    title="Case from the weather",
    area="launch",
    words=("weather", "ceiling", "visibility", "Case I", "Case II", "Case III"),
    inputs=(CEILING, VISIBILITY, choose("night", "night", YES_NO, default=0)),
    results=(verdict("case", "Case", CASES),),
    methods={EXACT: launch.weather_case},
    mental=_case_lines,
    slips=(
        slip("forgot the night", "at night it is always Case III",
             lambda ceiling_ft, visibility_nm, night:
             launch.weather_case(ceiling_ft, visibility_nm, np.asarray(night) * 0)),
        slip("both limits needed for Case III", "one limit below is enough for Case III",
             lambda ceiling_ft, visibility_nm, night: _both_needed(ceiling_ft, visibility_nm)),
        slip("looked at the ceiling only", "visibility below five is Case III under any ceiling", _ceiling_only),
        slip("civil minima", "a thousand and three is the civil rule; the ship's limit is five miles",
             lambda ceiling_ft, visibility_nm, night:
             np.where((np.asarray(ceiling_ft) >= 1000) & (np.asarray(visibility_nm) >= 3), 1.0, 3.0)[()]),
    ),
    source=WEATHER,
)  # fmt: skip


def _clock_lines(ceiling_ft, visibility_nm, clock_min, sunrise_min, sunset_min):
    night = int(launch.is_night(clock_min, sunrise_min, sunset_min))
    return (
        f"night runs from {clock(sunset_min + 30)} (sunset and thirty) to {clock(sunrise_min - 30)} "
        f"(sunrise less thirty); {clock(clock_min)} is {'night' if night else 'day'}",
        *_case_lines(ceiling_ft, visibility_nm, night),
    )


CLOCK_CASE = Quantity(
    name="case_by_clock",
    title="Case from the weather and the clock",
    area="launch",
    words=("weather", "night", "sunset", "sunrise", "Case III"),
    inputs=(
        CEILING,
        VISIBILITY,
        give("clock_min", "time", "clock", 0, 1_439),
        give("sunrise_min", "sunrise", "clock", 0, 1_439),
        give("sunset_min", "sunset", "clock", 0, 1_439),
    ),
    results=(verdict("case", "Case", CASES), verdict("night", "night", YES_NO)),
    methods={EXACT: launch.clock_case},
    mental=_clock_lines,
    slips=(
        slip("forgot the night", "at night it is always Case III",
             lambda ceiling_ft, visibility_nm, **_: launch.weather_case(ceiling_ft, visibility_nm, 0)),
        slip("night from sunset to sunrise", "night starts thirty minutes after sunset and ends thirty before sunrise",
             lambda ceiling_ft, visibility_nm, clock_min, sunrise_min, sunset_min:
             launch.weather_case(ceiling_ft, visibility_nm, _between(clock_min, sunset_min, sunrise_min))),
        slip("night from sunset to sunrise", "night starts thirty minutes after sunset and ends thirty before sunrise",
             lambda ceiling_ft, visibility_nm, clock_min, sunrise_min, sunset_min:
             _between(clock_min, sunset_min, sunrise_min), "night"),
        slip("thirty minutes the wrong way", "the half hours of twilight belong to the day",
             lambda ceiling_ft, visibility_nm, clock_min, sunrise_min, sunset_min:
             _between(clock_min, np.asarray(sunset_min) - 30, np.asarray(sunrise_min) + 30), "night"),
    ),
    source=WEATHER,
)  # fmt: skip


def _between(moment, start, end):
    since = np.mod(np.asarray(moment, dtype=float) - start, 1440)
    return np.where(since < np.mod(np.asarray(end, dtype=float) - start, 1440), 1.0, 0.0)[()]


PAIR_LEGAL = Quantity(
    name="case_pair_legal",
    title="may these Cases of departure and recovery go together",
    area="launch",
    words=("departure", "recovery", "Case III", "pair"),
    inputs=(choose("departure_case", "departure", CASES), choose("recovery_case", "recovery", CASES)),
    results=(verdict("legal", "allowed together", YES_NO),),
    methods={EXACT: launch.pair_legal},
    mental=lambda departure_case, recovery_case: (
        "only one thing is forbidden: a Case III departure with anything but a Case III recovery",
        f"departure {CASES[int(departure_case)]}, recovery {CASES[int(recovery_case)]}: "
        f"{YES_NO[int(launch.pair_legal(departure_case, recovery_case))]}",
    ),
    slips=(
        slip("read the table transposed",
             "a Case III recovery goes with any departure; it is the Case III departure that is tied",
             lambda departure_case, recovery_case: launch.pair_legal(recovery_case, departure_case)),
        slip("same Case only", "departure and recovery need not be the same Case",
             lambda departure_case, recovery_case:
             np.where(np.asarray(departure_case) == np.asarray(recovery_case), 1.0, 0.0)[()]),
        slip("allowed everything", "a Case III departure needs a Case III recovery",
             lambda departure_case, recovery_case: np.asarray(departure_case, dtype=float) * 0 + 1),
    ),
    source=CASE_PAIRS,
)  # fmt: skip

NEEDED_ENDSPEED = Quantity(
    name="needed_endspeed",
    title="catapult end speed needed",
    area="launch",
    words=("end speed", "catapult", "wind over deck", "minimum end airspeed"),
    inputs=(MINIMUM, give("excess_kn", "excess", "kn", 0, 50, take="airframe.excess_kn", default=15), WOD),
    results=(get("endspeed_kn", "catapult end speed", "kn", 0.5, 1),),
    methods={EXACT: launch.needed_endspeed_kn},
    mental=lambda min_end_airspeed_kn, excess_kn, wod_kn: (
        f"airspeed wanted off the bow: {num(min_end_airspeed_kn)} + {num(excess_kn)} = "
        f"{num(min_end_airspeed_kn + excess_kn)} kt",
        f"the wind gives {num(wod_kn)} of it: {num(min_end_airspeed_kn + excess_kn)} - {num(wod_kn)} = "
        f"{num(min_end_airspeed_kn + excess_kn - wod_kn)} kt",
    ),
    slips=(
        slip("added the wind", "the wind over the deck is a gift: the catapult needs less",
             lambda min_end_airspeed_kn, excess_kn, wod_kn: min_end_airspeed_kn + excess_kn + wod_kn),
        slip("forgot the excess", "the excess comes on top of the minimum",
             lambda min_end_airspeed_kn, excess_kn, wod_kn: min_end_airspeed_kn - wod_kn),
        slip("forgot the wind", "that is the airspeed off the bow; the wind over the deck comes off",
             lambda min_end_airspeed_kn, excess_kn, wod_kn: min_end_airspeed_kn + excess_kn),
    ),
    source=ENDSPEED,
)  # fmt: skip

OFF_BOW = Quantity(
    name="airspeed_off_bow",
    title="airspeed off the bow",
    area="launch",
    words=("end speed", "catapult", "wind over deck", "airspeed"),
    inputs=(give("catapult_endspeed_kn", "catapult end speed", "kn", 50, 250), WOD),
    results=(get("airspeed_kn", "airspeed off the bow", "kn", 0.5, 1),),
    methods={EXACT: launch.airspeed_off_bow_kn},
    mental=lambda catapult_endspeed_kn, wod_kn: (
        "what the catapult gives and what the wind gives add up",
        f"{num(catapult_endspeed_kn)} + {num(wod_kn)} = {num(catapult_endspeed_kn + wod_kn)} kt",
    ),
    slips=(
        slip("subtracted the wind", "you launch into the wind: it adds to the airspeed",
             lambda catapult_endspeed_kn, wod_kn: catapult_endspeed_kn - wod_kn),
        slip("forgot the wind", "that is the end speed over the deck; the wind comes on top",
             lambda catapult_endspeed_kn, wod_kn: catapult_endspeed_kn),
    ),
    source=ENDSPEED,
)  # fmt: skip

EXCESS = Quantity(
    name="launch_excess",
    title="excess over the minimum end airspeed",
    area="launch",
    words=("end speed", "excess", "soft cat", "minimum end airspeed"),
    inputs=(give("catapult_endspeed_kn", "catapult end speed", "kn", 50, 250), WOD, MINIMUM),
    results=(get("excess_kn", "excess", "kn", 0.5, 1),),
    methods={EXACT: launch.excess_airspeed_kn},
    mental=lambda catapult_endspeed_kn, wod_kn, min_end_airspeed_kn: (
        f"off the bow: {num(catapult_endspeed_kn)} + {num(wod_kn)} = {num(catapult_endspeed_kn + wod_kn)} kt",
        f"less the minimum {num(min_end_airspeed_kn)}: "
        f"{num(catapult_endspeed_kn + wod_kn - min_end_airspeed_kn)} kt; below nothing there is no launch",
    ),
    slips=(
        slip("forgot the wind", "the wind over the deck counts as airspeed",
             lambda catapult_endspeed_kn, wod_kn, min_end_airspeed_kn: catapult_endspeed_kn - min_end_airspeed_kn),
        slip("subtracted the wind", "you launch into the wind: it adds to the airspeed",
             lambda catapult_endspeed_kn, wod_kn, min_end_airspeed_kn:
             catapult_endspeed_kn - wod_kn - min_end_airspeed_kn),
        slip("gave the airspeed", "that is the airspeed off the bow; take the minimum away",
             lambda catapult_endspeed_kn, wod_kn, min_end_airspeed_kn: catapult_endspeed_kn + wod_kn),
    ),
    source=ENDSPEED,
)  # fmt: skip

CLEARING_SIDE = Quantity(
    name="clearing_turn_side",
    title="side of the clearing turn",
    area="launch",
    words=("clearing turn", "catapult", "bow", "waist"),
    inputs=(choose("catapult", "catapult", CATAPULTS),),
    results=(verdict("side", "clearing turn", TURN_SIDE),),
    methods={EXACT: launch.clearing_side},
    mental=lambda catapult: (
        "one and two are on the bow and clear to the right; three and four are on the waist and clear to the left",
        f"{CATAPULTS[int(catapult)]}: {TURN_SIDE[int(launch.clearing_side(catapult))]}",
    ),
    slips=(
        slip("mirrored bow and waist", "bow right, waist left", lambda catapult: -launch.clearing_side(catapult)),
        slip("odd and even", "one and two turn the same way: bow or waist decides, not odd or even",
             lambda catapult: np.where(np.mod(catapult, 2) == 1, 1.0, -1.0)[()]),
    ),
    source=CLEARING,
)  # fmt: skip

QUANTITIES = (WEATHER_CASE, CLOCK_CASE, PAIR_LEGAL, NEEDED_ENDSPEED, OFF_BOW, EXCESS, CLEARING_SIDE)
