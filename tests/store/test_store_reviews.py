"""Reviews, the states that they lead to, and taking them back."""

import dataclasses
import math
import sqlite3
from datetime import datetime, timedelta, timezone

import numpy as np
import pytest

from tests.store import invented
from tests.store.invented import fill, review, standing, update
from trainer.store import history, rows, states
from trainer.store.store import Store


def test_a_review_comes_back_as_it_was_recorded(store):
    full = review(
        inputs={"wind": {"from": 350, "kt": 25.5}, "steps": ("a", "b")},
        value=("brakes", "tension"),
        truth=("tension", "brakes"),
        parts={"brakes": 0.0, "tension": 1.0},
        tolerance_on=None,
        tolerance_inside=None,
        deviation=None,
        seconds=None,
        guess=0.25,
        hint_used=True,
        typed="zwei °\x00 'x'",
        at=datetime(2026, 12, 4, 15, 0, 0, 5000, tzinfo=timezone(timedelta(hours=-5))),
        offset_min=-300,
    )
    recorded = store.record(full, update)
    assert list(store.reviews()) == [full] == [recorded.review]
    assert recorded.id == 1 and store.last_review() == (1, full)


def test_every_field_of_a_review_has_its_column(store):
    columns = [row[1] for row in store._read("PRAGMA table_info(review)")]
    fields = [field.name for field in dataclasses.fields(review())]
    assert sorted(columns) == sorted(["id", "digest", "items", *fields])


def test_what_update_saw_is_what_a_rebuild_sees(store):
    """A state computed from microseconds, a numpy scalar or a negative zero could never be rebuilt."""
    odd = review(
        inputs={"angels": np.int64(7), "far": np.bool_(True), "list": [1, 2]},
        value=np.float64(27.1),
        truth=np.int32(27),
        deviation=-0.0,
        score=np.float32(1.0),
        seconds=np.float64(5.1),
        hint_used=np.bool_(False),
        offset_min=np.int64(60),
    )
    recorded = store.record(odd, update)
    assert recorded.states == store.rebuild(update).states == store.states()
    assert store.verify(update) == []
    assert math.copysign(1, recorded.review.deviation) == 1
    assert recorded.review.at.microsecond == 123000
    assert {type(value) for value in recorded.review.inputs.values()} == {int, bool, tuple}
    assert recorded.review.hint_used is False and type(recorded.review.score) is float


def test_a_byte_that_is_no_text_does_not_stop_the_answer(store):
    store.record(review(typed="27\udcff nm", inputs={"said": "\udc80"}), update)
    assert [(r.typed, r.inputs) for r in store.reviews()] == [("27? nm", {"said": "?"})]


@pytest.mark.parametrize("field", ["deviation", "score", "seconds", "limit_s", "predicted", "value", "truth"])
@pytest.mark.parametrize("number", [math.nan, math.inf, np.float64("nan")])
def test_a_number_that_is_not_finite_is_refused_by_name(store, field, number):
    with pytest.raises(ValueError, match=f"fix-0.*{field}"):
        store.record(review(**{field: number}), update)
    with pytest.raises(ValueError, match="inputs"):
        store.record(review(inputs={"angels": number}), update)
    assert store.count() == 0


@pytest.mark.parametrize(
    "wrong",
    [{"at": datetime(2026, 12, 4)}, {"seed": 5}, {"value": {1, 2}}, {"unit": None}],  # noqa: DTZ001
)
def test_what_has_no_place_in_a_column_is_refused_by_name(store, wrong):
    with pytest.raises((ValueError, TypeError), match=next(iter(wrong))):
        store.record(review(**wrong), update)
    assert store.count() == 0


def test_states_and_learner_are_handed_to_the_next_update(store):
    first, second = store.record(review(0), update), store.record(review(5), update)
    assert second.states == update(first.states, first.learner, review_as_stored(5))[0]
    assert standing(store) == (second.states, second.learner)


def review_as_stored(number):
    return rows.from_row(rows.to_row(review(number), ("x",))[1:])


def test_several_items_get_their_states_in_one_review(store):
    items = ("flow", "flow/brakes", "flow/tension")
    recorded = store.record(review(drill_id="flow", kind="flow"), update, items)
    assert sorted(store.states()) == sorted(items) and recorded.states == store.states()
    assert store.rebuild(update).states == store.states() and store.verify(update) == []
    assert store.withdraw(1, update).states == dict.fromkeys(items)
    assert standing(store) == ({}, None)


@pytest.mark.parametrize(
    "wrong",
    [
        lambda states, learner, review: ({"other": b"x"}, b"x"),
        lambda states, learner, review: ({}, b"x"),
        lambda states, learner, review: (dict.fromkeys(states, "text"), b"x"),
        lambda states, learner, review: (dict.fromkeys(states, b"x"), None),
    ],
)
def test_an_update_that_gives_something_else_changes_nothing(store, wrong):
    with pytest.raises(TypeError, match="update"):
        store.record(review(), wrong)
    assert store.count() == 0 and standing(store) == ({}, None)


def test_when_the_second_write_fails_there_is_no_review(store):
    fill(store, 2)
    before = standing(store)
    store._connection.execute(
        "CREATE TRIGGER sabotage BEFORE UPDATE ON learner BEGIN SELECT RAISE(ABORT, 'sabotage'); END"
    )
    with pytest.raises(sqlite3.IntegrityError, match="sabotage"):
        store.record(review(2), update)
    assert store.count() == 2 and standing(store) == before
    assert len(list(store.reviews())) == 2


def test_an_interrupt_inside_update_leaves_nothing(store):
    def interrupted(states, learner, review):
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        store.record(review(), interrupted)
    assert store.count() == 0
    fill(store, 1)  # and the lock is free again


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE review SET score = 1 WHERE id = 1",
        "DELETE FROM review WHERE id = 1",
        "INSERT OR REPLACE INTO review SELECT * FROM review WHERE id = 1",
        "REPLACE INTO withdrawal SELECT * FROM withdrawal",
        "UPDATE withdrawal SET at = at",
        "DELETE FROM withdrawal",
        "UPDATE flag SET note = 'fine after all'",
        "DELETE FROM flag",
        "REPLACE INTO flag SELECT * FROM flag",
    ],
)
@pytest.mark.parametrize("recursive", ["ON", "OFF"])
def test_reviews_and_withdrawals_are_only_ever_added(store, statement, recursive):
    fill(store, 2)
    store.flag({}, drill_id="fix-1", deck="invented", deck_hash="a" * 64, at=invented.FIRST)
    store.withdraw(2, update)
    store._connection.execute(f"PRAGMA recursive_triggers={recursive}")
    with pytest.raises(sqlite3.IntegrityError, match="never changed or removed|without gaps"):
        store._connection.execute(statement)
    assert store.verify(update) == []


def test_undo_of_the_newest_reviews_needs_no_replay(store):
    fill(store, 3)
    stood = standing(store)
    fill(store, 7, start=3)

    def never(*_):
        raise AssertionError("replayed")

    for review_id in range(10, 3, -1):
        undone = store.withdraw(review_id, never)
        assert all(store.states().get(item) == state for item, state in undone.states.items())
    assert standing(store) == stood and store.count() == 3
    assert undone.learner == stood[1]
    assert store.verify(update) == []


def test_undo_of_the_only_review_leaves_a_stranger(store):
    fill(store, 1)
    undone = store.withdraw(1, update)
    assert (undone.states, undone.learner) == ({"fix-0": None}, None)
    assert standing(store) == ({}, None) and store.last_review() is None
    assert store.verify(update) == []


@pytest.mark.parametrize("taken", [(3,), (9, 4), (3, 12), (1, 2, 3)])
def test_undo_of_any_review_is_as_if_it_had_not_been(store, tmp_path, taken):
    fill(store, 12)
    for review_id in taken:
        undone = store.withdraw(review_id, update)
    with Store.open(tmp_path / "other", clock=invented.clock()) as other:
        for number in range(12):
            if number + 1 not in taken:
                other.record(review(number), update)
        assert standing(store) == standing(other)
    if taken != (3, 12):
        assert {item: state for item, state in undone.states.items() if state} == store.states()
    assert store.verify(update) == [] and store.count() == 12 - len(taken)


def test_a_drill_whose_only_review_is_taken_back_late_counts_as_unseen(store):
    fill(store, 4)
    assert store.withdraw(2, update).states["fix-1"] is None
    assert "fix-1" not in store.states()


def test_states_kept_for_undo_are_dropped_when_an_older_review_is_taken_back(store):
    """Undo twice, the first time of an older answer, put back a state that still held the older one."""
    fill(store, 12)
    store.withdraw(2, update)
    store.withdraw(12, update)
    assert store.verify(update) == []


def test_only_some_states_are_kept_for_undo(store, monkeypatch):
    monkeypatch.setattr(states, "KEPT_FOR_UNDO", 4)
    fill(store, 20)
    assert store._read("SELECT min(review_id), count(*) FROM before") == [(17, 4)]
    for review_id in range(20, 10, -1):
        store.withdraw(review_id, update)
    assert store.count() == 10 and store.verify(update) == []


def test_a_review_can_be_taken_back_once(store):
    fill(store, 2)
    store.withdraw(2, update)
    stood = standing(store)
    for unknown in (2, 3, 0):
        with pytest.raises(KeyError):
            store.withdraw(unknown, update)
    assert standing(store) == stood and store.count() == 1


def test_withdrawn_reviews_stay_but_do_not_count(store):
    fill(store, 4)
    store.withdraw(4, update)
    assert len(list(store.reviews())) == 3 and len(list(store.reviews(withdrawn=True))) == 4
    assert store.last_review()[0] == 3
    fill(store, 1, start=9)
    assert store.last_review()[0] == 5 and store.count() == 4


def test_reviews_can_be_picked(store, monkeypatch):
    monkeypatch.setattr(history, "PIECE", 7)
    fill(store, 40)
    everything = list(store.reviews())
    assert [r.seed for r in everything] == [f"s{number}" for number in range(40)]
    assert list(store.reviews(newest_first=True)) == everything[::-1]
    assert list(store.reviews(drill="fix-3")) == [r for r in everything if r.drill_id == "fix-3"]
    since = everything[30].at
    assert list(store.reviews(since=since)) == everything[30:]
    assert list(store.reviews(since=since, drill="fix-3", newest_first=True)) == [everything[38], everything[33]]
    assert store.table(("id", "at", "score"), since=since) == [
        (number + 1, rows.utc_text(everything[number].at), everything[number].score) for number in range(30, 40)
    ]


def test_reviews_can_be_recorded_while_others_are_read(store, monkeypatch):
    monkeypatch.setattr(history, "PIECE", 3)
    fill(store, 8)
    for number, _ in enumerate(store.reviews(newest_first=True)):
        fill(store, 1, start=100 + number)
    assert store.count() == 16


def test_one_who_needs_few_reviews_reads_few(store):
    fill(store, 200)
    read = []

    def reading(sql, values):
        read.append(store._read(sql, values))
        return read[-1]

    next(history.reviews(reading, newest_first=True))
    assert [len(piece) for piece in read] == [32]
    assert len(list(store.reviews())) == 200


def test_an_unknown_column_is_refused(store):
    with pytest.raises(ValueError, match="nonsense"):
        store.table(("id", "nonsense"))


def test_the_last_inputs_of_a_drill(store):
    assert store.last_inputs("fix-1") == []
    fill(store, 12)
    assert store.last_inputs("fix-1") == [{"angels": 17, "side": "bow"}]
    assert [inputs["angels"] for inputs in store.last_inputs("fix-1", 5)] == [17, 12, 7]


def test_repair_puts_rebuilt_states_in_place_of_stored_ones(store):
    """After a change of the model all states come from the stored reviews."""

    def newer(states, learner, review):
        states, learner = update(states, learner, review)
        return {item: b"2" + state for item, state in states.items()}, learner

    fill(store, 12)
    assert store.verify(newer) != []
    old = standing(store)
    assert store.rebuild(newer).states != old[0] and standing(store) == old
    assert store.repair(newer).states == store.states()
    assert store.verify(newer) == []
    store.withdraw(12, newer)
    assert store.verify(newer) == []


def test_times_sort_as_text_and_come_back():
    early = datetime(2026, 3, 29, 1, 59, 59, 999999, tzinfo=timezone(timedelta(hours=1)))
    assert rows.utc_text(early) == "2026-03-29T00:59:59.999Z"
    assert rows.instant(rows.utc_text(early)) == early.replace(microsecond=999000)
    assert rows.utc_text(early) < rows.utc_text(early + timedelta(milliseconds=1)) < "2026-03-29T01:00:00.001Z"
