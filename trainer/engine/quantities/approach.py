"""Quantities from the push to the ball: penetration, correction, minima, closure and sink rate."""

import numpy as np

from trainer.engine import approach
from trainer.engine.angles import turn_deg
from trainer.engine.quantities.carrier_sources import CORRECTION, MINIMA, TERMS_PLATFORM, practice
from trainer.engine.quantities.entries import choose, get, give, hdg, num, slip, verdict
from trainer.engine.quantity import EXACT, RULE, Quantity
from trainer.model import Source

AIRCRAFT = {1: "jet", 2: "turboprop", 3: "helicopter"}
APPROACHES = {1: "nonprecision", 2: "ICLS", 3: "ICLS with monitor", 4: "Mode II", 5: "Mode III"}
TURNS = {0: "gradual", 1: "turn 30"}

LEVEL_OFF_RULE = Source(
    text="FAA-H-8083-15, Instrument Flying Handbook",
    section="p. 5-50, leveling off: ten per cent of the rate",
    url="http://www.flyinhighokc.com/instrumentflyinhandbook/pages/5-50.html",
    status="published",
)
ANGELS = give("angels", "assigned altitude", "angels", 6, 40)
GROUNDSPEED = give(
    "groundspeed_kn", "ground speed", "kn", 100, 400, take="airwing.push_airspeed_kn", default=250,
    careful="an indicated speed stands for the ground speed; aloft you are faster (250 indicated at 10,000 ft are 289 "
    "true), and wind and the ship's way count as well: `compute groundspeed_from_ias`",
)  # fmt: skip
FIRST_RATE = give("penetration_rate_ft_min", "rate of descent to platform", "ft/min", 500, 8_000,
                  take="airwing.penetration_rate_ft_min", default=4000)  # fmt: skip
SECOND_RATE = give("platform_rate_ft_min", "rate of descent below platform", "ft/min", 500, 8_000,
                   take="airwing.platform_rate_ft_min", default=2000)  # fmt: skip
GATE_ALTITUDE = give("gate_altitude_ft", "level-off altitude", "ft", 500, 4_900, take="airwing.gate_ft", default=1200)

GEOMETRY = practice("plane geometry on the rule angels + 15 and platform at 5,000 ft")


def _platform_lines(angels, groundspeed_kn, penetration_rate_ft_min):
    thousands = angels - 5
    minutes = thousands * 1000 / penetration_rate_ft_min
    per_minute = groundspeed_kn / 60
    return (
        f"the fix is at {num(angels)} + 15 = {num(angels + 15)} nm; from {num(angels)},000 to 5,000 ft are "
        f"{num(thousands)},000 ft",
        f"at {num(penetration_rate_ft_min)} ft/min that takes {num(minutes, 2)} min; {num(groundspeed_kn)} kt is "
        f"{num(per_minute, 2)} nm a minute: {num(minutes * per_minute, 1)} nm",
        f"{num(angels + 15)} - {num(minutes * per_minute, 1)} = {num(angels + 15 - minutes * per_minute, 1)} nm",
    )


PLATFORM = Quantity(
    name="platform_distance",
    title="beacon distance of platform",
    area="approach",
    words=("platform", "5,000 ft", "penetration", "descent"),
    inputs=(ANGELS, GROUNDSPEED, FIRST_RATE),
    results=(get("platform_distance_nm", "platform", "nm", 0.2, 0.5, round_to=0.1),),
    methods={EXACT: approach.platform_distance_nm},
    mental=_platform_lines,
    slips=(
        slip("used the rate below platform", "above platform you come down twice as fast as below it",
             lambda angels, groundspeed_kn, penetration_rate_ft_min:
             angels + 15 - (angels - 5) * 1000 / (np.asarray(penetration_rate_ft_min) / 2) * groundspeed_kn / 60),
        slip("ignored the ground speed", "you took a mile a minute; use your own miles a minute",
             lambda angels, groundspeed_kn, penetration_rate_ft_min:
             angels + 15 - (angels - 5) * 1000 / np.asarray(penetration_rate_ft_min)),
        slip("counted down to the deck", "platform is at 5,000 ft, not at the water",
             lambda angels, groundspeed_kn, penetration_rate_ft_min:
             angels + 15 - angels * 1000 / np.asarray(penetration_rate_ft_min) * groundspeed_kn / 60),
    ),
    source=GEOMETRY,
)  # fmt: skip

LEVEL_OFF = Quantity(
    name="level_off_distance",
    title="beacon distance of the level-off",
    area="approach",
    words=("level off", "1,200 ft", "gate", "platform", "penetration"),
    inputs=(
        give("platform_distance_nm", "platform", "nm", 1, 60, default=20),
        GROUNDSPEED,
        SECOND_RATE,
        GATE_ALTITUDE,
    ),
    results=(get("level_off_nm", "level-off", "nm", 0.2, 0.5, round_to=0.1),),
    methods={EXACT: approach.level_off_distance_nm},
    mental=lambda platform_distance_nm, groundspeed_kn, platform_rate_ft_min, gate_altitude_ft: (
        f"from 5,000 to {num(gate_altitude_ft)} ft are {num(5000 - gate_altitude_ft)} ft; at "
        f"{num(platform_rate_ft_min)} ft/min {num((5000 - gate_altitude_ft) / platform_rate_ft_min, 2)} min",
        f"x {num(groundspeed_kn / 60, 2)} nm a minute = "
        f"{num((5000 - gate_altitude_ft) / platform_rate_ft_min * groundspeed_kn / 60, 1)} nm",
        f"{num(platform_distance_nm, 1)} less that is "
        f"{num(platform_distance_nm - (5000 - gate_altitude_ft) / platform_rate_ft_min * groundspeed_kn / 60, 1)} nm",
    ),
    slips=(
        slip("all of the 5,000 ft", "you level off at the gate's altitude; only the difference counts",
             lambda platform_distance_nm, groundspeed_kn, platform_rate_ft_min, gate_altitude_ft:
             platform_distance_nm - 5000 / np.asarray(platform_rate_ft_min) * groundspeed_kn / 60),
        slip("kept the first rate", "below platform the rate is halved",
             lambda platform_distance_nm, groundspeed_kn, platform_rate_ft_min, gate_altitude_ft:
             platform_distance_nm
             - (5000 - np.asarray(gate_altitude_ft)) / np.asarray(platform_rate_ft_min) / 2 * groundspeed_kn / 60),
        slip("gave the distance flown", "that is how far you fly; take it off the platform distance",
             lambda platform_distance_nm, groundspeed_kn, platform_rate_ft_min, gate_altitude_ft:
             (5000 - np.asarray(gate_altitude_ft)) / np.asarray(platform_rate_ft_min) * groundspeed_kn / 60),
    ),
    source=TERMS_PLATFORM,
)  # fmt: skip


def _profile_lines(
    distance_nm, angels, groundspeed_kn, penetration_rate_ft_min, platform_rate_ft_min, gate_altitude_ft
):
    platform = float(approach.platform_distance_nm(angels, groundspeed_kn, penetration_rate_ft_min))
    altitude = approach.penetration_altitude_ft(
        distance_nm, angels, groundspeed_kn, penetration_rate_ft_min, platform_rate_ft_min, gate_altitude_ft
    )
    start, rate, top = (
        (angels + 15, penetration_rate_ft_min, angels * 1000)
        if distance_nm >= platform
        else (platform, platform_rate_ft_min, 5000)
    )
    gone = max(start - distance_nm, 0)
    minutes = gone / groundspeed_kn * 60
    return (
        f"the fix is at {num(angels + 15)} nm, platform (5,000 ft) falls at {num(platform, 1)} nm",
        f"from {num(start, 1)} nm you have gone {num(gone, 1)} nm, {num(minutes, 2)} min at "
        f"{num(groundspeed_kn / 60, 2)} nm a minute: {num(minutes * rate)} ft down",
        f"{num(top)} - {num(minutes * rate)} = {num(top - minutes * rate)} ft, not below {num(gate_altitude_ft)}: "
        f"{num(altitude)} ft",
    )


PROFILE = Quantity(
    name="penetration_altitude",
    title="altitude on the penetration at a beacon distance",
    area="approach",
    words=("penetration", "profile", "descent", "check altitude"),
    inputs=(
        give("distance_nm", "beacon distance", "nm", 0, 60),
        ANGELS, GROUNDSPEED, FIRST_RATE, SECOND_RATE, GATE_ALTITUDE,
    ),
    results=(get("altitude_ft", "altitude", "ft", 100, 300, round_to=100),),
    methods={EXACT: approach.penetration_altitude_ft},
    mental=_profile_lines,
    slips=(
        slip("first rate all the way", "below platform the rate is the smaller one",
             lambda distance_nm, angels, groundspeed_kn, penetration_rate_ft_min, platform_rate_ft_min,
             gate_altitude_ft: np.maximum(
                 angels * 1000
                 - np.maximum(angels + 15 - np.asarray(distance_nm), 0) * 60 / groundspeed_kn
                 * penetration_rate_ft_min, gate_altitude_ft)),
        slip("a thousand feet a mile", "your miles a minute and your rate give the feet a mile",
             lambda distance_nm, angels, groundspeed_kn, penetration_rate_ft_min, platform_rate_ft_min,
             gate_altitude_ft: np.maximum(
                 angels * 1000 - np.maximum(angels + 15 - np.asarray(distance_nm), 0) * 1000, gate_altitude_ft)),
        slip("descended through the level-off", "you level off at the gate's altitude",
             lambda distance_nm, angels, groundspeed_kn, penetration_rate_ft_min, platform_rate_ft_min,
             gate_altitude_ft: approach.penetration_altitude_ft(
                 distance_nm, angels, groundspeed_kn, penetration_rate_ft_min, platform_rate_ft_min, 500)),
    ),
    source=TERMS_PLATFORM,
)  # fmt: skip

LEVEL_OFF_LEAD = Quantity(
    name="level_off_lead",
    title="lead for the level-off",
    area="approach",
    words=("level off", "lead", "rate of descent", "vsi"),
    inputs=(give("rate_ft_min", "rate of descent", "ft/min", 100, 10_000),),
    results=(get("lead_ft", "lead", "ft", 25, 50, round_to=10),),
    methods={RULE: approach.level_off_lead_ft},
    mental=lambda rate_ft_min: (
        "a tenth of the rate: strike a nought",
        f"{num(rate_ft_min)} ft/min -> start the level-off {num(rate_ft_min / 10)} ft early",
    ),
    slips=(
        slip("one per cent", "a tenth, not a hundredth", lambda rate_ft_min: rate_ft_min / 100),
        slip("half the rate", "a tenth is enough", lambda rate_ft_min: rate_ft_min / 2),
    ),
    source=LEVEL_OFF_RULE,
)  # fmt: skip


def _correction_lines(marshal_radial_deg, final_bearing_deg):
    inbound = (marshal_radial_deg + 180) % 360
    correction, difference = approach.final_bearing_correction(marshal_radial_deg, final_bearing_deg)
    side = "right" if difference > 0 else "left"
    where = "on it already" if difference == 0 else f"{num(abs(difference))}° to the {side}"
    return (
        f"turn the radial round first: {hdg(marshal_radial_deg)} is inbound {hdg(inbound)}",
        f"the final bearing {hdg(final_bearing_deg)} lies {where}",
        "up to ten degrees correct gradually from 20 nm; more than ten, turn thirty degrees and, if not established "
        f"by 12 nm, fly the arc: {TURNS[int(correction)]}",
    )


CORRECTION_QUANTITY = Quantity(
    name="final_bearing_correction",
    title="correction from the marshal radial to the final bearing (printed for amphibious ships)",
    area="approach",
    words=("final bearing", "20 nm", "30 degrees", "arc", "penetration"),
    inputs=(
        give("marshal_radial_deg", "marshal radial", "heading", 0, 360),
        give("final_bearing_deg", "final bearing now", "heading", 0, 360),
    ),
    results=(
        verdict("correction", "correction at 20 nm", TURNS),
        get("difference_deg", "final bearing right of the inbound course", "deg", 0.5, 1),
    ),
    methods={EXACT: approach.final_bearing_correction},
    mental=_correction_lines,
    slips=(
        slip("compared without the reciprocal", "turn the radial round before you compare it with the final bearing",
             lambda marshal_radial_deg, final_bearing_deg:
             np.where(np.abs(turn_deg(marshal_radial_deg, final_bearing_deg)) > 10, 1.0, 0.0)[()]),
        slip("gradual whatever the difference", "more than ten degrees needs a turn of thirty",
             lambda marshal_radial_deg, final_bearing_deg: np.asarray(final_bearing_deg, dtype=float) * 0),
        slip("turned at ten", "exactly ten degrees is still gradual",
             lambda marshal_radial_deg, final_bearing_deg:
             np.where(np.abs(approach.final_bearing_correction(marshal_radial_deg, final_bearing_deg)[1]) >= 10,
                      1.0, 0.0)[()]),
        slip("wrong sign", "right of the inbound course is plus",
             lambda marshal_radial_deg, final_bearing_deg:
             -approach.final_bearing_correction(marshal_radial_deg, final_bearing_deg)[1], "difference_deg"),
    ),
    source=CORRECTION,
)  # fmt: skip

MINIMA_QUANTITY = Quantity(
    name="approach_minima",
    title="approach minima",
    area="approach",
    words=("minima", "ceiling", "visibility", "ICLS", "nonprecision"),
    inputs=(choose("aircraft", "aircraft", AIRCRAFT), choose("approach", "approach", APPROACHES)),
    results=(
        get("ceiling_ft", "ceiling", "ft", 0, 0, round_to=100),
        get("visibility_nm", "visibility", "nm", 0.01, 0.01, round_to=0.25),
    ),
    methods={EXACT: approach.minima},
    mental=lambda aircraft, approach: (
        "nonprecision is the highest and differs by type; ICLS alone 300 and 3/4; monitored or a Mode, 200 and 1/2",
        f"{AIRCRAFT[int(aircraft)]}, {APPROACHES[int(approach)]}: "
        "{} ft and {} nm".format(*(num(value, 2) for value in _minima(aircraft, approach))),
    ),
    slips=(
        slip("nonprecision row of another type", "jets 600, turboprops 400, helicopters 300 on a nonprecision approach",
             lambda aircraft, approach:
             np.where(np.asarray(approach) == 1, np.where(np.asarray(aircraft) == 1, 400.0, 600.0),
                      _minima(aircraft, approach)[0])[()]),
        slip("monitor mixed up", "ICLS alone is 300 and 3/4; with the monitor it is 200 and 1/2",
             lambda aircraft, approach:
             np.where(np.asarray(approach) == 2, 200.0, np.where(np.asarray(approach) == 3, 300.0,
                      _minima(aircraft, approach)[0]))[()]),
        slip("monitor mixed up", "ICLS alone is 300 and 3/4; with the monitor it is 200 and 1/2",
             lambda aircraft, approach:
             np.where(np.asarray(approach) == 2, 0.5, np.where(np.asarray(approach) == 3, 0.75,
                      _minima(aircraft, approach)[1]))[()], "visibility_nm"),
        slip("one mile whatever the type", "visibility goes down with the type of approach",
             lambda aircraft, approach: np.asarray(aircraft, dtype=float) * 0 + 1, "visibility_nm"),
    ),
    source=MINIMA,
)  # fmt: skip


def _minima(aircraft, way):
    return approach.minima(aircraft, way)


CLOSURE = Quantity(
    name="closure",
    title="closure on the landing area",
    area="approach",
    words=("closure", "wind over deck", "airspeed", "ball"),
    inputs=(
        give("airspeed_kn", "approach airspeed", "kn", 60, 250, take="airframe.pattern_airspeed_kn"),
        give("wind_down_angle_kn", "wind down the angle", "kn", 0, 60, take="ship.recovery_wod_kn"),
    ),
    results=(get("closure_kn", "closure", "kn", 0.5, 2),),
    methods={EXACT: approach.closure_kn},
    mental=lambda airspeed_kn, wind_down_angle_kn: (
        "the wind over the deck carries you back: take it off the airspeed",
        f"{num(airspeed_kn)} - {num(wind_down_angle_kn)} = {num(airspeed_kn - wind_down_angle_kn)} kt",
    ),
    slips=(
        slip("added the wind", "wind over the deck slows the closure: subtract it",
             lambda airspeed_kn, wind_down_angle_kn: airspeed_kn + wind_down_angle_kn),
        slip("airspeed for closure", "that is the airspeed; the deck's wind comes off",
             lambda airspeed_kn, wind_down_angle_kn: airspeed_kn),
    ),
    source=practice("plain subtraction"),
)  # fmt: skip

SINK_RATE = Quantity(
    name="sink_rate",
    title="sink rate on the ball",
    area="approach",
    words=("sink rate", "rate of descent", "ball", "vsi", "closure"),
    inputs=(
        give("closure_kn", "closure", "kn", 30, 250),
        give("glide_slope_deg", "glide slope", "deg", 2, 6, take="ship.glide_slope_deg", default=3.5),
    ),
    results=(get("sink_rate_ft_min", "sink rate", "ft/min", 25, 50, round_to=10),),
    methods={EXACT: approach.sink_rate_ft_min, RULE: approach.sink_rate_rule_ft_min},
    mental=lambda closure_kn, glide_slope_deg: (
        "closure times six at three and a half degrees; times five at three, times seven at four",
        f"{num(closure_kn)} x {num(2 * glide_slope_deg - 1, 1)} = "
        f"{num(closure_kn * (2 * glide_slope_deg - 1))} ft/min",
    ),
    exact=lambda closure_kn, glide_slope_deg: (
        f"{num(closure_kn)} kt x 101.27 ft/min per knot x tan {num(glide_slope_deg, 2)}° = "
        f"{num(float(approach.sink_rate_ft_min(closure_kn, glide_slope_deg)))} ft/min",
    ),
    slips=(
        slip("airspeed for closure", "you used about 25 kt too much: closure, not airspeed",
             lambda closure_kn, glide_slope_deg:
             (np.asarray(closure_kn) + 25) * approach.FT_MIN_PER_KN * np.tan(np.radians(glide_slope_deg))),
        slip("closure times ten", "times six, not ten: the slope is three and a half degrees, not six",
             lambda closure_kn, glide_slope_deg: closure_kn * 10),
        slip("closure times three", "the factor is not the angle itself; twice the angle less one",
             lambda closure_kn, glide_slope_deg: closure_kn * np.asarray(glide_slope_deg)),
    ),
    source=practice("closure times six; exact form is plane trigonometry"),
)  # fmt: skip

RAMP_INTERVAL = Quantity(
    name="ramp_interval",
    title="interval at the ramp from the push interval",
    area="approach",
    words=("interval", "push", "ramp", "stack", "spacing"),
    inputs=(
        give("interval_min", "push interval", "min", 0.5, 5, take="airwing.push_interval_min", default=1),
        GROUNDSPEED,
    ),
    results=(get("interval_s", "interval at the ramp", "s", 1.5, 5),),
    methods={EXACT: approach.ramp_interval_s},
    mental=lambda interval_min, groundspeed_kn: (
        "every thousand feet holds a mile further out, so the next aircraft has a mile more to fly",
        f"a mile at {num(groundspeed_kn)} kt takes {num(3600 / groundspeed_kn, 1)} s",
        f"{num(interval_min * 60)} + {num(3600 / groundspeed_kn, 1)} = "
        f"{num(interval_min * 60 + 3600 / groundspeed_kn)} s",
    ),
    slips=(
        slip("the push interval itself", "the next aircraft starts a mile further out",
             lambda interval_min, groundspeed_kn: np.asarray(interval_min) * 60.0),
        slip("took the mile off", "the mile is further to fly: the interval grows",
             lambda interval_min, groundspeed_kn: np.asarray(interval_min) * 60.0 - 3600 / np.asarray(groundspeed_kn)),
    ),
    source=practice("plane geometry on angels + 15; constant ground speed"),
)  # fmt: skip

QUANTITIES = (
    PLATFORM, LEVEL_OFF, PROFILE, LEVEL_OFF_LEAD, CORRECTION_QUANTITY, MINIMA_QUANTITY, CLOSURE, SINK_RATE,
    RAMP_INTERVAL,
)  # fmt: skip
