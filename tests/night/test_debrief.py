"""What is told after a flight becomes evidence, and the next sessions ask it."""

from datetime import timedelta

import pytest

from tests.night.keys import right
from trainer.errors import AnswerError
from trainer.practice.knowledge import after_review
from trainer.practice.night import debrief
from trainer.practice.night.flight_items import PHASES
from trainer.practice.session import Session
from trainer.practice.wish import Wish


@pytest.fixture
def walk(library, store, clock):
    return debrief.Walk(library=library, store=store, clock=clock, case=3, flown="2030-03-01")


def _told(library, phase, line):
    return debrief.read(line, debrief.items_of(phase, 3, library))


@pytest.mark.parametrize(
    ("line", "hows"),
    [
        ("", ["right", "right", "right", "not flown", "right"]),
        ("-", []),
        ("2m 3l", ["right", "missed", "late", "not flown", "right"]),
        ("2m3l", ["right", "missed", "late", "not flown", "right"]),
        ("1o5,4r", ["off", "right", "right", "right", "right"]),
        ("1 o 5 ; 5 -", ["off", "right", "right", "not flown", "not flown"]),
        ("2O 3M", ["right", "off", "missed", "not flown", "right"]),
    ],
)
def test_one_line_tells_a_phase(library, line, hows):
    assert [told.how for told in _told(library, "pattern", line)] == hows


@pytest.mark.parametrize(("line", "amount"), [("1o5", 5.0), ("1o -4.5 2m", -4.5), ("1o 2m", None), ("1o12 4r", 12.0)])
def test_a_deviation_is_kept_where_it_is_known(library, line, amount):
    assert _told(library, "pattern", line)[0].deviation == amount


@pytest.mark.parametrize(
    ("line", "says"),
    [("9m", "there is no line 9"), ("fine", "can't read"), ("2x", "can't read"), ("1o99999999", "no deviation")],
)
def test_what_cannot_be_read_is_refused(library, line, says):
    with pytest.raises(AnswerError, match=says):
        _told(library, "pattern", line)


def test_every_item_names_a_drill_of_the_shipped_decks(library):
    missing = [item.drill_id for items in PHASES.values() for item in items if item.drill_id not in library.drills]
    assert missing == []


def test_what_was_told_is_stored_with_its_own_weight(library, walk, store):
    walk.tell("departure", _told(library, "departure", "1m 3l 5o20 6-"))
    reviews = {review.drill_id: review for review in store.reviews()}
    assert {review.mode for review in reviews.values()} == {review.form for review in reviews.values()} == {"debrief"}
    assert reviews["band-airspeed-low"].score == 0.0
    assert reviews["arc-onto-out"].score == 0.5
    assert (reviews["rendezvous-radial"].score, reviews["rendezvous-radial"].deviation) == (0.25, 20.0)
    assert reviews["lead-off-arc"].score == 0.9
    assert "calls-departure-case-3" not in reviews
    assert store.verify(after_review) == []


def test_off_by_less_than_the_drills_limits_is_right(library, walk, store):
    walk.tell("approach", _told(library, "approach", "2o0.3"))
    review = next(review for review in store.reviews() if review.drill_id == "platform-easy")
    assert (review.verdict, review.score) == ("inside limits", 0.9)


def test_undo_takes_the_last_phase_back(library, walk, store):
    walk.tell("deck", _told(library, "deck", ""))
    walk.tell("fuel", _told(library, "fuel", "1m"))
    assert walk.undo() == "fuel"
    assert {review.drill_id for review in store.reviews()} == {
        item.drill_id for item in debrief.items_of("deck", 3, library)
    }
    assert walk.undo() == "deck" and walk.undo() == ""
    assert store.count() == 0 and store.verify(after_review) == []


def test_the_debrief_keeps_remarks_and_is_exported_on_request(library, walk, store):
    walk.tell("fuel", _told(library, "fuel", "1m"))
    walk.finish("Tired.")
    (kept,) = store.debriefs()
    assert (kept.flown, kept.remarks) == ("2030-03-01", "Tired.")
    assert kept.phases["fuel"]["bingo-fuel-table"]["how"] == "missed"
    (record,) = debrief.export(store)
    assert record["remarks"] == "Tired." and record["created"].startswith("2030-03-01T12:00")


def test_nothing_told_keeps_nothing(walk, store):
    walk.tell("fuel", ())
    assert walk.finish() is None
    assert store.debriefs() == []


def test_the_next_session_asks_what_failed(library, walk, store, clock):
    lines = {"marshal": "2m 5m", "approach": "2o3", "pattern": "3m"}
    for phase in walk.phases():
        walk.tell(phase, _told(library, phase, lines.get(phase, "")))
    failed = {told.item.drill_id for told in walk.failed()}
    assert failed == {"marshal-radial-easy", "push-easy", "platform-easy", "call-the-ball"}
    clock.instant += timedelta(hours=20)
    session = Session(
        store=store, clock=clock, wish=Wish(minutes=5.0), load_library=lambda: library, signature=""
    )  # fmt: skip
    asked = set()
    while (question := session.next()) is not None:
        asked.add(question.drill_id)
        session.submit(right(question, library), 8.0)
    assert failed <= asked
    assert len(asked) < 60, "five minutes, not everything there is"
