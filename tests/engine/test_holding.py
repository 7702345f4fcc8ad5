"""Holding beyond the published rows."""

import numpy as np
import pytest

from trainer.engine import holding
from trainer.errors import DomainError


@pytest.mark.parametrize("minutes", [4, 4.5, 5, 6, 7, 8, 9, 10, 11.5, 13, 15, 20])
def test_patterns_use_up_the_time_exactly_and_none_is_shorter_than_its_turns(minutes):
    patterns, leg = holding.equal_patterns(minutes * 60, 120, 360)
    assert patterns * (2 * 120 + 2 * leg) == pytest.approx(minutes * 60)
    assert leg >= 0
    assert patterns == round(patterns)


@pytest.mark.parametrize("minutes, patterns", [(4, 1), (8, 1), (9, 2), (12, 2), (15, 3), (18, 3)])
def test_the_pattern_nearest_to_six_minutes_is_taken(minutes, patterns):
    assert holding.equal_patterns(minutes * 60, 120, 360)[0] == patterns


def test_a_nearer_number_of_patterns_is_not_taken_when_the_turns_alone_are_longer():
    """7:24 in patterns of five minutes: two of 3:42 would be nearer, but two turns take four minutes."""
    assert holding.equal_patterns(444, 120, 300)[0] == 1


def test_three_minutes_are_no_pattern():
    with pytest.raises(DomainError, match="two turns"):
        holding.equal_patterns(180, 120, 360)


@pytest.mark.parametrize("wind_kn", [-40, -10, 0, 25, 60])
def test_legs_in_wind_end_over_the_fix(wind_kn):
    """Ground covered outbound plus the drift of both turns equals ground covered inbound."""
    outbound, inbound = holding.legs_in_wind(360, 120, 250, wind_kn)
    assert outbound + inbound + 240 == pytest.approx(360)
    assert (250 + wind_kn) * outbound + wind_kn * 240 == pytest.approx((250 - wind_kn) * inbound)


def test_wind_too_strong_for_the_pattern_is_refused():
    with pytest.raises(DomainError):
        holding.legs_in_wind(360, 120, 200, 100)


def test_half_of_the_error_goes_on_the_leg():
    assert holding.last_outbound_change_s(np.array([30.0, -20.0])).tolist() == [15, -10]


def test_proportion_and_rule_agree_where_the_leg_was_right():
    assert holding.next_outbound_s(60, 60, 60) == holding.next_outbound_rule_s(60, 60, 60) == 60


@pytest.mark.parametrize("way", [holding.next_outbound_s, holding.next_outbound_rule_s])
def test_a_correction_larger_than_the_leg_is_refused(way):
    with pytest.raises(DomainError):
        way(30, 100, 60)


def test_speed_to_the_fix_covers_the_distance():
    assert holding.speed_to_fix_kn(19, 270) * 270 / 3600 == pytest.approx(19)
