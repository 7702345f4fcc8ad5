"""One card reckoned by hand from paper rules, step by step; every number of the card is compared with it.

Tonight: Case III. Wind 330/12 on deck and aloft, BRC 349 at 13 kt, launch 20:30, check-in 21:32, over the fix 21:38,
the lowest pushes 21:48 and you hold at angels 8 above angels 6 (third from the bottom), 9,500 lb in the chocks,
2,600 lb of stores, 1,100 lb brought back, departure radial 049, divert 120/80, runway 100, lead on channel 11.

Rules on the paper: wind by sine and cosine from a pocket table; true airspeed is indicated airspeed and 1.7 per cent
a thousand feet; one in sixty; distance is speed times time; everything else is a sum.  What the head rounds is inside
the limits that the quantity itself allows an answer.
"""

import datetime

import pytest

from trainer.practice.night import card
from trainer.practice.night.evening import tonight
from trainer.practice.night.evening.numbers import NUMBERS, result_of

GIVEN = {
    "wind-from": 330.0, "wind-speed": 12.0, "aloft-from": 330.0, "aloft-speed": 12.0, "brc": 349.0, "ship-speed": 13.0,
    "launch": 1230.0, "check-in": 1292.0, "at-fix": 1298.0, "push": 1308.0, "lowest": 6.0, "angels": 8.0, "case": 3.0,
    "fuel": 9500.0, "stores": 2600.0, "retained": 1100.0, "catapult": 1.0, "radial": 49.0, "divert-bearing": 120.0,
    "divert-distance": 80.0, "divert-runway": 100.0, "lead-channel": 11.0,
}  # fmt: skip

LATER = {"board"}  # what the weight board shows is known on the catapult, not on the card
HAND = {
    # The deck. The wind is 19 left of the bow: 12 x 0.95 = 11.3 ahead, 12 x 0.33 = 3.9 from the left.
    "wind_over_deck": 24.6,  # 13 + 11.3 = 24.3 ahead and 3.9 across: 24.6
    "relative_wind": -9,  # 3.9 / 24.3 = 0.16, one in sixty: 9 left
    "bow_wind": 25,  # 25 x cos 9
    "endspeed": 110,  # 123 + 12 - 25
    "angle_wind": 25,  # the landing area lies 9 left, and so does the wind: all of it down the angle
    "angle_crosswind": 0,
    "gross_weight": 34_700,  # 22,700 + 300 + (9,500 - 400) + 2,600
    "trim": 24.5,  # the row up to 35,500
    # The departure. 300 indicated at 500 ft: 0.85 per cent more.
    "departure_tas": 302.5,
    "departure_speed": 291,  # less 11.3
    "opening": 278,  # less the 13 of the ship that follows
    "climb_time": 90.6,  # 7 nm at 278: 7 x 3600 / 278
    "gate_climb": 1_390,  # 1,500 / 5 = 300 ft a mile, 4.63 miles a minute
    # The arc, at 300 ft a mile: 3,000 ft, 5 per cent.
    "arc_tas": 315,
    "outbound_speed": 290,  # less the 24.6 that is felt ahead
    "arc_turn": 7.1,  # 10 less one per cent
    "arc_way": 1,  # 349 to 049: right
    "arc_degrees": 60,
    "arc_speed": 330,  # course 109 half way, the felt wind from 340: 131 off, 24.6 x 0.64 = 16 from behind
    "arc_time": 109,  # 60 x 10 / 60 = 10 nm at 5.5 a minute
    "arc_lead": 19.8,  # 60 / 10 x 3.3
    "rendezvous": 39,  # 049 less 10
    # Marshal.
    "final_bearing": 340,
    "marshal_radial": 160,
    "inbound_course": 340,
    "fix_distance": 23,  # 8 + 15
    "push": 50,  # :48 and two places
    "patterns": 2,  # 12 minutes
    "leg": 60,  # 6:00 less two turns of 2:00, halved
    "hold_tas": 284,  # 250 and 13.6 per cent at 8,000 ft
    "leg_out": 44.4,  # felt 24.6 against: 24.6 / 284 = 0.087 of half the pattern (180 s) = 15.6 off the calm 60
    "leg_in": 75.6,  # and on
    # The approach. Half way to platform 6,500 ft: 11 per cent.
    "descent_tas": 277.5,
    "closing": 252,  # less the 24.6 felt right ahead: the ship's way and the wind
    "platform": 19.85,  # 3,000 ft at 4,000 a minute = 0.75 min x 4.2 = 3.15 from 23
    "gate_tas": 263,  # half way to the gate 3,100 ft: 5.3 per cent
    "gate_closing": 238.5,
    "level_off": 12.3,  # 3,800 ft at 2,000 = 1.9 min x 3.97 = 7.55 from 19.85
    "tip_over": 3.24,  # 1,200 / (3.5 x 106 ft a mile)
    # The fuel: 70 lb a minute to the fix, 50 in holding.
    "check_in_burn": 4_340,  # 62 x 70
    "fix_burn": 4_760,  # 68 x 70
    "ball_fuel": 3_000,  # 9,500 - 400 - 4,760 - 12 x 50 - 700 = 3,040, down
    "bingo": 2_100,  # 80 nm: 1,700 + 0.6 x 600 = 2,060, up
    "wanted_ball_fuel": 3_100,  # two patterns of 500
    "ladder_push": 3_800,  # and 700
    "ladder_fix": 4_400,  # and 12 x 50
    "max_trap_fuel": 4_500,  # 28,600 - 22,700 - 300 - 1,100
    "passes": 1,  # 900 / 500
    "landing_weight": 27_100,  # 22,700 + 300 + 1,100 + 3,000
    "on_speed": 123,  # 123 at 27,000, two a thousand
    "closure": 98,  # less 25
    "sink_rate": 590,  # six times it at 3.5 degrees
    # The divert, at 20,000 ft and 250 indicated: 34 per cent.
    "divert_tas": 335,
    "divert_speed": 345,  # course 120, the wind from 330: 150 off, 12 x 0.87 = 10 from behind
    "divert_time": 13.9,  # 80 / 5.75
    "divert_crosswind": -9.2,  # runway 100: 130 to its left, 12 x 0.77
    "partner": 74,  # 11 + 63
    "case": 3,
    "departure_case": 3,
    "clearing_side": 1,
}  # fmt: skip


@pytest.fixture(scope="module")
def filled(library):
    return tonight.filled(GIVEN, library, datetime.date(2026, 12, 4))


@pytest.mark.parametrize("name", [name for name, number in NUMBERS.items() if 3 in number.cases and name not in LATER])
def test_the_number_is_the_one_reckoned_by_hand(library, filled, name):
    night, result = tonight.night_of(filled.values, library), result_of(name)
    assert night.exact(name) == pytest.approx(HAND[name], abs=max(result.tolerance.inside, result.round_to / 2, 1e-6))


def test_the_sums_of_the_card_are_those_reckoned_by_hand(library, filled):
    made = card.make(filled, library)
    texts = {row.label: row.marked for section in made.sections for row in section.rows}
    assert made.warnings == () and not made.headline.startswith("Case III*")
    assert texts["fuel after taxi"] == "9,100 lb"
    assert texts["at check-in"] == "4,760 lb"  # 9,100 - 4,340
    assert texts["at the fix"] == "4,340 lb"  # 9,100 - 4,760
    assert texts["at the push"] == "3,740 lb"  # less 600
    assert texts["to lose from the fix"] == "12:00"
    # 3.15 nm at 4.2 a minute, 11.85 from 19.85 to 8 at 3.97, 7.25 at 98 kt: 0.75 + 2.98 + 4.44 = 8.2, up to 9
    assert texts["on the ball"] == "3,000 lb" and any(row.text == "21:59" for row in made.sections[3].rows)
