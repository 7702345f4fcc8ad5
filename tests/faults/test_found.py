"""What fuzzing found (``python -m tests.bench.fuzz``), each told as what happened to the person."""

import sys
import unicodedata

import pytest

from tests.faults.conftest import SMALL
from trainer import paths
from trainer.decks import library
from trainer.drills import grading, questions
from trainer.errors import AnswerError

# Signs that Python calls digits and can't turn into a number: "➑" and its kin.
NO_DECIMALS = [chr(code) for code in range(sys.maxunicode) if chr(code).isdigit() and not chr(code).isdecimal()]


@pytest.fixture(scope="module")
def asked():
    """Return (shelf, a question of every form that the small deck has)."""
    shelf = library.load(files=[SMALL])
    found = {}
    for drill in shelf.drills.values():
        for seed in "123456789":
            question = questions.make(drill, shelf, seed)
            found[question.form] = (question, drill)
    assert len(found) >= 5
    return shelf, list(found.values())


def graded_or_refused(asked, typed):
    shelf, found = asked
    for question, drill in found:
        try:
            grade = grading.grade(question, drill, shelf, typed, 1.0)
            assert 0.0 <= grade.score <= 1.0
        except AnswerError:
            pass


def test_digits_that_are_no_decimals_are_asked_again(asked):
    """Guided by coverage, after 15,000 inputs: "➑" typed at a flow ended the session with a traceback."""
    assert len(NO_DECIMALS) > 100 and "➑" in NO_DECIMALS
    for sign in NO_DECIMALS:
        for typed in (sign, f"2{sign}", f"{sign} nm", f"fix {sign}"):
            graded_or_refused(asked, typed)


def test_every_other_sign_of_a_number_is_read_or_asked_again(asked):
    signs = [chr(code) for code in range(sys.maxunicode) if unicodedata.category(chr(code)) in ("Nd", "Nl", "No")]
    for sign in signs[::3]:
        graded_or_refused(asked, sign)


def test_a_plan_without_a_single_drill_is_a_plan(trainer, small_shelf):
    """A stage of which the shelf has no drill: setting an event ended in a traceback."""
    (small_shelf / "stages").mkdir()
    text = (paths.PACKAGE.parent / "decks" / "stages" / "day-departure.toml").read_text(encoding="utf-8")
    (small_shelf / "stages" / "day-departure.toml").write_text(text, encoding="utf-8")
    done = trainer("cram", "--on", "in 9 days")
    assert done.code in (0, 1, 2) and "a mistake of this program" not in done.err, done.err
