"""Tonight's card: from what is given to what is printed."""

import datetime
import json
import re
from dataclasses import replace

import pytest

from trainer.errors import DeckError, UsageError
from trainer.practice.night import card, card_why, kept_card, moon_tonight
from trainer.practice.night.evening import tonight, tonight_file
from trainer.practice.night.kept_card import KeptCard
from trainer.terminal import brief
from trainer.terminal.look import Look

DAY = datetime.date(2026, 12, 4)
GIVEN = {"wind-from": 330.0, "wind-speed": 12.0, "launch": 1230.0, "push": 1308.0, "fuel": 9_500.0}


def _filled(library, **given):
    return tonight.filled({**GIVEN, **{name.replace("_", "-"): value for name, value in given.items()}}, library, DAY)


def _made(library, **given):
    return card.make(_filled(library, **given), library)


def _rows(made):
    return {row.name or row.label: row for section in made.sections for row in section.rows}


def _texts(made):
    return {name: row.text for name, row in _rows(made).items()}


def test_the_numbers_of_an_evening_reckoned_by_hand(library):
    texts = _texts(_made(library, angels=8.0, divert_distance=80.0, at_fix=1298.0))
    assert texts["gross_weight"] == "34,700 lb"  # 22,700 + 300 + 9,500 - 400 + 2,600: on the catapult
    assert texts["trim"] == "24.5° nose up"
    assert texts["final_bearing"] == "340°"  # 349 - 9
    assert texts["marshal_radial"] == "160°"
    assert texts["fix_distance"] == "23 nm"  # 8 + 15
    assert texts["push"] == ":50"  # :48 and two places up
    assert texts["endspeed"] == "110 kt"  # 123 + 12 - 25
    assert texts["bingo"] == "2,100 lb"  # 1,700 + 0.6 * 600 = 2,060, up
    assert texts["max_trap_fuel"] == "4,500 lb"
    assert texts["ball_fuel"] == "3,000 lb"  # 9,500 - 400 - 68 x 70 - 12 x 50 - 700 = 3,040, down
    assert texts["landing_weight"] == "27,100 lb"  # 22,700 + 300 + 3,000 + 1,100
    assert texts["on_speed"] == "123 kt"
    assert texts["at the push"] == "3,740 lb"  # 700 more
    assert texts["partner"] == "74"


def test_a_flight_of_four_pushes_one_after_the_other(library):
    made = _made(library, angels=7.0, flight=4.0, lowest=6.0)
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
    texts = _texts(_made(library, case=float(case)))
    assert there in texts and absent not in texts


def test_what_does_not_hold_is_said(library):
    made = _made(library, fuel=8000.0)
    assert "the fuel on the ball is not between bingo and max trap" in made.warnings
    made = _made(library, divert_distance=500.0)
    assert _texts(made)["bingo"] == "–"
    assert any("bingo" in warning for warning in made.warnings)
    assert _made(library).warnings == ()


def test_why_shows_how_a_number_comes_about(library):
    filled = _filled(library)
    found = card_why.why(filled, library, "push")
    assert (found.title, found.worked.quantity.name) == ("push time", "push_time")
    assert card_why.why(filled, library, "push_time").worked.inputs == found.worked.inputs
    lines = [text for text, _ in brief.why(found, Look(width=80))]
    assert any(":50" in line for line in lines) and "assumed, nobody gave it: your level angels 8" in lines[-1]
    with pytest.raises(UsageError, match="did you mean push"):
        card_why.why(filled, library, "puhs")
    with pytest.raises(UsageError, match="the card has no number"):
        card_why.why(filled, library, "downwind")  # Case III has none


def test_every_number_of_every_case_can_be_questioned(library):
    for case in (1, 2, 3):
        filled = _filled(library, case=float(case))
        for row in _rows(card.make(filled, library)).values():
            if row.name:
                lines = brief.why(card_why.why(filled, library, row.name), Look(width=80))
                assert any("source:" in text for text, _ in lines), row.name


def test_a_rule_of_thumb_that_is_off_says_what_is_flown(library):
    rows = _rows(_made(library))
    assert rows["arc_turn"].text == "7.1 nm, flown 6.2" and ", flown " in rows["arc_lead"].text
    assert "flown" not in rows["platform"].text
    found = card_why.why(_filled(library), library, "arc_turn")
    assert "flown in tonight's wind about the moving ship: 6.2 nm" in " ".join(
        " ".join(text for text, _ in brief.why(found, Look(width=80))).split()
    )


def test_what_rests_on_a_value_that_nobody_gave_is_marked(library):
    rows = _rows(_made(library))
    assert rows["gross_weight"].marked == "34,700 lb" and rows["trim"].assumed == ()
    assert rows["bingo"].marked == "2,100 lb *" and rows["bingo"].note == "divert assumed"
    assert rows["bingo"].assumed == ("divert-distance",)
    assert rows["passes"].note == "divert assumed" and "at-fix" in rows["passes"].assumed
    assert rows["platform"].assumed == ("aloft-from", "aloft-speed", "angels")
    given = _rows(_made(library, divert_distance=80.0, divert_bearing=120.0, divert_runway=100.0))
    assert (given["bingo"].marked, given["bingo"].note) == ("2,100 lb", "")


def test_the_case_says_what_it_rests_on(library):
    made = _made(library)
    assert made.headline.startswith("Case III* · BRC 349° at 13 kt · wind 330°/12 · 29.92*")
    assert made.basis.startswith("Case by: night at 21:50 (sunset ") and "by your files" in made.basis
    assert "ceiling 3,000 ft*" in made.basis and "visibility 7 nm*" in made.basis
    sure = _made(library, ceiling=900.0, visibility=4.0, altimeter=29.8)
    assert sure.headline.startswith("Case III · ") and "*" not in sure.basis
    assert _made(library, case=3.0).basis == "The Case was given."


def test_the_legend_lists_everything_that_was_assumed(library):
    legend = _made(library).legend
    assert legend.startswith("* rests on what nobody gave: ") and "divert, distance at the recovery 80 nm" in legend
    assert "fuel" not in legend and "sunset" not in legend
    everything = {value.name: value.default(_filled(library).values, library, DAY).value for value in tonight.VALUES}
    assert card.make(tonight.filled(everything, library, DAY), library).legend == ""


def test_the_sun_is_that_of_the_ship_on_that_day(library):
    """17:12 UTC-3: hand check with the almanac's rule of thumb is no proof; the engine's own checks are."""
    filled = _filled(library)
    assert filled.whence["sunset"] == "your files" and 16.5 * 60 < filled.values["sunset"] < 18.5 * 60
    nowhere = replace(library, values={k: v for k, v in library.values.items() if k != "ship.latitude_deg"})
    assert tonight.filled(GIVEN, nowhere, DAY).whence["sunset"] == "assumed"


def test_the_record_tells_of_every_number_what_it_rests_on(library):
    filled = _filled(library)
    record = json.loads(json.dumps(card.as_json(card.make(filled, library), filled)))
    assert record["values"]["divert-distance"] == {
        "value": 80.0, "unit": "nm", "from": "assumed", "assumed": ["divert-distance"]
    }  # fmt: skip
    assert record["values"]["brc"]["from"] == "the other values" and record["values"]["fuel"]["from"] == "given"
    bingo = next(row for row in record["sections"]["Divert at the recovery, channels"] if row["name"] == "bingo")
    assert bingo["assumed"] == ["divert-distance"] and bingo["note"] == "divert assumed"


def test_the_terminal_card_is_one_kneeboard_page(library):
    lines = [text for text, _ in brief.card(_made(library), Look(width=200))]
    assert max(map(len, lines)) <= brief.CARD_WIDTH
    assert len(lines) <= 90
    assert any("not for real flight" in " ".join(lines[at : at + 2]) for at in range(len(lines)))
    narrow = [text for text, _ in brief.card(_made(library), Look(width=40))]
    assert max(map(len, narrow)) <= 40


def test_sixty_columns_keep_their_columns(library):
    lines = [text for text, _ in brief.card(_made(library), Look(width=60))]
    start = lines.index("CATAPULT") + 1
    assert [len(line) for line in lines[start : start + 3]] == [59, 59, 59]
    assert sum("   " in line.strip() for line in lines) > 25


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
    [
        ({"angels": 8.0, "case": 2.0}, "no level of a stack"),
        ({"push": 1220.0}, "lies before 20:30"),
        ({"at-fix": 1200.0}, "check-in 19:54 lies before"),
    ],
)
def test_values_that_contradict_each_other_are_refused(library, given, says):
    with pytest.raises(UsageError, match=says):
        tonight.night_of(tonight.filled({**GIVEN, **given}, library, DAY).values, library)


def test_a_night_past_midnight(library):
    filled = _filled(library, launch=1400.0, push=35.0)
    assert tonight.night_of(filled.values, library).hold_min == 12
    assert _texts(card.make(filled, library))["check-in"] == "00:19"


def test_values_from_a_file(library, tmp_path):
    path = tmp_path / "tonight.toml"
    path.write_text(
        'wind-from = 330\nlaunch = "20:30"\nfuel = 11.5\nsunset = 18:30:00\nbuttons = ["1 tower"]\n', encoding="utf-8"
    )
    found = tonight_file.read(path)
    assert found.values == {"wind-from": 330.0, "launch": 1230.0, "fuel": 11_500.0, "sunset": 1110.0}
    assert (found.buttons, found.notes) == (("1 tower",), ())


def test_the_template_has_every_key_and_reads_back_as_todays_values(library, tmp_path):
    path, filled = tmp_path / "tonight.toml", _filled(library)
    text = tonight_file.template(filled)
    path.write_text(text, encoding="utf-8")
    assert tonight_file.read(path) == tonight_file.Tonight()
    uncommented = re.sub(r"^# (?=[a-z-]+ = )", "", text, flags=re.MULTILINE)
    path.write_text(uncommented, encoding="utf-8")
    found = tonight_file.read(path)
    assert found.values == pytest.approx(filled.values) and found.buttons == ("1 tower", "16 approach")
    for value in tonight.VALUES:
        assert f"# {value.name} = " in text


def test_a_pair_is_written_with_a_stroke():
    assert tonight.PAIRS["wind"].read("315/15") == {"wind-from": 315.0, "wind-speed": 15.0}
    assert tonight.PAIRS["divert"].read(" 120 / 80 ") == {"divert-bearing": 120.0, "divert-distance": 80.0}
    for text in ("315", "315/15/3", "/"):
        with pytest.raises(UsageError):
            tonight.PAIRS["wind"].read(text)


def test_there_are_at_most_eight_questions():
    assert len(tonight.QUESTIONS) <= 8


def test_every_fault_of_a_file_is_named_with_its_line(tmp_path):
    path = tmp_path / "tonight.toml"
    path.write_text('wind-form = 330\nlaunch = "late"\ncase = true\nnotes = "x"\n', encoding="utf-8")
    with pytest.raises(DeckError) as caught:
        tonight_file.read(path)
    texts = [str(fault) for fault in caught.value.faults]
    assert [text.split(":")[1] for text in texts] == ["1", "2", "3", "4"]
    assert 'did you mean "wind-from"' in texts[0] and "must be a number or a text" in texts[2]


def test_files_that_lack_a_number_say_which(library):
    bare = {key: value for key, value in library.values.items() if key != "airframe.taxi_fuel_lb"}
    made = _made(replace(library, values=bare))
    assert any("airframe.taxi_fuel_lb" in warning for warning in made.warnings)
    assert _texts(made)["ball_fuel"] == "–"


def test_the_last_card_is_kept(store, home):
    kept = KeptCard(given={"fuel": 9500.0}, day="2026-12-04", buttons=("1 tower",), files={"ship": "hollenmere"})
    kept_card.keep(store, kept)
    assert kept_card.last(home) == kept


@pytest.mark.parametrize("damaged", [None, 3, {"given": 4}, {"given": {"fuel": "x", "no": 1, "launch": 9e9}}])
def test_a_card_that_is_damaged_is_no_card_or_what_is_left_of_it(store, home, damaged):
    store.set_setting(kept_card.SETTING, damaged)
    found = kept_card.last(home)
    assert found is None or found.given == {}


def _moon(made):
    return [row.text for section in made.sections for row in section.rows if row.label == "moon"]


def test_the_card_of_a_night_tells_the_moon_and_that_of_a_day_does_not(library):
    """It rises at 03:06 on the 5th (`moon_times`), and is new on the 9th at 00:52 UT."""
    (text,) = _moon(_made(library))
    until, lit = re.fullmatch(r"down until (\d\d:\d\d), (\d+) % lit", text).groups()
    assert until == "03:06" and 10 <= int(lit) <= 25
    assert _moon(_made(library, launch=600.0, push=700.0, ceiling=5000.0)) == []


def test_after_midnight_the_moon_is_that_of_the_next_day(library):
    (late,) = _moon(_made(library, launch=1380.0, push=40.0, angels=6.0))
    assert late.startswith("down until 03:06")
    assert moon_tonight.told(library, DAY, 1500.0) == moon_tonight.told(library, DAY + datetime.timedelta(1), 60.0)


def test_a_ship_without_a_position_has_no_moon(library):
    nowhere = replace(
        library, values={name: value for name, value in library.values.items() if name != "ship.latitude_deg"}
    )
    assert _moon(card.make(_filled(nowhere, push=1310.0), nowhere)) == []


def test_the_way_to_the_divert_and_the_approach_on_speed_are_of_ones_own_files(library):
    """At 30,000 ft the same indicated airspeed is faster; without a value the usual ones hold."""

    def with_values(**changes):
        named = {name.replace("__", "."): value for name, value in changes.items()}
        kept = {name: value for name, value in {**library.values, **named}.items() if value is not None}
        return _texts(card.make(_filled(library), replace(library, values=kept)))

    usual = with_values(airframe__divert_altitude_ft=None, airwing__on_speed_nm=None)
    assert usual == _texts(_made(library))
    high, early = with_values(airframe__divert_altitude_ft=30_000.0), with_values(airwing__on_speed_nm=12.0)
    assert float(high["divert_time"].split()[0]) < float(usual["divert_time"].split()[0])
    assert early["on the ball"] > usual["on the ball"]


def test_the_moon_of_the_card_can_be_questioned(library):
    filled = _filled(library)
    found = card_why.why(filled, library, "moon")
    assert found.worked.quantity.name == "moon_light" and found.worked.inputs["local_clock"] > 1310
    assert any(words == "your level" for words, _ in found.assumed)


def test_what_was_assumed_is_told_as_it_is_written(library):
    legend = _made(library, divert_distance=80.0).legend
    assert (
        "first push of the stack (Case I: out of the overhead)"
        in card.make(tonight.filled({"fuel": 9_500.0}, library, DAY), library).legend
    )
    assert "BRC" not in legend and "wind aloft" in legend and "case i" not in legend
