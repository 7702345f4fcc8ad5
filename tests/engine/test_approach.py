"""Penetration, slope, closure and minima beyond the published rows."""

import numpy as np
import pytest

from trainer.engine import approach
from trainer.errors import DomainError


@pytest.mark.parametrize("angels", range(6, 21))
def test_every_level_comes_to_platform_near_twenty_miles(angels):
    assert 19 < approach.platform_distance_nm(angels, 250, 4_000) < 20


@pytest.mark.parametrize("angels", [6, 10, 15, 20])
def test_profile_passes_fix_platform_and_gate(angels):
    def altitude(distance):
        return approach.penetration_altitude_ft(distance, angels, 250, 4_000, 2_000, 1_200)

    platform = approach.platform_distance_nm(angels, 250, 4_000)
    level = approach.level_off_distance_nm(platform, 250, 2_000, 1_200)
    assert altitude(angels + 15) == angels * 1_000
    assert altitude(55) == angels * 1_000
    assert altitude(platform) == pytest.approx(5_000)
    assert altitude(level) == pytest.approx(1_200)
    assert altitude(1) == 1_200


def test_profile_comes_down_steadily():
    distances = np.linspace(5, 35, 301)
    altitudes = approach.penetration_altitude_ft(distances, 15, 250, 4_000, 2_000, 1_200)
    assert np.all(np.diff(altitudes) >= 0)


def test_a_descent_that_reaches_the_ship_first_is_refused():
    with pytest.raises(DomainError):
        approach.platform_distance_nm(40, 400, 500)
    with pytest.raises(DomainError):
        approach.penetration_altitude_ft(20, 40, 400, 500, 500, 1_200)


@pytest.mark.parametrize("bearing, correction, difference", [(21, 0, 10), (22, 1, 11), (1, 0, -10), (360, 1, -11)])
def test_correction_switches_above_ten_degrees(bearing, correction, difference):
    assert approach.final_bearing_correction(191, bearing) == (correction, difference)


@pytest.mark.parametrize("angle", [2.5, 3, 3.5, 4])
def test_intercept_is_where_the_slope_has_the_altitude(angle):
    distance = approach.intercept_nm(1_200, angle)
    assert approach.slope_height_ft(distance, angle) == pytest.approx(1_200)
    rule = approach.intercept_rule_nm(1_200, angle)
    assert approach.slope_height_rule_ft(rule, angle) == pytest.approx(1_200)


@pytest.mark.parametrize("angle", [3.0, 3.5, 4.0])
def test_sink_rate_in_the_head_is_within_six_per_cent(angle):
    exact, head = approach.sink_rate_ft_min(110, angle), approach.sink_rate_rule_ft_min(110, angle)
    assert 0 < exact - head < 0.06 * exact


def test_sink_rate_is_the_descent_rate_at_the_closure():
    assert approach.sink_rate_ft_min(112, 3.5) == pytest.approx(approach.slope_rate_ft_min(112, 3.5))


@pytest.mark.parametrize("way", [2, 3, 4])
def test_helicopters_have_no_such_minima(way):
    with pytest.raises(DomainError):
        approach.minima(3, way)


def test_minima_in_an_array_equal_one_at_a_time():
    aircraft, ways = np.array([1, 2, 3]), np.array([1, 1, 1])
    ceilings, visibilities = approach.minima(aircraft, ways)
    assert ceilings.tolist() == [600, 400, 300]
    assert visibilities.tolist() == [1.25, 1, 0.75]
    assert approach.minima(2, 1) == (400, 1)


def test_each_level_adds_a_mile_at_the_ramp():
    assert approach.ramp_interval_s(1, 240) == 75
