"""What the check tries is what is asked: its truths are those that questions are graded by."""

import random

import numpy as np
import pytest

from trainer.decks import library
from trainer.decks.drawing import columns
from trainer.decks.trial import result_of, stated_truths
from trainer.drills import computed

DRAWS = 12


@pytest.fixture(scope="module")
def shelf():
    return library.load()


def test_truths_agree_with_those_of_questions(shelf):
    drills = [drill for drill in shelf.drills.values() if drill.kind == "computed"]
    assert drills
    for drill in drills:
        drawn = computed.draw(drill, shelf, random.Random(1), DRAWS)
        values = {name: shelf.tables[value] if isinstance(value, str) else value for name, value in drawn.items()}
        ours = stated_truths(drill, shelf, values, DRAWS, result_of(drill))
        assert np.array_equal(ours, np.broadcast_to(computed.truths(drill, shelf, drawn), (DRAWS,))), drill.id


def test_draws_come_from_the_same_values(shelf):
    for drill in shelf.drills.values():
        if drill.kind == "computed":
            many = columns(drill, shelf, random.Random(2), 4000)
            few = computed.draw(drill, shelf, random.Random(3), 5)
            for draw in drill.draws:
                if draw.span or draw.any_of:
                    values = set(np.round(many[draw.name].astype(float), 9))
                    # Of very many values some may not have come up.
                    assert len(values) > 150 or set(np.round(few[draw.name], 9)) <= values, (drill.id, draw.name)
