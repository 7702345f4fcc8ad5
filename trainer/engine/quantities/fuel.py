"""Quantities of fuel: burn, ladder back from the ball, dump, trap, reserve."""

import numpy as np

from trainer.engine import fuel
from trainer.engine.quantities.carrier_sources import FUEL_PLANNING, FUEL_RESERVE, memory, practice
from trainer.engine.quantities.entries import get, give, num, slip
from trainer.engine.quantity import EXACT, Quantity

APPROACH_BURN = give(
    "approach_burn_lb", "burn from the push to the ball", "lb", 0, 10_000, take="airframe.approach_burn_lb"
)
HOLD_FLOW = give("hold_flow_lb_h", "flow in holding", "lb/h", 0, 60_000, take="airframe.hold_flow_lb_h")
HOLD_TIME = give("hold_min", "time in holding", "min", 0, 120)

FLOW_PER_MINUTE = Quantity(
    name="fuel_flow_per_minute",
    title="fuel flow per minute",
    area="fuel",
    words=("flow", "burn", "pph", "fuel flow"),
    inputs=(give("flow_lb_h", "fuel flow", "lb/h", 0, 60_000),),
    results=(get("flow_lb_min", "flow per minute", "lb/min", 0.5, 2),),
    methods={EXACT: fuel.flow_lb_min},
    mental=lambda flow_lb_h: (
        "strike a nought and divide by six",
        f"{num(flow_lb_h)} lb/h: {num(flow_lb_h / 10, 1)} / 6 = {num(flow_lb_h / 60, 1)} lb/min",
    ),
    slips=(
        slip("divided by a hundred", "an hour has sixty minutes, not a hundred", lambda flow_lb_h: flow_lb_h / 100),
        slip("divided by six", "you divided by six; a nought has to go as well", lambda flow_lb_h: flow_lb_h / 6),
    ),
    source=FUEL_PLANNING,
)  # fmt: skip

BURN = Quantity(
    name="fuel_burn",
    title="fuel needed for a time",
    area="fuel",
    words=("burn", "flow", "planning", "holding fuel"),
    inputs=(
        give("flow_lb_h", "fuel flow", "lb/h", 0, 60_000, take="airframe.cruise_flow_lb_h"),
        give("time_min", "time", "min", 0, 1_440),
    ),
    results=(get("burn_lb", "fuel needed", "lb", 5, 9, round_to=10, rounding="up"),),
    methods={EXACT: fuel.burn_lb},
    mental=lambda flow_lb_h, time_min: (
        f"{num(flow_lb_h)} lb/h is {num(flow_lb_h / 60, 1)} lb a minute",
        f"{num(flow_lb_h / 60, 1)} x {num(time_min, 1)} min = {num(flow_lb_h / 60 * time_min)} lb; "
        "fuel needed is rounded up to ten",
    ),
    slips=(
        slip("divided by a hundred", "an hour has sixty minutes, not a hundred",
             lambda flow_lb_h, time_min: flow_lb_h / 100 * time_min),
        slip("rounded down", "fuel needed is rounded up",
             lambda flow_lb_h, time_min: np.floor(flow_lb_h / 600 * np.asarray(time_min)) * 10),
        slip("took the hourly flow", "that is a whole hour's fuel", lambda flow_lb_h, time_min: flow_lb_h),
    ),
    source=FUEL_PLANNING,
)  # fmt: skip

ROUND_UP = Quantity(
    name="fuel_rounded_up",
    title="fuel needed, rounded as planning does",
    area="fuel",
    words=("round up", "planning", "fuel needed"),
    inputs=(
        give("fuel_lb", "fuel as computed", "lb", 0, 40_000),
        give("step_lb", "rounded to", "lb", 1, 1_000, default=10),
    ),
    results=(get("planned_lb", "fuel to plan", "lb", 0, 0, round_to=0),),
    methods={EXACT: fuel.rounded_up_lb},
    mental=lambda fuel_lb, step_lb: (
        f"fuel needed goes up to the next {num(step_lb)} lb, never down",
        f"{num(fuel_lb, 1)} lb -> {num(fuel.rounded_up_lb(fuel_lb, step_lb))} lb",
    ),
    slips=(
        slip("rounded down", "fuel needed is never rounded down",
             lambda fuel_lb, step_lb: np.floor(np.asarray(fuel_lb, dtype=float) / step_lb) * step_lb),
        slip("rounded to the nearest", "not to the nearest: up",
             lambda fuel_lb, step_lb: np.floor(np.asarray(fuel_lb, dtype=float) / step_lb + 0.5) * step_lb),
        slip("one step too far", "a number that stands on the step already stays there",
             lambda fuel_lb, step_lb: (np.floor(np.asarray(fuel_lb, dtype=float) / step_lb) + 2) * step_lb),
    ),
    source=FUEL_PLANNING,
)  # fmt: skip

MAX_TRAP = Quantity(
    name="max_trap_fuel",
    title="most fuel to trap with",
    area="fuel",
    words=("max trap", "trap weight", "arrested landing", "landing weight"),
    inputs=(
        give("max_trap_weight_lb", "heaviest arrested landing", "lb", 1_000, 150_000,
             take="airframe.max_trap_weight_lb"),
        give("basic_weight_lb", "basic weight", "lb", 1_000, 100_000, take="airframe.basic_weight_lb"),
        give("crew_lb", "crew", "lb", 0, 2_000, take="airframe.crew_lb"),
        give("stores_lb", "stores still aboard", "lb", 0, 30_000, take="airframe.retained_stores_lb"),
    ),
    results=(get("max_trap_fuel_lb", "max trap fuel", "lb", 50, 99, round_to=100, rounding="down"),),
    methods={EXACT: fuel.max_trap_fuel_lb},
    mental=lambda max_trap_weight_lb, basic_weight_lb, crew_lb, stores_lb: (
        f"what stays aboard: {num(basic_weight_lb)} + {num(crew_lb)} + {num(stores_lb)} = "
        f"{num(basic_weight_lb + crew_lb + stores_lb)} lb",
        f"{num(max_trap_weight_lb)} - {num(basic_weight_lb + crew_lb + stores_lb)} = "
        f"{num(max_trap_weight_lb - basic_weight_lb - crew_lb - stores_lb)} lb, rounded down to a hundred",
    ),
    slips=(
        slip("forgot the stores", "stores that are still aboard count against the limit",
             lambda max_trap_weight_lb, basic_weight_lb, crew_lb, stores_lb:
             max_trap_weight_lb - basic_weight_lb - crew_lb),
        slip("forgot the crew", "the crew counts against the limit",
             lambda max_trap_weight_lb, basic_weight_lb, crew_lb, stores_lb:
             max_trap_weight_lb - basic_weight_lb - stores_lb),
        slip("rounded up", "a limit is rounded down: more fuel would be too heavy",
             lambda max_trap_weight_lb, basic_weight_lb, crew_lb, stores_lb:
             np.ceil((np.asarray(max_trap_weight_lb) - basic_weight_lb - crew_lb - stores_lb) / 100) * 100),
    ),
    source=memory("the limit is the type's own"),
)  # fmt: skip

LADDER = Quantity(
    name="fuel_ladder",
    title="fuel ladder back from the ball",
    area="fuel",
    words=("ladder", "fix", "push", "ball", "holding"),
    inputs=(give("ball_fuel_lb", "fuel wanted on the ball", "lb", 0, 40_000), APPROACH_BURN, HOLD_FLOW, HOLD_TIME),
    results=(
        get("fix_fuel_lb", "fuel needed entering holding", "lb", 50, 99, round_to=100, rounding="up"),
        get("push_fuel_lb", "fuel needed at the push", "lb", 50, 99, round_to=100, rounding="up"),
    ),
    methods={EXACT: fuel.ladder_lb},
    mental=lambda ball_fuel_lb, approach_burn_lb, hold_flow_lb_h, hold_min: (
        "work back from the ball; every step back adds fuel",
        f"at the push: {num(ball_fuel_lb)} + {num(approach_burn_lb)} = {num(ball_fuel_lb + approach_burn_lb)} lb",
        f"holding: {num(hold_flow_lb_h / 60, 1)} lb/min x {num(hold_min, 1)} min = "
        f"{num(hold_flow_lb_h / 60 * hold_min)} lb",
        f"at the fix: {num(ball_fuel_lb + approach_burn_lb)} + {num(hold_flow_lb_h / 60 * hold_min)} = "
        f"{num(ball_fuel_lb + approach_burn_lb + hold_flow_lb_h / 60 * hold_min)} lb, rounded up to a hundred",
    ),
    slips=(
        slip("subtracted the burn", "going back in time the fuel gets more: add",
             lambda ball_fuel_lb, approach_burn_lb, hold_flow_lb_h, hold_min:
             ball_fuel_lb - approach_burn_lb - hold_flow_lb_h / 60 * hold_min),
        slip("left the approach out", "the burn from the push to the ball is missing",
             lambda ball_fuel_lb, approach_burn_lb, hold_flow_lb_h, hold_min:
             ball_fuel_lb + hold_flow_lb_h / 60 * hold_min),
        slip("left the holding out", "that is the fuel at the push; the holding comes on top",
             lambda ball_fuel_lb, approach_burn_lb, hold_flow_lb_h, hold_min: ball_fuel_lb + approach_burn_lb),
        slip("subtracted the approach", "at the push you need more than on the ball: add",
             lambda ball_fuel_lb, approach_burn_lb, hold_flow_lb_h, hold_min: ball_fuel_lb - approach_burn_lb,
             "push_fuel_lb"),
        slip("holding counted at the push", "at the push the holding is behind you",
             lambda ball_fuel_lb, approach_burn_lb, hold_flow_lb_h, hold_min:
             ball_fuel_lb + approach_burn_lb + hold_flow_lb_h / 60 * hold_min, "push_fuel_lb"),
    ),
    source=memory("air-wing practice; the burns are the type's own"),
)  # fmt: skip

BALL_FUEL = Quantity(
    name="ball_fuel",
    title="fuel on the ball",
    area="fuel",
    words=("ball", "state", "holding", "approach"),
    inputs=(give("fuel_at_fix_lb", "fuel entering holding", "lb", 0, 40_000), HOLD_FLOW, HOLD_TIME, APPROACH_BURN),
    results=(get("ball_fuel_lb", "fuel on the ball", "lb", 50, 200, round_to=100, rounding="down"),),
    methods={EXACT: fuel.ball_fuel_lb},
    mental=lambda fuel_at_fix_lb, hold_flow_lb_h, hold_min, approach_burn_lb: (
        f"holding: {num(hold_flow_lb_h / 60, 1)} lb/min x {num(hold_min, 1)} min = "
        f"{num(hold_flow_lb_h / 60 * hold_min)} lb",
        f"at the push: {num(fuel_at_fix_lb)} - {num(hold_flow_lb_h / 60 * hold_min)} = "
        f"{num(fuel_at_fix_lb - hold_flow_lb_h / 60 * hold_min)} lb",
        f"on the ball: - {num(approach_burn_lb)} = "
        f"{num(fuel_at_fix_lb - hold_flow_lb_h / 60 * hold_min - approach_burn_lb)} lb, rounded down to a hundred",
    ),
    slips=(
        slip("left the holding out", "the fuel burnt in holding is missing",
             lambda fuel_at_fix_lb, hold_flow_lb_h, hold_min, approach_burn_lb: fuel_at_fix_lb - approach_burn_lb),
        slip("left the approach out", "that is the fuel at the push, not on the ball",
             lambda fuel_at_fix_lb, hold_flow_lb_h, hold_min, approach_burn_lb:
             fuel_at_fix_lb - hold_flow_lb_h / 60 * hold_min),
        slip("divided by a hundred", "an hour has sixty minutes, not a hundred",
             lambda fuel_at_fix_lb, hold_flow_lb_h, hold_min, approach_burn_lb:
             fuel_at_fix_lb - hold_flow_lb_h / 100 * hold_min - approach_burn_lb),
    ),
    source=practice("plain subtraction; the burns are the type's own"),
)  # fmt: skip

DUMP = Quantity(
    name="dump_time",
    title="minutes of dumping",
    area="fuel",
    words=("dump", "jettison", "max trap", "landing weight"),
    inputs=(
        give("fuel_lb", "fuel now", "lb", 0, 40_000),
        give("target_lb", "fuel wanted then", "lb", 0, 40_000),
        give("flow_lb_h", "fuel flow", "lb/h", 0, 60_000, take="airframe.hold_flow_lb_h"),
        give("time_min", "time until then", "min", 0, 240),
        give("dump_rate_lb_min", "dump rate", "lb/min", 50, 5_000, take="airframe.dump_rate_lb_min"),
    ),
    results=(get("dump_min", "time to dump", "min", 0.1, 0.3, round_to=0.1),),
    methods={EXACT: fuel.dump_min},
    mental=lambda fuel_lb, target_lb, flow_lb_h, time_min, dump_rate_lb_min: (
        f"the engines take {num(flow_lb_h / 60, 1)} x {num(time_min, 1)} = {num(flow_lb_h / 60 * time_min)} lb anyway",
        f"to lose by dumping: {num(fuel_lb)} - {num(flow_lb_h / 60 * time_min)} - {num(target_lb)} = "
        f"{num(fuel_lb - flow_lb_h / 60 * time_min - target_lb)} lb",
        f"at {num(dump_rate_lb_min)} lb a minute: "
        f"{num((fuel_lb - flow_lb_h / 60 * time_min - target_lb) / dump_rate_lb_min, 1)} min",
    ),
    slips=(
        slip("forgot the burn", "the engines burn while you wait and while you dump",
             lambda fuel_lb, target_lb, flow_lb_h, time_min, dump_rate_lb_min:
             (np.asarray(fuel_lb, dtype=float) - target_lb) / dump_rate_lb_min),
        slip("added the burn", "the burn is taken off what must be dumped",
             lambda fuel_lb, target_lb, flow_lb_h, time_min, dump_rate_lb_min:
             (np.asarray(fuel_lb, dtype=float) - target_lb + flow_lb_h / 60 * time_min) / dump_rate_lb_min),
        slip("dumped to nothing", "you dump down to the target, not to nothing",
             lambda fuel_lb, target_lb, flow_lb_h, time_min, dump_rate_lb_min:
             (np.asarray(fuel_lb, dtype=float) - flow_lb_h / 60 * time_min) / dump_rate_lb_min),
    ),
    source=practice("plain subtraction; the rates are the type's own"),
)  # fmt: skip

RESERVE = Quantity(
    name="divert_reserve",
    title="planning reserve",
    area="fuel",
    words=("reserve", "planning", "ten per cent", "endurance"),
    inputs=(
        give("planned_fuel_lb", "planned fuel", "lb", 0, 40_000),
        give("endurance_flow_lb_h", "flow at maximum endurance", "lb/h", 0, 60_000,
             take="airframe.endurance_flow_lb_h"),
    ),
    results=(get("reserve_lb", "reserve", "lb", 5, 9, round_to=10, rounding="up"),),
    methods={EXACT: fuel.reserve_lb},
    mental=lambda planned_fuel_lb, endurance_flow_lb_h: (
        f"ten per cent of {num(planned_fuel_lb)} is {num(planned_fuel_lb / 10)} lb",
        f"twenty minutes are a third of the hourly flow: {num(endurance_flow_lb_h)} / 3 = "
        f"{num(endurance_flow_lb_h / 3)} lb",
        f"the larger counts: {num(max(planned_fuel_lb / 10, endurance_flow_lb_h / 3))} lb, rounded up to ten",
    ),
    slips=(
        slip("added both", "the larger of the two, not the sum",
             lambda planned_fuel_lb, endurance_flow_lb_h: planned_fuel_lb / 10 + endurance_flow_lb_h / 3),
        slip("took the smaller", "the larger of the two counts",
             lambda planned_fuel_lb, endurance_flow_lb_h:
             np.minimum(np.asarray(planned_fuel_lb) / 10, np.asarray(endurance_flow_lb_h) / 3)),
        slip("twenty per cent of the hour", "twenty minutes are a third of an hour",
             lambda planned_fuel_lb, endurance_flow_lb_h: np.asarray(endurance_flow_lb_h) / 5),
    ),
    source=FUEL_RESERVE,
)  # fmt: skip

QUANTITIES = (FLOW_PER_MINUTE, BURN, ROUND_UP, MAX_TRAP, LADDER, BALL_FUEL, DUMP, RESERVE)
