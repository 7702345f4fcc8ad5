"""How the outlook is told on the screen."""

import io

from tests.memory.test_reliability import forecasts
from trainer.memory.reliability import reliability
from trainer.practice.honesty import Past
from trainer.terminal import look, prospects

LOOK = look.look_for(io.StringIO(), plain=True)


def told(first_answers, first_right):
    past = Past(reliability(*forecasts(200)), first_answers, first_right)
    return " ".join(" ".join(prospects.honesty(past, LOOK)).split())


def test_first_answers_are_told_apart_and_not_at_all_where_there_were_none():
    """A drill that was first met in a debrief has no first answer."""
    assert "Of 40 first answers, 75% were right" in told(40, 0.75)
    assert "first answers" not in told(0, None) and "Over 200 answers to drills met before" in told(0, None)
