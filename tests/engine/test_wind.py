"""The wind aboard: there and back again, and what is refused."""

import numpy as np
import pytest

from trainer.engine import wind
from trainer.engine.angles import turn_deg
from trainer.errors import DomainError

ROUNDING_KN = 1e-9
COURSES = np.arange(5.0, 360.0, 25.0)


@pytest.mark.parametrize("ship_kn", [0, 12, 30])
@pytest.mark.parametrize("wind_kn", [0, 8, 45])
def test_true_wind_undoes_wind_over_deck(ship_kn, wind_kn):
    wind_from = np.roll(COURSES, 4)
    speed, relative, felt = wind.wind_over_deck(COURSES, ship_kn, wind_from, wind_kn)
    direction, back = wind.true_wind(COURSES, ship_kn, relative, speed)
    np.testing.assert_allclose(back, wind_kn, atol=ROUNDING_KN)
    if wind_kn:
        np.testing.assert_allclose(turn_deg(direction, wind_from), 0, atol=1e-8)
    if speed.all():
        np.testing.assert_allclose(turn_deg(COURSES + relative, felt), 0, atol=1e-8)


def test_wind_over_deck_by_the_law_of_cosines():
    """Independent of the vector sum: the third side of a triangle."""
    off = turn_deg(COURSES, 70.0)
    speed, _, _ = wind.wind_over_deck(COURSES, 20, 70, 15)
    np.testing.assert_allclose(speed**2, 20**2 + 15**2 + 2 * 20 * 15 * np.cos(np.radians(off)))


@pytest.mark.parametrize("relative", [-25, -9, 0, 9, 40])
def test_both_solutions_really_give_the_wanted_wind(relative):
    wind_from, wind_kn, wanted_kn = np.array([10.0, 175.0, 359.0]), 20.0, 28.0
    course, speed, other, other_speed = wind.wanted_wind(wind_from, wind_kn, wanted_kn, relative)
    for steered, made in ((course, speed), (other, other_speed)):
        felt, angle, _ = wind.wind_over_deck(steered, np.minimum(made, 60), wind_from, wind_kn)
        np.testing.assert_allclose(felt, wanted_kn, atol=1e-6)
        np.testing.assert_allclose(angle, relative, atol=1e-6)
    assert np.all(speed <= other_speed), "the usable solution is the slower one"


def test_recovery_course_leaves_nothing_across_the_angle():
    course, speed, _, _ = wind.recovery_course(250, 12, 25, 9)
    felt, relative, _ = wind.wind_over_deck(course, speed, 250, 12)
    crosswind, down, verdict = wind.angle_wind(felt, relative, 9, 7)
    assert abs(crosswind) < 1e-9
    assert abs(down - 25) < 1e-9
    assert verdict == 1


def test_the_bow_goes_right_of_the_wind_for_a_deck_angled_left():
    course, *_ = wind.recovery_course(360, 20, 25, 9)
    assert 0 < turn_deg(360, course) < 90


def test_a_wind_too_weak_for_the_angle_is_refused():
    with pytest.raises(DomainError, match="too weak"):
        wind.recovery_course(360, 3, 25, 9)


def test_a_ship_is_never_sent_astern():
    """Four knots wanted right across the ship: on paper the slow solution goes astern at three."""
    with pytest.raises(DomainError, match="astern"):
        wind.wanted_wind(36.87, 5, 4, 90)


def test_the_limit_itself_is_inside():
    assert wind.angle_wind(7, 81, 9, 7)[2] == 1
    assert wind.angle_wind(7.001, 81, 9, 7)[2] == -1


def test_a_calm_has_no_speed_and_direction_360():
    assert wind.true_wind(120, 15, 0, 15) == (360.0, 0.0)
    speed, relative, felt = wind.wind_over_deck(120, 15, 300, 15)
    assert (float(speed), float(relative), float(felt)) == (0.0, 0.0, 360.0)


def test_shares_stay_within_a_knot_and_a_half_of_the_sine_at_thirty_knots():
    """The mental way has to be good enough for its tolerance: 0.05 of the wind at worst."""
    angles = np.arange(-180.0, 181.0)
    exact = np.array(wind.ahead_and_across(30.0, angles))
    share = np.array(wind.ahead_and_across_by_share(30.0, angles))
    assert np.max(np.abs(exact - share)) < 1.5
