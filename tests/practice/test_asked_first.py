"""What was missed is put on one list, and leaves it when it was asked."""

import pytest

from trainer.practice import asked_first
from trainer.store.store import Store


@pytest.fixture
def store(home, clock):
    with Store.open(home, clock=clock) as opened:
        yield opened


def test_the_latest_misses_come_first(store):
    asked_first.add(store, {"push-easy": "rehearsal", "bingo": "rehearsal"})
    asked_first.add(store, {"trim-step-round": "in flight", "bingo": "in flight"})
    assert list(asked_first.listed(store).items()) == [
        ("trim-step-round", "in flight"), ("bingo", "in flight"), ("push-easy", "rehearsal"),
    ]  # fmt: skip


def test_what_was_asked_leaves_the_list(store):
    asked_first.add(store, {"push-easy": "rehearsal", "bingo": "rehearsal"})
    asked_first.asked(store, ["bingo", "never-listed"])
    assert asked_first.listed(store) == {"push-easy": "rehearsal"}


def test_the_list_is_bounded(store):
    asked_first.add(store, {f"drill-{number}": "old" for number in range(asked_first.MOST)})
    asked_first.add(store, {"new": "new"})
    found = list(asked_first.listed(store))
    assert len(found) == asked_first.MOST and found[0] == "new" and found[-1] == f"drill-{asked_first.MOST - 2}"


@pytest.mark.parametrize("damaged", [None, {"push-easy": "x"}, "text", [["push-easy"], 3, ["a", 1], ["ok", "why"]]])
def test_a_damaged_list_is_none(store, damaged):
    store.set_setting(asked_first.SETTING, damaged)
    assert asked_first.listed(store) == {}
