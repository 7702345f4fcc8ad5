"""How far a stage is, and the date that the pace of the last two weeks leads to."""

from datetime import date, timedelta
from types import SimpleNamespace

import pytest

from trainer.practice import standing

STAGE = SimpleNamespace(name="mine", title="Mine")
TODAY = date(2030, 3, 20)


class Beliefs:
    """Believes the same of every drill on any day."""

    def __init__(self, chances):
        self._chances = chances
        self.ids = tuple(chances)

    def has(self, name):
        return name in self._chances

    def seen(self, name):
        return self._chances[name] is not None

    def index(self, name):
        return self.ids.index(name)

    def chances(self, day):
        return [chance or 0.0 for chance in self._chances.values()]


def held(store, days):
    """Keep a diary: {days ago: how many held}."""
    for ago, holds in days.items():
        one = standing.Standing(name="mine", title="Mine", holds=holds, learning=0, of=40)
        standing.keep(store, one, TODAY - timedelta(days=ago))


def now(store, holds, of=40):
    beliefs = Beliefs({f"d{n}": 0.9 for n in range(holds)} | {"shaky": 0.5, "new": None})
    core = (*(f"d{n}" for n in range(holds)), "shaky", "new", *(f"far{n}" for n in range(of - holds - 2)))
    return standing.standing(store, STAGE, core, beliefs, day=1.0, today=TODAY)


def test_what_holds_and_what_is_being_learned_are_counted(store):
    one = now(store, 5)
    assert (one.holds, one.learning, one.of, one.done, one.since) == (5, 1, 40, None, None)


def test_a_date_follows_from_the_pace_of_two_weeks(store):
    held(store, {30: 0, 10: 10, 5: 15, 1: 19})
    one = now(store, 20)
    assert one.done == TODAY + timedelta(days=20), "ten in ten days; twenty are left"
    assert one.since == (TODAY - timedelta(days=10), 10)


@pytest.mark.parametrize("days", [{1: 1, 2: 1}, {10: 20, 5: 20, 1: 20}, {10: 25, 5: 22, 1: 21}, {60: 0, 50: 1, 40: 2}])
def test_no_date_where_the_pace_leads_to_none(store, days):
    held(store, days)
    assert now(store, 20).done is None


def test_a_damaged_diary_counts_as_none(store):
    for damaged in ("x", {"mine": "x"}, {"mine": [1, ["x", 2], ["2030-03-01"]]}):
        store.set_setting(standing.DIARY, damaged)
        assert now(store, 20).since is None
        held(store, {1: 3})
        assert now(store, 20).since == (TODAY - timedelta(days=1), 3)
