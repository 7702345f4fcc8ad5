"""A second card reckoned by hand from paper rules, by day, Case II, with another wind aloft than on deck.

Today: wind 200/14 on deck, 220/30 aloft, BRC 210 at 12 kt, ceiling 2,000, visibility 6. Launch 10:00 off catapult 3,
check-in 10:50, over the fix 10:55, the lowest (angels 7) pushes at 11:05 and you hold at angels 9. 8,600 lb in the
chocks, 3,400 lb of stores, 900 lb brought back, departure radial 150, divert 070/60, runway 190, lead on channel 70.
The rules on the paper are those of the other card.
"""

import datetime

import pytest

from trainer.practice.night import card
from trainer.practice.night.evening import tonight
from trainer.practice.night.evening.numbers import NUMBERS

GIVEN = {
    "wind-from": 200.0, "wind-speed": 14.0, "aloft-from": 220.0, "aloft-speed": 30.0, "brc": 210.0, "ship-speed": 12.0,
    "ceiling": 2000.0, "visibility": 6.0, "sunrise": 360.0, "sunset": 1080.0, "launch": 600.0, "check-in": 650.0,
    "at-fix": 655.0, "push": 665.0, "lowest": 7.0, "angels": 9.0, "fuel": 8600.0, "stores": 3400.0, "retained": 900.0,
    "catapult": 3.0, "radial": 150.0, "divert-bearing": 70.0, "divert-distance": 60.0, "divert-runway": 190.0,
    "lead-channel": 70.0,
}  # fmt: skip
LATER = {"board"}
HAND = {
    "case": 2, "departure_case": 2,
    # The wind is 10 left of the bow: 14 x 0.985 = 13.8 ahead, 14 x 0.17 = 2.4 from the left.
    "wind_over_deck": 25.9,  # 12 + 13.8 = 25.8 ahead, 2.4 across
    "relative_wind": -5.3,  # 2.4 / 25.8 x 57
    "bow_wind": 26, "endspeed": 109,  # 123 + 12 - 26
    "angle_wind": 25.8, "angle_crosswind": 1.7,  # 9 - 5.3 = 3.7 right of the angle: 25.9 x 0.065
    "gross_weight": 34_600,  # 22,700 + 300 + (8,600 - 400) + 3,400
    "trim": 24.5,  # up to 35,500
    "clearing_side": -1, "clearing_heading": 190,  # the waist clears left, twenty
    "departure_tas": 302.5, "departure_speed": 289, "opening": 277,  # less 13.8, less the ship's 12
    "climb_time": 91,  # 7 x 3,600 / 277
    "arc_tas": 315, "outbound_speed": 289, "arc_turn": 7.1, "arc_way": -1, "arc_degrees": 60,
    "arc_speed": 325,  # course 090 half way, felt from 205: 115 off, 10.8 from behind, 0.9 lost to the crab
    "arc_time": 111,  # 10 nm at 5.42 a minute
    "arc_lead": 19.5, "rendezvous": 140,
    "final_bearing": 201, "marshal_radial": 21, "inbound_course": 201, "fix_distance": 24, "push": 6,
    "patterns": 2, "leg": 45,  # 11:00 in two of 5:30, less 4:00 of turns
    "hold_tas": 288,  # 9 x 1.7 per cent
    # Aloft 10 right of the bow: 29.5 + 12 = 41.5 ahead, 5.2 across: felt 41.8 from 217, 16 off the inbound course: 40.1
    "leg_out": 22, "leg_in": 68,  # 40.1 / 288 x 165 = 23
    "descent_tas": 280, "closing": 239.7, "platform": 20.0,  # 1 min at 3.99 from 24
    "gate_tas": 263, "gate_closing": 237.3, "level_off": 12.5,  # 1.9 min at 3.955
    "tip_over": 3.24,
    "check_in_burn": 3_500, "fix_burn": 3_850,  # 50 and 55 x 70
    "ball_fuel": 3_100,  # 8,200 - 3,850 - 11 x 50 - 700
    "bingo": 1_900,  # 1,700 + 0.2 x 600 = 1,820, up
    "wanted_ball_fuel": 2_900, "ladder_push": 3_600, "ladder_fix": 4_200,  # 4,150, up
    "max_trap_fuel": 4_700,  # 28,600 - 23,900
    "passes": 2,  # 1,200 / 500
    "landing_weight": 27_000, "on_speed": 123, "closure": 97, "sink_rate": 582,
    "downwind": 30, "break_spacing": 1.25, "groove": 0.40,
    "divert_tas": 335, "divert_speed": 361, "divert_time": 10.0,  # 150 off: 26 from behind, 0.3 lost to the crab
    "divert_crosswind": 2.4, "partner": 7,
}  # fmt: skip


@pytest.fixture(scope="module")
def filled(library):
    return tonight.filled(GIVEN, library, datetime.date(2026, 12, 4))


@pytest.mark.parametrize("name", [name for name, number in NUMBERS.items() if 2 in number.cases and name not in LATER])
def test_the_number_is_the_one_reckoned_by_hand(library, filled, name):
    night = tonight.night_of(filled.values, library)
    result = night.result(name)
    allowed = max(result.tolerance.inside, result.round_to / 2, 1e-6)
    assert night.exact(name) == pytest.approx(HAND[name], abs=allowed)


def test_the_sums_of_the_card_are_those_reckoned_by_hand(library, filled):
    made = card.make(filled, library)
    texts = {row.label: row.text for section in made.sections for row in section.rows}
    assert made.warnings == () and made.headline.startswith("Case II ·") and "moon" not in texts
    assert texts["fuel after taxi"] == "8,200 lb" and texts["at check-in"] == "4,700 lb"
    assert texts["at the fix"] == "4,350 lb" and texts["at the push"] == "3,800 lb"  # less 550
    # 4.0 nm at 3.99, 12.0 at 3.955, 7.25 at 97 kt: 1.0 + 3.03 + 4.48, up to 9; and 4 in the pattern
    assert any(row.text == "11:19" for row in made.sections[3].rows)
