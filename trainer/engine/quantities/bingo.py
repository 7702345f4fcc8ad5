"""Quantities of bingo: minutes and passes left, bingo fuel, divert or continue, fuel to be launched."""

import numpy as np

from trainer.engine import fuel
from trainer.engine.quantities.carrier_sources import CQ_BINGO, CQ_LIMITS, memory, practice
from trainer.engine.quantities.entries import YES_NO, choose, get, give, num, slip, verdict
from trainer.engine.quantity import EXACT, Input, Quantity

TASKS = {1: "the pattern", 2: "home"}
STATE = give("state_lb", "state", "lb", 0, 40_000)
BINGO = give("bingo_lb", "bingo", "lb", 0, 40_000)
PASS_FUEL = give("pass_fuel_lb", "fuel of one pass", "lb", 50, 5_000, take="airframe.pass_fuel_lb")

MINUTES_TO_BINGO = Quantity(
    name="minutes_to_bingo",
    title="minutes until bingo",
    area="fuel",
    words=("bingo", "endurance", "state"),
    inputs=(STATE, BINGO, give("flow_lb_h", "fuel flow", "lb/h", 100, 60_000, take="airframe.hold_flow_lb_h")),
    results=(get("minutes", "time to bingo", "min", 0.5, 1, round_to=0.5, rounding="down"),),
    methods={EXACT: fuel.minutes_to_bingo},
    mental=lambda state_lb, bingo_lb, flow_lb_h: (
        f"above bingo: {num(state_lb)} - {num(bingo_lb)} = {num(state_lb - bingo_lb)} lb",
        f"{num(flow_lb_h)} lb/h is {num(flow_lb_h / 60, 1)} lb a minute: {num(state_lb - bingo_lb)} / "
        f"{num(flow_lb_h / 60, 1)} = {num((state_lb - bingo_lb) / flow_lb_h * 60, 1)} min, rounded down",
    ),
    slips=(
        slip("to empty tanks", "that is the time to empty tanks; stop at bingo",
             lambda state_lb, bingo_lb, flow_lb_h: state_lb / np.asarray(flow_lb_h) * 60),
        slip("divided by a hundred", "an hour has sixty minutes, not a hundred",
             lambda state_lb, bingo_lb, flow_lb_h: (np.asarray(state_lb) - bingo_lb) / np.asarray(flow_lb_h) * 100),
        slip("bingo alone", "that is how long bingo itself would last",
             lambda state_lb, bingo_lb, flow_lb_h: bingo_lb / np.asarray(flow_lb_h) * 60),
    ),
    source=practice("plain division"),
)  # fmt: skip


def _passes_lines(ball_fuel_lb, bingo_lb, pass_fuel_lb):
    patterns, spare = fuel.passes_left(ball_fuel_lb, bingo_lb, pass_fuel_lb)
    exactly = patterns > spare and patterns > 0
    return (
        f"above bingo: {num(ball_fuel_lb)} - {num(bingo_lb)} = {num(ball_fuel_lb - bingo_lb)} lb",
        f"{num(ball_fuel_lb - bingo_lb)} / {num(pass_fuel_lb)} = {num((ball_fuel_lb - bingo_lb) / pass_fuel_lb, 2)}: "
        f"{num(patterns)} patterns, never rounded up; the pass you are on is not counted",
        *((f"the last one ends exactly at bingo, so only {num(spare)} leave anything to spare",) if exactly else ()),
    )


PASSES = Quantity(
    name="passes_left",
    title="bolter patterns left before bingo",
    area="fuel",
    words=("bingo", "bolter", "passes", "trick or treat", "ball"),
    inputs=(give("ball_fuel_lb", "fuel on the ball", "lb", 0, 40_000), BINGO, PASS_FUEL),
    results=(
        get("passes", "patterns until bingo", "count", 0, 0),
        get("passes_with_margin", "patterns that leave more than bingo", "count", 0, 0),
    ),
    methods={EXACT: fuel.passes_left},
    mental=_passes_lines,
    slips=(
        slip("rounded up", "part of a pattern is no pattern: you would be below bingo on the way round",
             lambda ball_fuel_lb, bingo_lb, pass_fuel_lb:
             np.ceil(np.round((np.asarray(ball_fuel_lb, dtype=float) - bingo_lb) / pass_fuel_lb, 9))),
        slip("counted the pass you are on", "the pass you are on is paid for; count the patterns after it",
             lambda ball_fuel_lb, bingo_lb, pass_fuel_lb:
             fuel.passes_left(ball_fuel_lb, bingo_lb, pass_fuel_lb)[0] + 1),
        slip("to empty tanks", "you counted down to nothing; stop at bingo",
             lambda ball_fuel_lb, bingo_lb, pass_fuel_lb: np.floor(np.asarray(ball_fuel_lb) / pass_fuel_lb)),
        slip("bingo itself counted as spare", "a pattern that ends exactly at bingo leaves nothing to spare",
             lambda ball_fuel_lb, bingo_lb, pass_fuel_lb:
             fuel.passes_left(ball_fuel_lb, bingo_lb, pass_fuel_lb)[0], "passes_with_margin"),
        slip("counted the pass you are on", "the pass you are on is paid for; count the patterns after it",
             lambda ball_fuel_lb, bingo_lb, pass_fuel_lb:
             fuel.passes_left(ball_fuel_lb, bingo_lb, pass_fuel_lb)[1] + 1, "passes_with_margin"),
    ),
    source=practice("plain division, rounded down"),
)  # fmt: skip

FUEL_FOR_PASSES = Quantity(
    name="fuel_for_passes",
    title="fuel on the ball for a number of passes",
    area="fuel",
    words=("bingo", "passes", "tank state", "ball"),
    inputs=(BINGO, PASS_FUEL, give("passes", "bolter patterns", "count", 0, 20)),
    results=(get("ball_fuel_lb", "fuel on the ball", "lb", 50, 100, round_to=100, rounding="up"),),
    methods={EXACT: fuel.fuel_for_passes_lb},
    mental=lambda bingo_lb, pass_fuel_lb, passes: (
        f"{num(passes)} x {num(pass_fuel_lb)} = {num(passes * pass_fuel_lb)} lb on top of bingo",
        f"{num(bingo_lb)} + {num(passes * pass_fuel_lb)} = {num(bingo_lb + passes * pass_fuel_lb)} lb",
    ),
    slips=(
        slip("one pass too many", "the first pass is flown with the fuel you arrive with",
             lambda bingo_lb, pass_fuel_lb, passes: bingo_lb + (np.asarray(passes) + 1) * pass_fuel_lb),
        slip("forgot bingo", "the passes come on top of bingo",
             lambda bingo_lb, pass_fuel_lb, passes: passes * pass_fuel_lb),
        slip("one pass too few", "you paid for one pattern less",
             lambda bingo_lb, pass_fuel_lb, passes: bingo_lb + (np.asarray(passes) - 1) * pass_fuel_lb),
    ),
    source=memory("air-wing practice for the state at which an aircraft is sent to the tanker"),
)  # fmt: skip


def _neighbour_point(divert_distance_nm, bingo_table, side):
    at, values = np.asarray(bingo_table.at), np.asarray(bingo_table.values, dtype=float)
    above = np.clip(np.searchsorted(at, divert_distance_nm, side="left"), 1, len(at) - 1)
    return values[above if side > 0 else above - 1][()]


BINGO_FUEL = Quantity(
    name="bingo_fuel",
    title="bingo fuel from the distance to the divert field",
    area="emergency",
    words=("bingo", "divert", "profile", "distance"),
    inputs=(
        give("divert_distance_nm", "distance to the divert field", "nm", 0, 600),
        Input(name="bingo_table", title="bingo table", unit="table", take="airframe.bingo"),
    ),
    results=(get("bingo_lb", "bingo fuel", "lb", 50, 99, round_to=100, rounding="up"),),
    methods={EXACT: fuel.bingo_fuel_lb},
    mental=lambda divert_distance_nm, bingo_table: (
        'at bingo you call "bingo", squawk 7700 and divert at once; the number is worked out before the flight',
        f"{num(divert_distance_nm)} nm lies between "
        f"{num(_neighbour_point(divert_distance_nm, bingo_table, -1))} lb and "
        f"{num(_neighbour_point(divert_distance_nm, bingo_table, 1))} lb in the table: in proportion "
        f"{num(bingo_table(divert_distance_nm))} lb, rounded up to a hundred",
    ),
    slips=(
        slip("read the nearer field", "you read the row for a shorter distance and did not go up",
             lambda divert_distance_nm, bingo_table: _neighbour_point(divert_distance_nm, bingo_table, -1)),
        slip("read the further field", "you read the row for a longer distance; that is safe, but not the number",
             lambda divert_distance_nm, bingo_table: _neighbour_point(divert_distance_nm, bingo_table, 1)),
        slip("rounded down", "bingo is rounded up",
             lambda divert_distance_nm, bingo_table: np.floor(np.asarray(bingo_table(divert_distance_nm)) / 100) * 100),
    ),
    source=practice("linear interpolation; the table is the type's own"),
)  # fmt: skip

BINGO_DECISION = Quantity(
    name="bingo_decision",
    title="bingo: divert or continue",
    area="emergency",
    words=("bingo", "divert", "groove"),
    inputs=(STATE, BINGO, choose("in_groove", "in the groove, hook down, under LSO control", YES_NO)),
    results=(verdict("decision", "what you do", {1: "divert", 0: "continue"}),),
    methods={EXACT: fuel.bingo_decision},
    mental=lambda state_lb, bingo_lb, in_groove: (
        'at or below bingo: call "bingo", squawk 7700, divert at once; only in the groove, hook down and under '
        "LSO control, you finish that one pass",
        f"state {num(state_lb)} lb, bingo {num(bingo_lb)} lb, in the groove: {YES_NO[int(in_groove)]} – "
        + ("divert" if fuel.bingo_decision(state_lb, bingo_lb, in_groove) else "continue"),
    ),
    slips=(
        slip("pressed on", "at or below bingo you leave at once unless you are in the groove",
             lambda state_lb, bingo_lb, in_groove: np.asarray(state_lb, dtype=float) * 0),
        slip("left out of the groove", "in the groove with hook down you finish the pass, then divert if not trapped",
             lambda state_lb, bingo_lb, in_groove:
             np.where(np.asarray(state_lb) <= bingo_lb, 1.0, 0.0)[()]),
        slip("bingo itself taken as enough", "bingo is the last moment to leave: at the number you go",
             lambda state_lb, bingo_lb, in_groove:
             np.where((np.asarray(state_lb) < bingo_lb) & (np.asarray(in_groove) == 0), 1.0, 0.0)[()]),
    ),
    source=CQ_BINGO,
)  # fmt: skip

CQ_LAUNCH = Quantity(
    name="cq_launch_fuel",
    title="fuel to be launched during carrier qualification (training command)",
    area="fuel",
    words=("qualification", "launch", "bingo", "refuel", "student"),
    inputs=(STATE, BINGO, choose("task", "launched for", TASKS)),
    results=(
        get("needed_lb", "fuel needed", "lb", 5, 50, round_to=10, rounding="up"),
        verdict("decision", "launch or refuel", {1: "launch", 0: "refuel"}),
    ),
    methods={EXACT: fuel.cq_launch},
    mental=lambda state_lb, bingo_lb, task: (
        "three hundred over bingo for the pattern, six hundred over bingo for home",
        f"{num(bingo_lb)} + {num(300 * task)} = {num(bingo_lb + 300 * task)} lb; state {num(state_lb)} lb: "
        + ("launch" if state_lb >= bingo_lb + 300 * task else "refuel first"),
    ),
    slips=(
        slip("swapped pattern and home", "three hundred is for the pattern, six hundred for home",
             lambda state_lb, bingo_lb, task: bingo_lb + np.where(np.asarray(task) == 1, 600.0, 300.0)),
        slip("bingo alone", "bingo alone is not enough to be launched", lambda state_lb, bingo_lb, task: bingo_lb),
        slip("swapped pattern and home", "three hundred is for the pattern, six hundred for home",
             lambda state_lb, bingo_lb, task:
             fuel.cq_launch(state_lb, bingo_lb, 3 - np.asarray(task))[1], "decision"),
        slip("bingo alone", "bingo alone is not enough to be launched",
             lambda state_lb, bingo_lb, task: np.where(np.asarray(state_lb) >= bingo_lb, 1.0, 0.0)[()], "decision"),
    ),
    source=CQ_LIMITS,
)  # fmt: skip

QUANTITIES = (MINUTES_TO_BINGO, PASSES, FUEL_FOR_PASSES, BINGO_FUEL, BINGO_DECISION, CQ_LAUNCH)
