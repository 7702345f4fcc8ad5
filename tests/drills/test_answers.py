"""Answers are read as people write them; what can't be read is never graded."""

import math
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from trainer.decks import library
from trainer.drills import answers, grading, questions
from trainer.engine import display
from trainer.engine.units import UNITS
from trainer.errors import AnswerError
from trainer.reading.language.plain_text import normalise
from trainer.reading.numbers.values import read_number, readings

NUMBER_WORDS = (
    "zero oh one wun two too three tree four fower five fife six seven eight ait nine ten eleven twelve".split()
)
NUMBER_WORDS += ["teen", "twent", "thirt", "fort", "fift", "hundred", "thousand", "half", "quarter", "third", "tenth"]
READ = [
    ("355", "heading", 355),
    ("355°", "heading", 355),
    ("355º", "heading", 355),
    ("005", "heading", 5),
    ("000", "heading", 360),
    ("355 true", "heading", 355),
    ("radial 191", "heading", 191),
    ("３５５", "heading", 355),
    ("16 deg", "trim", 16),
    ("2° nose down", "trim", -2),
    ("3.5 units", "units nose down", 3.5),
    ("3.5 nose down", "units nose down", 3.5),
    ("3.5 units nose up", "units nose down", -3.5),
    ("4 deg nose up", "deg nose down", -4),
    ("4 up", "units nose up", 4),
    ("7 nm", "nm", 7),
    ("7nm", "nm", 7),
    ("7\u00a0nm", "nm", 7),
    ("7\u200b nm.", "nm", 7),
    ("3/4", "nm", 0.75),
    ("1½ nm", "nm", 1.5),
    ("1 1/4", "nm", 1.25),
    ("3,500 lb", "lb", 3500),
    ("3500", "lb", 3500),
    ("3 500", "lb", 3500),
    ("3.5", "lb", 3500),
    ("3.5k", "lb", 3500),
    ("state 3.5", "lb", 3500),
    ("5400", "klb", 5.4),
    ("5.4", "klb", 5.4),
    ("5,400 lb", "klb", 5.4),
    ("angels 2", "ft", 2000),
    ("angels 2", "angels", 2),
    ("12,000", "angels", 12),
    ("12k", "angels", 12),
    ("1+30", "min", 90),
    ("1+30", "h", 1.5),
    ("1:30", "h", 1.5),
    ("4:30", "min", 4.5),
    ("4:30", "s", 270),
    ("90 s", "min", 1.5),
    ("1.5 min", "s", 90),
    ("1 min 30 s", "s", 90),
    (":45", "s", 45),
    ("12:45", "clock", 765),
    ("1245", "clock", 765),
    ("0845z", "clock", 525),
    (":24", "minute", 24),
    ("24", "minute", 24),
    ("24 past", "minute", 24),
    (":24:30", "minute", 24.5),
    ("−5", "deg", -5),
    ("250 kts", "kn", 250),
    ("6076 ft", "nm", 1),
    ("29.92", "inhg", 29.92),
    ("mach .82", "mach", 0.82),
    ("fifteen", "nm", 15),
    ("three five five", "heading", 355),
    ("two niner niner two", "inhg", 29.92),
    ("two hundred and fifty", "kn", 250),
    ("twenty-five hundred feet", "ft", 2500),
    ("5 thousand", "ft", 5000),
    ("half an hour", "min", 30),
    ("an hour and a half", "min", 90),
    ("a minute and 45 seconds", "s", 105),
    ("three quarters of a mile", "nm", 0.75),
    ("one and a quarter miles", "nm", 1.25),
    ("1h30", "min", 90),
    ("1 min 10", "s", 70),
    ("about 16", "nm", 16),
    ("~16", "nm", 16),
    ("16 nautical miles", "nm", 16),
    ("angles 2", "ft", 2000),
    ("FL200", "ft", 20000),
    ("flight level two zero zero", "ft", 20000),
    ("cherubs 5", "ft", 500),
    ("left 7", "deg", -7),
    ("7R", "deg", 7),
    ("7 to the left", "deg", -7),
    ("minus 5", "c", -5),
    ("15 degrees celsius", "c", 15),
    ("7:48 pm", "clock", 1188),
]


@pytest.mark.parametrize("text, unit, value", READ)
def test_read_as_people_write(text, unit, value):
    assert math.isclose(read_number(text, unit), value, rel_tol=1e-4)


NOT_READ = [
    ("", "lb"), ("   ", "nm"), ("nan", "lb"), ("inf", "nm"), ("-inf", "nm"), ("1_000", "lb"), ("1e3", "lb"),
    ("0x10", "lb"),
    ("٣", "lb"), ("३५५", "heading"), ("5²", "nm"), ("①", "nm"), ("3,5", "lb"), ("1,5 nm", "nm"), ("1.200", "ft"),
    ("1,2345", "ft"), ("400", "heading"), ("-4", "heading"), ("7 kg", "nm"), ("7 nm", "lb"), ("7 furlongs", "nm"),
    ("61", "minute"), ("12:24", "minute"), ("2460", "clock"), ("45", "clock"), ("0130", "s"), ("1:75", "min"),
    ("twelve furlongs", "nm"), ("not 7", "nm"), ("about", "nm"),
    ("12 13", "nm"), ("1..2", "nm"), ("--3", "nm"), ("1" * 400, "nm"), ("9" * 30, "nm"), ("3/0", "nm"),
    ("\x1b[A", "nm"),
    ("a" * 10_000, "lb"), ("7 nm; drop table", "nm"),
]  # fmt: skip


@pytest.mark.parametrize("text, unit", NOT_READ)
def test_what_cannot_be_read_is_asked_again_in_one_line(text, unit):
    with pytest.raises(AnswerError) as caught:
        read_number(text, unit)
    message = str(caught.value)
    assert caught.value.hint or not text.strip()
    assert "\n" not in message and "\x1b" not in message and len(message) < 160


@pytest.mark.parametrize("text, unit", [("3,5", "lb"), ("1,5 nm", "nm"), ("1.200", "ft"), ("12:24", "minute")])
def test_what_has_two_readings_is_said_to_have_two(text, unit):
    with pytest.raises(AnswerError, match="two ways"):
        read_number(text, unit)


@given(st.text(max_size=60), st.sampled_from(sorted(UNITS)))
@settings(max_examples=400, deadline=None)
def test_any_text_is_a_finite_number_or_asked_again(text, unit):
    try:
        value = read_number(text, unit)
    except AnswerError:
        return
    assert isinstance(value, float) and math.isfinite(value)
    assert re.search(rf"[0-9]|{'|'.join(NUMBER_WORDS)}", normalise(text))


def test_a_small_bare_weight_is_read_as_what_is_expected():
    assert read_number("60", "lb", about=60) == 60
    assert read_number("60", "lb", about=58_000) == 60_000
    assert read_number("3.5", "lb", about=3_400) == 3_500


def test_feet_with_a_point_are_asked_again_where_thousands_may_be_meant():
    with pytest.raises(AnswerError):
        read_number("1.2", "ft", about=1200)


CLIMB = "How many degrees to the right of your course does it lie (left is negative)?"


@pytest.mark.parametrize(
    "text, asked, value",
    [
        ("252 channels", "How many channels has the beacon?", 252),
        ("63 MHz", "How many MHz lie between the two?", 63),
        ("30 after sunset", "How long after sunset does night begin?", 30),
        ("9R", CLIMB, 9),
        ("9 to the left", CLIMB, -9),
        ("9 left", "From the left is positive. Crosswind?", 9),
        ("9 right", "60 kt from the right: how many degrees of crab?", 9),
    ],
)
def test_what_the_question_names_may_stand_beside_a_number(text, asked, value):
    assert read_number(text, "deg" if "R" in text or "t" in text[-1] else "count", asked=asked) == value


def test_a_side_that_no_question_asks_for_is_not_guessed():
    with pytest.raises(AnswerError, match="not asked"):
        read_number("9 left", "deg", asked="How many degrees of bank?")
    with pytest.raises(AnswerError, match="two ways"):
        read_number("-9 left", "deg", asked=CLIMB)


@pytest.mark.parametrize(
    "text, unit, ways",
    [
        ("20 mi", "nm", ["20 sm", "20 nm"]),
        ("0:30", "min", ["30 s", "30 min"]),
        ("1:37", "min", ["1 min 37 s", "1 h 37 min"]),
        ("3.40", "min", ["3 min 24 s", "3 min 40 s"]),
        ("3+40", "min", ["3 h 40 min", "3 min 40 s"]),
        ("0.62", "%", ["0.62 %", "62 %"]),
        ("1:10", "s", ["1 min 10 s"]),
        ("1:30", "h", ["1 h 30 min"]),
    ],
)
def test_every_way_to_read_a_number_is_found(text, unit, ways):
    assert [one.written for one in readings(text, unit)] == ways


def test_two_ways_are_asked_about_only_where_they_differ_in_verdict(library):
    drill = library.drills["minutes"]
    made = (questions.make(drill, library, str(seed)) for seed in range(50))
    question = next(one for one in made if 10 < one.truth < 50)
    with pytest.raises(AnswerError, match="two ways") as asked:
        grading.grade(question, drill, library, f"0:{round(question.truth)}", 1.0)
    assert asked.value.hint == f"type {round(question.truth)} s or {round(question.truth)} min"
    assert grading.grade(question, drill, library, f"0:{round(question.truth) + 9}", 1.0).score == 0.0


@pytest.mark.parametrize("unit", sorted(UNITS))
def test_the_example_shows_once_how_this_kind_is_typed_and_never_the_answer(unit):
    for about in (None, 7.0, 355.0, 3500.0):
        with pytest.raises(AnswerError) as asked:
            read_number("qqq", unit, about=about)
        assert asked.value.hint.startswith("type it like ") and " or " not in asked.value.hint
        assert about is None or asked.value.hint != f"type it like {display.value(about, unit)}"


SIDES = {1: "right", -1: "left"}
CASES = {1: "Case I", 2: "Case II", 3: "Case III"}


@pytest.mark.parametrize(
    "text, code", [("right", 1), ("R", 1), ("starboard", 1), ("stbd", 1), ("Left", -1), ("port", -1), ("lef", -1)]
)
def test_sides(text, code):
    assert answers.read_word(text, SIDES) == code


@pytest.mark.parametrize(
    "text, code", [("case 2", 2), ("II", 2), ("two", 2), ("Case III", 3), ("3", 3), ("i", 1), ("CASE-1", 1)]
)
def test_cases(text, code):
    assert answers.read_word(text, CASES) == code


@pytest.mark.parametrize("text", ["", "up", "case", "4", "rightleft", "not right"])
def test_a_word_that_is_none_of_them_is_asked_again(text):
    with pytest.raises(AnswerError, match="type right or left|type Case"):
        answers.read_word(text, SIDES if text != "case" else CASES)


@pytest.mark.parametrize(
    ("text", "value"),
    [("down nine hundred pounds", -900), ("900 lb down", -900), ("down by 900", -900), ("up 900", 900), ("-900", -900)],
)
def test_a_way_that_is_minus_is_not_left_out(text, value):
    assert read_number(text, "lb", 900.0, "How many pounds must it go up (minus: down)?") == value


@pytest.mark.parametrize("text", ["well, -900", "I think minus 900 please", "-900 lb, I believe", "I'd say -900"])
def test_politeness_says_nothing(text):
    shelf = library.load()
    drill = shelf.drills["board-difference"]
    assert answers.read(text, questions.make(drill, shelf, "1"), drill, shelf) == -900
