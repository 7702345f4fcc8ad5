"""The pattern and its grades beyond the published rows."""

import numpy as np
import pytest

from trainer.engine import pattern
from trainer.engine.quantities import QUANTITIES
from trainer.engine.quantity import stated
from trainer.errors import DomainError

POINTS = dict(points_ok=4, points_fair=3, points_bolter=2.5, points_no_grade=2, points_waveoff=1, points_cut=0)


def grades(ok=0, fair=0, bolter=0, no_grade=0, waveoff=0, cut=0):
    return dict(ok=ok, fair=fair, bolter=bolter, no_grade=no_grade, waveoff=waveoff, cut=cut, **POINTS)


def test_groove_length_and_time_are_inverse():
    assert pattern.groove_s(pattern.groove_nm(17, 112), 112) == pytest.approx(17)


def test_downwind_is_relative_to_the_brc():
    assert pattern.downwind_deg(np.array([10.0, 180.0, 350.0])).tolist() == [190, 360, 170]


def test_lead_breaks_at_nought():
    assert pattern.last_break_s(1, 17) == 0


def test_check_points_in_an_array_equal_one_at_a_time():
    lowest, highest = pattern.check_altitude_ft(np.array([45, 90, 180]))
    assert lowest.tolist() == [325, 450, 600]
    assert highest.tolist() == [375, 450, 600]


@pytest.mark.parametrize("position", [0, 60, float("nan")])
def test_an_unknown_check_point_is_refused(position):
    with pytest.raises(DomainError):
        pattern.check_altitude_ft(position)


def test_points_are_data():
    assert pattern.grade_average(**{**grades(bolter=2), "points_bolter": 2.0}) == 2.0


def test_no_pass_has_no_average():
    with pytest.raises(DomainError):
        pattern.grade_average(**grades())


def test_a_waveoff_and_a_cut_pull_the_average_down():
    assert pattern.grade_average(**grades(ok=2, waveoff=1, cut=1)) == 2.25


def test_an_underlined_ok_has_five_points():
    assert pattern.grade_average(**grades(ok=2, fair=1), underlined=1) == 4.0  # (5 + 8 + 3) / 4


def test_average_of_the_stage_is_stated_half_up():
    quantity = QUANTITIES["stage_grade"]
    value = quantity.compute({"field_gpa": 3.05, "ship_gpa": 2.70})["stage_gpa"]
    assert stated(quantity.result(), value) == pytest.approx(2.88)


@pytest.mark.parametrize("gpa, traps, yes", [(2.5, 6, 1), (2.49, 6, 0), (2.5, 5, 0), (4.0, 10, 1)])
def test_both_limits_decide_and_the_limit_itself_is_enough(gpa, traps, yes):
    assert pattern.qualified(gpa, traps, 10, 2.5, 60)[0] == yes


def test_three_of_five_is_sixty_per_cent_in_spite_of_floating_point():
    assert pattern.qualified(2.5, 3, 5, 2.5, 60)[0] == 1


def test_more_traps_than_passes_are_refused():
    with pytest.raises(DomainError):
        pattern.boarding_rate_percent(11, 10)
