"""The wind triangle: three ways round the same triangle agree, and what is refused."""

import numpy as np
import pytest

from trainer.engine import triangle
from trainer.engine.angles import turn_deg
from trainer.errors import DomainError

COURSES = np.arange(3.0, 360.0, 30.0)
WIND = dict(wind_from_deg=310.0, wind_speed_kn=60.0)


def test_flying_the_heading_makes_good_the_course():
    heading, groundspeed, correction = triangle.heading_and_groundspeed(COURSES, 350.0, **WIND)
    track, flown, drift = triangle.track_and_groundspeed(heading, 350.0, **WIND)
    np.testing.assert_allclose(turn_deg(track, COURSES), 0, atol=1e-8)
    np.testing.assert_allclose(flown, groundspeed)
    np.testing.assert_allclose(drift, -correction, atol=1e-8)


def test_a_scheduled_groundspeed_gives_the_same_triangle():
    heading, groundspeed, _ = triangle.heading_and_groundspeed(COURSES, 350.0, **WIND)
    again, tas, _ = triangle.heading_and_airspeed(COURSES, groundspeed, **WIND)
    np.testing.assert_allclose(turn_deg(again, heading), 0, atol=1e-8)
    np.testing.assert_allclose(tas, 350.0)


def test_the_wind_is_found_again():
    heading, groundspeed, _ = triangle.heading_and_groundspeed(COURSES, 350.0, **WIND)
    direction, speed = triangle.wind_found(COURSES, heading, 350.0, groundspeed)
    np.testing.assert_allclose(turn_deg(direction, 310), 0, atol=1e-7)
    np.testing.assert_allclose(speed, 60)


def test_the_nose_goes_towards_the_wind():
    assert triangle.heading_and_groundspeed(90, 300, 180, 40)[2] > 0
    assert triangle.crab(360, 30, -1, 300)[1] < 360


def test_one_in_sixty_is_good_to_half_a_degree_up_to_twelve():
    exact = np.array([triangle.crab(90, x, 1, 300)[0] for x in range(0, 61, 5)])
    rule = np.array([triangle.crab_by_rule(90, x, 1, 300)[0] for x in range(0, 61, 5)])
    assert np.max(np.abs(exact - rule)) < 0.6


@pytest.mark.parametrize("given", [(0, 100, 90, 101), (0, 100, 360, 100)])
def test_a_wind_stronger_than_the_aircraft_is_refused(given):
    with pytest.raises(DomainError):
        triangle.heading_and_groundspeed(*given)


def test_the_rule_is_refused_where_it_no_longer_holds():
    with pytest.raises(DomainError, match="one in sixty"):
        triangle.heading_and_groundspeed_by_rule(0, 100, 90, 80)
