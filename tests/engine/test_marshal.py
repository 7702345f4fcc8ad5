"""The marshal stack beyond the published rows."""

import numpy as np
import pytest

from trainer.engine import marshal, picture_text
from trainer.engine.quantities import QUANTITIES
from trainer.engine.quantities.marshal import reciprocal_in_the_head
from trainer.errors import DomainError


def test_fix_and_angels_are_inverse():
    angels = np.arange(6, 41)
    assert marshal.fix_angels(marshal.fix_distance_nm(angels)).tolist() == angels.tolist()


@pytest.mark.parametrize("angels", [5.9, 41, float("nan"), float("inf")])
def test_a_level_outside_the_stack_is_refused(angels):
    with pytest.raises(DomainError):
        marshal.fix_distance_nm(angels)


def test_final_bearing_passes_north():
    assert marshal.final_bearing_deg(np.array([5.0, 9.0, 10.0]), 9).tolist() == [356, 360, 1]


def test_radial_and_inbound_course_undo_each_other():
    bearings = np.arange(1.0, 361.0)
    assert marshal.inbound_course_deg(marshal.radial_deg(bearings)).tolist() == bearings.tolist()


@pytest.mark.parametrize("bearing", range(1, 361))
def test_the_way_in_the_head_ends_at_the_reciprocal(bearing):
    last = reciprocal_in_the_head(bearing).split("=")[-1]
    assert int(last) == marshal.radial_deg(bearing)


def test_the_way_in_the_head_never_goes_below_zero():
    assert not any("= -" in reciprocal_in_the_head(bearing) for bearing in range(1, 361))


def test_lowest_aircraft_pushes_at_its_own_time():
    assert marshal.push_minute(17, 1, 2) == 17


def test_push_wraps_on_the_hour_and_takes_half_minutes():
    assert marshal.push_minute(np.array([58, 59]), np.array([3, 2]), 1.5).tolist() == [1.0, 0.5]


def test_half_a_position_is_refused():
    with pytest.raises(DomainError):
        marshal.push_minute(10, 2.5, 1)


def test_case_two_levels_are_the_seven_odd_ones():
    levels = np.arange(5_000, 22_001, 500)
    legal = levels[marshal.case_2_legal(levels) == 1]
    assert legal.tolist() == [7_000, 9_000, 11_000, 13_000, 15_000, 17_000, 19_000]


def test_time_to_lose_is_less_than_an_hour_and_never_negative():
    assert marshal.time_to_lose_s(30, 0, 30, 0) == 0
    assert marshal.time_to_lose_s(30, 1, 30, 0) == 3_599


def test_stack_picture_marks_the_own_level_and_its_fix():
    drawn = picture_text.lines(QUANTITIES["marshal_fix_distance"].picture(angels=12), ascii_only=True)
    assert [line.split() for line in drawn if "you" in line] == [["oooo", "12:", "27", "nm", "you"]]
