"""Quantities of the Case I pattern: break, downwind, check points, groove, on-speed."""

import numpy as np

from trainer.engine import pattern
from trainer.engine.angles import wrap_360
from trainer.engine.quantities.carrier_sources import CQ_FIGURE, CQ_GLOSSARY, CQ_GROOVE, practice
from trainer.engine.quantities.entries import choose, get, give, hdg, num, reckoned, slip
from trainer.engine.quantities.pictures import DOWNWIND_END, GROOVE_WAY, POINTS, TURN_WAY, between
from trainer.engine.quantities.pictures import pattern as pattern_picture
from trainer.engine.quantity import EXACT, Input, Quantity

POSITIONS = {180: "the 180", 90: "the 90", 45: "the 45"}


def _downwind_picture(brc_deg):
    return pattern_picture(
        found=(DOWNWIND_END, POINTS[180]), spots=((between(DOWNWIND_END, POINTS[180]), "D"), ((0.0, 0.35), "B")),
        title="The pattern from above", legend=(f"B up the BRC {hdg(brc_deg)}", f"D downwind {hdg(brc_deg + 180)}"),
    )  # fmt: skip


def _check_picture(position):
    point = int(position)
    wanted = pattern.CHECK_ALTITUDES_FT[point]
    return pattern_picture(
        found=TURN_WAY[point], spots=[(at, str(degrees)) for degrees, at in POINTS.items()],
        title="The check points of the approach turn",
        legend=(f"{POSITIONS[point]}: " + " to ".join(dict.fromkeys(num(one) for one in wanted)) + " ft",),
    )  # fmt: skip


def _groove_picture(groove_s, groove_nm):
    return pattern_picture(
        found=GROOVE_WAY, spots=((between(*GROOVE_WAY), "g"),), title="The groove at the end of the pattern",
        legend=(f"g the groove, {num(groove_nm, 2)} nm in {num(groove_s, 1)} s",),
    )  # fmt: skip


CLOSURE = give("closure_kn", "closure", "kn", 30, 250)

BREAK_SPACING = Quantity(
    name="break_spacing",
    title="distance between aircraft in the break",
    area="pattern",
    words=("break", "interval", "spacing", "initial"),
    inputs=(
        give("interval_s", "break interval", "s", 1, 120, default=15),
        give("airspeed_kn", "airspeed in the break", "kn", 60, 600, default=300),
    ),
    results=(get("spacing_nm", "spacing", "nm", 0.05, 0.1, round_to=0.05),),
    methods={EXACT: pattern.break_spacing_nm},
    mental=lambda interval_s, airspeed_kn: (
        f"{num(airspeed_kn)} kt is {num(airspeed_kn / 60, 2)} nm a minute, a mile in {num(3600 / airspeed_kn, 1)} s",
        f"{num(interval_s)} s / {num(3600 / airspeed_kn, 1)} s = {num(interval_s * airspeed_kn / 3600, 2)} nm",
    ),
    slips=(
        slip("seconds as hundredths of a minute", "fifteen seconds are a quarter of a minute, not 0.15",
             lambda interval_s, airspeed_kn: np.asarray(interval_s) / 100.0 * airspeed_kn / 60),
        slip("a minute whatever the interval", "that is the distance flown in a minute",
             lambda interval_s, airspeed_kn: np.asarray(airspeed_kn) / 60.0),
        slip("seconds as minutes", "the interval is in seconds",
             lambda interval_s, airspeed_kn: np.asarray(interval_s) * airspeed_kn / 60.0),
    ),
    source=practice("distance = speed x time; 15 s is the training interval of CNATRA P-1211"),
)  # fmt: skip

LAST_BREAK = Quantity(
    name="last_break_time",
    title="time from the lead's break to the last one's",
    area="pattern",
    words=("break", "interval", "division", "section"),
    inputs=(
        give("aircraft", "aircraft in the flight", "count", 1, 12),
        give("interval_s", "break interval", "s", 1, 120, default=15),
    ),
    results=(get("time_s", "time to the last break", "s", 0.5, 2),),
    methods={EXACT: pattern.last_break_s},
    mental=lambda aircraft, interval_s: (
        "the lead breaks at nought; one interval fewer than aircraft",
        f"({num(aircraft)} - 1) x {num(interval_s)} = {num((aircraft - 1) * interval_s)} s",
    ),
    slips=(
        slip("one interval too many", "the lead breaks at nought: one interval fewer than aircraft",
             lambda aircraft, interval_s: np.asarray(aircraft) * interval_s),
        slip("one interval only", "that is the break of number two", lambda aircraft, interval_s: interval_s),
    ),
    source=practice("15 s between breaks is the training interval of CNATRA P-1211"),
)  # fmt: skip

DOWNWIND = Quantity(
    name="downwind_heading",
    title="downwind heading",
    area="pattern",
    words=("downwind", "brc", "reciprocal", "abeam"),
    inputs=(give("brc_deg", "BRC", "heading", 0, 360),),
    results=(get("downwind_deg", "downwind heading", "heading", 0.5, 2),),
    methods={EXACT: pattern.downwind_deg},
    mental=lambda brc_deg: (
        "the reciprocal of the BRC: 200 one way, 20 back",
        f"{hdg(brc_deg)} {'+' if brc_deg <= 180 else '-'} 180 = {hdg(brc_deg + 180)}",
    ),
    slips=(
        slip("from the final bearing", "downwind parallels the BRC; the angle of the deck does not count here",
             lambda brc_deg: wrap_360(np.asarray(brc_deg) + 171.0)),
        slip("stopped half way", "you moved 200 and left it there; 20 goes back again",
             lambda brc_deg: np.where(np.asarray(brc_deg) <= 180, brc_deg + 200, brc_deg - 200)[()]),
        slip("upwind", "that is the BRC itself", lambda brc_deg: wrap_360(brc_deg)),
    ),
    source=CQ_GLOSSARY, picture=_downwind_picture,
)  # fmt: skip

CHECK_ALTITUDE = Quantity(
    name="pattern_check_altitude",
    title="altitude at a check point of the training command's pattern",
    area="pattern",
    words=("abeam", "180", "90", "45", "altitude", "approach turn"),
    inputs=(choose("position", "check point", POSITIONS),),
    results=(
        get("lowest_ft", "lowest altitude", "ft", 5, 25, round_to=5),
        get("highest_ft", "highest altitude", "ft", 5, 25, round_to=5),
    ),
    methods={EXACT: pattern.check_altitude_ft},
    mental=lambda position: (
        "six hundred at the 180, four fifty at the 90, 325 to 375 at the 45",
        f"{POSITIONS[int(position)]}: "
        + " to ".join(dict.fromkeys(num(value) for value in pattern.CHECK_ALTITUDES_FT[int(position)])) + " ft",
    ),
    slips=(
        slip("swapped the 90 and the 45", "you come down on the way round: the 45 is lower than the 90",
             lambda position: _check_altitude(position, {180: 600.0, 90: 325.0, 45: 450.0})),
        slip("not yet descended", "six hundred is the downwind; the descent starts at the 180",
             lambda position: np.asarray(position) * 0.0 + 600),
        slip("swapped the 90 and the 45", "you come down on the way round: the 45 is lower than the 90",
             lambda position: _check_altitude(position, {180: 600.0, 90: 375.0, 45: 450.0}), "highest_ft"),
        slip("not yet descended", "six hundred is the downwind; the descent starts at the 180",
             lambda position: np.asarray(position) * 0.0 + 600, "highest_ft"),
    ),
    source=CQ_FIGURE, picture=_check_picture,
)  # fmt: skip


def _check_altitude(position, altitudes):
    positions = np.asarray(position, dtype=float)
    return np.select([positions == point for point in altitudes], list(altitudes.values()), np.nan)[()]


GROOVE_DISTANCE = Quantity(
    name="groove_distance",
    title="length of the groove",
    area="pattern",
    words=("groove", "closure", "start"),
    inputs=(give("groove_s", "time in the groove", "s", 1, 60, default=15), CLOSURE),
    results=(get("groove_nm", "length of the groove", "nm", 0.03, 0.05, round_to=0.01),),
    methods={EXACT: pattern.groove_nm},
    mental=lambda groove_s, closure_kn: (
        f"{num(closure_kn)} kt is {num(closure_kn / 60, 2)} nm a minute; {num(groove_s)} s is "
        f"{num(groove_s / 60, 2)} of it",
        f"{reckoned(closure_kn / 60, 'x', groove_s / 60, 2, places=(2, 2))} nm",
    ),
    slips=(
        slip("airspeed for closure", "that is about 25 kt too much: the deck moves away from you",
             lambda groove_s, closure_kn: groove_s * (np.asarray(closure_kn) + 25.0) / 3600),
        slip("three quarters of a mile", "that is the ball call of a straight-in approach, not this groove",
             lambda groove_s, closure_kn: np.asarray(closure_kn) * 0.0 + 0.75),
        slip("seconds as hundredths of a minute", "fifteen seconds are a quarter of a minute, not 0.15",
             lambda groove_s, closure_kn: np.asarray(groove_s) / 100.0 * closure_kn / 60),
    ),
    source=CQ_GROOVE,
    picture=lambda groove_s, closure_kn: _groove_picture(groove_s, pattern.groove_nm(groove_s, closure_kn)),
)  # fmt: skip

GROOVE_TIME = Quantity(
    name="groove_time",
    title="time in the groove",
    area="pattern",
    words=("groove", "closure", "seconds", "long in the groove"),
    inputs=(give("groove_nm", "length of the groove", "nm", 0.05, 3), CLOSURE),
    results=(get("groove_s", "time in the groove", "s", 0.5, 2),),
    methods={EXACT: pattern.groove_s},
    mental=lambda groove_nm, closure_kn: (
        f"{num(closure_kn)} kt: a mile takes {num(3600 / closure_kn, 1)} s",
        f"{reckoned(groove_nm, 'x', 3600 / closure_kn, 1, places=(2, 1))} s; "
        "fifteen to eighteen is wanted",
    ),
    slips=(
        slip("airspeed for closure", "that is about 25 kt too much: the deck moves away from you",
             lambda groove_nm, closure_kn: groove_nm * 3600.0 / (np.asarray(closure_kn) + 25)),
        slip("divided by the wrong hour", "miles over knots are hours: times 3,600 for seconds, not 6,000",
             lambda groove_nm, closure_kn: groove_nm * 6000.0 / np.asarray(closure_kn)),
    ),
    source=CQ_GROOVE,
    picture=lambda groove_nm, closure_kn: _groove_picture(pattern.groove_s(groove_nm, closure_kn), groove_nm),
)  # fmt: skip


def _on_speed_lines(landing_weight_lb, speed_table):
    at, values = np.asarray(speed_table.at, dtype=float), np.asarray(speed_table.values, dtype=float)
    above = int(np.clip(np.searchsorted(at, landing_weight_lb, side="left"), 1, len(at) - 1))
    per_thousand = (values[above] - values[above - 1]) / (at[above] - at[above - 1]) * 1000
    return (
        f"{num(at[above - 1])} lb: {num(values[above - 1])} kt; every further thousand pounds adds "
        f"{num(per_thousand, 2)} kt",
        f"{num(landing_weight_lb - at[above - 1])} lb more: {num(values[above - 1])} + "
        f"{num((landing_weight_lb - at[above - 1]) / 1000 * per_thousand, 1)} = "
        f"{num(speed_table(landing_weight_lb))} kt",
    )


ON_SPEED = Quantity(
    name="on_speed",
    title="on-speed airspeed at the landing weight",
    area="pattern",
    words=("on speed", "approach speed", "angle of attack", "landing weight"),
    inputs=(
        give("landing_weight_lb", "landing weight", "lb", 1_000, 150_000),
        Input(name="speed_table", title="approach-speed table", unit="table", take="airframe.approach_speed"),
    ),
    results=(get("airspeed_kn", "on-speed", "kn", 0.5, 2),),
    methods={EXACT: pattern.on_speed_kn},
    mental=_on_speed_lines,
    slips=(
        slip("heaviest row", "that is the speed at the heaviest weight of the table",
             lambda landing_weight_lb, speed_table: np.asarray(landing_weight_lb) * 0.0 + speed_table.values[-1]),
        slip("lightest row", "that is the speed at the lightest weight of the table",
             lambda landing_weight_lb, speed_table: np.asarray(landing_weight_lb) * 0.0 + speed_table.values[0]),
        slip("one knot a thousand pounds", "the speed grows with the table's own step",
             lambda landing_weight_lb, speed_table:
             speed_table.values[0] + (np.asarray(landing_weight_lb, dtype=float) - speed_table.at[0]) / 1000),
    ),
    source=practice("linear interpolation; the table is the type's own"),
)  # fmt: skip

QUANTITIES = (
    BREAK_SPACING, LAST_BREAK, DOWNWIND, CHECK_ALTITUDE, GROOVE_DISTANCE, GROOVE_TIME, ON_SPEED,
)  # fmt: skip
