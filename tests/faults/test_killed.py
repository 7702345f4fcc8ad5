"""Practice that is killed at random instants.  The long form is ``python -m tests.bench.faults``."""

import os
import random

import pytest

from tests.faults import driving, killing
from tests.faults.conftest import LONG

KILLS = 60 if LONG else 4


@pytest.mark.parametrize("terminal", [False, True], ids=["in a pipe", "on a terminal"])
def test_nothing_that_was_judged_is_lost(home, terminal):
    if terminal and os.name != "posix":
        pytest.skip("only POSIX has pseudo-terminals")
    tally = killing.rounds(home, KILLS, random.Random(4), terminal=terminal)
    assert tally.faults == [] and tally.lost == tally.unsound == 0
    assert tally.kills >= KILLS / 2 and tally.judged > 0


def test_what_is_lost_would_be_seen(home):
    """The check itself: a verdict without its review, another question's review, a flag that was not kept."""
    done = driving.run("practice", "--questions", "2", home=home, typed="s\ns\n")
    after = killing.stored(home)

    def faults(text, stored):
        class Said:
            @staticmethod
            def text():
                return text

        killing.check(killing.Stored([], 0, 0, []), stored, Said, tally := killing.Tally())
        return tally.faults

    assert faults(done.stdout, after) == []
    assert faults(done.stdout, killing.Stored(after.reviews[:1], 0, 0, []))
    assert faults(done.stdout, killing.Stored(after.reviews[::-1], 0, 0, []))
    assert faults(done.stdout + "\nFlagged as faulty", after)
    assert faults(done.stdout + "\nThe last answer is withdrawn", after)
    assert faults("", after), "two answers at once that nobody saw judged"
    assert faults(done.stdout, killing.Stored(after.reviews, 0, 0, ["unsound"]))
