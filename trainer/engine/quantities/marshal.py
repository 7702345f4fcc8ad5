"""Quantities of the marshal stack: fix, bearings, push time."""

import numpy as np

from trainer.engine import marshal
from trainer.engine.angles import wrap_360
from trainer.engine.picture import FOUND, FRAME, GIVEN, Picture, Spot, Stroke
from trainer.engine.quantities.carrier_sources import RECOVERY_TEXT, STACK, practice
from trainer.engine.quantities.entries import (
    YES_NO,
    get,
    give,
    hdg,
    min_s,
    num,
    past,
    past_north,
    slip,
    verdict,
)
from trainer.engine.quantity import EXACT, Quantity

ANGELS = give("angels", "assigned altitude", "angels", 6, 40)


def stack_picture(angels):
    """Return the stack seen from the side: each level at its fix, your own as what is looked for."""
    own = round(float(angels))
    lowest = min(max(6, own - 2), 36)
    levels = range(lowest, lowest + 5)
    fixes = {level: float(marshal.fix_distance_nm(level)) for level in levels}
    strokes = [
        Stroke(points=((fixes[level], level), (fixes[level] + 4.0, level)), kind=FOUND if level == own else GIVEN)
        for level in levels
    ]
    farthest = max(fixes.values()) + 4.0
    base = lowest - 2.0
    glide = Stroke(points=((0.0, base), (farthest, base)), kind=FRAME)
    spots = [
        Spot(at=(fixes[level] + 4.0, level), words=f"{level}: {num(fixes[level])} nm{' you' if level == own else ''}")
        for level in levels
    ]
    return Picture(
        title="The marshal stack from the side", strokes=(glide, *strokes), to_scale=False,
        spots=(*spots, Spot(at=(0.0, base), words="S")), legend=("S ship; astern of it the levels, angels and fix",),
    )  # fmt: skip


FIX_DISTANCE = Quantity(
    name="marshal_fix_distance",
    title="distance of the marshal fix",
    area="marshal",
    words=("stack", "holding", "dme"),
    inputs=(ANGELS,),
    results=(get("fix_distance_nm", "marshal fix", "nm", 0.05, 0.5),),
    methods={EXACT: marshal.fix_distance_nm},
    mental=lambda angels: (
        "one mile for each thousand feet, plus fifteen",
        f"{angels:g} + 15 = {angels + 15:g} nm",
    ),
    picture=stack_picture,
    slips=(
        slip("subtracted the fifteen", "you took fifteen away; the fix is angels plus fifteen",
             lambda angels: abs(angels - 15)),
        slip("angels taken as miles", "you gave the angels as the distance; fifteen miles are added",
             lambda angels: angels),
        slip("angels and a half", "you took half as much again; fifteen is added whatever the altitude",
             lambda angels: angels * 1.5),
    ),
    source=STACK,
)  # fmt: skip

FIX_ANGELS = Quantity(
    name="marshal_angels",
    title="stack altitude from the distance of the fix",
    area="marshal",
    words=("stack", "holding", "dme", "angels"),
    inputs=(give("fix_distance_nm", "distance of the fix", "nm", 21, 55),),
    results=(get("angels", "altitude", "angels", 0.05, 0.5),),
    methods={EXACT: marshal.fix_angels},
    mental=lambda fix_distance_nm: (
        "the fix is angels plus fifteen, so take fifteen off the miles",
        f"{num(fix_distance_nm)} - 15 = angels {num(fix_distance_nm - 15)}",
    ),
    slips=(
        slip("added fifteen", "you went the wrong way: from miles to angels fifteen comes off",
             lambda fix_distance_nm: fix_distance_nm + 15),
        slip("miles taken as angels", "that is the distance; fifteen comes off",
             lambda fix_distance_nm: fix_distance_nm),
        slip("took ten off", "the offset is fifteen miles, not ten", lambda fix_distance_nm: fix_distance_nm - 10),
    ),
    source=STACK,
)  # fmt: skip


def _final_bearing_lines(brc_deg, deck_angle_deg):
    raw = brc_deg - deck_angle_deg
    wraps = raw < 0.5
    again = f" is also {num(brc_deg + 360, 1)}: {num(brc_deg + 360, 1)}" if wraps else ""
    return (
        "the landing area points to the left of the bow: take the angle off the BRC",
        f"{hdg(brc_deg)}{again} - {num(deck_angle_deg, 1)} = {hdg(raw)}",
    )


FINAL_BEARING = Quantity(
    name="final_bearing",
    title="final bearing from the BRC",
    area="marshal",
    words=("brc", "angled deck", "landing area", "final bearing"),
    inputs=(
        give("brc_deg", "BRC", "heading", 0, 360),
        give("deck_angle_deg", "angle of the landing area", "deg", 0, 15, take="ship.deck_angle_deg"),
    ),
    results=(get("final_bearing_deg", "final bearing", "heading", 0.5, 1),),
    methods={EXACT: marshal.final_bearing_deg},
    mental=_final_bearing_lines,
    slips=(
        slip("added the deck angle", "you added the deck angle; it is subtracted",
             lambda brc_deg, deck_angle_deg: wrap_360(np.asarray(brc_deg) + deck_angle_deg)),
        slip("gave the BRC", "that is the BRC; the landing area is angled to its left",
             lambda brc_deg, deck_angle_deg: wrap_360(brc_deg)),
        slip("slipped passing north", "below zero add 360: 005 - 9 is 356",
             lambda brc_deg, deck_angle_deg: past_north(np.asarray(brc_deg, dtype=float) - deck_angle_deg)),
    ),
    source=RECOVERY_TEXT,
)  # fmt: skip


def reciprocal_in_the_head(bearing):
    """Return the line that turns a bearing round the way aviators do it."""
    if 180 < bearing < 200:
        return f"{bearing:03.0f} - 180 = {bearing - 180:03.0f}"
    if bearing <= 180:
        return f"{bearing:03.0f} + 200 = {bearing + 200:03.0f}; - 20 = {bearing + 180:03.0f}"
    return f"{bearing:03.0f} - 200 = {bearing - 200:03.0f}; + 20 = {bearing - 180:03.0f}"


RADIAL = Quantity(
    name="marshal_radial",
    title="marshal radial from the expected final bearing",
    area="marshal",
    words=("stack", "holding", "reciprocal"),
    inputs=(give("final_bearing_deg", "expected final bearing", "heading", 0, 360),),
    results=(get("marshal_radial_deg", "marshal radial", "heading", 0.5, 1),),
    methods={EXACT: marshal.radial_deg},
    mental=lambda final_bearing_deg: (
        "add 200 and take 20 away (or the other way round above 180)",
        reciprocal_in_the_head(final_bearing_deg),
    ),
    slips=(
        slip("gave the final bearing itself",
             "that is the final bearing itself, which puts you ahead of the ship; marshal is its reciprocal",
             lambda final_bearing_deg: final_bearing_deg),
        slip("stopped half way", "you moved 200 and left it there; 20 goes back again",
             lambda final_bearing_deg:
             np.where(np.asarray(final_bearing_deg) <= 180, final_bearing_deg + 200, final_bearing_deg - 200)[()]),
        slip("went 20 the wrong way", "after 200 one way, 20 goes the other way",
             lambda final_bearing_deg: wrap_360(np.asarray(final_bearing_deg) + 220.0)),
    ),
    source=STACK,
)  # fmt: skip

INBOUND_COURSE = Quantity(
    name="marshal_inbound_course",
    title="inbound course at the marshal fix",
    area="marshal",
    words=("stack", "holding", "reciprocal", "inbound"),
    inputs=(give("marshal_radial_deg", "marshal radial", "heading", 0, 360),),
    results=(get("inbound_course_deg", "inbound course", "heading", 0.5, 1),),
    methods={EXACT: marshal.inbound_course_deg},
    mental=lambda marshal_radial_deg: (
        "a radial points away from the ship; you fly the other way along it",
        reciprocal_in_the_head(marshal_radial_deg),
    ),
    slips=(
        slip("flew the radial as a heading", "the radial leads away from the ship; inbound is its reciprocal",
             lambda marshal_radial_deg: wrap_360(marshal_radial_deg)),
        slip("stopped half way", "you moved 200 and left it there; 20 goes back again",
             lambda marshal_radial_deg:
             np.where(np.asarray(marshal_radial_deg) <= 180, marshal_radial_deg + 200, marshal_radial_deg - 200)[()]),
        slip("went 20 the wrong way", "after 200 one way, 20 goes the other way",
             lambda marshal_radial_deg: wrap_360(np.asarray(marshal_radial_deg) + 220.0)),
    ),
    source=STACK,
)  # fmt: skip


def _push_lines(first_push_minute, position, interval_min):
    raw = first_push_minute + (position - 1) * interval_min
    sum_text = f":{num(raw, 1)}" if raw >= 60 else past(raw)
    wrap = f"; past the hour take 60 off: {past(raw)}" if raw >= 60 else ""
    return (
        f"number {num(position)} pushes {num(position - 1)} intervals after the lowest: "
        f"{num(position - 1)} x {num(interval_min, 1)} = {num((position - 1) * interval_min, 1)} min",
        f"{past(first_push_minute)} + {num((position - 1) * interval_min, 1)} = {sum_text}{wrap}",
    )


PUSH = Quantity(
    name="push_time",
    title="push time from the position in the stack",
    area="marshal",
    words=("eat", "expected approach time", "stack", "interval"),
    inputs=(
        give("first_push_minute", "push of the lowest aircraft", "minute", 0, 59),
        give("position", "position in the stack, lowest is 1", "count", 1, 30),
        give("interval_min", "interval", "min", 0.5, 5, take="airwing.push_interval_min", default=1),
    ),
    results=(get("push_minute", "push time", "minute", 0.01, 0.2, round_to=0.5),),
    methods={EXACT: marshal.push_minute},
    mental=_push_lines,
    slips=(
        slip("counted the lowest as an interval", "the lowest pushes at its own time: position less one intervals",
             lambda first_push_minute, position, interval_min:
             np.mod(first_push_minute + np.asarray(position, dtype=float) * interval_min, 60)),
        slip("one interval short", "you counted one interval too few",
             lambda first_push_minute, position, interval_min:
             np.mod(first_push_minute + (np.asarray(position, dtype=float) - 2) * interval_min, 60)),
        slip("counted the wrong way", "aircraft above the lowest push later, not earlier",
             lambda first_push_minute, position, interval_min:
             np.mod(first_push_minute - (np.asarray(position, dtype=float) - 1) * interval_min, 60)),
        slip("one minute whatever the interval", "the interval is not one minute here",
             lambda first_push_minute, position, interval_min:
             np.mod(first_push_minute + np.asarray(position, dtype=float) - 1, 60)),
    ),
    source=practice("one minute between pushes is a former naval aviator's account; the interval is an input"),
)  # fmt: skip

CASE_2_LEGAL = Quantity(
    name="case_2_altitude_legal",
    title="is this a Case II marshal altitude",
    area="marshal",
    words=("stack", "odd thousands", "Case II"),
    inputs=(give("altitude_ft", "altitude", "ft", 0, 60_000),),
    results=(verdict("legal", "a Case II marshal altitude", YES_NO),),
    methods={EXACT: marshal.case_2_legal},
    mental=lambda altitude_ft: (
        "Case II uses odd thousands only, seven to nineteen; the blocks between stay empty so a section can split",
        f"{num(altitude_ft)} ft: {YES_NO[int(marshal.case_2_legal(altitude_ft))]}",
    ),
    slips=(
        slip("used the Case III list", "every thousand from six up is the Case III list; Case II skips the even ones",
             lambda altitude_ft:
             np.where((np.mod(altitude_ft, 1000) == 0) & (np.asarray(altitude_ft) >= 6000), 1.0, 0.0)[()]),
        slip("odd, but too low", "the lowest Case II altitude is seven thousand",
             lambda altitude_ft: np.where(np.mod(altitude_ft, 2000) == 1000, 1.0, 0.0)[()]),
    ),
    source=STACK,
)  # fmt: skip


LONGEST_HOLD_S = 45 * 60


def _time_lines(now_minute, now_second, push_minute, push_second):
    total = float(marshal.time_to_lose_s(now_minute, now_second, push_minute, push_second))
    if push_second < now_second:
        borrow = f"{num(push_second)} - {num(now_second)} seconds will not go: borrow a minute, "
        seconds = borrow + f"{num(push_second + 60)} - {num(now_second)} = {num(push_second + 60 - now_second)} s"
    else:
        seconds = f"seconds: {num(push_second)} - {num(now_second)} = {num(push_second - now_second)} s"
    lines = (seconds, f"minutes round the hour: {num(total // 60)}; time to lose {min_s(total)}, {num(total)} s")
    late = f"nobody holds so long: more likely the push was {min_s(3600 - total)} ago, and you are late"
    return (*lines, late) if total > LONGEST_HOLD_S else lines


TIME_TO_LOSE = Quantity(
    name="time_to_lose",
    title="time to lose before the push",
    area="marshal",
    words=("eat", "holding", "push", "timing"),
    inputs=(
        give("now_minute", "minute now", "minute", 0, 59),
        give("now_second", "second now", "s", 0, 59, default=0),
        give("push_minute", "minute of the push", "minute", 0, 59),
        give("push_second", "second of the push", "s", 0, 59, default=0),
    ),
    results=(get("time_to_lose_s", "time to lose", "s", 0.5, 5),),
    methods={EXACT: marshal.time_to_lose_s},
    mental=_time_lines,
    slips=(
        slip("a minute of a hundred seconds", "you counted a hundred seconds to the minute when you borrowed",
             lambda now_minute, now_second, push_minute, push_second:
             marshal.time_to_lose_s(now_minute, now_second, push_minute, push_second)
             + np.where(np.asarray(push_second) < now_second, 40.0, 0.0)),
        slip("forgot the borrowed minute", "you borrowed a minute for the seconds and did not pay it back",
             lambda now_minute, now_second, push_minute, push_second:
             marshal.time_to_lose_s(now_minute, now_second, push_minute, push_second)
             + np.where(np.asarray(push_second) < now_second, 60.0, 0.0)),
        slip("an hour of a hundred minutes", "past the hour add sixty minutes, not a hundred",
             lambda now_minute, now_second, push_minute, push_second:
             marshal.time_to_lose_s(now_minute, now_second, push_minute, push_second)
             + np.where(np.asarray(push_minute) * 60 + push_second < np.asarray(now_minute) * 60 + now_second,
                        2400.0, 0.0)),
        slip("seconds left out", "the seconds count as well",
             lambda now_minute, now_second, push_minute, push_second:
             np.mod(np.asarray(push_minute, dtype=float) - now_minute, 60) * 60),
    ),
    source=practice("clock arithmetic; push within 10 s is a former landing signal officer's essay"),
)  # fmt: skip

QUANTITIES = (
    FIX_DISTANCE, FIX_ANGELS, FINAL_BEARING, RADIAL, INBOUND_COURSE, PUSH, CASE_2_LEGAL, TIME_TO_LOSE,
)  # fmt: skip
