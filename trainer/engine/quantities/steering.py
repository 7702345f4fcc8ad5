"""Quantities of steering: one in sixty, compass, drift in holding, BRC, the ship's later place, groundspeed."""

import numpy as np

from trainer.engine import steering
from trainer.engine.angles import turn_deg, wrap_360
from trainer.engine.quantities.air_sources import SIXTY_TO_ONE
from trainer.engine.quantities.carrier_sources import practice
from trainer.engine.quantities.entries import get, give, hdg, num, past_north, slip
from trainer.engine.quantity import EXACT, RULE, Quantity
from trainer.model import Source

ONE_IN_SIXTY = Source(
    text="flight-training page, one-in-sixty rule", section="opening and closing angle",
    url="https://www.runup.ca/1-in-60-rule-calculations/", status="secondary",
)  # fmt: skip
COMPASS = Source(
    text="European question bank, instrumentation", section="compass deviation card: for 120 steer 114",
    url="https://atplquestions.com/atplh-ir-atplh-question/instrumentation/16", status="secondary",
)  # fmt: skip
TRIPLE_DRIFT = Source(
    text="CNATRA P-871", section="holding, triple drift correction",
    url="http://navyflightmanuals.tpub.com/P-871/Start-The-Outbound-Leg-Timing-76.htm", status="published",
)  # fmt: skip

CORRECTION = Quantity(
    name="correction_to_destination", title="correction to the destination from a position off track",
    area="navigation", words=("one in sixty", "60-to-1", "track error", "closing angle", "off course"),
    inputs=(give("off_nm", "distance off track", "nm", 0, 60), give("flown_nm", "flown", "nm", 1, 600),
            give("to_go_nm", "to go", "nm", 1, 600)),
    results=(get("correction_deg", "turn towards it", "deg", 0.5, 2, round_to=1),),
    methods={EXACT: steering.correction_to_destination_deg},
    mental=lambda off_nm, flown_nm, to_go_nm: (
        "a mile in sixty is a degree: once for the track flown, once for the track to go",
        f"track error 60 x {num(off_nm, 1)} / {num(flown_nm)} = {num(60 * off_nm / flown_nm, 1)}°; "
        f"closing angle 60 x {num(off_nm, 1)} / {num(to_go_nm)} = {num(60 * off_nm / to_go_nm, 1)}°",
        f"together {num(60 * off_nm / flown_nm + 60 * off_nm / to_go_nm, 1)}°",
    ),
    slips=(
        slip("track error alone", "that only flies parallel; the closing angle takes you there",
             lambda off_nm, flown_nm, **_: np.asarray(off_nm) * 60.0 / flown_nm),
        slip("closing angle alone", "first stop drifting further off: the track error comes on top",
             lambda off_nm, to_go_nm, **_: np.asarray(off_nm) * 60.0 / to_go_nm),
        slip("over the whole leg", "each angle has its own distance",
             lambda off_nm, flown_nm, to_go_nm: np.asarray(off_nm) * 60.0 / (np.asarray(flown_nm) + to_go_nm)),
    ),
    source=ONE_IN_SIXTY,
)  # fmt: skip

COMPASS_HEADING = Quantity(
    name="compass_heading", title="compass heading from magnetic heading and deviation", area="navigation",
    words=("deviation", "compass card", "standby compass", "steer"),
    inputs=(give("magnetic_deg", "magnetic heading", "heading", 0, 360),
            give("deviation_deg", "deviation, east positive", "deg", -30, 30)),
    results=(get("compass_deg", "steer by the compass", "heading", 0.5, 1),),
    methods={EXACT: steering.compass_heading_deg},
    mental=lambda magnetic_deg, deviation_deg: (
        "deviation east, compass least; deviation west, compass best",
        f"{hdg(magnetic_deg)} {'-' if deviation_deg >= 0 else '+'} {num(abs(deviation_deg))} = "
        f"{hdg(steering.compass_heading_deg(magnetic_deg, deviation_deg))}",
    ),
    slips=(
        slip("the wrong way", "east is least: it comes off",
             lambda magnetic_deg, deviation_deg: wrap_360(np.asarray(magnetic_deg, dtype=float) + deviation_deg)),
        slip("deviation forgotten", "the card stands beside the compass for a reason",
             lambda magnetic_deg, **_: np.asarray(magnetic_deg, dtype=float)),
        slip("slipped passing north", "past north go on from 360",
             lambda magnetic_deg, deviation_deg: past_north(np.asarray(magnetic_deg, dtype=float) - deviation_deg)),
    ),
    source=COMPASS,
)  # fmt: skip

OUTBOUND = Quantity(
    name="holding_outbound_heading", title="outbound heading in holding, drift tripled", area="marshal",
    words=("holding drift", "triple drift", "wind", "racetrack", "outbound"),
    inputs=(give("inbound_course_deg", "inbound course", "heading", 0, 360),
            give("inbound_heading_deg", "heading that held it", "heading", 0, 360)),
    results=(get("outbound_deg", "outbound heading", "heading", 1, 3),),
    methods={EXACT: steering.outbound_heading_deg},
    mental=lambda inbound_course_deg, inbound_heading_deg: (
        f"inbound you held {hdg(inbound_heading_deg)} for {hdg(inbound_course_deg)}: "
        f"{num(abs(float(turn_deg(inbound_course_deg, inbound_heading_deg))))}° to the "
        f"{'right' if float(turn_deg(inbound_course_deg, inbound_heading_deg)) >= 0 else 'left'}",
        f"outbound three times that to the other side of {hdg(inbound_course_deg + 180)}: "
        f"{hdg(steering.outbound_heading_deg(inbound_course_deg, inbound_heading_deg))}",
    ),
    slips=(
        slip("the correction once", "the turns drift as well: three times on the way out",
             lambda inbound_course_deg, inbound_heading_deg:
             wrap_360(np.asarray(inbound_course_deg, dtype=float) + 180
                      - turn_deg(inbound_course_deg, inbound_heading_deg))),
        slip("to the same side", "seen from the cockpit the wind has changed sides",
             lambda inbound_course_deg, inbound_heading_deg:
             wrap_360(np.asarray(inbound_course_deg, dtype=float) + 180
                      + 3 * turn_deg(inbound_course_deg, inbound_heading_deg))),
        slip("no correction", "the reciprocal alone lets the wind carry you off the pattern",
             lambda inbound_course_deg, **_: wrap_360(np.asarray(inbound_course_deg, dtype=float) + 180)),
    ),
    source=TRIPLE_DRIFT,
)  # fmt: skip

BRC = Quantity(
    name="brc_from_final_bearing", title="BRC from the final bearing", area="approach",
    words=("brc", "final bearing", "angled deck", "reverse"),
    inputs=(give("final_bearing_deg", "final bearing", "heading", 0, 360),
            give("deck_angle_deg", "angle of the landing area", "deg", 0, 20, take="ship.deck_angle_deg")),
    results=(get("brc_deg", "BRC", "heading", 0.5, 1),),
    methods={EXACT: steering.brc_deg},
    mental=lambda final_bearing_deg, deck_angle_deg: (
        "the bow points to the right of the landing area: the angle comes on",
        f"{hdg(final_bearing_deg)} + {num(deck_angle_deg)} = "
        f"{hdg(steering.brc_deg(final_bearing_deg, deck_angle_deg))}",
    ),
    slips=(
        slip("took the angle off", "from the BRC to the final bearing it comes off; the way back it comes on",
             lambda final_bearing_deg, deck_angle_deg:
             wrap_360(np.asarray(final_bearing_deg, dtype=float) - deck_angle_deg)),
        slip("angle forgotten", "the ship does not steer the final bearing",
             lambda final_bearing_deg, **_: np.asarray(final_bearing_deg, dtype=float)),
        slip("slipped passing north", "past north go on from 1",
             lambda final_bearing_deg, deck_angle_deg:
             past_north(np.asarray(final_bearing_deg, dtype=float) + deck_angle_deg)),
    ),
    source=practice("the rule for the final bearing, turned round"),
)  # fmt: skip


def _along(bearing_deg, ship_course_deg):
    """Return the share of the ship's run that lies along the line to her, to a tenth, as it is known by heart."""
    return round(float(np.cos(np.radians(turn_deg(bearing_deg, ship_course_deg)))), 1)


def _range_line(bearing_deg, range_nm, ship_course_deg, run_nm):
    along = _along(bearing_deg, ship_course_deg)
    way, sign = ("away from you it adds", "+") if along >= 0 else ("towards you it comes off", "-")
    then = num(range_nm + along * run_nm, 1)
    return f"{way}: {num(range_nm)} {sign} {num(abs(along), 1)} x {num(run_nm, 1)} = {then} nm"


SHIP_LATER = Quantity(
    name="ship_later", title="where the ship will be", area="navigation",
    words=("intended movement", "ship position", "mother", "return", "later"),
    inputs=(give("bearing_deg", "bearing to the ship", "heading", 0, 360), give("range_nm", "range", "nm", 0, 500),
            give("ship_course_deg", "ship's course", "heading", 0, 360),
            give("ship_speed_kn", "ship's speed", "kn", 0, 40, take="ship.speed_kn"),
            give("time_min", "minutes from now", "min", 0, 600)),
    results=(get("range_nm", "range then", "nm", 1, 3, round_to=1),
             get("bearing_deg", "bearing then", "heading", 1, 4)),
    methods={EXACT: lambda **given: steering.ship_later(**given)[::-1]},
    mental=lambda bearing_deg, range_nm, ship_course_deg, ship_speed_kn, time_min: (
        f"she runs {num(ship_speed_kn)} kt x {num(time_min)} min = {num(ship_speed_kn * time_min / 60, 1)} nm "
        f"on {hdg(ship_course_deg)}",
        f"her course lies {num(abs(float(turn_deg(bearing_deg, ship_course_deg))))}° off your line to her, "
        f"{num(abs(_along(bearing_deg, ship_course_deg)), 1)} of the run along it (0.9 at 30°, 0.8 at 40°)",
        _range_line(bearing_deg, range_nm, ship_course_deg, ship_speed_kn * time_min / 60),
    ),
    exact=lambda **given: (
        f"as vectors: {num(steering.ship_later(**given)[1], 1)} nm on {hdg(steering.ship_later(**given)[0])}",
    ),
    slips=(
        slip("ship taken at rest", "she does not wait for you",
             lambda range_nm, **_: np.asarray(range_nm, dtype=float)),
        slip("all of the run added", "only its part along your line changes the range",
             lambda range_nm, ship_speed_kn, time_min, **_:
             np.asarray(range_nm) + np.asarray(ship_speed_kn) * time_min / 60.0),
        slip("towards for away", "she goes the other way",
             lambda bearing_deg, range_nm, ship_course_deg, ship_speed_kn, time_min:
             steering.ship_later(bearing_deg, range_nm, wrap_360(np.asarray(ship_course_deg, dtype=float) + 180),
                                 ship_speed_kn, time_min)[1]),
        slip("old bearing", "across your line she changes the bearing",
             lambda bearing_deg, **_: np.asarray(bearing_deg, dtype=float), "bearing_deg"),
        slip("her course for the bearing", "that is where she steers, not where she is",
             lambda ship_course_deg, **_: np.asarray(ship_course_deg, dtype=float), "bearing_deg"),
    ),
    source=practice("run of the ship, added as a vector"),
)  # fmt: skip

GROUNDSPEED = Quantity(
    name="groundspeed_from_ias", title="groundspeed from indicated speed, altitude and headwind", area="marshal",
    words=("true airspeed", "tas", "ias", "groundspeed", "push", "penetration", "headwind"),
    inputs=(give("ias_kn", "indicated airspeed", "kn", 60, 500, take="airwing.push_airspeed_kn"),
            give("altitude_ft", "altitude", "ft", 0, 40_000),
            give("headwind_kn", "headwind", "kn", -250, 250, default=0.0)),
    results=(get("groundspeed_kn", "groundspeed", "kn", 3, 12, round_to=1),
             get("tas_kn", "true airspeed", "kn", 3, 12, round_to=1)),
    methods={EXACT: lambda **given: steering.groundspeed_from_ias(**given)[::-1],
             RULE: lambda **given: steering.groundspeed_by_rule(**given)[::-1]},
    mental=lambda ias_kn, altitude_ft, headwind_kn: (
        f"two per cent a thousand feet: {num(2 * altitude_ft / 1_000)} % of {num(ias_kn)} is "
        f"{num(ias_kn * altitude_ft / 50_000)}; true {num(ias_kn * (1 + altitude_ft / 50_000))} kt",
        f"less the headwind: {num(ias_kn * (1 + altitude_ft / 50_000))} - {num(headwind_kn)} = "
        f"{num(ias_kn * (1 + altitude_ft / 50_000) - headwind_kn)} kt",
    ),
    slips=(
        slip("indicated for true", "the needle reads less than you fly: two per cent for each thousand feet",
             lambda ias_kn, headwind_kn, **_: np.asarray(ias_kn, dtype=float) - headwind_kn),
        slip("wind forgotten", "the headwind comes off",
             lambda ias_kn, altitude_ft, **_: np.asarray(ias_kn) * (1 + np.asarray(altitude_ft) / 50_000.0)),
        slip("headwind added", "a headwind comes off",
             lambda ias_kn, altitude_ft, headwind_kn:
             np.asarray(ias_kn) * (1 + np.asarray(altitude_ft) / 50_000.0) + headwind_kn),
        slip("indicated for true airspeed", "two per cent for each thousand feet on top",
             lambda ias_kn, **_: np.asarray(ias_kn, dtype=float), "tas_kn"),
        slip("one per cent", "two per cent for each thousand feet, not one",
             lambda ias_kn, altitude_ft, **_: np.asarray(ias_kn) * (1 + np.asarray(altitude_ft) / 100_000.0), "tas_kn"),
    ),
    source=SIXTY_TO_ONE,
)  # fmt: skip

QUANTITIES = (CORRECTION, COMPASS_HEADING, OUTBOUND, BRC, SHIP_LATER, GROUNDSPEED)
