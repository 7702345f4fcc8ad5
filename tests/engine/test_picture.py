"""Pictures are drawn to scale: what is measured in them is what the quantity computes."""

import math
import re

import pytest

from trainer.engine import picture, picture_text
from trainer.engine.quantities import QUANTITIES

DRAWN = sorted(name for name, quantity in QUANTITIES.items() if quantity.picture)


def drawn(name, **inputs):
    return QUANTITIES[name].picture(**inputs)


def of_kind(found, kind):
    return [stroke for stroke in found.strokes if stroke.kind == kind]


def polar(start, end):
    """Return (bearing in degrees clockwise from up, length) from one point to another."""
    across, up = end[0] - start[0], end[1] - start[1]
    return math.degrees(math.atan2(across, up)) % 360, math.hypot(across, up)


def usual(quantity):
    """Return inputs well inside their ranges, or what is usual."""
    return {
        spec.name: spec.default if spec.default is not None else next(iter(spec.words)) if spec.words
        else spec.low + (0.2 + 0.05 * at) * (spec.high - spec.low)
        for at, spec in enumerate(quantity.inputs)
    }  # fmt: skip


# NGA Pub. 1310 (Radar Navigation and Maneuvering Board Manual), ch. 6: apparent wind is the vector sum of the true
# wind and the reverse of the ship's motion.
@pytest.mark.parametrize("course, speed, wind_from, wind", [(350, 15, 20, 18), (90, 20, 90, 10), (200, 12, 20, 25)])
def test_wind_over_the_deck_is_the_sum_of_two_arrows_head_to_tail(course, speed, wind_from, wind):
    inputs = dict(ship_course_deg=course, ship_speed_kn=speed, wind_from_deg=wind_from, wind_speed_kn=wind)
    found = drawn("wind_over_deck", **inputs)
    (true, own), (felt,) = of_kind(found, picture.GIVEN), of_kind(found, picture.FOUND)
    assert true.points[-1] == own.points[0] and felt.points == (true.points[0], own.points[-1])
    assert (polar(*true.points)[1], polar(*own.points)[1]) == pytest.approx((wind, speed))
    result = QUANTITIES["wind_over_deck"].compute(inputs)
    bearing, length = polar(*felt.points)
    assert length == pytest.approx(float(result["wind_over_deck_kn"]))
    assert math.cos(math.radians(bearing - 180 - float(result["relative_wind_deg"]))) == pytest.approx(1.0)


def test_the_wind_triangle_of_flight_gives_the_course():
    inputs = dict(course_deg=90.0, tas_kn=120.0, wind_from_deg=360.0, wind_speed_kn=40.0)
    (heading, wind), (track,) = (of_kind(drawn("heading_for_course", **inputs), kind) for kind in ("given", "found"))
    result = QUANTITIES["heading_for_course"].compute(inputs)
    assert polar(*heading.points) == pytest.approx((float(result["heading_deg"]), 120.0))
    assert polar(*wind.points) == pytest.approx((180.0, 40.0))
    assert polar(*track.points) == pytest.approx((90.0, float(result["groundspeed_kn"])))


def test_a_weak_wind_is_drawn_stronger_and_says_so():
    found = drawn("heading_for_course", course_deg=90.0, tas_kn=400.0, wind_from_deg=360.0, wind_speed_kn=20.0)
    assert polar(*of_kind(found, "given")[1].points)[1] == pytest.approx(100.0)
    assert any("drawn 5 times" in line for line in found.legend)


@pytest.mark.parametrize("direction", [1, -1])
def test_the_turn_onto_an_arc_touches_radial_and_arc(direction):
    inputs = dict(arc_nm=10.0, groundspeed_kn=300.0, direction=direction, turn_rate_deg_s=1.5)
    (way,) = of_kind(drawn("arc_turn_point", **inputs), "found")
    turn = float(QUANTITIES["arc_turn_point"].compute(inputs)["turn_point_nm"])
    assert way.points[1] == pytest.approx((turn, 0.0)), "where it begins"
    assert polar((0.0, 0.0), way.points[-1])[1] == pytest.approx(10.0), "it ends on the arc"
    heading, place = polar(*way.points[-2:])[0], polar((0.0, 0.0), way.points[-1])[0]
    assert abs(math.cos(math.radians(heading - place))) < 0.15, "along the arc"


@pytest.mark.parametrize("direction", [1, -1])
def test_the_turn_off_an_arc_ends_on_the_radial(direction):
    inputs = dict(arc_nm=10.0, groundspeed_kn=250.0, direction=direction, turn_rate_deg_s=1.5)
    (way,) = of_kind(drawn("lead_radials", **inputs), "found")
    lead = float(QUANTITIES["lead_radials"].compute(inputs)["lead_radials"])
    assert polar((0.0, 0.0), way.points[0]) == pytest.approx((lead, 10.0))
    assert [point[0] for point in way.points[-2:]] == pytest.approx([0.0, 0.0])
    assert (way.points[-1][1] > way.points[-2][1]) == (direction > 0)


# NAVEDTRA 14342A p. 11-33: the fix lies at one mile for each thousand feet, plus fifteen.
def test_every_level_of_the_stack_lies_at_its_fix():
    found = drawn("marshal_fix_distance", angels=12)
    levels = [stroke.points[0] for stroke in found.strokes if stroke.kind != picture.FRAME]
    assert sorted(levels) == [(25.0, 10), (26.0, 11), (27.0, 12), (28.0, 13), (29.0, 14)]
    assert [stroke.points[0] for stroke in of_kind(found, picture.FOUND)] == [(27.0, 12)]


def test_the_check_points_of_the_pattern_lie_so_far_from_the_end_of_the_turn():
    found = drawn("pattern_check_altitude", position=90)
    places = {spot.words: spot.at for spot in found.spots}
    centre = (places["180"][0] / 2, places["180"][1])
    turned = {words: (270 - polar(centre, at)[0]) % 360 for words, at in places.items()}
    assert turned == pytest.approx({"180": 0.0, "90": 90.0, "45": 135.0})
    assert of_kind(found, picture.FOUND)[0].points[-1] == pytest.approx(places["90"])


@pytest.mark.parametrize("name", DRAWN)
def test_every_letter_is_told_in_the_legend(name):
    quantity = QUANTITIES[name]
    found = quantity.picture(**usual(quantity))
    words = {word for line in found.legend for word in re.findall(r"[A-Za-z0-9]+|\+", line)}
    assert [spot.words for spot in found.spots if spot.is_letter and spot.words not in words] == []
    assert len(found.legend) >= 1 and found.title


@pytest.mark.parametrize("name", DRAWN)
def test_a_picture_is_the_same_after_being_handed_out(name):
    quantity = QUANTITIES[name]
    found = quantity.picture(**usual(quantity))
    again = picture.of_record(picture.as_record(found))
    assert picture_text.lines(again) == picture_text.lines(found)
    assert len(picture_text.lines(found)) <= picture_text.ROWS + 4


def test_an_arrow_points_where_it_goes_and_no_letter_hides_another():
    here, up, right = (0.0, 0.0), (0.0, 4.0), (4.0, 4.0)
    found = picture.Picture(
        title="t", legend=("A B",),
        strokes=(picture.Stroke(points=(here, up), arrow=True), picture.Stroke(points=(up, right), arrow=True)),
        spots=(picture.Spot(at=here, words="A"), picture.Spot(at=here, words="B")),
    )  # fmt: skip
    lines = picture_text.lines(found, ascii_only=True)
    assert lines[0].strip().startswith("-") and lines[0].endswith(">")
    assert lines[-2].strip().startswith("AB") and any("|" in line for line in lines)
