"""What was missed in the air is what the next session asks first, whatever kind it is of."""

import pytest

from trainer.practice import asked_first
from trainer.practice.night import debrief
from trainer.practice.night.flight_items import PHASES
from trainer.practice.session import Session
from trainer.practice.wish import Wish

MISSED = ("trim-step-round", "marshal-radial-easy", "penetration")  # a table, a direction and a flow


def session(store, clock, library, **wish):
    return Session(
        store=store, clock=clock, wish=Wish(questions=4, **wish), load_library=lambda: library, signature="shipped"
    )  # fmt: skip


def asked(begun):
    found = []
    while (question := begun.next()) is not None:
        found.append((question.drill_id, begun.reason()))
        begun.give_up(4.0)
    begun.finish()
    return found


@pytest.mark.parametrize("seed", [None, "1", "2", "3"])
def test_three_misses_in_the_air_are_the_next_three_questions(library, store, clock, seed):
    asked(session(store, clock, library))  # an evening before, which keeps a question for the next
    walk = debrief.Walk(library=library, store=store, clock=clock, case=3, flown="2030-03-01")
    for phase in PHASES:
        items = debrief.items_of(phase, 3, library)
        told = [debrief.Told(item=item, how="missed" if item.drill_id in MISSED else "not flown") for item in items]
        walk.tell(phase, tuple(told))
    walk.finish()
    found = asked(session(store, clock, library, seed=seed))
    assert [name for name, _ in found[:3]] == list(MISSED)
    assert [why for _, why in found[:3]] == ["missed in the air on 2030-03-01"] * 3
    assert found[3][1] == "" and asked_first.listed(store) == {}
