"""Quantities of slant range and of the horizon."""

import numpy as np

from trainer.engine import ranges
from trainer.engine.quantities.entries import get, give, num, reckoned, slip
from trainer.engine.quantities.pictures import from_the_side
from trainer.engine.quantity import EXACT, RULE, Quantity
from trainer.engine.units import FT_PER_NM
from trainer.model import Source

SLANT = Source(
    text="CNATRA P-801 Instrument Navigation",
    section="Fig. 7",
    url="http://navyflightmanuals.tpub.com/P-801/Figure-7-P-8010028-28.htm",
    status="published",
)
RADIO = Source(
    text="ATPL radio navigation, maximum theoretical range (1.23); Navy electronics school (1.25)",
    url="https://www.examcopilot.com/subjects/radio-navigation/basics/maximum-theoretical-range",
    status="secondary",
)
SIGHT = Source(
    text="NGA Pub. 9, The American Practical Navigator (Bowditch), as quoted",
    section="ch. 22, distance of the horizon",
    url="https://navlist.net/m2.aspx/Bowditch-Distance-visible-horizon-Stuart-dec-2012-g21292",
    status="secondary",
)
ALTITUDE = give("altitude_ft", "height above the station", "ft", 0, 60_000)
HEIGHTS = (
    give("height_ft", "your height", "ft", 0, 100_000),
    give("other_height_ft", "the other height", "ft", 0, 100_000, default=0.0),
)


def _side(name, value_nm, altitude_ft, *, longest):
    height = altitude_ft / ranges.RULE_FT_PER_NM
    sign = "-" if longest else "+"
    square = value_nm**2 - height**2 if longest else value_nm**2 + height**2
    return (
        f"6,000 ft is a mile: {num(altitude_ft)} ft is {num(height, 2)} nm",
        f"{num(value_nm, 1)} squared {sign} {num(height, 2)} squared = {num(square, 2)}; its root is "
        f"{num(np.sqrt(max(square, 0.0)), 1)} nm {name}",
    )


def _slant_picture(ground_nm, slant_nm, altitude_ft, found):
    return from_the_side(
        ground_nm, altitude_ft, title="Slant range and distance along the surface", found=found,
        legend=(f"S station, Y you, h {num(altitude_ft)} ft up",
                f"s {num(slant_nm, 1)} DME, d {num(ground_nm, 1)} nm"),
    )  # fmt: skip


GROUND_RANGE = Quantity(
    name="ground_range", title="ground range from DME", area="navigation",
    words=("slant range", "DME", "overhead"),
    inputs=(give("slant_nm", "DME reading", "nm", 0.1, 300), ALTITUDE),
    results=(get("ground_nm", "over the ground", "nm", 0.05, 0.2, round_to=0.1),),
    methods={EXACT: ranges.ground_range_nm, RULE: ranges.ground_range_by_rule},
    mental=lambda slant_nm, altitude_ft: _side("over the ground", slant_nm, altitude_ft, longest=True),
    exact=lambda slant_nm, altitude_ft: (
        f"sqrt({num(slant_nm, 1)}^2 - ({num(altitude_ft)} / {FT_PER_NM:,.1f})^2) = "
        f"{num(ranges.ground_range_nm(slant_nm, altitude_ft), 2)} nm",
    ),
    picture=lambda slant_nm, altitude_ft: _slant_picture(
        ranges.ground_range_nm(slant_nm, altitude_ft), slant_nm, altitude_ft, "d"),
    slips=(
        slip("added the height", "the slant is the longest side: subtract the squares",
             lambda slant_nm, altitude_ft: np.hypot(slant_nm, altitude_ft / FT_PER_NM)),
        slip("slant for ground", "that is the slant range; the height is in it",
             lambda slant_nm, **_: slant_nm),
        slip("subtracted the height", "subtract the squares, not the sides",
             lambda slant_nm, altitude_ft: slant_nm - altitude_ft / FT_PER_NM),
        slip("thousands as miles", "you took thousands of feet as miles; a mile has six of them",
             lambda slant_nm, altitude_ft: np.sqrt(np.maximum(
                 np.asarray(slant_nm) ** 2 - (np.asarray(altitude_ft) / 1000) ** 2, 0.0))),
    ),
    source=SLANT,
)  # fmt: skip

SLANT_RANGE = Quantity(
    name="slant_range", title="DME reading from ground range", area="navigation",
    words=("slant range", "DME", "overhead", "ground range"),
    inputs=(give("ground_nm", "over the ground", "nm", 0, 300), ALTITUDE),
    results=(get("slant_nm", "DME reading", "nm", 0.05, 0.2, round_to=0.1),),
    methods={EXACT: ranges.slant_range_nm, RULE: ranges.slant_range_by_rule},
    mental=lambda ground_nm, altitude_ft: _side("on the DME", ground_nm, altitude_ft, longest=False),
    exact=lambda ground_nm, altitude_ft: (
        f"sqrt({num(ground_nm, 1)}^2 + ({num(altitude_ft)} / {FT_PER_NM:,.1f})^2) = "
        f"{num(ranges.slant_range_nm(ground_nm, altitude_ft), 2)} nm",
    ),
    picture=lambda ground_nm, altitude_ft: _slant_picture(
        ground_nm, ranges.slant_range_nm(ground_nm, altitude_ft), altitude_ft, "s"),
    slips=(
        slip("ground for slant", "the DME counts the height as well",
             lambda ground_nm, **_: ground_nm),
        slip("added the sides", "add the squares, not the sides",
             lambda ground_nm, altitude_ft: ground_nm + altitude_ft / FT_PER_NM),
        slip("thousands as miles", "you took thousands of feet as miles; a mile has six of them",
             lambda ground_nm, altitude_ft: np.hypot(ground_nm, altitude_ft / 1000)),
    ),
    source=SLANT,
)  # fmt: skip


def _root_lines(factor, height_ft, other_height_ft):
    roots = np.sqrt(height_ft) + np.sqrt(other_height_ft)
    places = 1 if round(factor * round(roots, 1), 1) == round(factor * roots, 1) else 2
    return (
        f"roots of both heights: "
        f"{reckoned(np.sqrt(height_ft), '+', np.sqrt(other_height_ft), places, places=(places, places))}",
        f"{reckoned(factor, 'x', roots, 1, places=(2, places))} nm",
    )


def _horizon_slips(factor):
    return (
        slip("root of the sum", "take the root of each height, then add",
             lambda height_ft, other_height_ft: factor * np.sqrt(np.asarray(height_ft) + other_height_ft)),
        slip("metres for feet", "the factor is for feet",
             lambda height_ft, other_height_ft: factor * np.sqrt(0.3048) * (
                 np.sqrt(height_ft) + np.sqrt(other_height_ft))),
        slip("one height only", "the other end has a height too",
             lambda height_ft, **_: factor * np.sqrt(height_ft)),
        slip("forgot the factor", "that is the sum of the roots; the factor is missing",
             lambda height_ft, other_height_ft: np.sqrt(height_ft) + np.sqrt(other_height_ft)),
    )  # fmt: skip


RADIO_HORIZON = Quantity(
    name="radio_horizon", title="radio line of sight", area="navigation",
    words=("line of sight", "TACAN", "radio", "UHF", "range"),
    inputs=HEIGHTS,
    results=(get("distance_nm", "line of sight", "nm", 1, 5),),
    methods={EXACT: ranges.radio_horizon_nm, RULE: ranges.radio_horizon_by_rule},
    mental=lambda height_ft, other_height_ft: (
        *_root_lines(ranges.RADIO_RULE_FACTOR, height_ft, other_height_ft),
        "a root and a quarter of it; the exact factor is 1.23",
    ),
    exact=lambda height_ft, other_height_ft: _root_lines(ranges.RADIO_FACTOR, height_ft, other_height_ft),
    slips=_horizon_slips(ranges.RADIO_FACTOR),
    source=RADIO,
)  # fmt: skip

VISIBLE_HORIZON = Quantity(
    name="visible_horizon", title="distance of the visible horizon", area="navigation",
    words=("horizon", "geographic range", "lights", "sea horizon"),
    inputs=HEIGHTS,
    results=(get("distance_nm", "in sight at", "nm", 0.2, 1, round_to=0.1),),
    methods={EXACT: ranges.visible_horizon_nm},
    mental=lambda height_ft, other_height_ft: _root_lines(ranges.VISIBLE_FACTOR, height_ft, other_height_ft),
    slips=_horizon_slips(ranges.VISIBLE_FACTOR),
    source=SIGHT,
)  # fmt: skip

QUANTITIES = (GROUND_RANGE, SLANT_RANGE, RADIO_HORIZON, VISIBLE_HORIZON)
