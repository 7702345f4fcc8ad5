"""Calls that are made: what controllers accept passes in every form, and nothing with one thing wrong does.

Thirty draws of every call are swept by ``python -m tests.bench.reading``; here it is one.
"""

import tomllib
from collections import Counter
from pathlib import Path

import pytest

from tests.reading.calls_varied import made, swept, taken_for
from tests.reading.fresh_set import filled
from trainer.decks import library as libraries
from trainer.drills import grading, questions
from trainer.errors import AnswerError
from trainer.reading.calls.tokens import Number, tokens_of
from trainer.reading.calls.understood import Part, understand

BLIND = tomllib.loads((Path(__file__).parent / "blind_calls.toml").read_text(encoding="utf-8"))


@pytest.fixture(scope="module")
def shipped():
    return libraries.load()


def test_every_right_form_passes_and_nothing_with_one_thing_wrong(shipped):
    found, odd = Counter(), []
    for is_right, kind, drill_id, text, got in swept(shipped, 1):
        found[is_right, got == "right"] += 1
        odd += [(kind, drill_id, text, got)] if is_right != (got == "right") else []
    assert found[False, True] == 0, odd
    assert 100 * found[True, False] <= 3 * (found[True, True] + found[True, False]), odd
    assert found.total() > 40 * len(made(shipped))


@pytest.mark.parametrize("drill_id", BLIND)
def test_calls_as_pilots_may_make_them(shipped, drill_id):
    if drill_id not in shipped.drills:
        pytest.skip("that call is no longer shipped")
    drill = shipped.drills[drill_id]
    for seed in range(3):
        question = questions.make(drill, shipped, f"blind {seed}")
        for wanted in ("right", "wrong"):
            for text in BLIND[drill_id][wanted]:
                typed = filled(text, drill, question)
                assert taken_for(typed, question, drill, shipped) == wanted, typed


def call(text, **ways):
    parts = [Part(name=name, ways=tuple(tokens_of(way) for way in several)) for name, several in ways.items()]
    return understand(text, parts)


def test_words_and_numbers_are_told_apart():
    assert tokens_of("203 two thousand feet") == (Number(value=203), Number(value=2000, unit="ft"))
    assert tokens_of("thirty-two nautical miles, angles 2") == (
        Number(value=32, unit="nm"),
        Number(value=2, unit="angels"),
    )
    assert tokens_of("cherubs five") == (Number(value=500, unit="ft"),)


def test_a_number_belongs_to_one_item_only():
    found = call("208 passing 2.5", side=["208"], altitude=["passing 2.5"], again=["2.5"])
    assert set(found.places) == {"side", "altitude"} and not found.blamed


@pytest.mark.parametrize("text", ["208 not kilo", "208 negative kilo", "208 kilo, without"])
def test_a_denial_is_blamed_on_what_it_denies(text):
    assert call(text, side=["208"], word=["kilo"]).blamed == {"word": f'denied: "{denial(text)}"'}


def denial(text):
    return next(word for word in text.replace(",", "").split() if word in ("not", "negative", "without"))


def test_run_on_figures_are_parted_only_as_the_call_has_them():
    parted = call("two zero eight three five for three two", side=["208"], position=["35 for 32"])
    assert set(parted.places) == {"side", "position"}
    assert set(call("two zero eight three six for three two", side=["208"], position=["35 for 32"]).places) != {
        "side",
        "position",
    }


def test_a_word_that_nobody_can_place_is_asked_about_and_says_nothing_else(shipped):
    drill = shipped.drills["call-platform"]
    question = questions.make(drill, shipped, "1")
    with pytest.raises(AnswerError, match='can\'t place "zebra"') as asked:
        grading.grade(question, drill, shipped, f"{question.truth[0]} zebra platform", 1.0)
    assert "platform" not in str(asked.value)
    assert grading.grade(question, drill, shipped, f"{question.truth[0]} zebra", 1.0).score < 1.0


def test_the_item_that_is_named_as_missing_is_the_one_that_is(shipped):
    """'203 two thousand feet' was told that its side number was missing, which had been typed."""
    drill = shipped.drills["call-passing"]
    question = questions.make(drill, shipped, "1")
    graded = grading.grade(question, drill, shipped, f"{question.truth[0]} two thousand feet", 1.0)
    assert graded.parts["side number"] == 1.0 and not any("side number" in line for line in graded.said)
