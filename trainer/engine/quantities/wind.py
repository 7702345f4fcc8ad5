"""Quantities of the wind aboard: over the deck, down the bow, across the angle, the course that makes it."""

import math

import numpy as np

from trainer.engine import wind
from trainer.engine.angles import reciprocal, turn_deg, wrap_360
from trainer.engine.picture import FOUND, Picture, Spot
from trainer.engine.quantities.entries import get, give, hdg, num, slip, verdict
from trainer.engine.quantities.pictures import ORIGIN, arrow, between, line, moved, triangle
from trainer.engine.quantities.wind_words import (
    across_and_ahead,
    side,
    signed,
    split_line,
    together,
    together_lines,
)
from trainer.engine.quantity import EXACT, RULE, Quantity
from trainer.model import Source

BOARD = Source(
    text="NGA Pub. 1310, Radar Navigation and Maneuvering Board Manual",
    section="ch. 6, wind problems",
    status="published",
)
SHARES = Source(text="crosswind shares, common practice (30 a half, 45 0.7, 60 0.9)", status="common practice")
AXIAL = Source(
    text="CNATRA P-1211 Carrier Qualification FTI (axial wind); limit CNATRAINST 3740.9D Table II-3 note 1",
    section="glossary, Axial winds",
    url="https://navyflightmanuals.tpub.com/P-1211/Glossary-P-12110080-80.htm",
    status="published",
)
CHART = Source(
    text="FAA wind component chart (airman knowledge test)",
    section="Fig. 36/37",
    url="https://www.curvesandchaos.com/how-do-you-calculate-crosswind-component/",
    status="secondary",
)

SHIP_COURSE = give("ship_course_deg", "ship's course", "heading", 0, 360)
SHIP_SPEED = give("ship_speed_kn", "ship's speed", "kn", 0, 60)
WIND_FROM = give("wind_from_deg", "true wind from", "heading", 0, 360)
WIND_SPEED = give("wind_speed_kn", "true wind", "kn", 0, 100)
RELATIVE = give("relative_wind_deg", "wind off the bow, right positive", "deg", -180, 360)
FELT = give("wind_over_deck_kn", "wind over deck", "kn", 0, 120)
DECK_ANGLE = give("deck_angle_deg", "angle of the landing area", "deg", 0, 20, take="ship.deck_angle_deg")


def _deck_mental(ship_course_deg, ship_speed_kn, wind_from_deg, wind_speed_kn):
    off = turn_deg(ship_course_deg, wind_from_deg)
    ahead, across = wind.ahead_and_across_by_share(wind_speed_kn, off)
    return (
        f"true wind from {hdg(wind_from_deg)} on course {hdg(ship_course_deg)} is {signed(off)} of the bow",
        split_line(wind_speed_kn, off),
        f"the ship's own {num(ship_speed_kn, 1)} kt come from ahead: {num(ahead, 1)} + "
        f"{num(ship_speed_kn, 1)} "
        f"= {num(ahead + ship_speed_kn, 1)} ahead, {num(abs(across), 1)} across",
        *together_lines(ahead + ship_speed_kn, across),
    )


def _deck_exact(ship_course_deg, ship_speed_kn, wind_from_deg, wind_speed_kn):
    speed, off, felt = wind.wind_over_deck(ship_course_deg, ship_speed_kn, wind_from_deg, wind_speed_kn)
    return (
        f"vector sum of {hdg(ship_course_deg)}/{num(ship_speed_kn, 1)} and "
        f"{hdg(wind_from_deg)}/{num(wind_speed_kn, 1)} (both as the direction they come from)",
        f"= {num(speed, 2)} kt from {hdg(felt)}, {signed(off)} of the bow",
    )


def _deck_picture(ship_course_deg, ship_speed_kn, wind_from_deg, wind_speed_kn):
    speed, off, _ = wind.wind_over_deck(ship_course_deg, ship_speed_kn, wind_from_deg, wind_speed_kn)
    true_off = turn_deg(ship_course_deg, wind_from_deg)
    return triangle(
        (true_off + 180, wind_speed_kn), (180, ship_speed_kn), letters="TSF", title="Wind over the deck",
        legend=(f"bow up; T true wind {signed(true_off)} {num(wind_speed_kn)} kt, S ship's own {num(ship_speed_kn)} kt",
                f"F felt {signed(off)} {num(speed)} kt; never further aft than T"),
    )  # fmt: skip


WIND_OVER_DECK = Quantity(
    name="wind_over_deck", title="wind over deck", area="launch",
    words=("wod", "relative wind", "felt wind"),
    inputs=(SHIP_COURSE, SHIP_SPEED, WIND_FROM, WIND_SPEED),
    results=(
        get("wind_over_deck_kn", "wind over deck", "kn", 0.5, 2),
        get("relative_wind_deg", "off the bow, right positive", "deg", 1, 5),
        get("felt_from_deg", "felt from", "heading", 1, 5),
    ),
    methods={EXACT: wind.wind_over_deck},
    mental=_deck_mental, exact=_deck_exact, picture=_deck_picture,
    slips=(
        slip("wind direction as where it goes", "a wind is named by where it comes from; you used where "
                                                "it goes",
             lambda wind_from_deg, **given: wind.wind_over_deck(
                 wind_from_deg=wrap_360(wind_from_deg + 180), **given)[0]),
        slip("added the speeds", "you added the speeds; only a wind from right ahead adds in full",
             lambda ship_speed_kn, wind_speed_kn, **_: ship_speed_kn + wind_speed_kn),
        slip("forgot the ship's way", "that is the true wind alone; the ship's own speed comes from ahead",
             lambda wind_speed_kn, **_: wind_speed_kn),
        slip("angle of the true wind", "that is the true wind's angle; the ship's way draws it towards "
                                       "the bow",
             lambda ship_course_deg, wind_from_deg, **_: turn_deg(ship_course_deg, wind_from_deg),
             "relative_wind_deg"),
        slip("wrong side of the bow", "right size, wrong side of the bow",
             lambda **given: -wind.wind_over_deck(**given)[1], "relative_wind_deg"),
        slip("true for felt", "that is where the true wind comes from; the ship's way draws it forward",
             lambda wind_from_deg, **_: wind_from_deg, "felt_from_deg"),
        slip("relative for true", "that is off the bow; the direction adds the ship's course",
             lambda **given: wrap_360(wind.wind_over_deck(**given)[1]), "felt_from_deg"),
    ),
    source=BOARD,
)  # fmt: skip


WIND_DOWN_THE_BOW = Quantity(
    name="wind_down_the_bow", title="wind down the bow and across it", area="launch",
    words=("headwind", "crosswind", "wind over deck"),
    inputs=(FELT, RELATIVE),
    results=(
        get("down_the_bow_kn", "down the bow", "kn", 0.5, 1),
        get("across_kn", "across, from the right positive", "kn", 0.5, 1),
    ),
    methods={EXACT: wind.wind_down_the_bow, RULE: wind.wind_down_the_bow_by_share},
    mental=lambda wind_over_deck_kn, relative_wind_deg: (
        "across: 30° off is a half, 45° 0.7, 60° 0.9; ahead the other way round",
        split_line(wind_over_deck_kn, relative_wind_deg),
    ),
    exact=lambda wind_over_deck_kn, relative_wind_deg: (
        across_and_ahead(wind_over_deck_kn, turn_deg(0.0, relative_wind_deg)),
    ),
    slips=(
        slip("took the sine", "that is the part across; down the bow takes the cosine",
             lambda **given: abs(wind.wind_down_the_bow(**given)[1])),
        slip("whole wind", "you gave the whole wind; off the bow only its share comes down the deck",
             lambda wind_over_deck_kn, **_: wind_over_deck_kn),
        slip("wrong side", "right size, wrong side",
             lambda **given: -wind.wind_down_the_bow(**given)[1], "across_kn"),
        slip("took the cosine", "that is the part down the bow; across takes the sine",
             lambda **given: wind.wind_down_the_bow(**given)[0], "across_kn"),
    ),
    source=SHARES,
)  # fmt: skip


def _angle_mental(wind_over_deck_kn, relative_wind_deg, deck_angle_deg, limit_kn):
    off = turn_deg(0.0, relative_wind_deg) + deck_angle_deg
    _, cross = wind.ahead_and_across_by_share(wind_over_deck_kn, off)
    held = "inside" if abs(cross) <= limit_kn else "over"
    return (
        f"the landing area points {num(deck_angle_deg, 1)}° left, so add: {signed(relative_wind_deg)} of "
        "the bow "
        f"is {signed(off)} of the angle",
        f"up to 30° the share across is the angle over 60: {split_line(wind_over_deck_kn, off)}",
        f"{num(abs(cross), 1)} kt against {num(limit_kn, 1)} kt: {held} the limit",
    )


def _angle_exact(wind_over_deck_kn, relative_wind_deg, deck_angle_deg, limit_kn):
    cross, down, _ = wind.angle_wind(wind_over_deck_kn, relative_wind_deg, deck_angle_deg, limit_kn)
    return (
        across_and_ahead(wind_over_deck_kn, turn_deg(0.0, relative_wind_deg + deck_angle_deg)),
        f"down the angle {num(down, 2)} kt, across it {num(abs(cross), 2)} kt from the {side(cross)}",
    )


def _angle_picture(wind_over_deck_kn, relative_wind_deg, deck_angle_deg, limit_kn):
    angle, across = -float(deck_angle_deg), float(relative_wind_deg + deck_angle_deg)
    start = moved(ORIGIN, relative_wind_deg, wind_over_deck_kn)
    foot = moved(ORIGIN, angle, wind_over_deck_kn * math.cos(math.radians(across)))
    hull = max(float(wind_over_deck_kn), 1.0)
    deck = line((0.0, -hull / 2), (0.0, hull)), line(ORIGIN, moved(ORIGIN, angle, hull))
    return Picture(
        title="The wind down and across the landing area",
        strokes=(*deck, arrow(foot, ORIGIN, FOUND), arrow(start, foot, FOUND), arrow(start, ORIGIN)),
        spots=(Spot(at=between(start, ORIGIN), words="W"), Spot(at=between(foot, ORIGIN), words="A"),
               Spot(at=between(start, foot), words="X")),
        legend=(f"bow up; W wind {signed(relative_wind_deg)} of the bow; A down the angle",
                f"(the angle is {num(deck_angle_deg, 1)}° left: measure from it); X across"),
    )  # fmt: skip


def _over(crosswind_kn, limit_kn):
    return np.where(np.abs(crosswind_kn) <= limit_kn, 1, -1)[()]


ANGLE_CROSSWIND = Quantity(
    name="angle_crosswind", title="crosswind on the angled deck", area="pattern",
    words=("crosswind", "landing area", "wind over deck", "limit"),
    inputs=(FELT, RELATIVE, DECK_ANGLE, give("limit_kn", "crosswind limit", "kn", 1, 40, default=7.0)),
    results=(
        get("crosswind_kn", "crosswind, from the right positive", "kn", 0.5, 1),
        get("down_the_angle_kn", "down the angle", "kn", 0.5, 1),
        verdict("limit", "against the limit", {1: "inside", -1: "over"}),
    ),
    methods={EXACT: wind.angle_wind, RULE: wind.angle_wind_by_share},
    mental=_angle_mental, exact=_angle_exact, picture=_angle_picture,
    slips=(
        slip("measured from the bow", "you measured from the BRC; the landing area points left of it",
             lambda wind_over_deck_kn, relative_wind_deg, **_: wind.wind_down_the_bow(
                 wind_over_deck_kn, relative_wind_deg)[1]),
        slip("took the deck angle away", "the angle is left of the bow, so the deck angle is added",
             lambda wind_over_deck_kn, relative_wind_deg, deck_angle_deg, **_: wind.ahead_and_across(
                 wind_over_deck_kn, relative_wind_deg - deck_angle_deg)[1]),
        slip("wrong side", "right size, wrong side: from the right is positive",
             lambda **given: -wind.angle_wind(**given)[0]),
        slip("across for down", "that is the part across; down the angle takes the cosine",
             lambda **given: abs(wind.angle_wind(**given)[0]), "down_the_angle_kn"),
        slip("whole wind down the angle", "only the share along the angle counts",
             lambda wind_over_deck_kn, **_: wind_over_deck_kn, "down_the_angle_kn"),
        slip("compared from the bow", "you compared the wind across the bow; the limit is for the angle",
             lambda wind_over_deck_kn, relative_wind_deg, limit_kn, **_: _over(wind.wind_down_the_bow(
                 wind_over_deck_kn, relative_wind_deg)[1], limit_kn), "limit"),
        slip("angle taken away for the limit", "the angle is left of the bow, so the deck angle is added",
             lambda wind_over_deck_kn, relative_wind_deg, deck_angle_deg, limit_kn: _over(wind.ahead_and_across(
                 wind_over_deck_kn, relative_wind_deg - deck_angle_deg)[1], limit_kn), "limit"),
    ),
    source=AXIAL,
)  # fmt: skip


def _felt_mental(ship_course_deg, ship_speed_kn, relative_wind_deg, wind_over_deck_kn):
    ahead, across = wind.ahead_and_across_by_share(wind_over_deck_kn, relative_wind_deg)
    off, _ = together(ahead - ship_speed_kn, across)
    return (
        split_line(wind_over_deck_kn, relative_wind_deg),
        f"take the ship's own way off: {num(ahead, 1)} - {num(ship_speed_kn, 1)} = "
        f"{num(ahead - ship_speed_kn, 1)} ahead, {num(abs(across), 1)} across",
        *together_lines(ahead - ship_speed_kn, across),
        f"from course {hdg(ship_course_deg)} that is {hdg(wrap_360(ship_course_deg + off))}",
    )


def _felt_exact(ship_course_deg, ship_speed_kn, relative_wind_deg, wind_over_deck_kn):
    direction, speed = wind.true_wind(ship_course_deg, ship_speed_kn, relative_wind_deg, wind_over_deck_kn)
    felt = wrap_360(ship_course_deg + relative_wind_deg)
    return (
        f"felt from {hdg(felt)}: vector {hdg(felt)}/{num(wind_over_deck_kn, 1)} less "
        f"{hdg(ship_course_deg)}/{num(ship_speed_kn, 1)} = {hdg(direction)}/{num(speed, 2)} kt",
    )


def _felt_picture(ship_course_deg, ship_speed_kn, relative_wind_deg, wind_over_deck_kn):
    direction, speed = wind.true_wind(ship_course_deg, ship_speed_kn, relative_wind_deg, wind_over_deck_kn)
    off = turn_deg(ship_course_deg, direction)
    return triangle(
        (relative_wind_deg + 180, wind_over_deck_kn), (0, ship_speed_kn), letters="FST",
        title="The true wind from the wind felt",
        legend=(f"bow up; F felt {signed(relative_wind_deg)} {num(wind_over_deck_kn)} kt, less S ship's own",
                f"T true {signed(off)} {num(speed)} kt: always further aft than F"),
    )  # fmt: skip


def _turned_round(given):
    """Return the inputs with the relative wind counted from the stern."""
    return {**given, "relative_wind_deg": turn_deg(180.0, given["relative_wind_deg"])}


TRUE_WIND = Quantity(
    name="true_wind", title="true wind from the wind felt aboard", area="launch",
    words=("relative wind", "apparent wind", "anemometer", "ship true wind"),
    inputs=(SHIP_COURSE, SHIP_SPEED, RELATIVE, FELT),
    results=(
        get("true_wind_from_deg", "true wind from", "heading", 1, 5),
        get("true_wind_kn", "true wind", "kn", 0.5, 2),
    ),
    methods={EXACT: wind.true_wind},
    mental=_felt_mental, exact=_felt_exact, picture=_felt_picture,
    slips=(
        slip("added the ship's way", "you added the ship's way; it is in the felt wind already, take it off",
             lambda ship_course_deg, **given: wind.true_wind(
                 ship_course_deg=reciprocal(ship_course_deg), **_turned_round(given))[0]),
        slip("felt direction", "that is where it is felt from; the true wind lies further aft",
             lambda ship_course_deg, relative_wind_deg, **_: wrap_360(ship_course_deg + relative_wind_deg)),
        slip("wrong side of the bow", "you laid the relative wind on the other bow",
             lambda relative_wind_deg, **given: wind.true_wind(
                 relative_wind_deg=-turn_deg(0.0, relative_wind_deg), **given)[0]),
        slip("subtracted the speeds", "you subtracted the speeds; that holds only from right ahead",
             lambda ship_speed_kn, wind_over_deck_kn, **_: abs(wind_over_deck_kn - ship_speed_kn),
             "true_wind_kn"),
        slip("felt wind", "that is the wind over deck itself; the ship's way is still in it",
             lambda wind_over_deck_kn, **_: wind_over_deck_kn, "true_wind_kn"),
    ),
    source=BOARD,
)  # fmt: skip


RUNWAY_WIND = Quantity(
    name="runway_wind", title="crosswind and headwind on a runway", area="navigation",
    words=("divert", "components", "crosswind"),
    inputs=(
        give("runway_deg", "runway heading", "heading", 0, 360),
        give("wind_from_deg", "wind from", "heading", 0, 360),
        give("wind_speed_kn", "wind", "kn", 0, 120),
    ),
    results=(
        get("crosswind_kn", "crosswind, from the right positive", "kn", 0.5, 2),
        get("headwind_kn", "headwind", "kn", 0.5, 2),
    ),
    methods={EXACT: wind.runway_wind, RULE: wind.runway_wind_by_share},
    mental=lambda runway_deg, wind_from_deg, wind_speed_kn: (
        f"wind {hdg(wind_from_deg)} on runway heading {hdg(runway_deg)}",
        split_line(wind_speed_kn, turn_deg(runway_deg, wind_from_deg)),
    ),
    exact=lambda runway_deg, wind_from_deg, wind_speed_kn: (
        across_and_ahead(wind_speed_kn, turn_deg(runway_deg, wind_from_deg)),
    ),
    slips=(
        slip("took the cosine", "that is the headwind; across takes the sine",
             lambda **given: wind.runway_wind(**given)[1]),
        slip("wrong side", "right size, wrong side",
             lambda **given: -wind.runway_wind(**given)[0]),
        slip("whole wind", "only the share across counts",
             lambda wind_speed_kn, **_: wind_speed_kn),
        slip("took the sine", "that is the crosswind; ahead takes the cosine",
             lambda **given: abs(wind.runway_wind(**given)[0]), "headwind_kn"),
        slip("whole wind ahead", "only the share along the runway counts",
             lambda wind_speed_kn, **_: wind_speed_kn, "headwind_kn"),
    ),
    source=CHART,
)  # fmt: skip

QUANTITIES = (WIND_OVER_DECK, WIND_DOWN_THE_BOW, ANGLE_CROSSWIND, TRUE_WIND, RUNWAY_WIND)
