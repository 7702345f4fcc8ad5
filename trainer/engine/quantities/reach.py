"""Quantities of fuel and time: tanking, joker, landing weight, arrival, endurance and range."""

import numpy as np

from trainer.engine import reach
from trainer.engine.quantities.carrier_sources import WEIGHT, practice
from trainer.engine.quantities.entries import clock, get, give, num, slip
from trainer.engine.quantity import EXACT, Quantity

STATE = give("state_lb", "state", "lb", 0, reach.MOST_LB)
GROUNDSPEED = give("groundspeed_kn", "groundspeed", "kn", 40, 1_000)
DISTANCE = give("distance_nm", "distance", "nm", 0, 3_000)
CRUISE = give("flow_lb_h", "fuel flow", "lb/h", 100, 60_000, take="airframe.cruise_flow_lb_h")

LANDING_WEIGHT = Quantity(
    name="landing_weight", title="landing weight", area="fuel",
    words=("trap weight", "arrested landing", "weight at the ramp", "max trap"),
    inputs=(
        give("basic_weight_lb", "basic weight", "lb", 1_000, 100_000, take="airframe.basic_weight_lb"),
        give("crew_lb", "crew", "lb", 0, 2_000, take="airframe.crew_lb"),
        give("stores_lb", "stores still aboard", "lb", 0, 30_000, take="airframe.retained_stores_lb"),
        give("fuel_lb", "fuel on the ball", "lb", 0, 40_000),
    ),
    results=(get("landing_weight_lb", "landing weight", "lb", 50, 250, round_to=100),),
    methods={EXACT: reach.landing_weight_lb},
    mental=lambda basic_weight_lb, crew_lb, stores_lb, fuel_lb: (
        f"empty with crew: {num(basic_weight_lb)} + {num(crew_lb)} = {num(basic_weight_lb + crew_lb)} lb",
        f"what stays aboard: {num(stores_lb)} of stores and {num(fuel_lb)} of fuel = "
        f"{num(basic_weight_lb + crew_lb + stores_lb + fuel_lb)} lb",
    ),
    slips=(
        slip("stores left out", "what you bring back weighs as well",
             lambda basic_weight_lb, crew_lb, fuel_lb, **_: basic_weight_lb + crew_lb + fuel_lb),
        slip("fuel left out", "the fuel on the ball is aboard when you trap",
             lambda basic_weight_lb, crew_lb, stores_lb, **_: basic_weight_lb + crew_lb + stores_lb),
        slip("fuel in thousands", "the state is in thousands of pounds",
             lambda basic_weight_lb, crew_lb, stores_lb, fuel_lb:
             basic_weight_lb + crew_lb + stores_lb + fuel_lb / 1_000),
    ),
    source=WEIGHT,
)  # fmt: skip

TANKING = Quantity(
    name="tanking", title="state after tanking, and time on the hose", area="fuel",
    words=("tanker", "give", "offload", "hose", "refuel", "state after tanking"),
    inputs=(
        STATE, give("offload_lb", "what the tanker gives", "lb", 0, reach.MOST_LB),
        give("transfer_lb_min", "transfer rate", "lb/min", 100, 6_000, default=1_200.0),
        give("flow_lb_h", "fuel flow on the hose", "lb/h", 0, 60_000, take="airframe.hold_flow_lb_h"),
    ),
    results=(get("state_after_lb", "state after tanking", "lb", 50, 100, round_to=100, rounding="down"),
             get("hose_min", "minutes on the hose", "min", 0.1, 0.5, round_to=0.1)),
    methods={EXACT: lambda **given: reach.tanked(**given)[::-1]},
    mental=lambda state_lb, offload_lb, transfer_lb_min, flow_lb_h: (
        f"on the hose: {num(offload_lb)} / {num(transfer_lb_min)} = {num(offload_lb / transfer_lb_min, 1)} min",
        f"burnt meanwhile: {num(flow_lb_h / 60)} a minute x {num(offload_lb / transfer_lb_min, 1)} = "
        f"{num(flow_lb_h / 60 * offload_lb / transfer_lb_min)} lb",
        f"{num(state_lb)} + {num(offload_lb)} - {num(flow_lb_h / 60 * offload_lb / transfer_lb_min)} = "
        f"{num(reach.tanked(state_lb, offload_lb, transfer_lb_min, flow_lb_h)[1])} lb",
    ),
    slips=(
        slip("the give alone", "what the tanker gives comes on top of what you have",
             lambda offload_lb, **_: np.asarray(offload_lb, dtype=float)),
        slip("burn forgotten", "the engines burn while you are on the hose",
             lambda state_lb, offload_lb, **_: np.asarray(state_lb, dtype=float) + offload_lb),
        slip("an hour's burn", "the flow is for an hour; you are on the hose for minutes",
             lambda state_lb, offload_lb, flow_lb_h, **_: np.asarray(state_lb, dtype=float) + offload_lb - flow_lb_h),
        slip("seconds as hundredths", "0.1 of a minute is six seconds",
             lambda offload_lb, transfer_lb_min, **_: np.asarray(offload_lb) / transfer_lb_min * 0.6, "hose_min"),
        slip("divided the wrong way", "what is given over the rate, not the rate over it",
             lambda offload_lb, transfer_lb_min, **_: np.asarray(transfer_lb_min) / np.maximum(offload_lb, 1),
             "hose_min"),
    ),
    source=practice("state, give and burn add up; the transfer rate is the tanker's own"),
)  # fmt: skip

JOKER = Quantity(
    name="joker", title="joker: the state at which it is time to go home", area="fuel",
    words=("joker", "bingo", "knock it off", "warning"),
    inputs=(give("bingo_lb", "bingo", "lb", 0, reach.MOST_LB), CRUISE,
            give("warning_min", "minutes of warning", "min", 0, 120, default=5.0)),
    results=(get("joker_lb", "joker", "lb", 50, 100, round_to=100, rounding="up"),),
    methods={EXACT: reach.joker_lb},
    mental=lambda bingo_lb, flow_lb_h, warning_min: (
        f"{num(flow_lb_h / 60)} lb a minute x {num(warning_min)} = {num(flow_lb_h / 60 * warning_min)} lb",
        f"on top of bingo: {num(bingo_lb)} + {num(flow_lb_h / 60 * warning_min)} = "
        f"{num(reach.joker_lb(bingo_lb, flow_lb_h, warning_min))} lb, up to a hundred",
    ),
    slips=(
        slip("taken off bingo", "joker comes before bingo: it is the larger",
             lambda bingo_lb, flow_lb_h, warning_min: np.asarray(bingo_lb) - np.asarray(flow_lb_h) / 60 * warning_min),
        slip("a hundred minutes an hour", "the flow is for sixty minutes",
             lambda bingo_lb, flow_lb_h, warning_min: np.asarray(bingo_lb) + np.asarray(flow_lb_h) / 100 * warning_min),
        slip("the burn alone", "joker is bingo AND the burn of the warning",
             lambda flow_lb_h, warning_min, **_: np.asarray(flow_lb_h) / 60 * warning_min),
    ),
    source=practice("a briefed margin above bingo"),
)  # fmt: skip

ON_ARRIVAL = Quantity(
    name="fuel_on_arrival", title="fuel on arrival, wind included", area="fuel",
    words=("divert", "bingo", "headwind", "fuel remaining", "field"),
    inputs=(STATE, CRUISE, DISTANCE, give("tas_kn", "true airspeed", "kn", 60, 1_000),
            give("headwind_kn", "headwind", "kn", -250, 250, default=0.0)),
    results=(get("fuel_lb", "fuel on arrival", "lb", 50, 150, round_to=100, rounding="down"),),
    methods={EXACT: reach.fuel_on_arrival_lb},
    mental=lambda state_lb, flow_lb_h, distance_nm, tas_kn, headwind_kn: (
        f"over the ground: {num(tas_kn)} - {num(headwind_kn)} = {num(tas_kn - headwind_kn)} kt",
        f"minutes: {num(distance_nm)} nm at {num((tas_kn - headwind_kn) / 60, 1)} a minute = "
        f"{num(distance_nm * 60 / (tas_kn - headwind_kn), 1)}",
        f"burn {num(flow_lb_h / 60)} a minute: {num(flow_lb_h * distance_nm / (tas_kn - headwind_kn))} lb; "
        f"{num(state_lb)} less that is "
        f"{num(reach.fuel_on_arrival_lb(state_lb, flow_lb_h, distance_nm, tas_kn, headwind_kn))} lb",
    ),
    slips=(
        slip("wind forgotten", "the wind changes the time, and so the burn",
             lambda state_lb, flow_lb_h, distance_nm, tas_kn, **_:
             np.asarray(state_lb) - np.asarray(flow_lb_h) * distance_nm / tas_kn),
        slip("wind the wrong way", "a headwind comes off the airspeed, a tailwind comes on",
             lambda state_lb, flow_lb_h, distance_nm, tas_kn, headwind_kn:
             np.asarray(state_lb) - np.asarray(flow_lb_h) * distance_nm / (np.asarray(tas_kn) + headwind_kn)),
        slip("the burn alone", "that is what you burn; asked is what is left",
             lambda flow_lb_h, distance_nm, tas_kn, headwind_kn, **_:
             np.asarray(flow_lb_h) * distance_nm / reach.groundspeed_kn(tas_kn, headwind_kn)),
    ),
    source=practice("time over the ground times the flow"),
)  # fmt: skip

ENDURANCE = Quantity(
    name="endurance", title="endurance and range until the reserve", area="fuel",
    words=("range", "how long", "how far", "reserve", "flow"),
    inputs=(STATE, give("reserve_lb", "reserve", "lb", 0, reach.MOST_LB, default=0.0), CRUISE, GROUNDSPEED),
    results=(get("endurance_min", "endurance", "min", 0.5, 2, round_to=1),
             get("range_nm", "range", "nm", 2, 8, round_to=1)),
    methods={EXACT: reach.endurance},
    mental=lambda state_lb, reserve_lb, flow_lb_h, groundspeed_kn: (
        f"what may be burnt: {num(state_lb)} - {num(reserve_lb)} = {num(state_lb - reserve_lb)} lb",
        f"at {num(flow_lb_h / 60)} a minute: {num((state_lb - reserve_lb) / flow_lb_h * 60)} min",
        f"at {num(groundspeed_kn / 60, 1)} nm a minute: "
        f"{num((state_lb - reserve_lb) / flow_lb_h * groundspeed_kn)} nm",
    ),
    slips=(
        slip("reserve burnt as well", "the reserve stays in the tanks",
             lambda state_lb, flow_lb_h, **_: np.asarray(state_lb) / np.asarray(flow_lb_h) * 60.0),
        slip("hours of a hundred minutes", "the flow is for sixty minutes",
             lambda state_lb, reserve_lb, flow_lb_h, **_:
             (np.asarray(state_lb) - reserve_lb) / np.asarray(flow_lb_h) * 100.0),
        slip("range with the reserve", "the reserve stays in the tanks",
             lambda state_lb, flow_lb_h, groundspeed_kn, **_:
             np.asarray(state_lb) / np.asarray(flow_lb_h) * groundspeed_kn, "range_nm"),
        slip("minutes as miles", "minutes times miles a minute",
             lambda state_lb, reserve_lb, flow_lb_h, **_:
             (np.asarray(state_lb) - reserve_lb) / np.asarray(flow_lb_h) * 60.0, "range_nm"),
    ),
    source=practice("what may be burnt over the flow"),
)  # fmt: skip

ARRIVAL = Quantity(
    name="arrival_time", title="arrival on the clock and in UTC", area="navigation",
    words=("eta", "zulu", "utc", "clock", "time of arrival"),
    inputs=(give("now_min", "clock now", "clock", 0, 1_440), DISTANCE, GROUNDSPEED,
            give("utc_offset_h", "hours ahead of UTC", "h", -12, 14, default=0.0)),
    results=(get("arrival_min", "arrival", "clock", 0.5, 1, round_to=1),
             get("arrival_utc_min", "arrival, UTC", "clock", 0.5, 1, round_to=1)),
    methods={EXACT: reach.arrival_min},
    mental=lambda now_min, distance_nm, groundspeed_kn, utc_offset_h: (
        f"{num(distance_nm)} nm at {num(groundspeed_kn / 60, 1)} a minute = "
        f"{num(distance_nm * 60 / groundspeed_kn)} min",
        f"{clock(now_min)} and {num(distance_nm * 60 / groundspeed_kn)} min: "
        f"{clock(reach.arrival_min(now_min, distance_nm, groundspeed_kn, utc_offset_h)[0])}",
        f"{num(utc_offset_h)} h off for UTC: "
        f"{clock(reach.arrival_min(now_min, distance_nm, groundspeed_kn, utc_offset_h)[1])}",
    ),
    slips=(
        slip("an hour of a hundred minutes", "past the hour take sixty off, not a hundred",
             lambda now_min, distance_nm, groundspeed_kn, **_:
             np.mod(np.asarray(now_min) + np.asarray(distance_nm) * 60.0 / groundspeed_kn - 40
                    * (np.mod(now_min, 60) + np.asarray(distance_nm) * 60.0 / groundspeed_kn >= 60), 1_440)),
        slip("took the time off", "arrival is later than now",
             lambda now_min, distance_nm, groundspeed_kn, **_:
             np.mod(np.asarray(now_min) - np.asarray(distance_nm) * 60.0 / groundspeed_kn, 1_440)),
        slip("the offset the wrong way", "ahead of UTC the clock shows more: take the offset off",
             lambda now_min, distance_nm, groundspeed_kn, utc_offset_h:
             np.mod(np.asarray(now_min) + np.asarray(distance_nm) * 60.0 / groundspeed_kn
                    + np.asarray(utc_offset_h) * 60.0, 1_440), "arrival_utc_min"),
        slip("local for UTC", "that is the ship's own clock",
             lambda now_min, distance_nm, groundspeed_kn, **_:
             np.mod(np.asarray(now_min) + np.asarray(distance_nm) * 60.0 / groundspeed_kn, 1_440), "arrival_utc_min"),
    ),
    source=practice("distance over groundspeed, added to the clock"),
)  # fmt: skip

QUANTITIES = (LANDING_WEIGHT, TANKING, JOKER, ON_ARRIVAL, ENDURANCE, ARRIVAL)
