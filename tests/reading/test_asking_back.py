"""Asking back says no more than the person did, and fishing brings nothing up."""

import random

import pytest

from tests.reading import fishing
from trainer.decks import library as libraries
from trainer.drills import grading, questions
from trainer.errors import AnswerError
from trainer.reading.freetext.asking_back import Unsure, alternatives, hedges, repeats, settled

FLOWS_TRIED, RECALL_TRIED = 5, 40
HOOK = ("hook up", "raise the hook")
SCREEN = "The director brings a thumb up into the palm above it. What does he want?"


@pytest.fixture(scope="module")
def shipped():
    return libraries.load()


@pytest.mark.parametrize(
    "text", ["flaps up", "gear up", "up", "thumb up", "hook", "raise it", "hook or flaps up", "lift"]
)
def test_nothing_is_offered_that_was_not_typed(text):
    asked = settled(Unsure(HOOK), text, SCREEN)
    assert asked.meant == "" and "hook up" not in str(asked) and "raise" not in str(asked).replace(text, "")


def test_what_was_typed_is_offered_at_the_price_of_a_hint():
    asked = settled(Unsure(HOOK), "he wants to see the hook up", SCREEN)
    assert asked.meant == "hook up" and "counts half" in asked.hint


@pytest.mark.parametrize("text", ["hook not up", "hook up and down", "hook up 3", "hook up, tanker"])
def test_what_speaks_against_it_is_not_offered(text):
    assert settled(Unsure(HOOK), text, SCREEN).meant == ""


def test_between_two_steps_neither_is_named():
    asked = settled(Unsure(HOOK, ("hook down",)), "hook", SCREEN)
    assert asked.meant == "" and "hook up" not in str(asked)


def test_a_hedge_is_told_from_an_or_of_the_answer_itself():
    assert hedges("military or max") and not hedges("tank or divert", ["tank or divert"])
    assert hedges("hold or tank or divert", ["tank or divert"])
    assert alternatives("either hook up or hook down") == ["hook up", "hook down"] and alternatives("hook up") == []


def test_words_of_the_screen_alone_repeat_it():
    assert repeats("the thumb up", SCREEN) and not repeats("hook up", SCREEN) and not repeats("the", SCREEN)


def test_a_hedge_between_two_choices_is_asked_to_decide(shipped):
    drill = next(
        one for one in shipped.drills.values() if one.kind == "recall" and len(getattr(one, "choices", ())) > 1
    )
    question = questions.make(drill, shipped, "1")
    with pytest.raises(AnswerError):
        grading.grade(question, drill, shipped, " or ".join(question.choices[:2]), 1.0)


def test_fishing_in_recall_brings_nothing_up(shipped):
    """One word of the question itself revealed the answer in 39 of 180 drills, "A or B" in 1,549 of 2,571."""
    recall, _ = fishing.in_words(shipped)
    rng, answers = random.Random(19), [one.accept[0] for one in recall]
    chosen, found, tried = rng.sample(recall, RECALL_TRIED), [], 0
    for drill in chosen:
        out, count = fishing.fished(drill, shipped, rng.sample(answers, 3))
        found, tried = found + out, tried + count
    assert tried > 800 and found == []


def test_fishing_in_flows_brings_nothing_up(shipped):
    _, flows = fishing.in_words(shipped)
    rng, steps = random.Random(19), [step.do for flow in flows for step in flow.steps]
    found, tried = [], 0
    for drill in rng.sample(flows, FLOWS_TRIED):
        out, count = fishing.fished(drill, shipped, rng.sample(steps, 2))
        found, tried = found + out, tried + count
    assert tried > 150 and found == []
