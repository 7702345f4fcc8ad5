"""What is said of where an answer comes from: little beside a verdict, everything on request."""

import re

import pytest

from trainer.decks import library
from trainer.drills import questions, worked_solution

STATUS = re.compile(r" – (published|secondary|common practice|memory|invented)$")


@pytest.fixture(scope="module")
def shelf():
    return library.load()


def asked(shelf, drill_id, seed="1"):
    """Return (drill, question)."""
    drill = shelf.drills[drill_id]
    return drill, questions.make(drill, shelf, seed)


def test_beside_a_verdict_one_short_line_says_where_the_rule_stands(shelf):
    for drill in shelf.drills.values():
        question = questions.make(drill, shelf, "1")
        lines = worked_solution.beside_a_verdict(question, drill, shelf)
        told = [line for line in lines if line.startswith(("rule:", "source:", "invented:")) or STATUS.search(line)]
        assert told == lines[-1:] and len(told[0]) <= 70, f"{drill.id}: {told}"


@pytest.mark.parametrize(
    ("drill_id", "line"),
    [
        ("fix-from-angels", "rule: NAVEDTRA 14342A, p. 11-33"),
        ("trim-step-round", "rule: common practice"),
        ("call-clara", "rule: CNATRA P-1211"),
    ],
)
def test_it_names_publication_and_page_or_says_that_there_is_none(shelf, drill_id, line):
    drill, question = asked(shelf, drill_id)
    assert worked_solution.beside_a_verdict(question, drill, shelf)[-1].startswith(line)


def test_the_whole_solution_tells_the_status_and_what_is_invented(shelf):
    drill, question = asked(shelf, "trim-step-round")
    lines = worked_solution.worked(question, drill, shelf)
    assert any(STATUS.search(line) for line in lines)
    assert [line for line in lines if line.startswith("invented:")] == [f"invented: {shelf.notes['airframe']}"]


@pytest.mark.parametrize(
    ("drill_id", "used"), [("clearing-heading-round", False), ("fix-from-angels", False), ("gross-weight-round", True)]
)
def test_nothing_is_called_invented_where_no_invented_number_was_used(shelf, drill_id, used):
    """A course drawn by chance is a question's, and claims nothing; every solution of the deck bore the label."""
    drill, question = asked(shelf, drill_id)
    labels = [line for line in worked_solution.worked(question, drill, shelf) if line.startswith("invented:")]
    assert bool(labels) == used


def test_no_key_of_a_file_stands_in_a_question_or_its_solution(shelf):
    """ "Trim table airframe.trim_steps" was the third line that a new pilot read."""
    key = re.compile(r"[a-z0-9]_[a-z0-9]|\b(airframe|ship|airwing)\.[a-z]|//|\bwrap360|\bround\(")
    for drill in shelf.drills.values():
        question = questions.make(drill, shelf, "1")
        lines = [question.text, question.hint, question.truth_text, *question.choices]
        lines += worked_solution.worked(question, drill, shelf)
        assert not [line for line in lines if key.search(line)], drill.id
