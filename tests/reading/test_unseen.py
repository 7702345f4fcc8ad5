"""Texts that were held back, read as a session reads them: a sample of flows, each with all its texts.

The steps of the whole flow compete, as they do in a session.  ``python -m tests.bench.reading`` reads all flows and
fails where less is kept than what is promised: of the late sets 97 % of the right ones, none of the opposites, and a
tenth of those that say too little.
"""

import random

import pytest

from tests.reading import held_back
from tests.reading.held_back import NEAR, OPPOSITE, RIGHT
from trainer.decks import library as libraries

FLOWS_TRIED = 9
MOST_WRONG_PERCENT = {False: 8, True: 4}  # of the early sets, and of the late ones
MOST_NEAR_PERCENT = 12


@pytest.fixture(scope="module")
def cases():
    library = libraries.load()
    flows = sorted(one for one in held_back.texts_by_flow() if one in library.drills)
    chosen = random.Random(43).sample(flows, FLOWS_TRIED)
    return [case for flow in chosen for case in held_back.judged(library.drills[flow])]


def share(counts, kind, *results):
    """Return how many percent of a kind came to one of ``results``."""
    every = sum(count for (one, _), count in counts.items() if one == kind)
    assert every > 100
    return 100 * sum(counts[kind, result] for result in results) / every


@pytest.mark.parametrize("late", [False, True])
def test_right_wordings_are_accepted(cases, late):
    counts = held_back.counted(cases, late=late)
    assert 100 - share(counts, RIGHT, "accepted") <= MOST_WRONG_PERCENT[late], counts


@pytest.mark.parametrize("late", [False, True])
def test_next_to_no_right_wording_is_called_the_opposite(cases, late):
    assert share(held_back.counted(cases, late=late), RIGHT, "opposite") <= (0.0 if late else 0.7)


def test_no_opposite_is_accepted(cases):
    accepted = [text for _, step, kind, text, got in cases if kind == OPPOSITE and got == step]
    assert accepted == []


def test_what_says_too_little_is_seldom_enough(cases):
    counts = held_back.counted(cases, late=True)
    assert share(counts, NEAR, "accepted") <= MOST_NEAR_PERCENT, counts


def test_the_same_text_is_judged_alike_whatever_the_order_of_sets():
    # Sums over sets differ in the last digit from run to run; one such tie let an exchanged number through.
    drill = libraries.load().drills["departure-case-3"]
    from trainer.drills import recitation

    asked = (recitation.wordings(drill), recitation.about(drill), drill)
    assert held_back.taken_for(asked, "at 10 nm turn for the 7 nm arc") != "seven"
