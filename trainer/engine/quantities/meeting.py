"""Quantities of a meeting: the intercept of a moving ship, closing speed and time."""

import numpy as np

from trainer.engine import encounter
from trainer.engine.angles import turn_deg, wrap_360
from trainer.engine.picture import FOUND, FRAME, GIVEN
from trainer.engine.quantities.entries import as_printed, choose, get, give, hdg, num, slip
from trainer.engine.quantities.pictures import around
from trainer.engine.quantities.wind_words import side
from trainer.engine.quantity import EXACT, Quantity
from trainer.engine.wind import ahead_and_across
from trainer.model import Source

MEETING = Source(
    text="geometry of an intercept, worked example of a radar-plotting course",
    url="https://astrosail.com/abfangkurs-radar",
    status="secondary",
)
RELATIVE = Source(
    text="ATPL navigation notes, relative velocity (speeds add head-on, subtract from astern)",
    url="https://ask-elton.nz/licences/licence-atpl/licence-atpl-navigation/licence-atpl-navigation-relative-velocity",
    status="secondary",
)


def _intercept_mental(ship_bearing_deg, ship_range_nm, ship_course_deg, ship_speed_kn, groundspeed_kn):
    away, across = ahead_and_across(ship_speed_kn, turn_deg(ship_bearing_deg, ship_course_deg))
    course, minutes, miles = encounter.intercept(
        ship_bearing_deg, ship_range_nm, ship_course_deg, ship_speed_kn, groundspeed_kn
    )
    lead = 60 * float(across) / groundspeed_kn
    told, _ = as_printed(lambda side_kn, own: 60 * side_kn / own, (abs(float(across)), groundspeed_kn), (1, 0), 1)
    return (
        f"the ship bears {hdg(ship_bearing_deg)}; its {num(ship_speed_kn)} kt are "
        f"{num(abs(away), 1)} {'away from' if away >= 0 else 'towards'} you and {num(abs(across), 1)} to the "
        f"{side(across)}",
        f"lead it by 60 x {told[0]} / {told[1]} = {num(abs(lead), 1)}° to the "
        f"{side(lead)}: "
        f"{hdg(ship_bearing_deg + lead)} ({hdg(course)} exactly)",
        f"closing {num(groundspeed_kn)} {'-' if away >= 0 else '+'} {num(abs(away), 1)} = "
        f"{num(groundspeed_kn - away)} kt; {num(ship_range_nm, 1)} nm in {num(minutes, 1)} min, "
        f"{num(miles, 1)} nm flown",
    )


def _intercept_exact(**given):
    course, minutes, miles = encounter.intercept(**given)
    return (
        f"the way to where the ship then is, over your speed, is the time: t = {num(minutes, 2)} min, "
        f"{num(course, 1)}°, {num(miles, 1)} nm",
    )


def _intercept_picture(ship_bearing_deg, ship_range_nm, ship_course_deg, ship_speed_kn, groundspeed_kn):
    course, minutes, miles = encounter.intercept(
        ship_bearing_deg, ship_range_nm, ship_course_deg, ship_speed_kn, groundspeed_kn
    )
    return around(
        (("M", course, miles), ("S", ship_bearing_deg, ship_range_nm)), (("+S", FRAME), ("SM", GIVEN), ("+M", FOUND)),
        title="You and the ship meet",
        legend=(f"north up, + you; S ship now, steams {hdg(ship_course_deg)}",
                f"M meeting on {hdg(course)} after {num(minutes, 1)} min"),
    )  # fmt: skip


INTERCEPT = Quantity(
    name="intercept", title="course and time to meet a moving ship", area="navigation",
    words=("return leg", "moving ship", "lead", "rendezvous"),
    inputs=(
        give("ship_bearing_deg", "bearing of the ship", "heading", 0, 360),
        give("ship_range_nm", "range", "nm", 0.1, 1000),
        give("ship_course_deg", "ship's course", "heading", 0, 360),
        give("ship_speed_kn", "ship's speed", "kn", 0, 1000),
        give("groundspeed_kn", "own groundspeed", "kn", 1, 1000),
    ),
    results=(
        get("course_deg", "course to fly", "heading", 1, 2),
        get("time_min", "time to meet", "min", 0.2, 1, round_to=0.1),
        get("distance_nm", "distance flown", "nm", 0.5, 2, round_to=0.1),
    ),
    methods={EXACT: encounter.intercept},
    mental=_intercept_mental, exact=_intercept_exact, picture=_intercept_picture,
    slips=(
        slip("flew to where it is", "it will have moved on by the time you arrive: lead it",
             lambda ship_bearing_deg, **_: ship_bearing_deg),
        slip("led the wrong way", "you led on the side the ship comes from",
             lambda **given: wrap_360(2 * given["ship_bearing_deg"] - encounter.intercept(**given)[0])),
        slip("ship at rest", "you took the ship as lying still",
             lambda ship_range_nm, groundspeed_kn, **_: ship_range_nm / groundspeed_kn * 60, "time_min"),
        slip("ship the other way", "you took the ship as steaming the other way",
             lambda ship_range_nm, groundspeed_kn, ship_speed_kn, ship_bearing_deg, ship_course_deg: 60
             * ship_range_nm / np.maximum(groundspeed_kn + ahead_and_across(
                 ship_speed_kn, turn_deg(ship_bearing_deg, ship_course_deg))[0], 1.0), "time_min"),
        slip("the ship's way", "that is how far the ship steams until you meet",
             lambda **given: encounter.intercept(**given)[1] / 60 * given["ship_speed_kn"], "distance_nm"),
        slip("range now", "that is the range now, not the way to the meeting",
             lambda ship_range_nm, **_: ship_range_nm, "distance_nm"),
    ),
    source=MEETING,
)  # fmt: skip

CLOSING = Quantity(
    name="closing", title="closing speed and time to meet", area="navigation",
    words=("closure", "overtake", "head-on", "join-up"),
    inputs=(
        give("distance_nm", "distance between", "nm", 0, 1000),
        give("own_speed_kn", "own speed", "kn", 1, 1000),
        give("target_speed_kn", "the other's speed", "kn", 0, 1000),
        choose("geometry", "you meet", {1: "head-on", -1: "from astern"}),
    ),
    results=(
        get("closing_kn", "closing speed", "kn", 1, 5),
        get("time_min", "time to meet", "min", 0.1, 0.3, round_to=0.1),
    ),
    methods={EXACT: encounter.closing},
    mental=lambda distance_nm, own_speed_kn, target_speed_kn, geometry: (
        f"{'head-on the speeds add' if geometry > 0 else 'from astern they subtract'}: {num(own_speed_kn)} "
        f"{'+' if geometry > 0 else '-'} {num(target_speed_kn)} = "
        f"{num(own_speed_kn + geometry * target_speed_kn)} kt",
        f"{num((own_speed_kn + geometry * target_speed_kn) / 60, 2)} nm a minute; {num(distance_nm, 1)} "
        "nm take "
        f"{num(distance_nm / (own_speed_kn + geometry * target_speed_kn) * 60, 1)} min",
    ),
    slips=(
        slip("sign of the other speed", "head-on the speeds add, from astern they subtract",
             lambda own_speed_kn, target_speed_kn, geometry, **_: np.abs(
                 own_speed_kn - geometry * target_speed_kn)),
        slip("own speed only", "the other one moves as well",
             lambda own_speed_kn, **_: own_speed_kn),
        slip("time at own speed", "you took the other one as standing still",
             lambda distance_nm, own_speed_kn, **_: distance_nm / own_speed_kn * 60, "time_min"),
        slip("time with the wrong sign", "head-on the speeds add, from astern they subtract",
             lambda distance_nm, own_speed_kn, target_speed_kn, geometry: distance_nm / np.maximum(
                 np.abs(own_speed_kn - geometry * target_speed_kn), 0.1) * 60, "time_min"),
    ),
    source=RELATIVE,
)  # fmt: skip

QUANTITIES = (INTERCEPT, CLOSING)
