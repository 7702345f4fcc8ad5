"""Clearing turn, climb point, gates and radials beyond the published rows."""

import numpy as np
import pytest

from trainer.engine import departure, picture_text
from trainer.engine.quantities import QUANTITIES
from trainer.errors import DomainError

BOW, WAIST = 1, -1


def test_bow_and_waist_turn_away_from_each_other():
    right, _ = departure.clearing_headings_deg(100, BOW, 20)
    left, _ = departure.clearing_headings_deg(100, WAIST, 20)
    assert (right, left) == (120, 80)


def test_after_the_clearing_turn_the_brc_is_flown_again_in_the_shape_of_the_inputs():
    clearing, after = departure.clearing_headings_deg(np.array([350.0, 10.0, 0.0]), np.array([1, -1, 1]), 20)
    assert clearing.tolist() == [10, 350, 20]
    assert after.tolist() == [350, 10, 360]


def test_a_ship_at_rest_gives_the_plain_time():
    seconds, flown = departure.beacon_climb_point(7, 300, 0)
    assert seconds == departure.climb_point_s(7, 300)
    assert flown == 7


@pytest.mark.parametrize("ship_kn", [0, 12, 30, 45])
def test_beacon_shows_the_climb_distance_at_the_time_given(ship_kn):
    """The way back: the miles flown less the miles steamed are the beacon's."""
    seconds, flown = departure.beacon_climb_point(7, 310, ship_kn)
    assert flown - ship_kn * seconds / 3600 == pytest.approx(7)
    assert departure.beacon_reading_nm(seconds, 310, ship_kn) == pytest.approx(7)


def test_a_ship_under_way_makes_the_climb_later():
    assert departure.beacon_climb_point(7, 300, 20)[0] > departure.climb_point_s(7, 300)


def test_gate_rate_agrees_with_its_climb_over_its_time():
    rate = departure.gate_climb_ft_min(1_500, 5, 270)
    assert rate * departure.climb_point_s(5, 270) / 60 == pytest.approx(1_500)


@pytest.mark.parametrize("order", [(1, 359, 120, 240), (359, 240, 120, 1), (240, 1, 359, 120)])
def test_gap_through_north_counts_in_any_order(order):
    assert departure.radials_apart(*order, 20) == (1, 2)


@pytest.mark.parametrize("second, conflict", [(30, 0), (29.5, 1)])
def test_the_least_spacing_itself_is_no_conflict(second, conflict):
    assert departure.radials_apart(10, second, 120, 240, 20)[0] == conflict


def test_radial_360_and_0_are_one():
    assert departure.radials_apart(0, 360, 90, 180, 20) == (1, 0)


def test_left_of_the_departure_radial_is_the_smaller_bearing():
    assert departure.rendezvous_radial_deg(10, 10) == 360
    assert departure.rendezvous_radial_deg(np.array([5.0, 90.0]), 15).tolist() == [350, 75]


@pytest.mark.parametrize("bad", [float("nan"), -1, 46])
def test_a_clearing_turn_out_of_range_is_refused(bad):
    with pytest.raises(DomainError):
        departure.clearing_headings_deg(100, BOW, bad)


@pytest.mark.parametrize("side, word", [(BOW, "bow"), (WAIST, "waist")])
def test_picture_of_the_clearing_turn_names_side_and_headings(side, word):
    drawn = QUANTITIES["clearing_turn"].picture(brc_deg=355, side=side, turn_deg=20)
    picture = "\n".join(picture_text.lines(drawn, ascii_only=True))
    assert word in picture and "BRC 355 deg" in picture
    assert ("015 deg" if side == BOW else "335 deg") in picture
