"""Tonight's card: from what is given to what is printed."""

from dataclasses import replace

import pytest

from trainer.errors import DeckError, UsageError
from trainer.practice.night import card
from trainer.practice.night.evening import tonight, tonight_file
from trainer.terminal import brief
from trainer.terminal.look import Look

GIVEN = {"wind-from": 330.0, "wind-speed": 12.0, "launch": 1230.0, "fuel": 9_500.0}


def _made(library, **given):
    values, night = tonight.night_of({**GIVEN, **{k.replace("_", "-"): v for k, v in given.items()}}, library)
    return card.make(night, flight=values["flight"]), night


def _texts(made):
    return {row.name or row.label: row.text for section in made.sections for row in section.rows}


def test_the_numbers_of_an_evening_reckoned_by_hand(library):
    texts = _texts(_made(library, angels=8.0, divert_distance=80.0)[0])
    assert texts["gross_weight"] == "35,100 lb"  # 22,700 + 300 + 9,500 + 2,600
    assert texts["trim"] == "24.5° nose up"
    assert texts["final_bearing"] == "340°"  # 349 - 9
    assert texts["marshal_radial"] == "160°"
    assert texts["fix_distance"] == "23 nm"  # 8 + 15
    assert texts["push"] == ":50"  # :48 and two places up
    assert texts["endspeed"] == "110 kt"  # 123 + 12 - 25
    assert texts["bingo"] == "2,100 lb"  # 1,700 + 0.6 * 600 = 2,060, up
    assert texts["max_trap_fuel"] == "4,500 lb"
    assert texts["ball_fuel"] == "3,000 lb"  # 9,500 - 400 - 4,200 - 420 - 700 - 700 = 3,080, down
    assert texts["beacon_ask"] == "1071 MHz" and texts["beacon_reply"] == "1008 MHz"
    assert texts["partner"] == "74"


def test_a_flight_of_four_pushes_one_after_the_other(library):
    made, _ = _made(library, angels=7.0, flight=4.0)
    assert [(level.angels, level.push, level.own) for level in made.stack] == [
        ("angels 6", ":48", False), ("angels 7", ":49", True), ("angels 8", ":50", True),
        ("angels 9", ":51", True), ("angels 10", ":52", True),
    ]  # fmt: skip
    assert [level.first for level in made.stack] == [False, True, False, False, False]


@pytest.mark.parametrize(
    ("case", "there", "absent"),
    [(1, "downwind", "push"), (2, "push", "gate_climb"), (3, "gate_climb", "clearing_heading")],
)
def test_each_case_has_its_own_numbers(library, case, there, absent):
    texts = _texts(_made(library, case=float(case))[0])
    assert there in texts and absent not in texts


def test_what_does_not_hold_is_said(library):
    made, _ = _made(library, fuel=8000.0)
    assert "the fuel on the ball is not between bingo and max trap" in made.warnings
    made, _ = _made(library, divert_distance=500.0)
    assert _texts(made)["bingo"] == "–"
    assert any("bingo" in warning for warning in made.warnings)
    assert _made(library)[0].warnings == ()


def test_why_shows_how_a_number_comes_about(library):
    _, night = _made(library)
    title, worked = card.why(night, "push")
    assert (title, worked.quantity.name) == ("push time", "push_time")
    assert card.why(night, "push_time")[1].inputs == worked.inputs
    lines = [text for text, _ in brief.why(title, worked, Look(width=80))]
    assert any(":50" in line for line in lines) and lines[-1].strip()
    with pytest.raises(UsageError, match="did you mean push"):
        card.why(night, "puhs")
    with pytest.raises(UsageError, match="the card has no number"):
        card.why(night, "downwind")  # Case III has none


def test_every_number_of_every_case_can_be_questioned(library):
    for case in (1, 2, 3):
        made, night = _made(library, case=float(case))
        for section in made.sections:
            for row in section.rows:
                if row.name:
                    title, worked = card.why(night, row.name)
                    lines = brief.why(title, worked, Look(width=80))
                    assert any("source:" in text for text, _ in lines), row.name


def test_the_terminal_card_is_one_kneeboard_page(library):
    lines = [text for text, _ in brief.card(_made(library)[0], Look(width=200))]
    assert max(map(len, lines)) <= brief.CARD_WIDTH
    assert len(lines) <= 60
    assert any("not for real flight" in " ".join(lines[at : at + 2]) for at in range(len(lines)))
    narrow = [text for text, _ in brief.card(_made(library)[0], Look(width=40))]
    assert max(map(len, narrow)) <= 40


@pytest.mark.parametrize(
    ("name", "text", "says"),
    [
        ("wind-from", "400", "wind-from"),
        ("launch", "25:70", "launch"),
        ("catapult", "2.5", "not a whole number"),
        ("case", "4", "out of range"),
        ("fuel", "plenty", "can't read"),
        ("altimeter", "12", "altimeter"),
    ],
)
def test_a_value_that_cannot_be_is_refused(name, text, says):
    with pytest.raises(UsageError, match=says):
        tonight.BY_NAME[name].read(text)


@pytest.mark.parametrize(
    ("given", "says"),
    [({"angels": 8.0, "case": 2.0}, "no level of a stack"), ({"push": 1220.0}, "push 20:20 lies before")],
)
def test_values_that_contradict_each_other_are_refused(library, given, says):
    with pytest.raises(UsageError, match=says):
        tonight.night_of({**GIVEN, **given}, library)


def test_a_night_past_midnight(library):
    made, night = _made(library, launch=1400.0)
    assert night.hold_min == 14
    assert _texts(made)["check-in"] == "00:20"


def test_values_from_a_file(library, tmp_path):
    path = tmp_path / "tonight.toml"
    path.write_text('wind-from = 330\nlaunch = "20:30"\nfuel = 11.5\nsunset = 18:30:00\n', encoding="utf-8")
    assert tonight_file.read(path) == {"wind-from": 330.0, "launch": 1230.0, "fuel": 11_500.0, "sunset": 1110.0}


def test_every_fault_of_a_file_is_named_with_its_line(tmp_path):
    path = tmp_path / "tonight.toml"
    path.write_text('wind-form = 330\nlaunch = "late"\ncase = true\n', encoding="utf-8")
    with pytest.raises(DeckError) as caught:
        tonight_file.read(path)
    texts = [str(fault) for fault in caught.value.faults]
    assert [text.split(":")[1] for text in texts] == ["1", "2", "3"]
    assert 'did you mean "wind-from"' in texts[0] and "must be a number or a text" in texts[2]


def test_files_that_lack_a_number_say_which(library):
    bare = {key: value for key, value in library.values.items() if key != "airframe.taxi_fuel_lb"}
    made, _ = _made(replace(library, values=bare))
    assert any("airframe.taxi_fuel_lb" in warning for warning in made.warnings)
    assert _texts(made)["ball_fuel"] == "–"
