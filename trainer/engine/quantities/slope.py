"""Quantities of a descent at an angle: height, intercept, gradient, rate, the width of the lens."""

import numpy as np

from trainer.engine import approach
from trainer.engine.quantities.carrier_sources import CLIMB_NOTE, LENS, SIXTY_TO_ONE
from trainer.engine.quantities.entries import get, give, num, reckoned, slip
from trainer.engine.quantities.pictures import from_the_side
from trainer.engine.quantity import EXACT, RULE, Quantity
from trainer.engine.units import FT_PER_NM

DISTANCE = give("distance_nm", "distance to the touchdown point", "nm", 0, 60)
GLIDE_SLOPE = give("glide_slope_deg", "glide slope", "deg", 0.5, 10, take="ship.glide_slope_deg", default=3.5)
GROUNDSPEED = give("groundspeed_kn", "ground speed", "kn", 1, 700)


def slope_picture(distance_nm, glide_slope_deg):
    """Return the slope seen from the side, with distance and height."""
    height = float(approach.slope_height_ft(distance_nm, glide_slope_deg))
    return from_the_side(
        distance_nm, height, title="The slope from the side", found="h",
        legend=(f"S ship, Y you; s slope of {num(glide_slope_deg, 2)}°, drawn steeper",
                f"d {num(distance_nm, 2)} nm, h {num(height)} ft"),
    )  # fmt: skip


HEIGHT = Quantity(
    name="glide_slope_height",
    title="height on the glide slope",
    area="approach",
    words=("glide slope", "height", "three quarters of a mile", "ball", "altitude", "descent"),
    inputs=(DISTANCE, GLIDE_SLOPE),
    results=(get("height_ft", "height above the touchdown point", "ft", 10, 20, round_to=10),),
    methods={EXACT: approach.slope_height_ft, RULE: approach.slope_height_rule_ft},
    mental=lambda distance_nm, glide_slope_deg: (
        f"a degree is 100 ft a mile: {num(glide_slope_deg, 2)}° is {num(glide_slope_deg * 100)} ft a mile",
        f"{num(distance_nm, 2)} nm x {num(glide_slope_deg * 100)} = {num(distance_nm * glide_slope_deg * 100)} ft",
    ),
    exact=lambda distance_nm, glide_slope_deg: (
        f"{num(distance_nm, 2)} nm x 6,076 ft x tan {num(glide_slope_deg, 2)}° = "
        f"{num(float(approach.slope_height_ft(distance_nm, glide_slope_deg)))} ft",
    ),
    picture=slope_picture,
    slips=(
        slip("300 ft a mile", "that is the three-degree rule; this slope is another",
             lambda distance_nm, glide_slope_deg: np.asarray(distance_nm) * 300.0),
        slip("forgot the distance", "that is the height at one mile",
             lambda distance_nm, glide_slope_deg: np.asarray(glide_slope_deg) * 100.0),
        slip("divided by the distance", "further out is higher: multiply by the distance",
             lambda distance_nm, glide_slope_deg:
             np.asarray(glide_slope_deg) * 100.0 / np.maximum(np.asarray(distance_nm, dtype=float), 0.01)),
    ),
    source=SIXTY_TO_ONE,
)  # fmt: skip

INTERCEPT = Quantity(
    name="glide_slope_intercept",
    title="distance of the glide-slope intercept",
    area="approach",
    words=("glide slope", "intercept", "tip over", "1,200 ft", "needles"),
    inputs=(give("altitude_ft", "altitude", "ft", 100, 20_000, take="airwing.gate_ft", default=1200), GLIDE_SLOPE),
    results=(get("intercept_nm", "intercept", "nm", 0.1, 0.2, round_to=0.1),),
    methods={EXACT: approach.intercept_nm, RULE: approach.intercept_rule_nm},
    mental=lambda altitude_ft, glide_slope_deg: (
        f"{num(glide_slope_deg, 2)}° is {num(glide_slope_deg * 100)} ft a mile",
        f"{num(altitude_ft)} / {num(glide_slope_deg * 100)} = {num(altitude_ft / glide_slope_deg / 100, 1)} nm",
    ),
    exact=lambda altitude_ft, glide_slope_deg: (
        f"{num(altitude_ft)} ft / (6,076 ft x tan {num(glide_slope_deg, 2)}°) = "
        f"{num(float(approach.intercept_nm(altitude_ft, glide_slope_deg)), 2)} nm",
    ),
    slips=(
        slip("300 ft a mile", "that is the three-degree rule; this slope is another",
             lambda altitude_ft, glide_slope_deg: np.asarray(altitude_ft) / 300.0),
        slip("a thousand feet a mile", "a degree is a hundred feet a mile, not a thousand",
             lambda altitude_ft, glide_slope_deg: np.asarray(altitude_ft) / 1000.0),
        slip("multiplied by the angle", "a steeper slope is met nearer to the ship: divide by the angle",
             lambda altitude_ft, glide_slope_deg: np.asarray(altitude_ft) * np.asarray(glide_slope_deg) / 1000.0),
    ),
    source=SIXTY_TO_ONE,
)  # fmt: skip

GRADIENT = Quantity(
    name="descent_gradient",
    title="gradient of an angle",
    area="approach",
    words=("gradient", "feet per mile", "percent", "angle", "descent", "descent table"),
    inputs=(GLIDE_SLOPE,),
    results=(
        get("gradient_ft_nm", "gradient", "ft/nm", 10, 25),
        get("gradient_percent", "gradient", "%", 0.1, 0.3, round_to=0.01),
    ),
    methods={EXACT: approach.gradient, RULE: approach.gradient_rule},
    mental=lambda glide_slope_deg: (
        f"a degree is 100 ft a mile: {num(glide_slope_deg, 2)} x 100 = {num(glide_slope_deg * 100)} ft a mile",
        f"a degree is one in sixty: {num(glide_slope_deg, 2)} / 0.6 = {num(glide_slope_deg / 0.6, 1)} per cent",
    ),
    exact=lambda glide_slope_deg: (
        f"tan {num(glide_slope_deg, 2)}° = {num(float(approach.gradient(glide_slope_deg)[1]), 2)} per cent",
        f"x 6,076 ft = {num(float(approach.slope_ft_nm(glide_slope_deg)))} ft a mile, six per cent over the rule",
    ),
    slips=(
        slip("sixty feet a degree", "a degree is 100 ft a mile; sixty is the miles",
             lambda glide_slope_deg: np.asarray(glide_slope_deg) * 60.0),
        slip("sine of the wrong mile", "a nautical mile has 6,076 ft, a statute mile 5,280",
             lambda glide_slope_deg: 5280 * np.tan(np.radians(glide_slope_deg))),
        slip("degrees read as per cent", "a degree is 1.75 per cent",
             lambda glide_slope_deg: glide_slope_deg, "gradient_percent"),
        slip("in proportion to 45 degrees", "per cent is the tangent: small angles are 1.75 per cent a degree",
             lambda glide_slope_deg: np.asarray(glide_slope_deg) / 0.45, "gradient_percent"),
    ),
    source=SIXTY_TO_ONE,
)  # fmt: skip

SLOPE_RATE = Quantity(
    name="descent_rate",
    title="rate of descent that holds an angle",
    area="approach",
    words=("rate of descent", "vvi", "glide slope", "ground speed", "descent table", "gs"),
    inputs=(GROUNDSPEED, GLIDE_SLOPE),
    results=(get("rate_ft_min", "rate of descent", "ft/min", 25, 50, round_to=10),),
    methods={EXACT: approach.slope_rate_ft_min, RULE: approach.slope_rate_rule_ft_min},
    mental=lambda groundspeed_kn, glide_slope_deg: (
        f"{num(glide_slope_deg, 2)}° is {num(glide_slope_deg * 100)} ft a mile; {num(groundspeed_kn)} kt is "
        f"{num(groundspeed_kn / 60, 2)} nm a minute",
        f"{reckoned(glide_slope_deg * 100, 'x', groundspeed_kn / 60, 0, places=(0, 2))} ft/min "
        "(at three degrees: half the ground speed times ten)",
    ),
    exact=lambda groundspeed_kn, glide_slope_deg: (
        f"{num(groundspeed_kn)} kt x 101.27 ft/min per knot x tan {num(glide_slope_deg, 2)}° = "
        f"{num(float(approach.slope_rate_ft_min(groundspeed_kn, glide_slope_deg)))} ft/min",
    ),
    slips=(
        slip("three-degree rule", "ground speed times five holds for three degrees only",
             lambda groundspeed_kn, glide_slope_deg: np.asarray(groundspeed_kn) * 5.0),
        slip("feet a mile taken as the rate", "that is feet a mile; times miles a minute",
             lambda groundspeed_kn, glide_slope_deg: approach.slope_ft_nm(glide_slope_deg)),
        slip("ground speed times ten", "that would be six degrees",
             lambda groundspeed_kn, glide_slope_deg: np.asarray(groundspeed_kn) * 10.0),
    ),
    source=SIXTY_TO_ONE,
)  # fmt: skip

GRADIENT_RATE = Quantity(
    name="gradient_rate",
    title="rate of climb or descent for feet per mile",
    area="departure",
    words=("gradient", "climb", "descent", "feet per mile", "vvi"),
    inputs=(give("gradient_ft_nm", "gradient", "ft/nm", 0, 5_000), GROUNDSPEED),
    results=(get("rate_ft_min", "rate", "ft/min", 10, 50, round_to=10),),
    methods={EXACT: approach.gradient_rate_ft_min},
    mental=lambda gradient_ft_nm, groundspeed_kn: (
        f"{num(groundspeed_kn)} kt is {num(groundspeed_kn / 60, 2)} nm a minute",
        f"{num(gradient_ft_nm)} x {num(groundspeed_kn / 60, 2)} = {num(gradient_ft_nm * groundspeed_kn / 60)} ft/min",
    ),
    slips=(
        slip("feet a mile taken as the rate", "that is feet a mile; times miles a minute",
             lambda gradient_ft_nm, groundspeed_kn: gradient_ft_nm),
        slip("divided by a hundred", "miles a minute are knots over sixty",
             lambda gradient_ft_nm, groundspeed_kn: np.asarray(gradient_ft_nm) * groundspeed_kn / 100.0),
    ),
    source=CLIMB_NOTE,
)  # fmt: skip

OFF_SLOPE = Quantity(
    name="off_slope_height",
    title="height above or below the slope for an angle off",
    area="approach",
    words=("lens", "ball", "high", "low", "cells"),
    inputs=(
        give("distance_nm", "distance", "nm", 0, 10),
        give("off_deg", "angle off the slope", "deg", 0, 5, default=0.75),
    ),
    results=(get("off_ft", "height off the slope", "ft", 5, 10, round_to=5),),
    methods={EXACT: approach.off_slope_ft, RULE: approach.off_slope_rule_ft},
    mental=lambda distance_nm, off_deg: (
        "a degree is 100 ft a mile; the ball leaves the lens three quarters of a degree high or low",
        f"{num(off_deg, 2)} x 100 x {num(distance_nm, 2)} nm = {num(off_deg * 100 * distance_nm)} ft",
    ),
    exact=lambda distance_nm, off_deg: (
        f"{num(distance_nm, 2)} nm x 6,076 ft x tan {num(off_deg, 2)}° = "
        f"{num(float(approach.off_slope_ft(distance_nm, off_deg)))} ft",
    ),
    slips=(
        slip("forgot the distance", "that is the height at one mile",
             lambda distance_nm, off_deg: FT_PER_NM * np.tan(np.radians(off_deg))),
        slip("both edges", "from the middle to one edge is half the lens",
             lambda distance_nm, off_deg: 2 * approach.off_slope_ft(distance_nm, off_deg)),
    ),
    source=LENS,
)  # fmt: skip

QUANTITIES = (HEIGHT, INTERCEPT, GRADIENT, SLOPE_RATE, GRADIENT_RATE, OFF_SLOPE)
