"""The shipped decks ask for every quantity, or the reason why one is only computed stands here."""

from collections import Counter

import pytest

from trainer.decks import library
from trainer.engine.quantities import QUANTITIES
from trainer.model import AREAS

ONLY_COMPUTED = {
    "pattern_check_altitude": "three check points of the trainer's pattern: facts known by heart",
    "airspeeds_from_cas": "pressure and speed of sound are not read in a cockpit; for checking tables",
    "airspeeds_from_tas": "pressure and speed of sound are not read in a cockpit; for checking tables",
    "arc_lead_over_ship": "what is flown in the wind, worked out for the card; the rule is drilled as lead_radials",
    "arc_time_over_ship": "what is flown in the wind, worked out for the card; the rule is drilled as arc_time",
    "arc_turn_over_ship": "what is flown in the wind, worked out for the card; the rule is drilled as arc_turn_point",
    "case_night_at": "needs an almanac; drilled from sunset and sunrise as case_night",
    "geodesic_destination": "needs the ellipsoid; drilled as the way there, by latitude and longitude",
    "geopotential_altitude": "a step of reading tables in metres, no number of the air",
    "isa_geometric": "for reading tables in geometric metres; drilled by pressure altitude",
    "magnetic_variation": "needs the world magnetic model; drilled as applying a variation",
    "moon_light": "needs an almanac; nobody works it out in the head",
    "moon_times": "needs an almanac; drilled as moonrise from the days since full moon",
    "sun_position": "needs an almanac; nobody works it out in the head",
    "sun_times": "needs an almanac; the Case rules are drilled from its times",
    "twilight": "needs an almanac; nobody works it out in the head",
}


@pytest.fixture(scope="module")
def computed():
    return [drill for drill in library.load().drills.values() if drill.kind == "computed"]


def test_every_quantity_is_asked_or_has_a_reason(computed):
    asked = {drill.quantity for drill in computed}
    assert set(QUANTITIES) - asked == set(ONLY_COMPUTED)


def test_there_are_ninety_computed_drills_in_all_areas_and_levels(computed):
    assert len(computed) >= 90
    assert {drill.area for drill in computed} == set(AREAS)
    levels = Counter(drill.level for drill in computed)
    assert min(levels[level] for level in (1, 2, 3)) >= 60


def test_half_of_the_quantities_are_asked_at_more_than_one_level(computed):
    levels = {}
    for drill in computed:
        levels.setdefault(drill.quantity, set()).add(drill.level)
    several = [name for name, found in levels.items() if name and len(found) > 1]
    assert len(several) > len(levels) / 2
