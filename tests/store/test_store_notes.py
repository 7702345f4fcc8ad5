"""Settings, the opening question, events and debriefs."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta, timezone

import pytest

from tests.store import invented
from tests.store.invented import fill, update
from trainer.store.records import Debrief, Event
from trainer.store.store import Store

NIGHT = datetime(2026, 12, 11, 20, 0, tzinfo=timezone(timedelta(hours=-5)))
EVENT = Event(
    name="qualification night", at=NIGHT, offset_min=-300, minutes_per_day=12.5, areas=("marshal", "fuel"),
    standard="squadron",
)  # fmt: skip


@pytest.mark.parametrize("value", [5, 2.5, "text °", None, True, [1, [2, "x"]], {"a": {"b": [1]}}])
def test_a_setting_comes_back(store, home, value):
    assert store.setting("key", "none yet") == "none yet"
    store.set_setting("key", "first")
    store.set_setting("key", value)
    with Store.open(home, clock=invented.clock()) as other:
        assert other.setting("key") == value and other.setting("other") is None


def test_a_setting_that_json_cannot_hold_is_refused(store):
    with pytest.raises(ValueError):
        store.set_setting("key", float("nan"))
    with pytest.raises(TypeError):
        store.set_setting("key", {1, 2})
    assert store.setting("key") is None


def test_the_opening_is_one_record(store, home):
    assert store.opening() is None
    store.set_opening({"drill": "a", "seed": "1"})
    store.set_opening({"drill": "b", "choices": ["x", "y"]})
    with Store.open(home, clock=invented.clock()) as other:
        assert other.opening() == {"drill": "b", "choices": ["x", "y"]}
    store.set_opening(None)
    assert store.opening() is None


def test_events_come_back_newest_entry_first(store):
    first = store.add_event(EVENT)
    later = store.add_event(Event(name="second", at=NIGHT, offset_min=0, minutes_per_day=5))
    second, stored = store.events()
    assert (second.id, second.areas, second.standard) == (later, (), "")
    assert stored == Event(**vars(EVENT) | {"id": first, "created": invented.FIRST.replace(microsecond=123000)})
    assert stored.at == NIGHT and stored.at.tzinfo == UTC
    store.remove_event(later)
    assert [event.id for event in store.events()] == [first]


def test_debriefs_come_back_newest_entry_first(store):
    phases = {"marshal": ["late push", 2], "pattern": {}}
    number = store.add_debrief(Debrief(flown="2026-12-11", remarks="long in the groove", phases=phases))
    store.add_debrief(Debrief(flown="2026-12-12", remarks=""))
    newest, stored = store.debriefs()
    assert (newest.flown, newest.phases) == ("2026-12-12", {})
    assert (stored.id, stored.flown, stored.remarks) == (number, "2026-12-11", "long in the groove")
    assert stored.phases == {"marshal": ("late push", 2), "pattern": {}}
    assert stored.created == invented.FIRST.replace(microsecond=123000)


def test_flags_come_back_newest_first(store):
    answer = fill(store, 2)[1]
    question = {"drill_id": "fix-1", "inputs": {"angels": 7}, "truth": ("a", "b")}
    named = dict(drill_id="fix-1", deck="invented", deck_hash="a" * 64, at=NIGHT)
    first = store.flag(question, answer=answer, note="the fix is off", **named)
    second = store.flag(question, **named)
    newest, stored = store.flags()
    assert (newest.id, newest.review_id, newest.note) == (second, None, "") and second == first + 1
    assert (stored.question, stored.review_id, stored.note) == (question, 2, "the fix is off")
    assert (stored.drill_id, stored.deck, stored.deck_hash, stored.at) == ("fix-1", "invented", "a" * 64, NIGHT)
    store.flag(question, answer=replace(answer, digest=bytes(32)), **named)
    assert store.flags()[0].review_id is None, "the data that stand there now know no such answer"


def test_notes_have_nothing_to_do_with_reviews(store):
    fill(store, 3)
    store.add_event(EVENT)
    store.add_debrief(Debrief(flown="2026-12-11", remarks="x"))
    store.set_opening({"drill": "a"})
    assert store.count() == 3 and store.verify(update) == []
