"""How far and how long the fuel goes: tanking, joker, landing weight, fuel on arrival, endurance and range.

Pounds, pounds per hour, minutes, nautical miles.  Arithmetic of state and flow: common practice, no source.
"""

import numpy as np

from trainer.engine.domain import inside, require

MOST_LB = 60_000


def landing_weight_lb(basic_weight_lb, crew_lb, stores_lb, fuel_lb):
    """Return what the aircraft weighs at the ramp: everything still aboard (floats or arrays, pounds)."""
    for weight in (basic_weight_lb, crew_lb, stores_lb, fuel_lb):
        inside("weight", weight, 0, 150_000)
    return (np.asarray(basic_weight_lb, dtype=float) + crew_lb + stores_lb + fuel_lb)[()]


def tanked(state_lb, offload_lb, transfer_lb_min, flow_lb_h):
    """Return (minutes on the hose, state after it): what is given, less what the engines burn meanwhile."""
    inside("state", state_lb, 0, MOST_LB)
    inside("offload", offload_lb, 0, MOST_LB)
    inside("transfer rate", transfer_lb_min, 100, 6_000)
    inside("fuel flow", flow_lb_h, 0, 60_000)
    minutes = np.asarray(offload_lb, dtype=float) / transfer_lb_min
    return minutes[()], (np.asarray(state_lb, dtype=float) + offload_lb - minutes * flow_lb_h / 60)[()]


def joker_lb(bingo_lb, flow_lb_h, warning_min):
    """Return the state at which ``warning_min`` minutes are left to bingo: the time to knock off and go home."""
    inside("bingo", bingo_lb, 0, MOST_LB)
    inside("fuel flow", flow_lb_h, 0, 60_000)
    inside("warning", warning_min, 0, 120)
    return (np.asarray(bingo_lb, dtype=float) + np.asarray(flow_lb_h, dtype=float) / 60 * warning_min)[()]


def fuel_on_arrival_lb(state_lb, flow_lb_h, distance_nm, tas_kn, headwind_kn):
    """Return the fuel left after ``distance_nm`` at ``tas_kn`` against ``headwind_kn`` (negative: a tailwind)."""
    inside("state", state_lb, 0, MOST_LB)
    inside("fuel flow", flow_lb_h, 0, 60_000)
    inside("distance", distance_nm, 0, 3_000)
    groundspeed = groundspeed_kn(tas_kn, headwind_kn)
    left = (
        np.asarray(state_lb, dtype=float) - np.asarray(flow_lb_h) * np.asarray(distance_nm, dtype=float) / groundspeed
    )
    require(left >= 0, "the fuel does not last so far", hint="tank, or take a nearer field")
    return left[()]


def groundspeed_kn(tas_kn, headwind_kn):
    """Return true airspeed less the headwind; raises ``DomainError`` where nothing is left of it."""
    inside("true airspeed", tas_kn, 60, 1_000)
    inside("headwind", headwind_kn, -250, 250)
    groundspeed = np.asarray(tas_kn, dtype=float) - headwind_kn
    require(groundspeed > 20, "the wind leaves no groundspeed")
    return groundspeed[()]


def endurance(state_lb, reserve_lb, flow_lb_h, groundspeed_kn):
    """Return (minutes, nautical miles) until only the reserve is left."""
    inside("state", state_lb, 0, MOST_LB)
    inside("reserve", reserve_lb, 0, MOST_LB)
    inside("fuel flow", flow_lb_h, 100, 60_000)
    inside("groundspeed", groundspeed_kn, 40, 1_000)
    spare = np.asarray(state_lb, dtype=float) - reserve_lb
    require(spare >= 0, "the state is below the reserve", hint="there is nothing to work out: go now")
    hours = spare / flow_lb_h
    return (hours * 60)[()], (hours * groundspeed_kn)[()]


def arrival_min(now_min, distance_nm, groundspeed_kn, utc_offset_h):
    """Return (clock, UTC clock) in minutes of the day after ``distance_nm`` from ``now_min`` local."""
    inside("clock", now_min, 0, 1_440)
    inside("distance", distance_nm, 0, 3_000)
    inside("groundspeed", groundspeed_kn, 40, 1_000)
    inside("UTC offset", utc_offset_h, -12, 14)
    there = np.asarray(now_min, dtype=float) + np.asarray(distance_nm, dtype=float) * 60 / groundspeed_kn
    return np.mod(there, 1_440)[()], np.mod(there - np.asarray(utc_offset_h, dtype=float) * 60, 1_440)[()]
