"""Encounters against positions stepped through in time, and what is refused."""

import math

import numpy as np
import pytest

from trainer.engine import encounter
from trainer.errors import DomainError


def place(bearing_deg, miles):
    return np.array([miles * math.sin(math.radians(bearing_deg)), miles * math.cos(math.radians(bearing_deg))])


CASES = [
    (20, 15, 60, 9, 250, 18),
    (350, 10, 10, 4, 190, 12),
    (90, 300, 130, 40, 310, 250),
    (180, 0, 45, 6, 200, 20),
]


@pytest.mark.parametrize("case", CASES)
def test_no_moment_is_closer_than_the_closest_approach(case):
    own_course, own_speed, bearing, distance, course, speed = case
    miles, at_bearing, minutes = encounter.closest_approach(*case)
    times = np.linspace(float(minutes) - 30, float(minutes) + 30, 60_001)[:, None] / 60
    apart = place(bearing, distance) + times * (place(course, speed) - place(own_course, own_speed))
    lengths = np.hypot(*apart.T)
    nearest = int(np.argmin(lengths))
    assert abs(lengths[nearest] - miles) < 1e-3
    assert abs(float(times[nearest, 0]) * 60 - minutes) < 2e-3
    seen = math.degrees(math.atan2(*apart[nearest]))
    assert abs((seen - at_bearing + 180) % 360 - 180) < 0.1


def test_two_plots_of_a_known_motion_find_it_again():
    own, target = place(20, 15), place(250, 18)
    start = place(60, 9)
    later = start + (target - own) * 6 / 60
    bearing_2, range_2 = math.degrees(math.atan2(*later)) % 360, math.hypot(*later)
    plotted = encounter.plotted_approach(60, 9, bearing_2, range_2, 6)
    told = encounter.closest_approach(20, 15, 60, 9, 250, 18)
    assert plotted[0] == pytest.approx(told[0])
    assert plotted[1] == pytest.approx(told[1])
    assert plotted[2] == pytest.approx(told[2] - 6), "the time counts from the second plot"
    assert encounter.target_motion(20, 15, plotted[3], plotted[4]) == pytest.approx((250, 18))


def test_past_is_negative():
    assert encounter.closest_approach(360, 10, 180, 5, 180, 10)[2] < 0


def test_bearing_stays_on_a_collision_course():
    miles, bearing, minutes = encounter.closest_approach(360, 10, 45, 4, 270, 10)
    assert miles < 1e-9
    assert bearing == pytest.approx(45)
    assert minutes == pytest.approx(4 * math.sin(math.pi / 4) / 10 * 60)


def test_sailing_in_company_has_no_closest_approach():
    with pytest.raises(DomainError, match="no relative motion"):
        encounter.closest_approach(70, 18, 200, 2, 70, 18)


@pytest.mark.parametrize(
    "case",
    [
        (30, 90, 280, 25, 420),
        (200, 60, 220, 30, 250),  # running away
        (310, 40, 20, 28, 30),
        (200, 60, 10, 30, 250),
        (100, 5, 332, 7.4, 7),
        (0, 20, 180, 10, 10),
    ],
)
def test_both_are_at_one_point_when_they_meet(case):
    bearing, distance, course, speed, own_speed = case
    own_course, minutes, flown = encounter.intercept(*case)
    ship = place(bearing, distance) + place(course, speed) * minutes / 60
    np.testing.assert_allclose(ship, place(own_course, flown), atol=1e-9)
    assert flown == pytest.approx(own_speed * minutes / 60)


def test_the_earlier_of_two_meetings_is_given():
    """A contact a little faster than you crosses your reach twice."""
    minutes = encounter.intercept(100, 5, 332, 7.4, 7)[1]
    times = np.linspace(0, float(minutes) - 0.01, 2000) / 60
    gap = [math.hypot(*(place(100, 5) + place(332, 7.4) * t)) - 7 * t for t in times]
    assert min(gap) > 0, "you could have met earlier"


@pytest.mark.parametrize("case", [(0, 20, 360, 30, 25), (0, 20, 360, 25, 25), (90, 50, 90, 500, 450)])
def test_a_ship_that_runs_faster_is_not_caught(case):
    with pytest.raises(DomainError, match="caught"):
        encounter.intercept(*case)


def test_a_chase_that_does_not_close_is_refused():
    with pytest.raises(DomainError, match="never ends"):
        encounter.closing(5, 250, 250, -1)
