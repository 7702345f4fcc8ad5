"""Numbers as the radio speaks them: what is said is read back, and what is read was said."""

import pytest

from trainer.drills import calls, grading, questions
from trainer.errors import AnswerError
from trainer.model import ON_THE_NUMBER
from trainer.reading.numbers import spoken
from trainer.reading.numbers.values import read_number

SAID = [
    (205, "count", "two zero five"),
    (9, "count", "niner"),
    (5, "heading", "zero zero five"),
    (360, "heading", "three six zero"),
    (12, "angels", "angels one two"),
    (2.5, "angels", "angels two point five"),
    (5.4, "klb", "five point four"),
    (5.0, "klb", "five point zero"),
    (29.92, "inhg", "two niner niner two"),
    (30.0, "inhg", "three zero zero zero"),
    (1_200, "ft", "one thousand two hundred"),
    (800, "ft", "eight hundred"),
    (15_000, "ft", "one five thousand"),
    (7, "minute", "zero seven"),
    (1_125, "clock", "one eight four five"),
    (27, "nm", "two seven"),
]
WHOLE = {
    "count": range(1, 700, 7),
    "heading": range(1, 361),
    "angels": range(1, 41),
    "minute": range(60),
    "clock": range(0, 1440, 7),
    "nm": range(1, 200),
    "kn": range(60, 500, 10),
    "ft": range(100, 40_000, 100),
}
TENTHS = {"klb": range(10, 200), "angels": range(5, 60, 5)}


@pytest.mark.parametrize("value, unit, words", SAID)
def test_numbers_are_said_as_the_trade_says_them(value, unit, words):
    assert spoken.said(value, unit) == words


@pytest.mark.parametrize("unit", WHOLE)
def test_what_is_said_is_read_back(unit):
    for value in WHOLE[unit]:
        assert read(spoken.said(value, unit), unit, value) == value


@pytest.mark.parametrize("unit", TENTHS)
def test_tenths_are_read_back(unit):
    for tenths in TENTHS[unit]:
        assert read(spoken.said(tenths / 10, unit), unit, tenths / 10) == pytest.approx(tenths / 10)


def test_an_altimeter_setting_is_read_with_and_without_its_point():
    for hundredths in range(2_800, 3_130):
        said = spoken.said(hundredths / 100, "inhg")
        assert "point" not in said
        assert read(said, "inhg", hundredths / 100) == pytest.approx(hundredths / 100)


def read(words, unit, about):
    return read_number(spoken.in_figures(words), unit, about=about)


def test_a_second_point_begins_no_number():
    # "0.5 point 0" once became 0.5.0 and a traceback.
    assert spoken.in_figures("one half point two point four").count(".") <= 2
    assert "0.5.0" not in spoken.in_figures("0.5 point 0")


def test_a_call_may_be_typed_as_it_is_spoken(library):
    drill = library.drills["ball"]
    for seed in range(40):
        question = questions.make(drill, library, str(seed))
        grade = grading.grade(question, drill, library, calls.as_spoken(question, drill), 5.0)
        assert (grade.verdict, grade.said) == (ON_THE_NUMBER, ())


def test_a_call_that_is_heard_is_in_words(library):
    question = questions.make(library.drills["reply"], library, "1")
    assert not any(sign.isdigit() for sign in question.inputs["hear"])


@pytest.mark.parametrize("text", ["12/ thousand", "1.2.3 thousand feet", "5- hundred", "7: thousand 5"])
def test_what_is_no_number_before_thousand_is_asked_again(text):
    """Found by fuzzing: it ended in an error that nobody had foreseen."""
    with pytest.raises(AnswerError):
        read_number(text, "ft")
