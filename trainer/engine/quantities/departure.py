"""Quantities of the departure: clearing turn, climb point, gates, departure radials."""

import numpy as np

from trainer.engine import departure
from trainer.engine.angles import wrap_360
from trainer.engine.quantities.carrier_sources import (
    CLEARING,
    DEPARTURE_TABLE,
    DEPARTURE_TEXT,
    RENDEZVOUS,
    practice,
)
from trainer.engine.quantities.entries import (
    CATAPULT_SIDE,
    TURN_SIDE,
    choose,
    get,
    give,
    hdg,
    num,
    past_north,
    reckoned,
    slip,
    verdict,
)
from trainer.engine.quantities.pictures import clearing
from trainer.engine.quantity import EXACT, Quantity

BRC = give("brc_deg", "BRC", "heading", 0, 360)
GROUNDSPEED = give("groundspeed_kn", "ground speed", "kn", 60, 700, take="airwing.departure_airspeed_kn", default=300)
SHIP_SPEED = give("ship_speed_kn", "ship's speed", "kn", 0, 45, take="ship.speed_kn")
CLIMB_DISTANCE = give(
    "climb_distance_nm", "beacon distance of the climb", "nm", 1, 60, take="airwing.climb_distance_nm", default=7
)


def _clearing_lines(brc_deg, side, turn_deg):
    clearing, after = departure.clearing_headings_deg(brc_deg, side, turn_deg)
    sign = "+" if side > 0 else "-"
    return (
        f"a {CATAPULT_SIDE[int(side)]} catapult turns {TURN_SIDE[int(side)]}: "
        f"{hdg(brc_deg)} {sign} {num(turn_deg)} = {hdg(clearing)}",
        f"then reverse the turn and parallel the BRC: {hdg(after)}",
    )


def _clearing_picture(brc_deg, side, turn_deg):
    out, after = departure.clearing_headings_deg(brc_deg, side, turn_deg)
    way = "bow catapult, turn right" if side > 0 else "waist catapult, turn left"
    return clearing(
        side=side, turn_deg=turn_deg, title="The clearing turn",
        legend=(f"bow up; S ship on BRC {hdg(brc_deg)}; {way}",
                f"1 {hdg(out)}, 2 {hdg(after)} again, parallel to the BRC"),
    )  # fmt: skip


CLEARING_TURN = Quantity(
    name="clearing_turn",
    title="clearing turn and the heading after it",
    area="departure",
    words=("clearing turn", "catapult", "bow", "waist", "launch", "heading"),
    inputs=(
        BRC,
        choose("side", "catapult", CATAPULT_SIDE),
        give("turn_deg", "size of the clearing turn", "deg", 0, 45, take="airwing.clearing_turn_deg", default=20),
    ),
    results=(
        get("clearing_heading_deg", "heading in the clearing turn", "heading", 0.5, 2),
        get("parallel_heading_deg", "heading after the clearing turn", "heading", 0.5, 2),
    ),
    methods={EXACT: departure.clearing_headings_deg},
    mental=_clearing_lines,
    picture=_clearing_picture,
    slips=(
        slip("turned the wrong way", "bow catapults clear to the right, waist catapults to the left",
             lambda brc_deg, side, turn_deg: wrap_360(brc_deg - np.asarray(side) * turn_deg)),
        slip("did not turn", "that is the BRC; the clearing turn comes first",
             lambda brc_deg, side, turn_deg: wrap_360(brc_deg)),
        slip("slipped passing north", "past north add or take 360 with care: 005 - 20 is 345",
             lambda brc_deg, side, turn_deg: past_north(brc_deg + np.asarray(side, dtype=float) * turn_deg)),
        slip("kept the clearing heading", "the turn is reversed: afterwards you parallel the BRC",
             lambda brc_deg, side, turn_deg: departure.clearing_headings_deg(brc_deg, side, turn_deg)[0],
             "parallel_heading_deg"),
        slip("turned twice", "you reversed by twice the turn; stop when the BRC is on the nose",
             lambda brc_deg, side, turn_deg: wrap_360(brc_deg - np.asarray(side) * turn_deg),
             "parallel_heading_deg"),
    ),
    source=CLEARING,
)  # fmt: skip


def _climb_lines(climb_distance_nm, groundspeed_kn):
    per_mile = 3600 / groundspeed_kn
    return (
        f"{num(groundspeed_kn)} kt is {num(groundspeed_kn / 60, 2)} nm a minute, so a mile takes {num(per_mile, 1)} s",
        f"{num(climb_distance_nm, 1)} nm x {num(per_mile, 1)} s = {num(climb_distance_nm * per_mile)} s",
    )


CLIMB_POINT = Quantity(
    name="climb_point_time",
    title="time to the climb point",
    area="departure",
    words=("climb", "500 ft", "seven miles", "departure"),
    inputs=(CLIMB_DISTANCE, GROUNDSPEED),
    results=(get("time_s", "time to the climb point", "s", 1.5, 5),),
    methods={EXACT: departure.climb_point_s},
    mental=_climb_lines,
    slips=(
        slip("ten miles", "you used the arc's ten miles; the climb starts where the drill says",
             lambda climb_distance_nm, groundspeed_kn: 10 * 3600 / groundspeed_kn),
        slip("speed over distance", "you divided the wrong way: miles over miles a minute",
             lambda climb_distance_nm, groundspeed_kn: groundspeed_kn / climb_distance_nm),
        slip("tenths of a minute read as seconds", "a tenth of a minute is six seconds",
             lambda climb_distance_nm, groundspeed_kn:
             np.floor(climb_distance_nm * 60 / np.asarray(groundspeed_kn)) * 60
             + np.mod(climb_distance_nm * 60 / np.asarray(groundspeed_kn), 1) * 100),
    ),
    source=DEPARTURE_TABLE,
)  # fmt: skip


def _opening_lines(climb_distance_nm, groundspeed_kn, ship_speed_kn):
    opening = groundspeed_kn - ship_speed_kn
    seconds, flown = departure.beacon_climb_point(climb_distance_nm, groundspeed_kn, ship_speed_kn)
    return (
        "the beacon sails after you: it opens at your speed less the ship's",
        f"{num(groundspeed_kn)} - {num(ship_speed_kn)} = {num(opening)} kt, "
        f"{num(opening / 60, 2)} nm a minute, {num(3600 / opening, 1)} s a mile",
        f"{num(climb_distance_nm, 1)} nm x {num(3600 / opening, 1)} s = {num(seconds)} s until the beacon shows "
        f"{num(climb_distance_nm, 1)}",
        f"over the water you have flown {num(flown, 1)} nm; the clearing turn is neglected",
    )


BEACON_CLIMB = Quantity(
    name="beacon_climb_point",
    title="climb point on the beacon of a moving ship",
    area="departure",
    words=("climb", "tacan", "moving ship", "seven miles", "departure", "opening"),
    inputs=(CLIMB_DISTANCE, GROUNDSPEED, SHIP_SPEED),
    results=(
        get("time_s", "time until the beacon shows the climb distance", "s", 1.5, 5),
        get("flown_nm", "distance flown over the water by then", "nm", 0.1, 0.2, round_to=0.1),
    ),
    methods={EXACT: departure.beacon_climb_point},
    mental=_opening_lines,
    slips=(
        slip("ship taken at rest", "the ship follows you: take its speed off yours first",
             lambda climb_distance_nm, groundspeed_kn, ship_speed_kn: climb_distance_nm * 3600 / groundspeed_kn),
        slip("added the ship's speed", "ship and aircraft go the same way: subtract the speeds",
             lambda climb_distance_nm, groundspeed_kn, ship_speed_kn:
             climb_distance_nm * 3600 / (groundspeed_kn + ship_speed_kn)),
        slip("ten miles", "you used the arc's ten miles",
             lambda climb_distance_nm, groundspeed_kn, ship_speed_kn: 36_000 / (groundspeed_kn - ship_speed_kn)),
        slip("beacon distance taken as flown",
             "the ship has moved as well: you have flown further than the beacon shows",
             lambda climb_distance_nm, groundspeed_kn, ship_speed_kn: climb_distance_nm, "flown_nm"),
    ),
    source=practice("plane geometry on the 7 nm of NAVEDTRA 14342A Table 11-10; clearing turn neglected"),
)  # fmt: skip

BEACON_READING = Quantity(
    name="beacon_reading",
    title="what the beacon shows some time after launch",
    area="departure",
    words=("tacan", "moving ship", "opening", "departure"),
    inputs=(
        give("elapsed_s", "time since passing the bow", "s", 0, 600),
        GROUNDSPEED,
        SHIP_SPEED,
    ),
    results=(get("beacon_nm", "beacon distance", "nm", 0.1, 0.3, round_to=0.1),),
    methods={EXACT: departure.beacon_reading_nm},
    mental=lambda elapsed_s, groundspeed_kn, ship_speed_kn: (
        f"opening speed {num(groundspeed_kn)} - {num(ship_speed_kn)} = {num(groundspeed_kn - ship_speed_kn)} kt, "
        f"{num((groundspeed_kn - ship_speed_kn) / 60, 2)} nm a minute",
        f"{num(elapsed_s)} s is {num(elapsed_s / 60, 2)} min: x {num((groundspeed_kn - ship_speed_kn) / 60, 2)} = "
        f"{num(elapsed_s * (groundspeed_kn - ship_speed_kn) / 3600, 1)} nm",
    ),
    slips=(
        slip("ship taken at rest", "the ship follows you: take its speed off yours first",
             lambda elapsed_s, groundspeed_kn, ship_speed_kn: elapsed_s * groundspeed_kn / 3600),
        slip("added the ship's speed", "ship and aircraft go the same way: subtract the speeds",
             lambda elapsed_s, groundspeed_kn, ship_speed_kn: elapsed_s * (groundspeed_kn + ship_speed_kn) / 3600),
        slip("seconds read as hundredths", "sixty seconds make a minute, not a hundred",
             lambda elapsed_s, groundspeed_kn, ship_speed_kn:
             elapsed_s * (groundspeed_kn - ship_speed_kn) / 6000),
    ),
    source=practice("plane geometry; clearing turn neglected"),
)  # fmt: skip

GATE_CLIMB = Quantity(
    name="gate_climb_rate",
    title="mean climb to meet a departure gate",
    area="departure",
    words=("climb", "gate", "1,500 at 5", "Case III departure"),
    inputs=(
        give("gate_altitude_ft", "altitude of the gate", "ft", 0, 20_000, take="airwing.first_gate_ft", default=1500),
        give("gate_distance_nm", "distance of the gate", "nm", 0.5, 60, take="airwing.first_gate_nm", default=5),
        GROUNDSPEED,
    ),
    results=(get("climb_ft_min", "mean climb", "ft/min", 25, 100, round_to=50),),
    methods={EXACT: departure.gate_climb_ft_min},
    mental=lambda gate_altitude_ft, gate_distance_nm, groundspeed_kn: (
        f"{num(gate_altitude_ft)} ft in {num(gate_distance_nm, 1)} nm is "
        f"{num(gate_altitude_ft / gate_distance_nm)} ft a mile",
        f"{num(groundspeed_kn)} kt is {num(groundspeed_kn / 60, 2)} nm a minute: "
        f"{reckoned(gate_altitude_ft / gate_distance_nm, 'x', groundspeed_kn / 60, 0, places=(0, 2))} ft/min",
    ),
    slips=(
        slip("feet per mile taken as the rate", "that is feet a mile; times miles a minute gives feet a minute",
             lambda gate_altitude_ft, gate_distance_nm, groundspeed_kn: gate_altitude_ft / gate_distance_nm),
        slip("used seven miles", "the gate stands nearer than the turn at seven",
             lambda gate_altitude_ft, gate_distance_nm, groundspeed_kn: gate_altitude_ft / 7 * groundspeed_kn / 60),
        slip("used the altitude as the rate", "that is the altitude; it is not reached in exactly a minute",
             lambda gate_altitude_ft, gate_distance_nm, groundspeed_kn: gate_altitude_ft),
    ),
    source=DEPARTURE_TABLE,
)  # fmt: skip


def _band_lines(departure_airspeed_kn, departure_altitude_ft, percent):
    width_kn, width_ft = departure_airspeed_kn * percent / 100, departure_altitude_ft * percent / 100
    return (
        f"ten per cent is the number with a nought less; {num(percent, 1)} per cent of "
        f"{num(departure_airspeed_kn)} kt is {num(width_kn, 1)} kt, of {num(departure_altitude_ft)} ft "
        f"{num(width_ft, 1)} ft",
        f"{num(departure_airspeed_kn - width_kn, 1)} to {num(departure_airspeed_kn + width_kn, 1)} kt, "
        f"{num(departure_altitude_ft - width_ft, 1)} to {num(departure_altitude_ft + width_ft, 1)} ft",
    )


BAND = Quantity(
    name="departure_band",
    title="airspeed and altitude limits until the climb",
    area="departure",
    words=("tolerance", "percent", "300 kt", "500 ft", "limits", "airspeed"),
    inputs=(
        give("departure_airspeed_kn", "departure airspeed", "kn", 60, 500,
             take="airwing.departure_airspeed_kn", default=300),
        give("departure_altitude_ft", "departure altitude", "ft", 100, 20_000,
             take="airwing.departure_altitude_ft", default=500),
        give("percent", "allowed deviation", "%", 0, 50, take="airwing.departure_band_percent", default=5),
    ),
    results=(
        get("lowest_airspeed_kn", "lowest airspeed", "kn", 0.5, 1),
        get("highest_airspeed_kn", "highest airspeed", "kn", 0.5, 1),
        get("lowest_altitude_ft", "lowest altitude", "ft", 0.5, 5),
        get("highest_altitude_ft", "highest altitude", "ft", 0.5, 5),
    ),
    methods={EXACT: departure.band},
    mental=_band_lines,
    slips=(
        slip("per cent taken as knots", "per cent is a share of the airspeed, not knots",
             lambda departure_airspeed_kn, departure_altitude_ft, percent: departure_airspeed_kn - percent),
        slip("took double the share", "you took twice the percentage: ten for five",
             lambda departure_airspeed_kn, departure_altitude_ft, percent:
             departure_airspeed_kn * (1 - np.asarray(percent) / 50)),
        slip("per cent taken as knots", "per cent is a share of the airspeed, not knots",
             lambda departure_airspeed_kn, departure_altitude_ft, percent: departure_airspeed_kn + percent,
             "highest_airspeed_kn"),
        slip("share of the airspeed", "the altitude has a share of its own",
             lambda departure_airspeed_kn, departure_altitude_ft, percent:
             departure_altitude_ft - departure_airspeed_kn * np.asarray(percent) / 100,
             "lowest_altitude_ft"),
        slip("share of the airspeed", "the altitude has a share of its own",
             lambda departure_airspeed_kn, departure_altitude_ft, percent:
             departure_altitude_ft + departure_airspeed_kn * np.asarray(percent) / 100,
             "highest_altitude_ft"),
    ),
    source=practice("300 kt and 500 ft within 5 % until 7 nm"),
)  # fmt: skip

RADIALS = Quantity(
    name="departure_radials_conflict",
    title="do departure radials conflict",
    area="departure",
    words=("departure radial", "spacing", "separation"),
    inputs=(
        *(give(f"radial_{n}_deg", f"departure radial {n}", "heading", 0, 360) for n in range(1, 5)),
        give("radial_spacing_deg", "least spacing", "deg", 0, 90, take="airwing.radial_spacing_deg", default=20),
    ),
    results=(
        verdict("conflict", "conflict", {1: "conflict", 0: "clear"}),
        get("smallest_gap_deg", "smallest gap", "deg", 0.5, 1),
    ),
    methods={EXACT: departure.radials_apart},
    mental=lambda radial_spacing_deg, **radials: (
        "put the radials in order, take each from the next, and go once round through north",
        *_gap_lines(sorted(float(value) % 360 for value in radials.values()), radial_spacing_deg),
    ),
    slips=(
        slip("no gap through north", "the gap through north counts as well: 359 and 001 are two apart",
             lambda radial_spacing_deg, **radials: np.where(_straight_gap(radials) < radial_spacing_deg, 1.0, 0.0)[()]),
        slip("exactly the spacing called a conflict", "the least spacing itself is enough",
             lambda radial_spacing_deg, **radials:
             np.where(departure.radials_apart(**radials, radial_spacing_deg=0)[1] <= radial_spacing_deg, 1.0, 0.0)[()]),
        slip("no gap through north", "the gap through north counts as well: 359 and 001 are two apart",
             lambda radial_spacing_deg, **radials: _straight_gap(radials), "smallest_gap_deg"),
        slip("reciprocals counted", "radials point one way only; a reciprocal is far away",
             lambda radial_spacing_deg, **radials: _reciprocal_gap(radials), "smallest_gap_deg"),
    ),
    source=DEPARTURE_TEXT,
)  # fmt: skip


def _gap_lines(radials, spacing):
    following = [*radials[1:], radials[0] + 360]
    gaps = [after - before for before, after in zip(radials, following, strict=True)]
    smallest = min(gaps)
    return (
        f"{', '.join(hdg(radial) for radial in radials)}: gaps {', '.join(num(gap) for gap in gaps)}",
        f"the smallest is {num(smallest)}°, the least allowed {num(spacing)}°: "
        + ("conflict" if smallest < spacing else "clear"),
    )


def _straight_gap(radials):
    stacked = np.sort(np.stack(np.broadcast_arrays(*radials.values())).astype(float), axis=0)
    return np.diff(stacked, axis=0).min(axis=0)[()]


def _reciprocal_gap(radials):
    stacked = np.sort(np.mod(np.stack(np.broadcast_arrays(*radials.values())).astype(float), 180), axis=0)
    return np.diff(stacked, axis=0).min(axis=0)[()]


RENDEZVOUS_RADIAL = Quantity(
    name="rendezvous_radial",
    title="radial of the rendezvous, left of the departure radial",
    area="departure",
    words=("rendezvous", "join up", "departure radial", "left side"),
    inputs=(
        give("departure_radial_deg", "departure radial", "heading", 0, 360),
        give("offset_deg", "offset", "deg", 0, 60, default=10),
    ),
    results=(get("rendezvous_radial_deg", "rendezvous radial", "heading", 0.5, 2),),
    methods={EXACT: departure.rendezvous_radial_deg},
    mental=lambda departure_radial_deg, offset_deg: (
        "the rendezvous lies to the left of the departure radial as you fly outbound: the smaller bearing",
        f"{hdg(departure_radial_deg)} - {num(offset_deg)} = {hdg(departure_radial_deg - offset_deg)}",
    ),
    slips=(
        slip("right side", "left of the radial flying outbound is the smaller bearing",
             lambda departure_radial_deg, offset_deg: wrap_360(departure_radial_deg + offset_deg)),
        slip("slipped passing north", "past north add 360 with care: 005 - 10 is 355",
             lambda departure_radial_deg, offset_deg:
             past_north(np.asarray(departure_radial_deg, dtype=float) - offset_deg)),
        slip("on the radial", "that is the departure radial itself; the rendezvous lies left of it",
             lambda departure_radial_deg, offset_deg: departure_radial_deg),
    ),
    source=RENDEZVOUS,
)  # fmt: skip

QUANTITIES = (
    CLEARING_TURN, CLIMB_POINT, BEACON_CLIMB, BEACON_READING, GATE_CLIMB, BAND, RADIALS, RENDEZVOUS_RADIAL,
)  # fmt: skip
