"""Turns against flights stepped through in small pieces, and against another library's units."""

import math

import pint
import pytest

from trainer.engine import turns
from trainer.errors import DomainError

STEP_S = 0.002


def flown(speed_kn, legs):
    """Return (feet right, miles ahead) after ``legs`` of (seconds, degrees a second), by small steps."""
    right = ahead = heading = 0.0
    for seconds, rate in legs:
        count = max(1, round(seconds / STEP_S))
        step = seconds / count
        for _ in range(count):
            middle = math.radians(heading + rate * step / 2)
            right += speed_kn / 3600 * step * math.sin(middle)
            ahead += speed_kn / 3600 * step * math.cos(middle)
            heading += rate * step
    return right * 1852 / 0.3048, ahead


@pytest.mark.parametrize("speed, bank, angle, hold", [(150, 20, 20, 5), (180, 30, 45, 0), (250, 15, 10, 30)])
def test_clearing_turn_matches_a_flight_in_small_steps(speed, bank, angle, hold):
    rate = turns.turn(speed, bank)[1]
    out = angle / rate
    right_ft, ahead_nm = flown(speed, [(out, rate), (hold, 0.0), (out, -rate)])
    offset_ft, along_nm = turns.clearing_turn(speed, bank, angle, hold)
    assert abs(offset_ft - right_ft) < 0.1
    assert abs(along_nm - ahead_nm) < 1e-5


def test_clearing_turn_rule_is_within_its_tolerance():
    """150 ft is what an answer done in the head may be off."""
    for hold in (0, 5, 10):
        given = (150, 20, 20, hold)
        assert abs(turns.clearing_turn(*given)[0] - turns.clearing_turn_by_rule(*given)[0]) < 150


@pytest.mark.parametrize("speed_kn, bank_deg", [(125, 28), (300, 30), (480, 60)])
def test_radius_with_the_units_of_another_library(speed_kn, bank_deg):
    units = pint.UnitRegistry()
    speed = units.Quantity(speed_kn, "knot")
    radius = (speed**2 / (units.Quantity(1, "standard_gravity") * math.tan(math.radians(bank_deg)))).to("nautical_mile")
    found, rate, diameter, full_s = turns.turn(speed_kn, bank_deg)
    assert found == pytest.approx(radius.magnitude, rel=1e-12)
    assert diameter == 2 * found
    assert full_s == pytest.approx((2 * math.pi * radius / speed).to("second").magnitude, rel=1e-9)
    assert rate * full_s == pytest.approx(360)


def test_the_bank_for_a_rate_turns_at_that_rate():
    for tas in (130, 250, 400):
        for rate in (1.5, 3.0):
            assert turns.turn(tas, turns.bank_for_rate(tas, rate))[1] == pytest.approx(rate)


def test_a_rule_for_thirty_degrees_is_refused_elsewhere():
    with pytest.raises(DomainError, match="30 degrees"):
        turns.turn_by_square(250, 28)
    with pytest.raises(DomainError, match="30 degrees"):
        turns.turn_less_two(250, 45)
    with pytest.raises(DomainError):
        turns.turn_less_two(120, 30)


def test_bank_rule_knows_two_rates_only():
    with pytest.raises(DomainError, match="standard rate"):
        turns.bank_by_rule(250, 2.0)


def test_a_section_that_turns_about_face_has_changed_sides():
    seconds, abeam = turns.section_after_turn(300, 1.5, 180)
    assert abs(seconds) < 1e-9
    assert abeam == pytest.approx(-1.5)
