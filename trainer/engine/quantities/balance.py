"""Quantities of weight and balance by moments."""

import numpy as np

from trainer.engine import balance
from trainer.engine.quantities.air_sources import LOADING
from trainer.engine.quantities.entries import get, give, num, slip
from trainer.engine.quantity import EXACT, Quantity

STATION_NUMBERS = range(1, balance.STATIONS + 1)
STATIONS = tuple(
    spec
    for number in STATION_NUMBERS
    for spec in (
        give(f"station_{number}_lb", f"weight at station {number}", "lb", -50_000, 50_000, default=0),
        give(f"station_{number}_arm_in", f"arm of station {number}", "in", -1_000, 3_000, default=0),
    )
)


def _loads(empty_weight_lb, empty_arm_in, **stations):
    """Yield (name, weight, arm) of every load that is not zero."""
    yield "empty", empty_weight_lb, empty_arm_in
    for number in STATION_NUMBERS:
        weight = stations.get(f"station_{number}_lb", 0)
        if weight:
            yield f"station {number}", weight, stations.get(f"station_{number}_arm_in", 0)


def _in_the_head(**loads):
    (_, weight, centre), *rest = _loads(**loads)
    lines = ["a load pulls the centre towards itself by its share of the weight so far"]
    for name, load, arm in rest:
        weight += load
        shift = load / weight * (arm - centre)
        lines.append(
            f"{name}: {num(load)} of {num(weight)} lb is {num(100 * load / weight, 1)} %; it lies "
            f"{num(abs(arm - centre), 1)} in {'aft' if arm >= centre else 'forward'} of the centre, that share is "
            f"{num(abs(shift), 1)} in: {num(centre, 1)} becomes {num(centre + shift, 1)} in"
        )
        centre += shift
    return (*lines, f"together {num(weight)} lb at {num(centre, 1)} in")


def _exactly(**loads):
    weight, arm, moment = (float(value) for value in balance.weight_and_balance(**loads))
    return (
        *(f"{name}: {num(load)} lb × {num(at, 1)} in = {num(load * at)} lb in" for name, load, at in _loads(**loads)),
        f"sum of the weights {num(weight)} lb, of the moments {num(moment)} lb in",
        f"{num(moment)} / {num(weight)} = {arm:.1f} in",
    )


def _mean_of_arms(**loads):
    """Return the centre that comes out when arms are averaged without their weights."""
    stations = [loads[f"station_{n}_lb"] for n in STATION_NUMBERS if f"station_{n}_lb" in loads]
    arms = [loads[f"station_{n}_arm_in"] for n in STATION_NUMBERS if f"station_{n}_arm_in" in loads]
    used = [1 + 0 * np.asarray(loads["empty_arm_in"], dtype=float)]
    used += [(np.asarray(load) != 0).astype(float) for load in stations]
    total = sum(share * np.asarray(arm) for share, arm in zip(used, [loads["empty_arm_in"], *arms], strict=True))
    return total / sum(used)


def _without_last(**loads):
    """Return the gross weight with the last station that is not zero left out."""
    total = balance.weight_and_balance(**loads)[0]
    last = 0.0
    for number in STATION_NUMBERS:
        load = np.asarray(loads.get(f"station_{number}_lb", 0.0), dtype=float)
        last = np.where(load != 0, load, last)
    return total - last


BALANCE = Quantity(
    name="weight_and_balance",
    title="gross weight and centre of gravity from up to six stations",
    area="deck",
    words=("centre of gravity", "cg", "moment", "arm", "load", "weight balance"),
    inputs=(
        give("empty_weight_lb", "empty weight", "lb", 1, 200_000, take="airframe.basic_weight_lb"),
        give("empty_arm_in", "arm of the empty aircraft", "in", -1_000, 3_000),
        *STATIONS,
    ),
    results=(
        get("gross_weight_lb", "gross weight", "lb", 10, 100, round_to=1),
        get("cg_in", "centre of gravity", "in", 0.1, 0.5, round_to=0.1),
        get("moment_lb_in", "moment", "lb in", 100, 1_000, round_to=1),
    ),
    methods={EXACT: balance.weight_and_balance},
    mental=_in_the_head,
    exact=_exactly,
    slips=(
        slip("left the last load out", "the last load is missing from your sum", _without_last),
        slip("gave the empty weight", "that is the empty weight; the loads are still to be added",
             lambda empty_weight_lb, **loads: empty_weight_lb),
        slip("averaged the arms", "arms are averaged with their weights: through the moments", _mean_of_arms,
             "cg_in"),
    ),
    source=LOADING,
)  # fmt: skip

FUEL = Quantity(
    name="fuel_weight",
    title="weight of fuel from gallons",
    area="fuel",
    words=("gallons", "litres", "density", "specific gravity", "pounds", "jet fuel"),
    inputs=(
        give("fuel_gal", "fuel", "gal", 0, 20_000),
        give("density_lb_gal", "weight of a gallon", "lb/gal", 5, 8, default=6.8),
    ),
    results=(get("fuel_lb", "fuel", "lb", 10, 100, round_to=1),),
    methods={EXACT: balance.fuel_weight_lb},
    mental=lambda fuel_gal, density_lb_gal: (
        "gallons times pounds a gallon; six and a bit for any aviation fuel",
        f"{num(fuel_gal)} × {num(density_lb_gal, 2)} = {num(fuel_gal * density_lb_gal)} lb",
    ),
    slips=(
        slip("divided", "you divided; a gallon weighs several pounds, so the pounds are more",
             lambda fuel_gal, density_lb_gal: fuel_gal / density_lb_gal),
        slip("gallons as pounds", "that is the number of gallons",
             lambda fuel_gal, density_lb_gal: fuel_gal),
        slip("weight of water", "8.3 pounds is a gallon of water; fuel is lighter",
             lambda fuel_gal, density_lb_gal: fuel_gal * 8.34),
    ),
    source=LOADING,
)  # fmt: skip

QUANTITIES = (BALANCE, FUEL)
