"""The session as the terminal, the pipe and the month of practice see it."""

from datetime import timedelta

import pytest

from tests.practice.conftest import SMALL
from trainer.errors import AnswerError, StorageError, UsageError
from trainer.model import ON_THE_NUMBER, OUTSIDE_LIMITS
from trainer.practice import asked_first
from trainer.practice.knowledge import after_review
from trainer.store.store import Store


def right_answer(session, question):
    """Return the right answer as one would type it."""
    drill = session._library.drills[question.drill_id]
    if question.form == "order":
        place = {text: number for number, text in enumerate(question.choices, start=1)}
        return " ".join(str(place[step.do]) for step in drill.steps if step.do in place)
    if question.form == "recite":
        return "; ".join(step.do for step in drill.steps)
    if drill.kind == "flow":
        return next(step.do for step in drill.steps if step.id == question.truth[0])
    return question.truth_text


def test_an_answer_is_graded_and_stored_with_what_was_predicted(begin, store):
    session = begin(questions=1, seed="7")
    question = session.next()
    outcome = session.submit(right_answer(session, question), 4.0)
    assert outcome.grade.verdict == ON_THE_NUMBER and outcome.clean
    (review,) = store.reviews()
    assert review.drill_id == question.drill_id
    assert review.typed == right_answer(session, question)
    assert 0 < review.predicted < 1
    assert dict(review.inputs) == dict(question.inputs)
    assert review.seconds is None, "a clock that stands still measures nothing"
    assert session.next() is None


def test_what_cannot_be_read_is_asked_again_and_never_stored(begin, store):
    session = begin(questions=1, seed="7", areas=("approach",))
    question = session.next()
    with pytest.raises(AnswerError):
        session.submit("perhaps", 1.0)
    assert store.count() == 0
    session.submit("5000", 1.0)
    assert [review.drill_id for review in store.reviews()] == [question.drill_id]


def test_the_same_seed_asks_the_same_questions(begin, store):
    def texts(session):
        asked = []
        while (question := session.next()) is not None:
            asked.append(question.text)
            session.give_up(1.0)
        return asked

    first = texts(begin(questions=6, seed="7"))
    # The same person at the same moment: everything that was stored is taken back.
    while (last := store.last_review()) is not None:
        store.withdraw(last[0], after_review)
    for question in first:
        assert question
    again = texts(begin(questions=6, seed="7"))
    assert first[0] == again[0]


def test_asking_for_the_solution_counts_as_not_known(begin, store):
    session = begin(questions=1, seed="7")
    session.next()
    outcome = session.give_up(2.0)
    assert outcome.gave_up and not outcome.right and not outcome.clean
    assert [review.score for review in store.reviews()] == [0.0]
    assert session.worked()[-1].startswith(("source:", "invented:"))


def test_a_hint_makes_a_right_answer_half_an_answer(begin, store):
    session = begin(questions=1, seed="7")
    question = session.next()
    session.submit(right_answer(session, question), 2.0, hint_used=True)
    (review,) = store.reviews()
    assert (review.score, review.hint_used) == (0.5, True)


def test_undo_withdraws_the_answer_and_asks_the_drill_again(begin, store):
    session = begin(questions=2, seed="7")
    question = session.next()
    session.give_up(1.0)
    assert session.undo()
    assert store.count() == 0
    assert session.next().drill_id == question.drill_id
    assert not session.undo()
    assert store.verify(after_review) == []


def test_a_flagged_question_does_not_count(begin, store):
    session = begin(questions=3, seed="7")
    session.next()
    session.give_up(1.0)
    assert session.flag()
    assert store.count() == 0
    asked = session.next()
    session.flag(asked)
    assert len(store.flags()) == 2
    assert session.next().drill_id != asked.drill_id


def test_the_next_session_opens_with_the_question_kept_for_it(begin, store):
    session = begin(questions=1, decks=())
    session.next()
    session.give_up(1.0)
    session.finish()
    kept = store.opening()["question"]["text"]
    following = begin(questions=1, decks=())
    assert following.next().text == kept
    following.give_up(1.0)
    assert store.count() == 2


def test_a_kept_question_is_dropped_when_the_decks_have_changed(begin, store):
    session = begin(questions=1, decks=())
    session.next()
    session.give_up(1.0)
    session.finish()
    changed = begin(questions=1, decks=())
    changed._signature = "edited since"
    assert changed.next().seed != store.opening()["question"]["seed"]


def test_five_minutes_end_but_the_question_on_screen_may_be_finished(begin, clock):
    class Moving(type(clock)):
        measures = True

    moving = Moving(clock.instant)
    session = begin(minutes=5.0, seed="7")
    session._clock = moving
    session.submit(right_answer(session, session.next()), 3.0)
    question = session.next()
    moving.instant += timedelta(minutes=6)
    assert session.remaining_s() < 0
    session.submit(right_answer(session, question), 3.0)
    assert session.next() is None


def test_a_clock_that_stands_still_ends_five_minutes_by_what_answers_usually_take(begin):
    session = begin(minutes=1.0, seed="7")
    asked = 0
    while session.next() is not None:
        session.give_up(0.0)
        asked += 1
    assert 2 <= asked <= 15


def test_alike_drills_and_the_same_drill_do_not_follow_each_other(begin, store):
    session = begin(questions=12, seed="7")
    while (question := session.next()) is not None:
        session.submit(right_answer(session, question), 1.0)
    asked = [review.drill_id for review in store.reviews()]
    assert all(one != two for one, two in zip(asked, asked[1:], strict=False))


def test_a_computed_drill_never_repeats_the_last_numbers(begin, store):
    session = begin(questions=30, seed="7", areas=("marshal",))
    while session.next() is not None:
        session.give_up(1.0)
    last = {}
    for review in store.reviews():
        assert last.get(review.drill_id) != dict(review.inputs) or review.kind != "computed"
        last[review.drill_id] = dict(review.inputs)


def test_an_unknown_area_is_refused_with_the_list_of_areas(begin):
    with pytest.raises(UsageError, match="'galley' is not an area"):
        begin(questions=1, areas=("galley",)).next()


def test_an_answer_that_cannot_be_stored_is_not_believed(begin, store, monkeypatch):
    session = begin(questions=1, seed="7")
    question = session.next()

    def full(*_, **__):
        raise StorageError("the disk is full")

    monkeypatch.setattr(Store, "record", full)
    with pytest.raises(StorageError):
        session.submit(right_answer(session, question), 1.0)
    assert not session._choosing.beliefs.seen(question.drill_id)


def test_a_wrong_answer_names_its_slip(begin):
    session = begin(questions=1, seed="7", areas=("marshal",))
    while (question := session.next()).drill_id != "small-fix":
        session.flag(question)
    outcome = session.submit(f"{question.inputs['angels']:g}", 3.0)
    assert outcome.grade.verdict == OUTSIDE_LIMITS
    assert outcome.grade.slip.name == "angels taken as miles"


def test_a_drill_that_cannot_be_drawn_does_not_stop_the_session(begin, store, tmp_path):
    deck = tmp_path / "small.toml"
    text = SMALL.read_text(encoding="utf-8")
    impossible = 'id = "small-fix"\nkeep = ["angels > 30"]\n'
    deck.write_text(text.replace('id = "small-fix"\n', impossible), encoding="utf-8")
    session = begin(questions=6, seed="7", decks=(deck,), areas=("marshal",))
    while session.next() is not None:
        session.give_up(1.0)
    asked = {review.drill_id for review in store.reviews()}
    assert "small-radial" in asked and "small-fix" not in asked


def test_what_was_missed_in_the_air_is_asked_first_with_its_reason_and_once(begin, store):
    everyday = begin(questions=1, decks=())
    everyday.next()
    everyday.give_up(1.0)
    everyday.finish()
    missed = ["small-push", "small-radial", "small-platform"]  # a flow, a computed drill and a fact
    asked_first.add(store, dict.fromkeys(missed, "missed in the air on 1 March"))
    session = begin(questions=4, decks=())
    asked, reasons = [], []
    while (question := session.next()) is not None:
        asked.append(question.drill_id)
        reasons.append(session.reason())
        session.give_up(1.0)
    assert asked[:3] == missed
    assert reasons == ["missed in the air on 1 March"] * 3 + [""]
    assert asked_first.listed(store) == {}


def test_the_very_first_question_has_no_clock_and_the_minutes_begin_after_it(begin, clock, store):
    """Its twenty seconds ran while the welcome was read."""

    class Moving(type(clock)):
        measures = True

    session = begin(minutes=5.0, seed="7")
    session._clock = moving = Moving(clock.instant)
    question = session.next()
    assert not session.timed()
    moving.instant += timedelta(minutes=6)
    outcome = session.submit(right_answer(session, question), 360.0)
    assert outcome.clean and [review.seconds for review in store.reviews()] == [None]
    assert session.remaining_s() == 300.0
    session.next()
    assert session.timed()
    session.undo()
    session.next()
    assert not session.timed(), "it is the first again"


def test_whoever_has_answered_before_has_the_clock_from_the_start(begin):
    first = begin(questions=1, seed="7")
    first.submit(right_answer(first, first.next()), 3.0)
    again = begin(questions=1, seed="8")
    again.next()
    assert again.timed()
