"""Numbers inside calls beyond the published rows."""

import numpy as np
import pytest

from trainer.engine import calls
from trainer.errors import DomainError


@pytest.mark.parametrize("fuel_lb, said", [(5_400, 5.4), (5_499, 5.4), (5_500, 5.5), (999, 0.9), (50, 0.0)])
def test_state_is_never_rounded_up(fuel_lb, said):
    assert calls.spoken_state(fuel_lb) == pytest.approx(said)


def test_every_hundred_keeps_its_own_tenth():
    hundreds = np.arange(0, 20_000, 100)
    assert np.allclose(calls.spoken_state(hundreds) * 1_000, hundreds)


@pytest.mark.parametrize("now, minute, clock, ahead", [(770, 50, 770, 0), (770, 49, 829, 59), (1_439, 0, 0, 1)])
def test_eat_belongs_to_the_next_hour_only_when_it_is_past(now, minute, clock, ahead):
    assert calls.eat_clock_min(now, minute) == (clock, ahead)


@pytest.mark.parametrize("now, expected", [(922, 922), (923, 952), (952, 952), (953, 982), (1_433, 22)])
def test_expected_time_is_the_next_one(now, expected):
    assert calls.expected_22_52_min(now) == expected


@pytest.mark.parametrize("own, ship, add", [((14, 52), (15, 0), 8), ((0, 3), (59, 58), -5), ((59, 58), (0, 3), 5)])
def test_hack_goes_the_short_way_round_the_hour(own, ship, add):
    assert calls.hack_correction_s(*own, *ship) == add


def test_charlie_is_a_delay_and_passes_midnight():
    assert calls.charlie_min(np.array([730, 1_437]), np.array([5, 10])).tolist() == [735, 7]


@pytest.mark.parametrize("bad", [2.5, -1, 61, float("nan")])
def test_a_charlie_is_whole_minutes(bad):
    with pytest.raises(DomainError):
        calls.charlie_min(730, bad)


def test_position_is_given_from_the_ship():
    assert calls.position_radial_deg(np.array([40.0, 180.0, 350.0])).tolist() == [220, 360, 170]
