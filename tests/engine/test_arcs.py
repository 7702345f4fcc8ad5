"""Arcs against flights stepped through in small pieces: the turn has to end on the arc, or on the radial."""

import math

import pytest

from trainer.engine import arcs
from trainer.engine.turns import radius_at_rate_nm
from trainer.errors import DomainError

STEP_S = 0.01
ON_IT_NM = 0.002


def turned(x, y, heading_deg, groundspeed_kn, rate_deg_s, until):
    """Fly a turn in small steps from (x east, y north) until ``until(x, y, heading)``; return where it ends."""
    for _ in range(60_000):
        if until(x, y, heading_deg):
            return x, y
        middle = math.radians(heading_deg + rate_deg_s * STEP_S / 2)
        x += groundspeed_kn / 3600 * STEP_S * math.sin(middle)
        y += groundspeed_kn / 3600 * STEP_S * math.cos(middle)
        heading_deg += rate_deg_s * STEP_S
    raise AssertionError("the turn never came to the end")


def across(x, y, heading_deg):
    """Return how far the heading is short of a right angle to the radial, as a cosine."""
    angle = math.radians(heading_deg)
    return (x * math.sin(angle) + y * math.cos(angle)) / math.hypot(x, y)


@pytest.mark.parametrize("arc_nm, groundspeed_kn, rate", [(10, 300, 1.5), (15, 250, 1.5), (12, 240, 3.0)])
@pytest.mark.parametrize("direction", [1, -1])
def test_the_turn_onto_the_arc_ends_on_the_arc(arc_nm, groundspeed_kn, rate, direction):
    point = arcs.arc_turn_point_nm(arc_nm, groundspeed_kn, direction, rate)
    heading = 0.0 if direction > 0 else 180.0
    turn_rate = rate if direction > 0 else -rate  # to the right-hand side either way
    ended = turned(0.0, float(point), heading, groundspeed_kn, turn_rate,
                   lambda x, y, now: direction * across(x, y, now) <= 0)  # fmt: skip
    assert abs(math.hypot(*ended) - arc_nm) < ON_IT_NM


@pytest.mark.parametrize("arc_nm, groundspeed_kn", [(10, 250), (15, 250), (20, 400), (8, 200)])
@pytest.mark.parametrize("direction", [1, -1])
def test_the_turn_off_the_arc_ends_on_the_radial(arc_nm, groundspeed_kn, direction):
    """Clockwise along the arc towards radial 360, begun the lead before it."""
    lead = math.radians(arcs.lead_radials(arc_nm, groundspeed_kn, direction, 1.5))
    x, y = -arc_nm * math.sin(lead), arc_nm * math.cos(lead)
    heading = 90.0 - math.degrees(lead)
    rate = -1.5 if direction > 0 else 1.5
    goal = 0.0 if direction > 0 else 180.0
    ended_x, _ = turned(x, y, heading, groundspeed_kn, rate, lambda x, y, now: (now - goal) * rate >= 0)
    assert abs(ended_x) < ON_IT_NM


def test_the_lead_for_ninety_degrees_is_the_radius():
    assert arcs.turn_lead_nm(300, 90, 1.5) == pytest.approx(radius_at_rate_nm(300, 1.5))


def test_published_corrections_lean_the_way_the_geometry_does():
    given = dict(arc_nm=10, groundspeed_kn=250, turn_rate_deg_s=1.5)
    out, inward = (arcs.lead_radials(direction=way, **given) for way in (1, -1))
    assert out < arcs.lead_radials_by_rule(direction=1, **given) < inward
    for corrected in (arcs.lead_radials_by_thirds, arcs.lead_radials_by_turn):
        assert corrected(direction=1, **given) < corrected(direction=-1, **given)
    plain = arcs.arc_turn_point_by_rule(direction=1, **given)
    assert arcs.arc_turn_point_nm(direction=1, **given) < arcs.arc_turn_point_half_mile(direction=1, **given) < plain


def test_wide_arcs_take_no_correction():
    given = dict(arc_nm=15, groundspeed_kn=250, direction=1, turn_rate_deg_s=1.5)
    assert arcs.lead_radials_by_thirds(**given) == arcs.lead_radials_by_rule(**given)
    assert arcs.lead_radials_by_turn(**given) == arcs.lead_radials_by_rule(**given)
    assert arcs.arc_turn_point_half_mile(**given) == arcs.arc_turn_point_by_rule(**given)


def test_a_turn_wider_than_the_arc_is_refused():
    with pytest.raises(DomainError, match="too wide"):
        arcs.arc_turn_point_nm(5, 400, 1, 1.5)
    with pytest.raises(DomainError, match="too wide"):
        arcs.lead_radials(5, 400, -1, 1.5)
    with pytest.raises(DomainError):
        arcs.arc_turn_point_by_rule(5, 600, 1, 1.5)


@pytest.mark.parametrize("pair", [(90, 90), (360, 0), (10, 190)])
def test_no_way_round_is_shorter(pair):
    with pytest.raises(DomainError):
        arcs.arc_direction(*pair)
