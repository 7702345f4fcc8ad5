"""Quantities of arcs: the turn onto one, the way along it, the lead off it."""

import math

import numpy as np

from trainer.engine import arcs
from trainer.engine.picture import FOUND, Picture, Spot, Stroke
from trainer.engine.quantities.entries import TURN_SIDE, choose, get, give, hdg, num, reckoned, slip, verdict
from trainer.engine.quantities.pictures import ORIGIN, arc, line, moved
from trainer.engine.quantities.turns import GROUNDSPEED, RATE, SIXTY
from trainer.engine.quantity import EXACT, RULE, Quantity
from trainer.engine.turns import radius_at_rate_nm, radius_by_per_cent_nm
from trainer.model import Source

ONTO = Source(
    text="CNATRA P-1265 (RIFP-02); the turn at 7 nm for the 10 nm arc NAVEDTRA 14342A Table 11-10",
    section="flying the TACAN/VOR-DME arc",
    url="https://navyflightmanuals.tpub.com/P-1265/Flying-Tacan-Vor-Dme-Arc-P-12650071-71.htm",
    status="published",
)
OFF = Source(
    text="CNATRA P-1282 (INav-05); corrections P-1265 and P-1204 p. 76",
    section="p. 5-10, intercepting a radial from an arc",
    url="https://navyflightmanuals.tpub.com/P-1282/Intercepting-A-Radial-From-An-Arc-P-12820149-149.htm",
    status="published",
)
WAY = {1: "outbound", -1: "inbound"}
HALF_MILE = "rule with the half-mile correction"
THIRDS = "rule with the one-third correction"
BY_TURN = "rule with the correction for the turn"
DIRECTION = choose("direction", "flying", WAY)
ARC = give("arc_nm", "arc", "nm", 5, 60, take="airwing.departure_arc_nm", default=10.0)


def _onto_mental(arc_nm, groundspeed_kn, direction, turn_rate_deg_s):
    lead = radius_by_per_cent_nm(groundspeed_kn, turn_rate_deg_s)
    share = 1.5 / turn_rate_deg_s
    sign, why = ("-", "before") if direction > 0 else ("+", "outside")
    lines = (
        f"lead {num(share, 2)} % of {num(groundspeed_kn)} kt = {num(lead, 2)} nm",
        f"{WAY[int(direction)]} you begin {why} the arc: {num(arc_nm, 1)} {sign} {num(lead, 2)} = "
        f"{num(arc_nm - direction * lead, 2)} DME",
    )
    if arc_nm >= arcs.CLOSE_TO_ARC_NM:
        return lines
    more = "more" if direction > 0 else "less"
    return (*lines, f"inside about 12 DME half a mile {more} lead {WAY[int(direction)]}: "
                    f"{num(arc_nm - direction * lead - 0.5, 2)} DME")  # fmt: skip


def _onto_exact(arc_nm, groundspeed_kn, direction, turn_rate_deg_s):
    radius = radius_at_rate_nm(groundspeed_kn, turn_rate_deg_s)
    sign = "-" if direction > 0 else "+"
    return (
        f"a circle of {num(radius, 2)} nm that touches radial and arc: sqrt({num(arc_nm, 1)}^2 {sign} 2 x "
        f"{num(arc_nm, 1)} x {num(radius, 2)}) = "
        f"{num(arcs.arc_turn_point_nm(arc_nm, groundspeed_kn, direction, turn_rate_deg_s), 2)} DME",
    )


def _onto_picture(arc_nm, groundspeed_kn, direction, turn_rate_deg_s):
    turn = float(arcs.arc_turn_point_nm(arc_nm, groundspeed_kn, direction, turn_rate_deg_s))
    radius = float(radius_at_rate_nm(groundspeed_kn, turn_rate_deg_s))
    # The turning circle touches the radial at the turn point, and the arc on the line through both centres.
    centre = (turn, -radius)
    touching = 90.0 + math.degrees(math.atan2(radius, turn))
    begun = moved(ORIGIN, 90, arc_nm * (0.4 if direction > 0 else 1.5))
    way = (begun, *(arc(centre, radius, 0, touching) if direction > 0 else arc(centre, radius, 0, touching - 180)))
    return Picture(
        title="From a radial onto an arc",
        strokes=(line(ORIGIN, moved(ORIGIN, 90, arc_nm)), line(*arc(ORIGIN, arc_nm, 60, max(touching + 15, 120))),
                 Stroke(points=way, kind=FOUND, arrow=True)),
        spots=(Spot(at=ORIGIN, words="+"), Spot(at=(turn, 0.0), words="t"),
               Spot(at=moved(ORIGIN, 65, arc_nm), words="a")),
        legend=(f"+ station, a the {num(arc_nm, 1)} nm arc, the radial drawn to the right",
                f"t turn at {num(turn, 1)} nm, {WAY[int(direction)]}"),
    )  # fmt: skip


ARC_TURN_POINT = Quantity(
    name="arc_turn_point", title="turn point for an arc", area="departure",
    words=("arc", "lead", "one per cent", "10 nm arc", "arc lead"),
    inputs=(ARC, GROUNDSPEED, DIRECTION, RATE),
    results=(get("turn_point_nm", "turn at", "nm", 0.1, 0.2, round_to=0.1),),
    methods={
        EXACT: arcs.arc_turn_point_nm, RULE: arcs.arc_turn_point_by_rule,
        HALF_MILE: arcs.arc_turn_point_half_mile,
    },
    mental=_onto_mental, exact=_onto_exact, picture=_onto_picture,
    slips=(
        slip("lead the wrong way", "outbound the lead comes off the arc, inbound it goes on",
             lambda arc_nm, groundspeed_kn, direction, turn_rate_deg_s: (
                 arc_nm + direction * radius_by_per_cent_nm(groundspeed_kn, turn_rate_deg_s))),
        slip("no lead", "that is the arc itself: a turn begun there ends beyond it",
             lambda arc_nm, **_: arc_nm),
        slip("the other rate", "one per cent is for half standard rate, half a per cent for standard rate",
             lambda arc_nm, groundspeed_kn, direction, turn_rate_deg_s: arc_nm - direction * np.where(
                 np.asarray(turn_rate_deg_s) > 2.25, 2.0, 0.5) * radius_by_per_cent_nm(
                 groundspeed_kn, turn_rate_deg_s)),
    ),
    source=ONTO,
)  # fmt: skip


def _off_mental(arc_nm, groundspeed_kn, direction, turn_rate_deg_s):
    lead_nm = radius_by_per_cent_nm(groundspeed_kn, turn_rate_deg_s)
    lead = 60 / arc_nm * lead_nm
    lines = (
        f"radials to a mile: 60 / {num(arc_nm, 1)} = {num(60 / arc_nm, 2)}; lead {num(lead_nm, 2)} nm",
        f"{reckoned(60 / arc_nm, 'x', lead_nm, 1, places=(2, 2))} radials",
    )
    if arc_nm > arcs.CLOSE_OFF_ARC_NM:
        return lines
    sign, less = ("-", "less than") if direction > 0 else ("+", "more than")
    return (*lines, f"inside about 10 DME {WAY[int(direction)]} is {less} 90°: {sign} 1/3 gives "
                    f"{num(lead - direction * lead / 3, 1)}")  # fmt: skip


def _off_exact(arc_nm, groundspeed_kn, direction, turn_rate_deg_s):
    radius = radius_at_rate_nm(groundspeed_kn, turn_rate_deg_s)
    sign = "+" if direction > 0 else "-"
    return (
        f"sin(lead) = r / (R {sign} r) = {num(radius, 2)} / ({num(arc_nm, 1)} {sign} {num(radius, 2)}): "
        f"{num(arcs.lead_radials(arc_nm, groundspeed_kn, direction, turn_rate_deg_s), 1)} radials",
    )


def _off_picture(arc_nm, groundspeed_kn, direction, turn_rate_deg_s):
    lead = float(arcs.lead_radials(arc_nm, groundspeed_kn, direction, turn_rate_deg_s))
    radius = float(radius_at_rate_nm(groundspeed_kn, turn_rate_deg_s))
    begun = moved(ORIGIN, lead, arc_nm)
    along = arc(ORIGIN, arc_nm, lead + 40, lead)
    # Outbound the circle lies outside the arc, inbound inside it; both touch the radial, which is drawn up.
    centre = moved(ORIGIN, lead, arc_nm + direction * radius)
    turned = arc(centre, radius, 180 + lead, 270) if direction > 0 else arc(centre, radius, lead, -90)
    end = (0.0, arc_nm * (1.6 if direction > 0 else 0.3))
    return Picture(
        title="Off an arc onto a radial",
        strokes=(line(ORIGIN, (0.0, 1.3 * arc_nm)), line(*arc(ORIGIN, arc_nm, lead, -20)),
                 Stroke(points=along), Stroke(points=(*turned, end), kind=FOUND, arrow=True)),
        spots=(Spot(at=ORIGIN, words="+"), Spot(at=(0.0, 1.3 * arc_nm), words="R"), Spot(at=begun, words="t"),
               Spot(at=moved(ORIGIN, lead + 30, arc_nm), words="a")),
        legend=(f"+ station, R the radial, a along the {num(arc_nm, 1)} nm arc",
                f"t the turn begins {num(lead)} radials before R, then {WAY[int(direction)]}"),
    )  # fmt: skip


LEAD_RADIALS = Quantity(
    name="lead_radials", title="lead radials off an arc", area="departure",
    words=("arc", "radial intercept", "60 over arc", "arc lead"),
    inputs=(ARC, GROUNDSPEED, DIRECTION, RATE),
    results=(get("lead_radials", "lead", "radials", 0.5, 1),),
    methods={
        EXACT: arcs.lead_radials, RULE: arcs.lead_radials_by_rule, THIRDS: arcs.lead_radials_by_thirds,
        BY_TURN: arcs.lead_radials_by_turn,
    },
    mental=_off_mental, exact=_off_exact, picture=_off_picture,
    slips=(
        slip("miles for radials", "that is the lead in miles; 60 over the arc turns miles into radials",
             lambda groundspeed_kn, turn_rate_deg_s, **_: radius_by_per_cent_nm(
                 groundspeed_kn, turn_rate_deg_s)),
        slip("arc over sixty", "radials to a mile are 60 over the arc, not the arc over 60",
             lambda arc_nm, groundspeed_kn, turn_rate_deg_s, **_: arc_nm / 60 * radius_by_per_cent_nm(
                 groundspeed_kn, turn_rate_deg_s)),
        slip("correction the wrong way", "outbound is a smaller turn and takes less lead, inbound more",
             lambda arc_nm, groundspeed_kn, direction, turn_rate_deg_s: arcs.lead_radials_by_rule(
                 arc_nm, groundspeed_kn, direction, turn_rate_deg_s) * (1 + direction / 3)),
        slip("no close-arc correction", "inside about 10 DME the turn is not 90°: a third less outbound, "
                                        "more inbound",
             lambda **given: arcs.lead_radials_by_rule(**given)),
    ),
    source=OFF,
)  # fmt: skip


def _way_mental(from_radial_deg, to_radial_deg):
    degrees, way = arcs.arc_direction(from_radial_deg, to_radial_deg)
    gap = abs(from_radial_deg - to_radial_deg)
    through = f"; over 180, so through north: 360 - {num(gap)} = {num(360 - gap)}°" if gap > 180 else ""
    return (
        f"{hdg(from_radial_deg)} to {hdg(to_radial_deg)}: {num(gap)}° apart{through}",
        f"{num(degrees)}° to the {TURN_SIDE[int(way)]} ({'clockwise' if way > 0 else 'against the clock'})",
    )


def _way_picture(from_radial_deg, to_radial_deg):
    degrees, way = arcs.arc_direction(from_radial_deg, to_radial_deg)
    one, other = moved(ORIGIN, from_radial_deg, 1.0), moved(ORIGIN, to_radial_deg, 1.0)
    flown = arc(ORIGIN, 1.0, float(from_radial_deg), float(from_radial_deg + way * degrees))
    return Picture(
        title="The short way round an arc",
        strokes=(line(ORIGIN, one), line(ORIGIN, other), Stroke(points=flown, kind=FOUND, arrow=True)),
        spots=(Spot(at=ORIGIN, words="+"), Spot(at=one, words="1"), Spot(at=other, words="2")),
        legend=(f"north up; + station; from 1 ({hdg(from_radial_deg)})",
                f"{num(degrees)}° to 2 ({hdg(to_radial_deg)}), {TURN_SIDE[int(way)]}"),
    )  # fmt: skip


ARC_DIRECTION = Quantity(
    name="arc_direction", title="which way round the arc, and how far", area="departure",
    words=("arc", "radial", "BRC", "shortest"),
    inputs=(
        give("from_radial_deg", "radial you are on (outbound on the BRC: the BRC)", "heading", 0, 360),
        give("to_radial_deg", "radial you want", "heading", 0, 360),
    ),
    results=(
        get("arc_deg", "degrees of arc", "deg", 1, 5),
        verdict("way", "turn", TURN_SIDE),
    ),
    methods={EXACT: arcs.arc_direction},
    mental=_way_mental, picture=_way_picture,
    slips=(
        slip("the long way round", "that is the long way; take it from 360",
             lambda **given: 360 - arcs.arc_direction(**given)[0]),
        slip("forgot the wrap", "you subtracted straight through north",
             lambda from_radial_deg, to_radial_deg: np.abs(np.asarray(to_radial_deg) - from_radial_deg)),
        slip("from the reciprocal", "you counted from the reciprocal: outbound you are on the radial you fly",
             lambda **given: 180 - arcs.arc_direction(**given)[0]),
        slip("higher number means right", "across north the higher radial may lie to the left",
             lambda from_radial_deg, to_radial_deg: np.where(
                 np.asarray(to_radial_deg) > from_radial_deg, 1, -1)[()], "way"),
        slip("turned the long way", "the other way is shorter",
             lambda **given: -arcs.arc_direction(**given)[1], "way"),
    ),
    source=ONTO,
)  # fmt: skip


def _along_mental(arc_deg, arc_nm, groundspeed_kn):
    length = arc_deg * arc_nm / 60
    return (
        f"60-to-1: {num(arc_deg)} x {num(arc_nm, 1)} / 60 = {num(length, 1)} nm",
        f"at {num(groundspeed_kn / 60, 1)} nm a minute: {num(length / groundspeed_kn * 60, 1)} min, "
        f"{num(length / groundspeed_kn * 3600)} s",
        "the exact length is a twentieth more",
    )


def _along_picture(arc_deg, arc_nm, groundspeed_kn):
    length, time_s = arcs.arc_length_and_time(arc_deg, arc_nm, groundspeed_kn)
    flown = arc(ORIGIN, arc_nm, 0.0, float(arc_deg))
    return Picture(
        title="The way along an arc",
        strokes=(line(ORIGIN, flown[0]), line(ORIGIN, flown[-1]), Stroke(points=flown, kind=FOUND, arrow=True)),
        spots=(Spot(at=ORIGIN, words="+"), Spot(at=flown[0], words="1"), Spot(at=flown[-1], words="2")),
        legend=(f"+ station; 1 to 2 {num(arc_deg)}° at {num(arc_nm, 1)} nm: {num(length, 1)} nm, {num(time_s)} s",),
    )  # fmt: skip


ARC_TIME = Quantity(
    name="arc_time", title="length and time of an arc", area="departure",
    words=("arc", "60-to-1"),
    inputs=(
        give("arc_deg", "degrees of arc", "deg", 1, 360),
        give("arc_nm", "arc", "nm", 1, 100, take="airwing.departure_arc_nm", default=10.0),
        GROUNDSPEED,
    ),
    results=(
        get("arc_length_nm", "length", "nm", 0.2, 1, round_to=0.1),
        get("arc_time_s", "time", "s", 3, 10),
    ),
    methods={EXACT: arcs.arc_length_and_time, RULE: arcs.arc_length_and_time_by_rule},
    mental=_along_mental,
    picture=_along_picture,
    exact=lambda arc_deg, arc_nm, groundspeed_kn: (
        f"{num(arc_deg)}° x pi / 180 x {num(arc_nm, 1)} nm = "
        f"{num(arcs.arc_length_and_time(arc_deg, arc_nm, groundspeed_kn)[0], 2)} nm, "
        f"{num(arcs.arc_length_and_time(arc_deg, arc_nm, groundspeed_kn)[1], 1)} s",
    ),
    slips=(
        slip("degrees as miles", "you gave the degrees; a degree is a mile at 60 only",
             lambda arc_deg, **_: arc_deg),
        slip("radius as length", "that is the arc's radius",
             lambda arc_nm, **_: arc_nm),
        slip("share of 360", "you took the degrees as a share of 360 times the radius; the circumference "
                             "is 6 radii",
             lambda arc_deg, arc_nm, **_: arc_deg / 360 * arc_nm),
        slip("radius for the time", "you timed the radius, not the arc",
             lambda arc_nm, groundspeed_kn, **_: arc_nm / groundspeed_kn * 3600, "arc_time_s"),
        slip("share of 360 for the time", "you took the degrees as a share of 360 times the radius",
             lambda arc_deg, arc_nm, groundspeed_kn: arc_deg / 360 * arc_nm / groundspeed_kn * 3600,
             "arc_time_s"),
        slip("minutes as seconds", "that is minutes; the time is wanted in seconds",
             lambda arc_deg, arc_nm, groundspeed_kn: arc_deg * arc_nm / groundspeed_kn, "arc_time_s"),
    ),
    source=SIXTY,
)  # fmt: skip

QUANTITIES = (ARC_TURN_POINT, LEAD_RADIALS, ARC_DIRECTION, ARC_TIME)
