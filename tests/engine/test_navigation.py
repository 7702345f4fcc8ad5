"""Navigation and ranges against a geodesic library, and what is refused."""

import math

import numpy as np
import pytest
from geographiclib.geodesic import Geodesic

from trainer.engine import navigation, ranges
from trainer.errors import DomainError

M_PER_NM = 1852.0
SPHERE = Geodesic(M_PER_NM * 60 * 180 / math.pi, 0)  # a ball with one mile to the minute
FLAT_NM, FLAT_DEG = 0.02, 0.15  # what the roundness of the earth makes of 60 nm


@pytest.mark.parametrize(
    "fixes", [(180, 25, 90, 50), (180, 20, 90, 10), (320, 40, 60, 35), (5, 12, 355, 47), (270, 60, 275, 30)]
)
def test_fix_to_fix_agrees_with_a_geodesic_library(fixes):
    radial_1, dme_1, radial_2, dme_2 = fixes
    here = SPHERE.Direct(0, 0, radial_1, dme_1 * M_PER_NM)
    there = SPHERE.Direct(0, 0, radial_2, dme_2 * M_PER_NM)
    line = SPHERE.Inverse(here["lat2"], here["lon2"], there["lat2"], there["lon2"])
    course, distance = navigation.fix_to_fix(*fixes)
    assert abs(distance - line["s12"] / M_PER_NM) < FLAT_NM
    assert abs((course - line["azi1"] + 180) % 360 - 180) < FLAT_DEG


def test_the_way_back_is_the_reciprocal():
    out, far = navigation.fix_to_fix(200, 30, 75, 44)
    back, again = navigation.fix_to_fix(75, 44, 200, 30)
    assert (back - out) % 360 == pytest.approx(180)
    assert far == again


def test_one_fix_twice_is_refused():
    with pytest.raises(DomainError, match="same point"):
        navigation.fix_to_fix(360, 20, 0, 20)


def test_time_speed_and_distance_agree():
    minutes = navigation.time_to_go_min(37, 255)
    assert navigation.distance_covered_nm(255, minutes) == pytest.approx(37)
    assert navigation.groundspeed_needed_kn(37, minutes) == pytest.approx(255)


@pytest.mark.parametrize("dme", [(19, 25), (25, 19)])
def test_a_check_inside_the_least_dme_is_refused(dme):
    """CNATRA P-1265: not less than the altitude in thousands of feet."""
    with pytest.raises(DomainError, match="too close"):
        navigation.groundspeed_check_kn(*dme, 1, 20_000)
    assert navigation.groundspeed_check_kn(20, 26, 1, 20_000) == 360


def test_seconds_over_degrees_is_five_per_cent_high():
    """60 for 57.3: the same twentieth as everywhere in 60-to-1."""
    exact, _ = navigation.time_to_station_exact(60, 5, 240)
    rule, _ = navigation.time_to_station(60, 5, 240)
    assert 1.04 < rule / exact < 1.06


def test_radials_across_north_are_close_together():
    assert navigation.radial_spacing(359, 1, 60)[1] == 2
    assert navigation.radial_spacing_by_rule(359, 1, 60)[0] == 2


def test_rules_are_a_twentieth_short():
    exact = navigation.radial_spacing(360, 10, np.array([10.0, 40.0]))[0]
    rule = navigation.radial_spacing_by_rule(360, 10, np.array([10.0, 40.0]))[0]
    assert np.all((rule < exact) & (rule > exact * 0.95))


def test_slant_and_ground_range_undo_each_other():
    for altitude in (0, 6_000, 36_000):
        assert ranges.ground_range_nm(ranges.slant_range_nm(12, altitude), altitude) == pytest.approx(12)
        assert ranges.ground_range_by_rule(ranges.slant_range_by_rule(12, altitude), altitude) == pytest.approx(12)


def test_higher_than_the_reading_is_refused():
    with pytest.raises(DomainError, match="higher than"):
        ranges.ground_range_nm(5, 36_000)


def test_radio_factor_is_that_of_four_thirds_earth():
    """Independent of the page: the tangent to a ball of 4/3 of the mean radius, 6,371 km."""
    height_ft = 10_000.0
    tangent_m = math.sqrt(2 * 4 / 3 * 6_371_000 * height_ft * 0.3048)
    assert ranges.radio_horizon_nm(height_ft, 0) == pytest.approx(tangent_m / M_PER_NM, rel=2e-3)


def test_radio_reaches_further_than_the_eye():
    assert ranges.radio_horizon_nm(5000, 100) > ranges.visible_horizon_nm(5000, 100)
