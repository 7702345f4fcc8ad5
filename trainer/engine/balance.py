"""Weight and balance by moments.

Source: FAA-H-8083-25, Weight and Balance, computational method.  Arms are inches aft of the datum.
"""

import numpy as np

from trainer.engine.domain import inside, require

STATIONS = 6


def weight_and_balance(empty_weight_lb, empty_arm_in, **stations):
    """Return (gross weight lb, centre of gravity in, moment lb in).

    ``stations`` holds ``station_1_lb``, ``station_1_arm_in`` and so on up to 6; floats or arrays.

    >>> loads = {"station_1_lb": 200, "station_1_arm_in": 90}
    >>> [float(value) for value in weight_and_balance(1000, 80, **loads)]
    [1200.0, 81.66666666666667, 98000.0]
    """
    inside("empty weight", empty_weight_lb, 1, 200_000)
    weight = np.asarray(empty_weight_lb, dtype=float)
    moment = weight * _arm(empty_arm_in)
    for number in range(1, STATIONS + 1):
        load = stations.get(f"station_{number}_lb", 0.0)
        inside(f"weight at station {number}", load, -50_000, 50_000)
        weight = weight + load
        moment = moment + np.asarray(load, dtype=float) * _arm(stations.get(f"station_{number}_arm_in", 0.0))
    require(weight > 0, "the loads taken off are more than the aircraft weighs")
    return weight, moment / weight, moment


def _arm(arm_in):
    inside("arm", arm_in, -1_000, 3_000)
    return np.asarray(arm_in, dtype=float)


def fuel_weight_lb(fuel_gal, density_lb_gal):
    """Return the weight of fuel in pounds from US gallons and pounds per gallon (floats or arrays)."""
    inside("fuel", fuel_gal, 0, 20_000)
    inside("fuel density", density_lb_gal, 5, 8)
    return np.asarray(fuel_gal, dtype=float) * density_lb_gal
