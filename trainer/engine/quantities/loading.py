"""Quantities of the deck: gross weight, weight board, trim, fuel by hand signal."""

import numpy as np

from trainer.engine import display, loading
from trainer.engine.quantities.carrier_sources import BOARD, CQ_SIGNALS, WEIGHT, practice
from trainer.engine.quantities.entries import as_printed, choose, get, give, num, slip, verdict
from trainer.engine.quantity import EXACT, Input, Quantity

WAYS = {1: "upright", -1: "on the side"}
SIGNALS = {0: "accept", 1: "up", -1: "down"}
WEIGHT_INPUT = give("gross_weight_lb", "gross weight", "lb", 1_000, 150_000)


def _sum_in_the_head(basic_weight_lb, crew_lb, fuel_lb, stores_lb):
    empty = basic_weight_lb + crew_lb
    return (
        "start with what never changes, then fuel, then stores; keep the running sum",
        f"basic and crew: {num(basic_weight_lb)} + {num(crew_lb)} = {num(empty)} lb",
        f"fuel: {num(empty)} + {num(fuel_lb)} = {num(empty + fuel_lb)} lb",
        f"stores: {num(empty + fuel_lb)} + {num(stores_lb)} = {num(empty + fuel_lb + stores_lb)} lb",
    )


GROSS_WEIGHT = Quantity(
    name="gross_weight",
    title="gross weight for the catapult",
    area="deck",
    words=("weight", "load", "stores", "weight board"),
    inputs=(
        give("basic_weight_lb", "basic weight", "lb", 1_000, 60_000, take="airframe.basic_weight_lb"),
        give("crew_lb", "crew", "lb", 0, 2_000, take="airframe.crew_lb"),
        give("fuel_lb", "fuel", "lb", 0, 40_000),
        give("stores_lb", "stores", "lb", 0, 30_000),
    ),
    results=(get("gross_weight_lb", "gross weight", "lb", 50, 250, round_to=100),),
    methods={EXACT: loading.gross_weight_lb},
    mental=_sum_in_the_head,
    slips=(
        slip("left the stores out", "the stores are missing from your sum",
             lambda basic_weight_lb, crew_lb, fuel_lb, stores_lb: basic_weight_lb + crew_lb + fuel_lb),
        slip("left the fuel out", "that is the weight without fuel",
             lambda basic_weight_lb, crew_lb, fuel_lb, stores_lb: basic_weight_lb + crew_lb + stores_lb),
        slip("left the crew out", "the crew is missing from your sum",
             lambda basic_weight_lb, crew_lb, fuel_lb, stores_lb: basic_weight_lb + fuel_lb + stores_lb),
        slip("fuel in thousands", "the fuel was given in thousands and you added it as pounds",
             lambda basic_weight_lb, crew_lb, fuel_lb, stores_lb:
             basic_weight_lb + crew_lb + fuel_lb / 1000 + stores_lb),
    ),
    source=WEIGHT,
)  # fmt: skip

WEIGHT_BOARD = Quantity(
    name="weight_board_check",
    title="accept the weight board, or have it changed",
    area="deck",
    words=("weight board", "thumbs up", "catapult crew"),
    inputs=(
        give("own_weight_lb", "your own gross weight", "lb", 1_000, 150_000),
        give("board_weight_lb", "weight on the board", "lb", 1_000, 150_000),
        give("board_tolerance_lb", "allowed difference", "lb", 0, 5_000,
             take="airframe.board_tolerance_lb", default=500),
    ),
    results=(
        verdict("signal", "signal to the crew", SIGNALS),
        get("difference_lb", "own weight minus board", "lb", 50, 100, round_to=100),
    ),
    methods={EXACT: loading.board_signal},
    mental=lambda own_weight_lb, board_weight_lb, board_tolerance_lb: (
        f"your sum {num(own_weight_lb)} lb, board {num(board_weight_lb)} lb: "
        f"{num(abs(own_weight_lb - board_weight_lb))} lb apart",
        f"the limit is {num(board_tolerance_lb)} lb: "
        + SIGNALS[int(loading.board_signal(own_weight_lb, board_weight_lb, board_tolerance_lb)[0])]
        + " – up when the board is too light, down when it is too heavy",
    ),
    slips=(
        slip("nodded at the board", "the board differs by more than the limit; have it changed first",
             lambda own_weight_lb, board_weight_lb, board_tolerance_lb: own_weight_lb * 0.0),
        slip("signalled the wrong way", "up means the board must show more: your own weight is the larger",
             lambda own_weight_lb, board_weight_lb, board_tolerance_lb:
             -loading.board_signal(own_weight_lb, board_weight_lb, board_tolerance_lb)[0]),
        slip("no limit used", "a difference inside the limit is accepted",
             lambda own_weight_lb, board_weight_lb, board_tolerance_lb:
             np.sign(np.asarray(own_weight_lb, dtype=float) - board_weight_lb)),
        slip("board minus own", "take the board from your own weight, not the other way round",
             lambda own_weight_lb, board_weight_lb, board_tolerance_lb: board_weight_lb - own_weight_lb,
             "difference_lb"),
    ),
    source=BOARD,
)  # fmt: skip

TRIM_STEP = Quantity(
    name="takeoff_trim_step",
    title="take-off trim from the step table",
    area="deck",
    words=("trim", "catapult trim", "stabiliser", "gross weight"),
    inputs=(
        WEIGHT_INPUT,
        Input(name="trim_table", title="trim table", unit="table", take="airframe.trim_steps"),
    ),
    results=(get("trim_deg", "take-off trim", "trim", 0.05, 0.25, round_to=0.1, table="trim_table"),),
    methods={EXACT: loading.trim_deg},
    mental=lambda gross_weight_lb, trim_table: (
        "go down the table to the first band that reaches your weight; a band holds up to and including its end",
        f"{num(gross_weight_lb)} lb falls in the band up to "
        f"{num(trim_table.upto[int(trim_table.band(gross_weight_lb))])} lb: "
        f"{_trim(trim_table(gross_weight_lb), trim_table)}",
    ),
    slips=(
        slip("one band too light", "you read the band above yours in the table, for a lighter aircraft",
             lambda gross_weight_lb, trim_table: loading.neighbouring_step(gross_weight_lb, trim_table, -1)),
        slip("one band too heavy", "you read the band below yours in the table, for a heavier aircraft",
             lambda gross_weight_lb, trim_table: loading.neighbouring_step(gross_weight_lb, trim_table, 1)),
        slip("nose down", "you gave the trim the other way; nose up and nose down are mixed up",
             lambda gross_weight_lb, trim_table: -trim_table(gross_weight_lb)),
    ),
    source=practice("a value a band of weight; the table is the type's own"),
)  # fmt: skip


def _trim(value, table, step=0.1):
    """Return a trim in the unit of its table, degrees nose up where the table has none."""
    return display.value(value, table.unit or TRIM_STEP.result().unit, step)


def _between_rows(gross_weight_lb, trim_table):
    low, high, first, last = (float(value) for value in loading.rows_around(gross_weight_lb, trim_table))
    share = (gross_weight_lb - low) / (high - low)
    told, trim = as_printed(lambda *row: row[0] + row[1] * row[2], (first, share, last - first), (1, 2, 1), 2)
    return (
        f"you lie between {num(low)} lb ({num(first, 1)}) and {num(high)} lb ({num(last, 1)})",
        f"{num(gross_weight_lb - low)} of {num(high - low)} lb is {told[1]} of the way; "
        f"the trim changes by {num(last - first, 1)}",
        f"{told[0]} {'-' if last < first else '+'} {told[1]} x {told[2].removeprefix('-')} = "
        f"{_trim(float(trim), trim_table, 0.01)}, set to the nearest half",
    )


TRIM_INTERPOLATED = Quantity(
    name="takeoff_trim_interpolated",
    title="take-off trim, interpolated in the table",
    area="deck",
    words=("trim", "catapult trim", "stabiliser", "interpolation"),
    inputs=(
        WEIGHT_INPUT,
        Input(name="trim_table", title="trim table", unit="table", take="airframe.trim"),
    ),
    results=(get("trim_deg", "take-off trim", "trim", 0.05, 0.5, round_to=0.5, table="trim_table"),),
    methods={EXACT: loading.trim_deg},
    mental=_between_rows,
    slips=(
        slip("interpolated backwards", "you counted the share from the heavier row; count it from the lighter",
             lambda gross_weight_lb, trim_table:
             _backwards(*loading.rows_around(gross_weight_lb, trim_table), gross_weight_lb)),
        slip("took the lighter row", "you read the lighter row and did not interpolate",
             lambda gross_weight_lb, trim_table: loading.rows_around(gross_weight_lb, trim_table)[2]),
        slip("took the heavier row", "you read the heavier row and did not interpolate",
             lambda gross_weight_lb, trim_table: loading.rows_around(gross_weight_lb, trim_table)[3]),
    ),
    source=practice("linear interpolation; the table is the type's own"),
)  # fmt: skip


def _backwards(low, high, first, last, weight):
    return last - (np.asarray(weight, dtype=float) - low) / (high - low) * (last - first)


def _read_the_fingers(first_fingers, first_way, second_fingers, second_way):
    fuel = float(loading.signalled_fuel_lb(first_fingers, first_way, second_fingers, second_way))
    return (
        "fuel comes in two digits, thousands and then hundreds; fingers on the side add five, a fist is nought",
        f"first {num(first_fingers)} {WAYS[int(first_way)]} = {num(fuel // 1000)}; "
        f"then {num(second_fingers)} {WAYS[int(second_way)]} = {num(fuel % 1000 // 100)}",
        f"{num(fuel // 100)} hundred = {num(fuel)} lb",
    )


SIGNAL_READ = Quantity(
    name="hand_signal_fuel",
    title="fuel state from the pilot's hand signal",
    area="deck",
    words=("hand signal", "fingers", "state"),
    inputs=(
        give("first_fingers", "fingers, first digit", "count", 0, 5),
        choose("first_way", "held, first digit", WAYS),
        give("second_fingers", "fingers, second digit", "count", 0, 5),
        choose("second_way", "held, second digit", WAYS),
    ),
    results=(get("fuel_lb", "fuel", "lb", 0, 0, round_to=100),),
    methods={EXACT: loading.signalled_fuel_lb},
    mental=_read_the_fingers,
    slips=(
        slip("side read as upright", "fingers on the side add five",
             lambda first_fingers, first_way, second_fingers, second_way:
             first_fingers * 1000.0 + second_fingers * 100.0),
        slip("ten times too much", "the signal counts hundreds of pounds, not thousands",
             lambda **signal: loading.signalled_fuel_lb(**signal) * 10),
        slip("ten times too little", "the signal counts hundreds of pounds, not tens",
             lambda **signal: loading.signalled_fuel_lb(**signal) / 10),
    ),
    source=CQ_SIGNALS,
)  # fmt: skip

SIGNAL_SHOW = Quantity(
    name="hand_signal_fingers",
    title="fingers that show a digit of the fuel state",
    area="deck",
    words=("hand signal", "fingers", "state"),
    inputs=(give("hundreds", "digit to show", "count", 0, 9),),
    results=(
        get("fingers", "fingers", "count", 0, 0),
        verdict("way", "held", WAYS),
    ),
    methods={EXACT: loading.fingers_for},
    mental=lambda hundreds: (
        "one to five upright; six to nine lie on the side and count from five",
        f"{num(hundreds)}: {num(loading.fingers_for(hundreds)[0])} {WAYS[int(loading.fingers_for(hundreds)[1])]}",
    ),
    slips=(
        slip("counted all the fingers", "above five take five off and hold them on the side",
             lambda hundreds: hundreds),
        slip("one finger too many", "six is one finger on the side: take five off, not four",
             lambda hundreds: np.where(np.asarray(hundreds) > 5, np.asarray(hundreds) - 4.0, hundreds)[()]),
        slip("held the wrong way", "one to five upright, six to nine on the side",
             lambda hundreds: -loading.fingers_for(hundreds)[1], "way"),
    ),
    source=CQ_SIGNALS,
)  # fmt: skip

QUANTITIES = (GROSS_WEIGHT, WEIGHT_BOARD, TRIM_STEP, TRIM_INTERPOLATED, SIGNAL_READ, SIGNAL_SHOW)
