"""Weight and balance by moments."""

import numpy as np
import pytest

from trainer.engine import balance
from trainer.errors import DomainError


def loads(*pairs):
    """Return the keyword arguments of stations from (weight, arm) pairs."""
    return {
        name: value
        for number, (weight, arm) in enumerate(pairs, start=1)
        for name, value in ((f"station_{number}_lb", weight), (f"station_{number}_arm_in", arm))
    }


def test_the_order_of_the_stations_does_not_matter():
    first = balance.weight_and_balance(2_100, 78.3, **loads((340, 85), (350, 121), (80, 150)))
    assert balance.weight_and_balance(2_100, 78.3, **loads((80, 150), (340, 85), (350, 121))) == pytest.approx(first)


def test_a_load_at_the_centre_of_gravity_leaves_it_there():
    weight, centre, _ = balance.weight_and_balance(1_000, 80, **loads((200, 80)))
    assert (weight, centre) == (1_200, 80)


def test_taking_a_load_off_again_gives_the_empty_aircraft():
    assert balance.weight_and_balance(1_000, 80, **loads((200, 90), (-200, 90))) == (1_000, 80, 80_000)


def test_arrays_of_one_station():
    weight, centre, moment = balance.weight_and_balance(1_000, 80, **loads((np.array([0.0, 500.0]), 110)))
    assert weight.tolist() == [1_000, 1_500]
    assert centre.tolist() == [80, 90]
    assert np.allclose(centre * weight, moment)


def test_more_taken_off_than_there_is_is_refused():
    with pytest.raises(DomainError, match="more than"):
        balance.weight_and_balance(1_000, 80, **loads((-1_000, 80)))


def test_fuel_weighs_less_than_water():
    assert balance.fuel_weight_lb(100, 6.8) == pytest.approx(680)
    with pytest.raises(DomainError):
        balance.fuel_weight_lb(100, 8.34)
