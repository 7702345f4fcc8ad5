"""Quantities of a turn: radius, bank, time, and where it puts you."""

import numpy as np

from trainer.engine import arcs, turns
from trainer.engine.picture import FOUND, Picture, Spot, Stroke
from trainer.engine.quantities.entries import as_printed, get, give, num, reckoned, slip
from trainer.engine.quantities.pictures import ORIGIN, arc, clearing, moved
from trainer.engine.quantity import EXACT, RULE, Quantity
from trainer.engine.units import FT_PER_NM
from trainer.model import Source

HANDBOOK = Source(
    text="FAA-H-8083-25, Pilot's Handbook of Aeronautical Knowledge",
    section="Aerodynamics, rate and radius of turn",
    url="http://www.flightlearnings.com/2009/08/26/rate-of-turn/",
    status="published",
)
SIXTY = Source(
    text="USAF instrument-school handout, 60-to-1 rules and formulas",
    url="https://studylib.net/doc/25274618/60-1-rules-jan-07",
    status="secondary",
)
TIMED = Source(
    text="CNATRA P-1215 (Instrument Flight), timed turns",
    url="https://navyflightmanuals.tpub.com/P-1215/Timed-Turns-Standard-Rate-36.htm",
    status="published",
)
SECTION = Source(
    text="CNATRA P-869 (Navigation)",
    section="Fig. 5-5 Effect of Turn",
    url="https://navyflightmanuals.tpub.com/P-869/Figure-5-5-Effect-Of-Turn-99.htm",
    status="published",
)
INTERCEPT = Source(
    text="CNATRA P-1265 (RIFP-02)",
    section="p. 2-11, radial to arc intercept",
    url="http://navyflightmanuals.tpub.com/P-1265/Radial-To-Arc-Intercept-P-12650074-74.htm",
    status="published",
)
CLEARING = Source(
    text="CNATRAINST 3740.9D para 216.aa for the turn; the offset is geometry",
    url="https://navyflightmanuals.tpub.com/3740.9Dwch1&2&3&4/3740.9Dwch1&2&3&40030.htm",
    status="common practice",
)
RATE = give("turn_rate_deg_s", "rate of turn", "deg/s", 0.5, 6, default=1.5)
GROUNDSPEED = give("groundspeed_kn", "groundspeed", "kn", 40, 1000)
LESS_TWO = "miles per minute less two"


def _radius_mental(speed_kn, bank_deg):
    mile_min = speed_kn / 60
    radius = mile_min**2 / 11
    square, _ = as_printed(lambda one: one * one / 10, (mile_min,), (2,), 2)
    lines = (
        f"{num(speed_kn)} kt is {square[0]} nm a minute",
        f"at 30° of bank: {square[0]} x {square[0]} / 10 = {num(mile_min**2 / 10, 2)} nm radius; the "
        f"rule is a tenth high, over 11 it is {num(radius, 2)} nm ({num(2 * radius, 2)} nm diameter)",
    )
    if bank_deg == turns.RULE_BANK_DEG:
        return lines
    factor = np.tan(np.radians(30)) / np.tan(np.radians(bank_deg))
    return (
        *lines,
        f"at {num(bank_deg)}° the radius is {num(factor, 2)} times that (tan 30° / tan {num(bank_deg)}°): "
        f"{num(radius * factor, 2)} nm, diameter {num(2 * radius * factor, 2)} nm",
    )


def _radius_exact(speed_kn, bank_deg):
    radius, rate, diameter, full_s = turns.turn(speed_kn, bank_deg)
    return (
        f"V squared / (g tan {num(bank_deg, 1)}°) with {num(speed_kn * turns.M_S_PER_KN, 1)} m/s and "
        "9.807 m/s2: "
        f"{num(radius, 3)} nm",
        f"{num(rate, 2)}° a second, {num(full_s, 1)} s for 360°, diameter {num(diameter, 2)} nm",
    )


def _turn_picture(speed_kn, bank_deg):
    radius, _, diameter, full_s = turns.turn(speed_kn, bank_deg)
    half = Stroke(points=arc(ORIGIN, radius, 270, 90), arrow=True)
    return Picture(
        title="Half a circle from downwind to the groove",
        strokes=(half, Stroke(points=(moved(ORIGIN, 270, radius), moved(ORIGIN, 90, radius)), kind=FOUND)),
        spots=(Spot(at=ORIGIN, words="d"), Spot(at=moved(ORIGIN, 270, radius), words="1"),
               Spot(at=moved(ORIGIN, 90, radius), words="2")),
        legend=(f"1 to 2 half a turn in {num(full_s / 2, 1)} s; d across, {num(diameter, 2)} nm",),
    )  # fmt: skip


TURN = Quantity(
    name="turn", title="radius, rate and time of a turn", area="pattern",
    words=("turn radius", "turn diameter", "bank", "rate of turn", "abeam distance", "turn rate", "turn circle"),
    inputs=(give("speed_kn", "speed", "kn", 40, 1000), give("bank_deg", "angle of bank", "deg", 1, 80)),
    results=(
        get("radius_nm", "radius", "nm", 0.05, 0.1, round_to=0.01),
        get("rate_deg_s", "rate of turn", "deg/s", 0.1, 0.3, round_to=0.01),
        get("diameter_nm", "diameter", "nm", 0.05, 0.2, round_to=0.01),
        get("full_turn_s", "time for 360°", "s", 1, 6, round_to=0.1),
    ),
    methods={EXACT: turns.turn, RULE: turns.turn_by_square, LESS_TWO: turns.turn_less_two},
    mental=_radius_mental, exact=_radius_exact, picture=_turn_picture,
    slips=(
        slip("diameter for radius", "that is the diameter; the radius is half of it",
             lambda **given: turns.turn(**given)[2]),
        slip("sine for tangent", "the turn needs the tangent of the bank",
             lambda speed_kn, bank_deg: turns.turn(speed_kn, bank_deg)[0] / np.cos(np.radians(bank_deg))),
        slip("degrees as radians", "you took the tangent of the bank as if it were in radians",
             lambda speed_kn, bank_deg: turns.turn(speed_kn, bank_deg)[0] * np.tan(np.radians(bank_deg))
             / np.where(np.abs(np.tan(bank_deg)) < 0.01, 0.01, np.abs(np.tan(bank_deg)))),
        slip("speed not squared", "twice the speed takes four times the room: square it",
             lambda speed_kn, bank_deg: speed_kn / 60 / 10),
        slip("radius for diameter", "that is the radius; the diameter is twice as much",
             lambda **given: turns.turn(**given)[0], "diameter_nm"),
        slip("half a circle", "that is the time for 180°",
             lambda **given: turns.turn(**given)[3] / 2, "full_turn_s"),
        slip("square rule for the diameter", "miles a minute squared over ten is the radius at 30°; double it",
             lambda speed_kn, **_: (speed_kn / 60) ** 2 / 10, "diameter_nm"),
        slip("standard rate", "three degrees a second is standard rate, which this turn is not",
             lambda speed_kn, **_: 120.0 + 0.0 * speed_kn, "full_turn_s"),
        slip("standard rate assumed", "three degrees a second is standard rate, which this turn is not",
             lambda speed_kn, **_: 3.0 + 0.0 * speed_kn, "rate_deg_s"),
        slip("rate of half the bank", "half the bank is less than half the rate",
             lambda speed_kn, bank_deg: turns.turn(speed_kn, np.maximum(bank_deg / 2, 1))[1], "rate_deg_s"),
    ),
    source=HANDBOOK,
)  # fmt: skip


def _bank_mental(tas_kn, turn_rate_deg_s):
    part = 10 if turn_rate_deg_s == turns.STANDARD_RATE_DEG_S else 20
    if turn_rate_deg_s == 1.5 and tas_kn < turns.HALF_RULE_FROM_KN:
        lines = (
            f"below {num(turns.HALF_RULE_FROM_KN)} kt a twentieth and 7 is too much: four or more degrees at 120 kt",
        )
        return (*lines, f"{num(turns.bank_for_rate(tas_kn, turn_rate_deg_s))}° worked out")
    if turn_rate_deg_s in (3.0, 1.5):
        rate = "standard rate" if part == 10 else "half standard rate"
        return (f"{rate}: airspeed / {part} + 7 = {num(tas_kn / part, 1)} + 7 = {num(tas_kn / part + 7, 1)}°",)
    return (
        f"standard rate (3° a second) would be {num(tas_kn / 10, 1)} + 7 = {num(tas_kn / 10 + 7, 1)}°; "
        f"half of it {num(tas_kn / 20 + 7, 1)}°",
        f"{num(turn_rate_deg_s, 2)}° a second lies in proportion: about {num(tas_kn / 30 * turn_rate_deg_s + 7, 1)}°",
    )


BANK = Quantity(
    name="bank_for_rate", title="bank for a standard-rate turn", area="navigation",
    words=("standard rate", "half standard rate", "angle of bank", "turn bank", "rate one"),
    inputs=(
        give("tas_kn", "true airspeed", "kn", 40, 600),
        give("turn_rate_deg_s", "rate of turn", "deg/s", 0.5, 6, default=3.0),
    ),
    results=(get("bank_deg", "bank", "deg", 0.5, 2),),
    methods={EXACT: turns.bank_for_rate, RULE: turns.bank_by_rule},
    mental=_bank_mental,
    exact=lambda tas_kn, turn_rate_deg_s: (
        f"tan(bank) = V x rate / g = {num(tas_kn * turns.M_S_PER_KN, 1)} m/s x "
        f"{num(np.radians(turn_rate_deg_s), 4)} / 9.807: "
        f"{num(turns.bank_for_rate(tas_kn, turn_rate_deg_s), 1)}°",
    ),
    slips=(
        slip("forgot the seven", "a tenth (or a twentieth) of the airspeed, and then 7",
             lambda tas_kn, turn_rate_deg_s: tas_kn * turn_rate_deg_s / 30),
        slip("the other rate", "standard rate takes a tenth, half standard rate a twentieth",
             lambda tas_kn, turn_rate_deg_s: tas_kn * np.where(np.asarray(turn_rate_deg_s) > 2.25, 1.5, 3.0)
             / 30 + 7),
        slip("added ten", "the rule adds 7, not 10",
             lambda tas_kn, turn_rate_deg_s: tas_kn * turn_rate_deg_s / 30 + 10),
    ),
    source=SIXTY,
)  # fmt: skip

TURN_TIME = Quantity(
    name="turn_time", title="time to turn through an angle", area="navigation",
    words=("timed turn", "standard rate"),
    inputs=(
        give("turn_deg", "turn", "deg", 0, 1080),
        give("turn_rate_deg_s", "rate of turn", "deg/s", 0.5, 30, default=3.0),
    ),
    results=(get("turn_time_s", "time", "s", 1, 3),),
    methods={EXACT: turns.turn_time_s},
    mental=lambda turn_deg, turn_rate_deg_s: (
        f"degrees over degrees a second: {num(turn_deg)} / {num(turn_rate_deg_s, 2)} = "
        f"{num(turn_deg / turn_rate_deg_s, 1)} s",
    ),
    slips=(
        slip("half standard rate", "you turned at half the rate",
             lambda turn_deg, turn_rate_deg_s: 2 * turn_deg / turn_rate_deg_s),
        slip("twice the rate", "you turned at twice the rate",
             lambda turn_deg, turn_rate_deg_s: turn_deg / turn_rate_deg_s / 2),
        slip("degrees as seconds", "one degree a second is neither standard nor half standard rate",
             lambda turn_deg, **_: turn_deg),
    ),
    source=TIMED,
)  # fmt: skip

TURN_LEAD = Quantity(
    name="turn_lead", title="lead for a turn onto a course", area="departure",
    words=("turn radius", "intercept", "lead point", "one per cent", "course intercept"),
    inputs=(GROUNDSPEED, give("intercept_deg", "turn", "deg", 1, 150), RATE),
    results=(get("lead_nm", "lead", "nm", 0.1, 0.2, round_to=0.1),),
    methods={EXACT: arcs.turn_lead_nm, RULE: arcs.turn_lead_by_rule},
    mental=lambda groundspeed_kn, intercept_deg, turn_rate_deg_s: (
        f"90° at half standard rate is 1 % of groundspeed (0.5 % at standard rate): "
        f"{num(turns.radius_by_per_cent_nm(groundspeed_kn, turn_rate_deg_s), 2)} nm",
        "60° takes two thirds of it, 45° a third, below 30° very little",
        f"{num(intercept_deg)}°: "
        f"{num(np.interp(intercept_deg, arcs.LEAD_ANGLES_DEG, arcs.LEAD_SHARES), 2)} of it = "
        f"{num(arcs.turn_lead_by_rule(groundspeed_kn, min(intercept_deg, 90), turn_rate_deg_s), 2)} nm",
    ),
    exact=lambda groundspeed_kn, intercept_deg, turn_rate_deg_s: (
        f"radius {num(turns.radius_at_rate_nm(groundspeed_kn, turn_rate_deg_s), 2)} nm x tan("
        f"{num(intercept_deg)}° / 2) = "
        f"{num(arcs.turn_lead_nm(groundspeed_kn, intercept_deg, turn_rate_deg_s), 2)} nm",
    ),
    slips=(
        slip("full lead", "that is the lead for 90°; a smaller turn takes less",
             lambda groundspeed_kn, turn_rate_deg_s, **_: turns.radius_by_per_cent_nm(
                 groundspeed_kn, turn_rate_deg_s)),
        slip("the other rate", "one per cent is for half standard rate, half a per cent for standard rate",
             lambda groundspeed_kn, intercept_deg, turn_rate_deg_s: np.where(
                 np.asarray(turn_rate_deg_s) > 2.25, 2.0, 0.5) * arcs.turn_lead_nm(
                 groundspeed_kn, intercept_deg, turn_rate_deg_s)),
        slip("ten per cent", "one per cent, not ten",
             lambda groundspeed_kn, **_: groundspeed_kn / 10),
    ),
    source=INTERCEPT,
)  # fmt: skip


def _abeam_mental(groundspeed_kn, abeam_nm, turn_deg):
    seconds, after = turns.section_after_turn(groundspeed_kn, abeam_nm, turn_deg)
    across, trail = abs(float(after)) / abeam_nm, float(np.sin(np.radians(turn_deg)))
    return (
        "the line between you keeps its direction, the heading turns: the cosine stays abeam, the sine falls in trail",
        f"abeam {reckoned(across, 'x', abeam_nm, 2, places=(2, 2))} nm{' on the other side' if after < -1e-9 else ''}",
        f"trail {reckoned(trail, 'x', abeam_nm, 2, places=(2, 2))} nm at "
        f"{num(groundspeed_kn / 60, 1)} "
        f"nm a minute: {num(seconds)} s",
    )


ABEAM = Quantity(
    name="section_after_turn", title="section abreast after turning together", area="navigation",
    words=("abeam", "formation", "effect of turn", "trail", "turn offset"),
    inputs=(
        give("groundspeed_kn", "groundspeed", "kn", 60, 1000),
        give("abeam_nm", "abeam before the turn", "nm", 0.1, 10),
        give("turn_deg", "turn", "deg", 0, 180),
    ),
    results=(
        get("out_of_line_s", "ahead or behind, in seconds", "s", 1, 3),
        get("abeam_after_nm", "abeam after, negative on the other side", "nm", 0.05, 0.15, round_to=0.01),
    ),
    methods={EXACT: turns.section_after_turn},
    mental=_abeam_mental,
    slips=(
        slip("took the cosine", "the cosine stays abeam; the time comes from the sine",
             lambda groundspeed_kn, abeam_nm, turn_deg: np.abs(abeam_nm * np.cos(np.radians(turn_deg)))
             / groundspeed_kn * 3600),
        slip("whole distance", "only the sine of the turn falls in trail",
             lambda groundspeed_kn, abeam_nm, **_: abeam_nm / groundspeed_kn * 3600),
        slip("took the sine", "the sine falls in trail; abeam takes the cosine",
             lambda abeam_nm, turn_deg, **_: abeam_nm * np.sin(np.radians(turn_deg)), "abeam_after_nm"),
        slip("still abeam as before", "only a turn of 0° keeps the whole distance abeam",
             lambda abeam_nm, **_: abeam_nm, "abeam_after_nm"),
    ),
    source=SECTION,
)  # fmt: skip


def _clearing_mental(speed_kn, bank_deg, turn_deg, hold_s):
    rate = float(turns.turn(speed_kn, bank_deg)[1])
    turning = turn_deg / rate
    flown = speed_kn / 3600 * (turning + hold_s)
    return (
        f"at {num(bank_deg)}° of bank the turn is {num(rate, 1)}° a second: {num(turn_deg)}° takes {num(turning, 1)} s",
        "out and back each fly half the angle on average: together one turn's time at the full angle",
        f"{num(turning, 1)} + {num(hold_s)} s at {num(speed_kn / 60, 2)} nm a minute is {num(flown, 2)} nm; "
        f"x {num(turn_deg)} / 60 = {num(flown * turn_deg / 60, 3)} nm, {num(flown * turn_deg * 100)} ft "
        "off the track",
    )


def _clearing_exact(speed_kn, bank_deg, turn_deg, hold_s):
    radius_ft = turns.turn(speed_kn, bank_deg)[0] * FT_PER_NM
    held_ft = speed_kn / 3600 * hold_s * FT_PER_NM
    offset, along = turns.clearing_turn(speed_kn, bank_deg, turn_deg, hold_s)
    return (
        f"2 r (1 - cos {num(turn_deg)}°) with r = {num(radius_ft)} ft, plus {num(held_ft)} ft x sin "
        f"{num(turn_deg)}° = "
        f"{num(offset)} ft off, {num(along, 2)} nm along",
    )


def _clearing_picture(speed_kn, bank_deg, turn_deg, hold_s):
    offset, along = turns.clearing_turn(speed_kn, bank_deg, turn_deg, hold_s)
    return clearing(
        side=1, turn_deg=turn_deg, title="The way off the ship's track in a clearing turn",
        legend=(f"bow up; S ship; 1 hold {num(hold_s)} s at {num(turn_deg)}°",
                f"2 parallel to the BRC, {num(offset)} ft off after {num(along, 1)} nm"),
    )  # fmt: skip


def _one_turn(speed_kn, bank_deg, turn_deg, hold_s):
    along_nm = turns.clearing_turn(speed_kn, bank_deg, turn_deg, hold_s)[1]
    return along_nm - turns.turn(speed_kn, bank_deg)[0] * np.sin(np.radians(turn_deg))


CLEARING_TURN = Quantity(
    name="clearing_turn_offset", title="offset of a clearing turn from the ship's track", area="departure",
    words=("clearing turn", "catapult", "BRC", "turn offset"),
    inputs=(
        give("speed_kn", "speed", "kn", 80, 400),
        give("bank_deg", "angle of bank", "deg", 5, 60, default=20.0),
        give("turn_deg", "clearing turn", "deg", 1, 45, take="airwing.clearing_turn_deg", default=20.0),
        give("hold_s", "heading held for", "s", 0, 60),
    ),
    results=(
        get("offset_ft", "offset", "ft", 50, 150, round_to=10),
        get("along_nm", "distance along the track", "nm", 0.05, 0.2, round_to=0.01),
    ),
    methods={EXACT: turns.clearing_turn, RULE: turns.clearing_turn_by_rule},
    mental=_clearing_mental, exact=_clearing_exact, picture=_clearing_picture,
    slips=(
        slip("forgot the turns", "the turns out and back move you over as well",
             lambda speed_kn, turn_deg, hold_s, **_: speed_kn / 3600 * hold_s * np.sin(np.radians(turn_deg))
             * FT_PER_NM),
        slip("forgot the hold", "the seconds held between the turns move you over as well",
             lambda hold_s, **given: turns.clearing_turn(hold_s=0.0 * np.asarray(hold_s), **given)[0]),
        slip("both turns in full", "in a turn the heading is half the angle off on average; you counted "
                                   "it in full",
             lambda speed_kn, bank_deg, turn_deg, hold_s: speed_kn / 3600 * (
                 2 * turn_deg / turns.turn(speed_kn, bank_deg)[1] + hold_s) * turn_deg / 60 * FT_PER_NM),
        slip("speed times the hold", "the turns take you forward as well",
             lambda speed_kn, hold_s, **_: speed_kn * hold_s / 3600, "along_nm"),
        slip("one turn only", "there are two turns along the track, out and back", _one_turn, "along_nm"),
    ),
    source=CLEARING,
)  # fmt: skip

QUANTITIES = (TURN, BANK, TURN_TIME, TURN_LEAD, ABEAM, CLEARING_TURN)
