"""Arcs about a moving ship in the wind, flown step by step with nothing of the engine."""

import pytest

from tests.night.flight import Flight, heading_along
from trainer.engine.quantities import QUANTITIES

# BRC 349 at 13 kt, wind 330/12: what is felt aboard, by hand from the card: 24.6 kt from 9 left of the bow.
ABOARD = {"felt_from_deg": 339.9, "felt_kn": 24.7}
SHIP, WIND, TAS = (349.0, 13.0), (330.0, 12.0), 315.0


def computed(name, **inputs):
    quantity = QUANTITIES[name]
    return float(quantity.compute({**ABOARD, "tas_kn": TAS, "arc_nm": 10.0, **inputs})[quantity.result().name])


@pytest.mark.parametrize("way", [1, -1])
def test_the_turn_that_begins_there_touches_the_arc(way):
    begin = computed("arc_turn_over_ship", radial_deg=349.0, way=way, turn_rate_deg_s=1.5)
    flight = Flight(*SHIP, radial_deg=349.0, distance_nm=begin)
    heading = heading_along(349.0, TAS, flight.drift(WIND, over_ship=True))
    assert flight.turn(heading, way * 1.5, 180, TAS, WIND) == pytest.approx(10.0, abs=0.05)


@pytest.mark.parametrize("way", [1, -1])
def test_the_turn_that_begins_so_much_before_ends_on_the_radial(way):
    radial = 49.0 if way > 0 else 289.0
    begin = radial - way * computed("arc_lead_over_ship", radial_deg=radial, way=way, turn_rate_deg_s=1.5)
    flight = Flight(*SHIP, radial_deg=begin, distance_nm=10.0)
    drift = flight.drift(WIND, over_ship=True)
    first, last = heading_along(begin + way * 90, TAS, drift), heading_along(radial, TAS, drift)
    flight.turn(first, -way * 1.5, abs((last - first + 180) % 360 - 180), TAS, WIND)
    assert flight.radial_deg == pytest.approx(radial, abs=0.3)


def test_the_wind_helps_one_way_round():
    there = computed("arc_time_over_ship", from_radial_deg=349.0, arc_deg=60.0, way=1)
    back = computed("arc_time_over_ship", from_radial_deg=49.0, arc_deg=60.0, way=-1)
    assert there < 119.7 < back  # 10.47 nm at 315 kt take 119.7 s
