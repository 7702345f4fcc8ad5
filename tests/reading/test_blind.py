"""Answers as somebody types them who has seen the questions and not the reading: right ones, wrong ones, two ways.

What a right answer costs is told: refused is worse than asked back, and nothing wrong may ever pass.
"""

import tomllib
from collections import Counter
from pathlib import Path

import pytest

from trainer.decks import library as libraries
from trainer.drills import grading, questions
from trainer.errors import AnswerError

HERE = Path(__file__).parent
ACCEPTED_PERCENT = 97


@pytest.fixture(scope="module")
def shipped():
    return libraries.load()


def verdict(drill, library, text):
    """Return "right", "wrong" or "asked" for ``text`` typed to a question of ``drill``."""
    question = questions.make(drill, library, "1")
    try:
        return "right" if grading.grade(question, drill, library, text, 1.0).score > 0.5 else "wrong"
    except AnswerError:
        return "asked"


def numbers(library):
    """Yield (drill, text, the number it says as text, or "ask")."""
    for line in (HERE / "blind_numbers.txt").read_text(encoding="utf-8").splitlines():
        name, *rest = [part.strip() for part in line.split("|")]
        if not line.startswith("#") and name in library.drills:
            yield library.drills[name], *rest


def test_numbers_are_read_as_they_are_said(shipped):
    found, odd = Counter(), []
    for drill, text, value in numbers(shipped):
        truth = questions.make(drill, shipped, "1").truth
        if value != "ask" and abs(float(value) - truth) > 0.5 * max(1.0, abs(truth)) / 100:
            continue  # the deck draws another number today
        got = verdict(drill, shipped, text)
        found[value == "ask", got] += 1
        odd += [(drill.id, text, got)] if got != ("asked" if value == "ask" else "right") else []
    assert found.total() >= 120
    assert found[True, "right"] == found[False, "wrong"] == 0, odd
    assert 100 * found[False, "asked"] <= (100 - ACCEPTED_PERCENT) * (found[False, "right"] + found[False, "asked"]), (
        odd
    )


def test_answers_in_words_are_read_as_they_are_said(shipped):
    found, odd = Counter(), []
    for name, texts in tomllib.loads((HERE / "blind_recall.toml").read_text(encoding="utf-8")).items():
        for wanted in ("right", "wrong") if name in shipped.drills else ():
            for text in texts[wanted]:
                got = verdict(shipped.drills[name], shipped, text)
                found[wanted, got] += 1
                odd += [(name, wanted, text, got)] if got != wanted else []
    assert found.total() > 200
    assert found["wrong", "right"] == found["right", "wrong"] == 0, odd
    assert 100 * found["right", "asked"] <= (100 - ACCEPTED_PERCENT) * (
        found["right", "right"] + found["right", "asked"]
    )
