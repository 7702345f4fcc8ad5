"""Hints: a number under which the right line stands on the screen, and the form in which a number is typed."""

import random
import re

import pytest

from trainer.decks import library
from trainer.drills import grading, questions
from trainer.drills.hints import one_of_two
from trainer.engine.units import UNITS
from trainer.errors import AnswerError
from trainer.reading.numbers.forms import EXAMPLES, form_of
from trainer.terminal import screens
from trainer.terminal.look import Look


@pytest.fixture(scope="module")
def shelf():
    return library.load()


def asked(shelf, kinds, seeds=("1",)):
    """Yield (drill, question) of all drills of ``kinds``."""
    for drill in shelf.drills.values():
        for seed in seeds if drill.kind in kinds else ():
            yield drill, questions.make(drill, shelf, seed)


def test_a_hint_with_numbers_names_lines_as_they_stand_on_the_screen(shelf):
    """ "It is number 3 of the 4 steps" stood under lines numbered 1 to 3: 395 of 833 hints named another line."""
    seen = 0
    for drill, question in asked(shelf, ("flow", "recall"), ("1", "2", "3", "4")):
        if found := re.fullmatch(r"it is (\d) or (\d)", question.hint):
            verdicts = [grading.grade(question, drill, shelf, number, None).score for number in found.groups()]
            assert sorted(verdicts) == [0.0, 1.0], f"{drill.id}: {question.hint}"
            seen += 1
        assert " steps" not in question.hint or question.form == "recite", drill.id
    assert seen > 100


def test_of_two_lines_a_hint_says_nothing():
    assert one_of_two(random.Random(1), 0, 2) == ""
    pairs = {one_of_two(random.Random(seed), 2, 4) for seed in range(40)}
    assert pairs == {"it is 1 or 3", "it is 2 or 3", "it is 3 or 4"}


def test_the_hint_to_a_number_shows_its_form_once_and_never_the_answer(shelf):
    for drill, question in asked(shelf, ("computed", "recall")):
        if question.unit in ("", "word"):
            continue
        text = " ".join(line for line, _ in screens.hint(question, Look(width=100)))
        assert text.count(", like ") == 1, f"{drill.id}: {text}"
        example = text.rpartition(", like ")[2]
        try:
            assert grading.grade(question, drill, shelf, example, None).score < 1, f"{drill.id}: {text}"
        except AnswerError as error:
            raise AssertionError(f"{drill.id}: the example {example!r} can't be read") from error


def test_the_example_hangs_on_the_question_and_not_on_the_truth():
    """The example that lay furthest from the truth told on which side of the compass to look."""
    shown = {form_of("heading", 200.0, str(seed)) for seed in range(20)}
    assert len(shown) == len(EXAMPLES["heading"])
    assert all("like 355" not in form_of("heading", 355.0, str(seed)) for seed in range(20)), "never the answer"


@pytest.mark.parametrize("unit", sorted(UNITS.keys() - {"word", "table", "day"}))
def test_every_unit_has_its_form(unit):
    assert ", like " in form_of(unit, 1e9, "x")
