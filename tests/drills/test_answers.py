"""Answers are read as people write them; what can't be read is never graded."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from trainer.drills import answers
from trainer.engine.units import UNITS
from trainer.errors import AnswerError
from trainer.reading.language.plain_text import normalise
from trainer.reading.numbers.values import read_number

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
    ("twelve", "nm"),
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
    assert any("0" <= character <= "9" for character in normalise(text))


def test_a_small_bare_weight_is_read_as_what_is_expected():
    assert read_number("60", "lb", about=60) == 60
    assert read_number("60", "lb", about=58_000) == 60_000
    assert read_number("3.5", "lb", about=3_400) == 3_500


def test_feet_with_a_point_are_asked_again_where_thousands_may_be_meant():
    with pytest.raises(AnswerError):
        read_number("1.2", "ft", about=1200)


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
