"""What the reviews of a short practice show, against a count by hand."""

from datetime import timedelta

import pytest

from tests.practice.conftest import SMALL
from tests.practice.test_session import right_answer
from trainer.clock import StillClock
from trainer.decks import library
from trainer.practice.evidence import briefing, course, record, slips, weak
from trainer.practice.evidence.history import History
from trainer.practice.session import Session
from trainer.practice.wish import Wish
from trainer.store.store import Store


class Measuring(StillClock):
    measures = True


@pytest.fixture
def shelf():
    return library.load(files=(SMALL,))


@pytest.fixture
def answered(home, clock, shelf):
    """Return a function that answers questions: ``answered(how, drill=…, times=…)`` on one more day each."""
    moving = Measuring(clock.instant)
    store = Store.open(home, clock=moving)

    def give(how, *, drill, times=1, seconds=5.0):
        for number in range(times):
            moving.instant += timedelta(days=1)
            wish = Wish(questions=1, decks=(SMALL,), seed=f"{drill} {how} {number}")
            session = Session(store=store, clock=moving, wish=wish, load_library=lambda: shelf, signature="")
            question = session.next()
            # The drill of the test's choice, drawn as the session would draw it.
            from trainer.drills import questions

            question = session._question = questions.make(shelf.drills[drill], shelf, f"{drill} {how} {number}")
            if how == "right":
                session.submit(right_answer(session, question), seconds)
            elif how == "solution":
                session.give_up(seconds)
            else:
                session.submit(how(question), seconds)
        return store, moving

    yield give
    store.close()


def fifteen_left_out(question):
    return f"{question.inputs['angels']:g}"


def gathered(store, clock, shelf, **wish):
    return record.gather(store, shelf, clock, record.Wish(**wish), caution="Caution.")


def test_the_slip_is_named_in_words_with_the_answers_that_show_it(answered, shelf):
    answered(fifteen_left_out, drill="small-fix", times=3)
    store, clock = answered("right", drill="small-fix")
    found = gathered(store, clock, shelf)
    (drill,) = [one for one in found["weakest"] if one["id"] == "small-fix"]
    assert (drill["asked"], drill["right"]) == (4, 1)
    assert (drill["slip"]["name"], drill["slip"]["count"], drill["slip"]["of"]) == ("angels taken as miles", 3, 3)
    assert [wrong["slip"] for wrong in drill["wrong"]] == ["angels taken as miles"] * 3
    assert drill["worked"][0].startswith("given:") and drill["example"] == drill["wrong"][0]["question"]
    assert found["brief"][0].startswith("Marshal – ") and "(3 of 3 wrong answers)" in found["brief"][0]
    assert found["slips"][0]["drills"] == ["small-fix"]


def test_the_period_counts_answers_days_and_minutes(answered, shelf):
    answered("right", drill="small-fix", times=2, seconds=30.0)
    store, clock = answered("solution", drill="small-fix", seconds=60.0)
    period = gathered(store, clock, shelf)["period"]
    assert (period["answers"], period["right"], period["days"], period["minutes"]) == (3, 2, 3, 2.0)
    assert period["unmeasured"] == 0 and period["drills"] == 1


def test_right_but_late_is_slow_and_not_in_time(answered, shelf):
    limit = shelf.drills["small-fix"].limit_s
    store, clock = answered("right", drill="small-fix", times=3, seconds=limit * 2)
    found = gathered(store, clock, shelf)
    assert [(one["id"], one["late"], one["right"]) for one in found["slow"]] == [("small-fix", 3, 3)]
    assert found["period"]["in_time"] == 0 and found["period"]["right"] == 3


def test_typed_answers_are_left_out_on_request(answered, shelf):
    store, clock = answered(fifteen_left_out, drill="small-fix", times=2)
    found = gathered(store, clock, shelf, answers=False)
    assert {wrong["typed"] for drill in found["weakest"] for wrong in drill["wrong"]} == {None}
    assert found["weakest"][0]["slip"]["count"] == 2


def test_a_drill_that_is_gone_from_the_decks_does_no_harm(answered, shelf):
    from dataclasses import replace

    store, clock = answered(fifteen_left_out, drill="small-fix", times=3)
    less = {name: outline for name, outline in shelf.outlines.items() if name != "small-fix"}
    less = replace(shelf, drills={name: shelf.drills[name] for name in less}, outlines=less)
    found = gathered(store, clock, less)
    assert found["period"]["answers"] == 3 and not found["weakest"] and not found["slips"]


def test_a_drill_that_was_edited_since_keeps_its_answers(answered, shelf):
    from dataclasses import replace

    store, clock = answered(fifteen_left_out, drill="small-fix", times=3)
    changed = replace(shelf.drills["small-fix"], draws=())
    found = gathered(store, clock, replace(shelf, drills=dict(shelf.drills) | {"small-fix": changed}))
    assert len(found["weakest"][0]["wrong"]) == 3


def test_weeks_begin_on_monday_and_idle_ones_are_kept(answered, clock):
    store, moving = answered("right", drill="small-fix")
    moving.instant += timedelta(days=14)
    answered("solution", drill="small-fix")
    weeks = course.weeks(History(store))
    # The clock stands on Friday 1 March 2030; the first answer is given on Saturday, the second on Sunday 17 March.
    assert [(week["from"], week["asked"], week["share"]) for week in weeks] == [
        ("2030-02-25", 1, 1.0), ("2030-03-04", 0, None), ("2030-03-11", 1, 0.0),
    ]  # fmt: skip


def test_weak_drills_of_one_quantity_are_told_apart():
    shared, alone = {"id": "fix-easy", "title": "a fix"}, {"id": "push", "title": "a push"}
    found = weak.told_apart([shared, alone, shared | {"id": "fix-north"}])
    assert [one["title"] for one in found] == ["a fix (fix-easy)", "a push", "a fix (fix-north)"]
    assert [one["id"] for one in found] == ["fix-easy", "push", "fix-north"]


def test_a_brief_has_three_lines_and_slips_go_first():
    slip = {"area": "fuel", "title": "ladder", "words": "add", "count": 4, "of": 5}
    slow = {"area": "launch", "title": "trim", "median_s": 20.0, "limit_s": 10.0}
    flow = {"area": "launch", "verdict": "short", "why": "", "flows": [{"title": "Tension", "right": False}]}
    lines = briefing.lines([slip], [], [flow], [slow, slow])
    assert lines == [
        "Fuel – ladder: add (4 of 5 wrong answers).",
        "Launch – demanded, and not right yet: Tension.",
        "Launch – trim: right, but slow (20 s, 10 s allowed).",
    ]


def test_a_number_that_is_always_too_low_is_told():
    from types import SimpleNamespace

    wrong = [SimpleNamespace(slip="", deviation=off, typed="1", parts={}) for off in (-3.0, -4.0, 2.0)]
    found = weak.typical(wrong, SimpleNamespace(kind="recall"))
    assert (found["words"], found["count"], found["of"]) == ("answers are too low", 2, 3)
    assert weak.typical([], SimpleNamespace(kind="recall")) is None


def test_a_slip_that_happened_once_is_no_pattern(answered, shelf):
    store, _ = answered(fifteen_left_out, drill="small-fix")
    assert slips.common(History(store), store, shelf.drills) == []
