"""Bearing and distance over the earth."""

import numpy as np
import pytest

from trainer.engine import geodesy
from trainer.engine.angles import turn_deg
from trainer.errors import DomainError


def test_there_and_back_along_many_lines():
    rng = np.random.default_rng(7)
    start = rng.uniform(-80, 80, 20), rng.uniform(-180, 180, 20)
    bearing, distance = rng.uniform(0, 360, 20), rng.uniform(1, 5_000, 20)
    latitude, longitude, last = geodesy.direct(*start, bearing, distance)
    again, first, arriving, metres = geodesy.inverse(*start, latitude, longitude)
    assert np.allclose(again, distance, atol=1e-8)
    assert np.allclose(metres, distance * 1852, atol=1e-5)
    assert np.allclose(turn_deg(first, bearing), 0, atol=1e-7)
    assert np.allclose(turn_deg(arriving, last), 0, atol=1e-7)


def test_the_way_back_is_as_long_and_leaves_the_way_one_came():
    out = geodesy.inverse(24.5, -41, 40, -60)
    back = geodesy.inverse(40, -60, 24.5, -41)
    assert back[0] == pytest.approx(out[0], rel=1e-12)
    assert abs(turn_deg(back[1], out[2] + 180)) < 1e-9


def test_across_the_date_line_is_the_short_way():
    distance, bearing, _, _ = geodesy.inverse(10, 179.5, 10, -179.5)
    assert distance < 60
    assert bearing == pytest.approx(90, abs=0.1)
    assert geodesy.middle_latitude(10, 179.5, 10, -179.5)[0] == pytest.approx(distance, rel=0.005)


def test_north_is_360_and_never_0():
    assert geodesy.inverse(10, 20, 11, 20)[1] == 360
    assert geodesy.middle_latitude(10, 20, 11, 20)[1] == 360


@pytest.mark.parametrize("latitude_deg", [-60, -30, 0, 30, 60])
def test_the_rule_stays_within_a_percent_up_to_300_miles(latitude_deg):
    for bearing_deg in range(0, 360, 30):
        latitude, longitude, _ = geodesy.direct(latitude_deg, -41, bearing_deg, 300)
        exact = geodesy.inverse(latitude_deg, -41, latitude, longitude)
        rule = geodesy.middle_latitude(latitude_deg, -41, latitude, longitude)
        assert rule[0] == pytest.approx(exact[0], rel=0.01)
        halfway = exact[1] + turn_deg(exact[1], exact[2]) / 2
        assert abs(turn_deg(rule[1], halfway)) < 0.6


def test_the_rule_refuses_what_is_too_far_or_too_near_the_pole():
    with pytest.raises(DomainError, match="too far"):
        geodesy.middle_latitude(0, 0, 30, 30)
    with pytest.raises(DomainError):
        geodesy.middle_latitude(75, 0, 75, 1)


def test_pigeons_are_magnetic():
    true = geodesy.inverse(24.5, -41, 26, -43)
    bearing, distance = geodesy.pigeons(24.5, -41, 26, -43, -15)
    assert bearing == pytest.approx(true[1] + 15)
    assert distance == true[0]


@pytest.mark.parametrize("place", [(91, 0, 0, 0), (0, 361, 0, 0), (0, 0, -91, 0), (0, 0, float("nan"), 0)])
def test_places_that_do_not_exist_are_refused(place):
    for function in (geodesy.inverse, geodesy.middle_latitude):
        with pytest.raises(DomainError):
            function(*place)
