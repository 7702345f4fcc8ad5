"""Case, pairs and end speed beyond the published rows."""

import numpy as np
import pytest

from trainer.engine import launch
from trainer.errors import DomainError


def test_case_by_weather_in_an_array_equals_one_at_a_time():
    ceilings, visibilities = np.array([3_000.0, 2_999.0, 999.0, 8_000.0]), np.array([5.0, 5.0, 9.0, 4.9])
    together = launch.weather_case(ceilings, visibilities, 0)
    assert together.tolist() == [1, 2, 3, 3]
    assert [launch.weather_case(c, v, 0) for c, v in zip(ceilings, visibilities, strict=True)] == [1, 2, 3, 3]


@pytest.mark.parametrize("clock, night", [(19, 0), (20, 1), (120, 1), (329, 1), (330, 0), (720, 0)])
def test_night_when_the_sun_sets_shortly_before_midnight(clock, night):
    """Sunset 23:50 and thirty is 00:20; sunrise 06:00 less thirty is 05:30."""
    assert launch.is_night(clock, 360, 1_430) == night


def test_there_is_no_night_where_sunset_and_sunrise_are_close():
    with pytest.raises(DomainError):
        launch.is_night(0, 20, 1_430)


def test_only_a_case_three_departure_is_tied_to_its_recovery():
    allowed = {(d, r) for d in (1, 2, 3) for r in (1, 2, 3) if launch.pair_legal(d, r)}
    assert allowed == {(1, 1), (1, 2), (1, 3), (2, 1), (2, 2), (2, 3), (3, 3)}


def test_end_speed_and_excess_agree():
    needed = launch.needed_endspeed_kn(132, 15, 28)
    assert launch.excess_airspeed_kn(needed, 28, 132) == 15


def test_excess_may_be_negative_but_needed_end_speed_may_not():
    assert launch.excess_airspeed_kn(90, 20, 132) == -22
    with pytest.raises(DomainError):
        launch.needed_endspeed_kn(50, 0, 60)


@pytest.mark.parametrize("catapult", [0, 5, 2.5, float("nan")])
def test_a_catapult_that_is_not_there_is_refused(catapult):
    with pytest.raises(DomainError):
        launch.clearing_side(catapult)
