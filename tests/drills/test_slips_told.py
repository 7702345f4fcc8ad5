"""The mistakes that computed drills name: told when they were made, never taken for right, over all shipped drills.

The shares over 400 questions a drill are printed by ``python -m tests.bench.slips``.
"""

import random

import pytest

from tests.bench.slips import computed_drills, told_of
from trainer.decks import library as shelves
from trainer.drills import slips
from trainer.model import Slip, Tolerance

DRAWS = 16  # a slip that passed in 2 % of draws passes once in these in one of four runs; twice in none
LIMITS = Tolerance(on=0.5, inside=1.5)
ADDED, DOUBLED, HALVED = (Slip(name=name, words=f"you {name}") for name in ("added", "doubled", "halved"))


@pytest.fixture(scope="module")
def told():
    shelf = shelves.load()
    return [told_of(drill, shelf, DRAWS) for drill in computed_drills(shelf)]


def test_no_slip_passes_for_right(told):
    assert [(one.drill_id, dict(one.passed)) for one in told if max(one.passed.values(), default=0) > 1] == []


def test_there_are_slips_to_name(told):
    assert [(one.drill_id, one.share_enough) for one in told if one.share_enough < 0.7] == []


def test_slips_that_lead_to_one_number_are_told_as_one():
    found = slips.nameable([(ADDED, 30.0), (DOUBLED, 30.2), (HALVED, 10.0)], (20.0,), "nm", LIMITS)
    assert [(slip.name, slip.words, value) for slip, value in found] == [
        ("added", "you added – or: you doubled", 30.0),
        ("halved", "you halved", 10.0),
    ]


def test_a_slip_inside_limits_is_never_accused():
    assert slips.nameable([(ADDED, 21.0), (DOUBLED, 40.0)], (20.0,), "nm", LIMITS) == [(DOUBLED, 40.0)]
    assert slips.matching(21.0, [(ADDED, 21.0)], (20.0,), "nm", LIMITS) is None


def test_two_answers_only_and_the_mistake_is_told_all_the_same():
    from trainer.drills import grading, questions

    shelf = shelves.load()
    drill = shelf.drills["clearing-side"]
    question = questions.make(drill, shelf, "3")
    wrong = next(word for word in ("left", "right") if word != question.truth_text)
    grade = grading.grade(question, drill, shelf, wrong, 1.0)
    assert grade.slip is not None and "bow right, waist left" in grade.slip.words


def test_seeds_do_not_decide_which_slip_is_named():
    rng, pairs = random.Random(5), [(ADDED, 30.0), (DOUBLED, 40.0), (HALVED, 10.0)]
    rng.shuffle(pairs)
    assert slips.matching(40.4, pairs, (20.0,), "nm", LIMITS) == DOUBLED
