"""Arcs as they are flown about a moving ship, in the wind felt aboard: what the rules of thumb leave out."""

import numpy as np

from trainer.engine import over_ship
from trainer.engine.quantities.carrier_sources import practice
from trainer.engine.quantities.entries import TURN_SIDE, choose, get, give, min_s, num, slip
from trainer.engine.quantity import EXACT, Quantity
from trainer.engine.triangle import heading_and_groundspeed

KINEMATICS = practice("plane kinematics in the ship's frame, where the wind is the one felt aboard")
WAY = choose("way", "which way the arc goes", TURN_SIDE)
ARC = give("arc_nm", "arc", "nm", 5, 60, take="airwing.departure_arc_nm", default=10.0)
FLOWN = (
    give("tas_kn", "true airspeed", "kn", 60, 700),
    give("felt_from_deg", "wind felt aboard, from", "heading", 0, 360),
    give("felt_kn", "wind felt aboard", "kn", 0, 120),
)
RATE = give("turn_rate_deg_s", "rate of turn", "deg/s", 0.5, 6, default=1.5)


def _each(function):
    """Return ``function`` for floats and arrays alike."""
    return lambda **inputs: np.vectorize(lambda *values: function(**dict(zip(inputs, values, strict=True))))(
        *inputs.values()
    )[()]


def _calm(function, result=""):
    return slip("wind and way left out", "the ship moves and the wind blows: both carry you past her",
                lambda **inputs: _each(function)(**{**inputs, "felt_kn": 0.0}), result)  # fmt: skip


def _outbound(radial_deg, tas_kn, felt_from_deg, felt_kn):
    return float(heading_and_groundspeed(radial_deg, tas_kn, felt_from_deg, felt_kn)[1])


def _turn_lines(radial_deg, way, arc_nm, tas_kn, felt_from_deg, felt_kn, turn_rate_deg_s):
    opening = _outbound(radial_deg, tas_kn, felt_from_deg, felt_kn)
    begin = over_ship.turn_onto_arc_nm(radial_deg, way, arc_nm, tas_kn, turn_rate_deg_s, felt_from_deg, felt_kn)
    return (
        f"you open from the ship at {num(opening)} kt: by the rule one per cent of that, {num(opening / 100, 1)} nm, "
        f"before the arc: {num(arc_nm - opening / 100, 1)} nm",
        f"close in the arc bends away and the turn takes longer: begin at {num(begin, 1)} nm",
    )


TURN = Quantity(
    name="arc_turn_over_ship", title="turn onto an arc about the moving ship, in the wind", area="departure",
    words=("arc", "turn", "wind", "ship's way", "flown"),
    inputs=(give("radial_deg", "radial outbound", "heading", 0, 360), WAY, ARC, *FLOWN, RATE),
    results=(get("begin_nm", "begin the turn at", "nm", 0.1, 0.2, round_to=0.1),),
    methods={EXACT: _each(over_ship.turn_onto_arc_nm)},
    mental=_turn_lines,
    slips=(
        _calm(over_ship.turn_onto_arc_nm),
        slip("one per cent", "close in, the rule of one per cent begins the turn too late",
             lambda arc_nm, tas_kn, **_: np.asarray(arc_nm) - np.asarray(tas_kn) / 100.0),
    ),
    source=KINEMATICS,
)  # fmt: skip


def _lead_lines(radial_deg, way, arc_nm, tas_kn, felt_from_deg, felt_kn, turn_rate_deg_s):
    lead = over_ship.lead_off_arc_deg(radial_deg, way, arc_nm, tas_kn, turn_rate_deg_s, felt_from_deg, felt_kn)
    return (
        f"by the rule one per cent of the speed, sixty over the arc radials a mile: {num(tas_kn / 100, 1)} x "
        f"{num(60 / arc_nm, 1)} = {num(tas_kn / 100 * 60 / arc_nm)} radials",
        f"outbound off a close arc it is about a third less, and the wind drifts you in the turn: {num(lead)} radials",
    )


LEAD = Quantity(
    name="arc_lead_over_ship", title="lead off an arc about the moving ship, in the wind", area="departure",
    words=("arc", "lead", "radials", "wind", "ship's way", "flown"),
    inputs=(give("radial_deg", "radial to fly out on", "heading", 0, 360), WAY, ARC, *FLOWN, RATE),
    results=(get("lead_radials", "lead", "radials", 1, 2, round_to=1),),
    methods={EXACT: _each(over_ship.lead_off_arc_deg)},
    mental=_lead_lines,
    slips=(
        _calm(over_ship.lead_off_arc_deg),
        slip("the plain rule", "close in, outbound, about a third comes off the rule",
             lambda arc_nm, tas_kn, **_: np.asarray(tas_kn) * 0.6 / np.asarray(arc_nm)),
    ),
    source=KINEMATICS,
)  # fmt: skip


def _time_lines(from_radial_deg, arc_deg, way, arc_nm, tas_kn, felt_from_deg, felt_kn):
    seconds = over_ship.arc_seconds(from_radial_deg, arc_deg, way, arc_nm, tas_kn, felt_from_deg, felt_kn)
    amid = (from_radial_deg + way * (arc_deg / 2 + 90)) % 360
    speed, length = _outbound(amid, tas_kn, felt_from_deg, felt_kn), arc_deg * arc_nm / 60
    return (
        f"length: {num(arc_deg)} x {num(arc_nm)} / 60 = {num(length, 1)} nm",
        f"half way round you make {num(speed)} kt over the ship: {num(length, 1)} nm take "
        f"{min_s(length / speed * 3600)}; all the way round {min_s(seconds)}",
    )


TIME = Quantity(
    name="arc_time_over_ship", title="time on an arc about the moving ship, in the wind", area="departure",
    words=("arc", "time", "wind", "ship's way", "flown"),
    inputs=(give("from_radial_deg", "radial where the arc begins", "heading", 0, 360),
            give("arc_deg", "degrees of arc", "deg", 1, 180), WAY, ARC, *FLOWN),
    results=(get("arc_time_s", "time on the arc", "s", 5, 15, round_to=1),),
    methods={EXACT: _each(over_ship.arc_seconds)},
    mental=_time_lines,
    slips=(
        _calm(over_ship.arc_seconds),
        slip("the other way round", "the wind that helps one way round hinders the other",
             lambda **inputs: _each(over_ship.arc_seconds)(**{**inputs, "way": -np.asarray(inputs["way"])})),
    ),
    source=KINEMATICS,
)  # fmt: skip

QUANTITIES = (TURN, LEAD, TIME)
