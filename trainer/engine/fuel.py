"""Fuel: burn, ladder back from the ball, passes before bingo, bingo, dump, reserve.

Pounds, pounds per hour, minutes.  Sources: CNATRA P-812 6.5.10 (fuel needed is rounded up), CNATRAINST
3740.9D para 204 and 208 (qualification), OPNAVINST 3710.7 as quoted by CNATRA P-1244 (reserve).
"""

import numpy as np

from trainer.engine.domain import inside, require

MOST_LB = 40_000
PATTERN_MARGIN_LB = 300.0  # over bingo to be launched into the pattern
HOME_MARGIN_LB = 600.0  # over bingo to be launched for home
PATTERN, HOME = 1, 2


def flow_lb_min(flow_lb_h):
    """Return pounds per minute for ``flow_lb_h`` pounds per hour."""
    inside("fuel flow", flow_lb_h, 0, 60_000)
    return np.asarray(flow_lb_h, dtype=float)[()] / 60.0


def burn_lb(flow_lb_h, time_min):
    """Return the pounds burnt in ``time_min`` minutes."""
    inside("time", time_min, 0, 1_440)
    return flow_lb_min(flow_lb_h) * time_min


def rounded_up_lb(fuel_lb, step_lb):
    """Return ``fuel_lb`` rounded up to the next ``step_lb``: fuel needed is never rounded down."""
    _check(fuel_lb)
    inside("step", step_lb, 1, 1_000)
    return (np.ceil(np.round(np.asarray(fuel_lb, dtype=float) / step_lb, 9)) * step_lb)[()]


def max_trap_fuel_lb(max_trap_weight_lb, basic_weight_lb, crew_lb, stores_lb):
    """Return the most fuel with which the aircraft may trap: the limit less everything that stays aboard."""
    for weight in (max_trap_weight_lb, basic_weight_lb, crew_lb, stores_lb):
        inside("weight", weight, 0, 150_000)
    fuel = np.asarray(max_trap_weight_lb, dtype=float) - basic_weight_lb - crew_lb - stores_lb
    require(fuel >= 0, "the aircraft is too heavy to trap even without fuel", hint="stores must go")
    return fuel[()]


def ladder_lb(ball_fuel_lb, approach_burn_lb, hold_flow_lb_h, hold_min):
    """Return (fuel at the fix, fuel at the push), added backwards from the fuel wanted on the ball."""
    _check(ball_fuel_lb)
    _check(approach_burn_lb)
    at_push = np.asarray(ball_fuel_lb, dtype=float) + approach_burn_lb
    return (at_push + burn_lb(hold_flow_lb_h, hold_min))[()], at_push[()]


def ball_fuel_lb(fuel_at_fix_lb, hold_flow_lb_h, hold_min, approach_burn_lb):
    """Return the fuel on the ball after ``hold_min`` of holding and the approach."""
    _check(fuel_at_fix_lb)
    _check(approach_burn_lb)
    left = np.asarray(fuel_at_fix_lb, dtype=float) - burn_lb(hold_flow_lb_h, hold_min) - approach_burn_lb
    require(left >= 0, "the fuel does not last to the ball", hint="tank or divert now")
    return left[()]


def dump_min(fuel_lb, target_lb, flow_lb_h, time_min, dump_rate_lb_min):
    """Return the minutes of dumping that leave ``target_lb`` after ``time_min`` at ``flow_lb_h``.

    The engines burn all the while.  Raises ``DomainError`` when there is nothing to dump or no time for it.
    """
    _check(fuel_lb)
    _check(target_lb)
    inside("dump rate", dump_rate_lb_min, 50, 5_000)
    spare = np.asarray(fuel_lb, dtype=float) - target_lb - burn_lb(flow_lb_h, time_min)
    require(spare >= 0, "there is nothing to dump: the burn alone takes you below the target")
    minutes = spare / dump_rate_lb_min
    require(minutes <= time_min, "the dump takes longer than the time left", hint="start earlier or push later")
    return minutes[()]


def minutes_to_bingo(state_lb, bingo_lb, flow_lb_h):
    """Return the minutes until the state is down to bingo, which it must not be below already."""
    _above_bingo(state_lb, bingo_lb)
    inside("fuel flow", flow_lb_h, 100, 60_000)
    return ((np.asarray(state_lb, dtype=float) - bingo_lb) / flow_lb_min(flow_lb_h))[()]


def passes_left(ball_fuel_lb, bingo_lb, pass_fuel_lb):
    """Return (patterns until bingo is reached or undercut, patterns that leave more than bingo).

    The first is the whole number of bolter patterns that the fuel above bingo pays for; where the last one
    ends exactly at bingo there is none to spare, and the second is one less.
    """
    _above_bingo(ball_fuel_lb, bingo_lb)
    inside("fuel of a pass", pass_fuel_lb, 50, 5_000)
    patterns = np.round((np.asarray(ball_fuel_lb, dtype=float) - bingo_lb) / pass_fuel_lb, 9)
    return np.floor(patterns)[()], np.maximum(np.ceil(patterns) - 1, 0)[()]


def fuel_for_passes_lb(bingo_lb, pass_fuel_lb, passes):
    """Return the fuel on the ball that pays for ``passes`` bolter patterns and ends at bingo."""
    _check(bingo_lb)
    inside("fuel of a pass", pass_fuel_lb, 50, 5_000)
    inside("passes", passes, 0, 20)
    require(np.asarray(passes) == np.floor(passes), "passes are whole")
    return (np.asarray(bingo_lb, dtype=float) + np.asarray(passes, dtype=float) * pass_fuel_lb)[()]


def bingo_fuel_lb(divert_distance_nm, bingo_table):
    """Return the bingo fuel for the distance to the divert field from the type's ``bingo_table``."""
    return np.asarray(bingo_table(divert_distance_nm), dtype=float)[()]


def bingo_decision(state_lb, bingo_lb, in_groove):
    """Return 1 divert, 0 continue.  At or below bingo you divert, unless you are in the groove.

    ``in_groove`` is 1 in the groove with the hook down under the landing signal officer's control, 0 anywhere
    else.  Source: CNATRAINST 3740.9D para 208.
    """
    _check(state_lb)
    _check(bingo_lb)
    require(np.isin(in_groove, (0, 1)), "in the groove is yes (1) or no (0)")
    at_bingo = np.asarray(state_lb, dtype=float) <= bingo_lb
    return np.where(at_bingo & (np.asarray(in_groove) == 0), 1.0, 0.0)[()]


def cq_launch(state_lb, bingo_lb, task):
    """Return (fuel needed, 1 launch or 0 refuel) to be launched into the pattern (1) or for home (2).

    A student for home may go below bingo + 600 with an escort; that exception is not counted here.
    Source: CNATRAINST 3740.9D para 204.
    """
    _check(state_lb)
    _check(bingo_lb)
    require(np.isin(task, (PATTERN, HOME)), "task is pattern (1) or home (2)")
    margin = np.where(np.asarray(task) == PATTERN, PATTERN_MARGIN_LB, HOME_MARGIN_LB)
    needed = np.asarray(bingo_lb, dtype=float) + margin
    return needed[()], np.where(np.asarray(state_lb) >= needed, 1.0, 0.0)[()]


def reserve_lb(planned_fuel_lb, endurance_flow_lb_h):
    """Return the planning reserve: ten per cent of the planned fuel, never less than 20 minutes' endurance."""
    _check(planned_fuel_lb)
    return np.maximum(np.asarray(planned_fuel_lb, dtype=float) / 10.0, burn_lb(endurance_flow_lb_h, 20))[()]


def _check(fuel_lb):
    inside("fuel", fuel_lb, 0, MOST_LB)


def _above_bingo(state_lb, bingo_lb):
    _check(state_lb)
    _check(bingo_lb)
    require(np.asarray(state_lb) >= bingo_lb, "the state is below bingo",
            hint="divert now; there is nothing to work out")  # fmt: skip
