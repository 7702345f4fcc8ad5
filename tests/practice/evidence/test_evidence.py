"""What the reviews of a short practice show, against a count by hand."""

from datetime import timedelta

import pytest

from tests.practice.conftest import SMALL
from tests.practice.test_session import right_answer
from trainer.clock import StillClock
from trainer.decks import library
from trainer.practice.evidence import briefing, course, record, retold, slips, weak
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
    assert found["weakest"][0]["wrong"][0]["words"].endswith(" nm too low).")
    assert found["slips"][0]["drills"] == ["small-fix"]


def test_the_period_counts_answers_days_and_minutes(answered, shelf):
    """The first question of all has no clock."""
    answered("right", drill="small-fix", times=2, seconds=30.0)
    store, clock = answered("solution", drill="small-fix", seconds=60.0)
    period = gathered(store, clock, shelf)["period"]
    assert (period["answers"], period["right"], period["days"], period["minutes"]) == (3, 2, 3, 1.5)
    assert period["unmeasured"] == 1 and period["drills"] == 1


def test_right_but_late_is_slow_and_not_in_time(answered, shelf):
    limit = shelf.drills["small-fix"].limit_s
    store, clock = answered("right", drill="small-fix", times=4, seconds=limit * 2)
    found = gathered(store, clock, shelf)
    assert [(one["id"], one["late"], one["right"]) for one in found["slow"]] == [("small-fix", 3, 4)]
    assert found["period"]["in_time"] == 1 and found["period"]["right"] == 4, "the first of all has no clock"


def test_typed_answers_are_left_out_on_request(answered, shelf):
    store, clock = answered(fifteen_left_out, drill="small-fix", times=2)
    found = gathered(store, clock, shelf, answers=False)
    whole = gathered(store, clock, shelf)
    assert [len(one["weakest"][0]["wrong"]) for one in (whole, found)] == [2, 0]
    assert found["weakest"][0]["slip"]["count"] == 2
    assert (
        found["weakest"][0]["example"] != whole["weakest"][0]["example"] == whole["weakest"][0]["wrong"][0]["question"]
    )


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


def judged(area, verdict, flows=()):
    flows = [{"id": name, "title": title, "right": False, "answers": answers} for name, title, answers in flows]
    return {"area": area, "verdict": verdict, "why": "", "flows": flows}


def test_a_brief_names_broken_flows_then_the_cause_then_slips_with_answers_behind_them():
    slip = {"area": "fuel", "title": "ladder", "words": "you added", "count": 5, "of": 6, "drills": ["ladder"]}
    rare = slip | {"title": "bingo", "count": 4}
    ladder = {"id": "ladder", "kind": "computed", "slip": None, "worked": ["given: 1", "take it off", "answer: 2"]}
    missed = {"words": "misses the step “hook up”; skipped: you taxi with the hook down"}
    flow = {"id": "t", "kind": "flow", "slip": missed, "worked": []}
    areas = [judged("launch", "short", [("t", "Tension", 3), ("h", "Hangfire", 0)]), judged("fuel", "close")]
    causes = {"launch": None, "fuel": {"cause": "speed", "count": 9, "of": 12, "slip": ""}}
    lines = briefing.lines([rare, slip], [ladder, flow], areas, causes)
    assert lines == [
        "Launch – Tension: misses the step “hook up” → you taxi with the hook down.",
        "Launch – Hangfire: demanded, and never asked → practise it whole.",
        "Fuel – slow: 9 of 12 right answers late → against the clock, answer before the second look.",
    ]
    assert briefing.lines([rare, slip], [ladder], [], {}) == [
        "Fuel – ladder: you added (5 of 6 wrong answers) → take it off."
    ], "four answers are chance"


def test_the_cause_that_holds_an_area_back_is_counted(answered, shelf):
    store, _ = answered("right", drill="small-fix", times=3, seconds=shelf.drills["small-fix"].limit_s * 2)
    history = History(store)
    area = {"demanded": {"met": 0.0}, "drills": 10, "met": 5}
    everything = history.days > 0
    assert briefing.cause_of(area, history, everything, [])["cause"] == "speed"
    store, _ = answered("solution", drill="small-fix", times=4)
    found = briefing.cause_of(area, History(store), History(store).days > 0, [])
    assert (found["cause"], found["count"], found["of"]) == ("forgotten", 4, 4)
    assert briefing.cause_of(area | {"demanded": {"met": 1.0}}, history, history.days < 0, [])["cause"] == "never met"


def test_a_number_that_is_always_too_low_is_told():
    from types import SimpleNamespace

    wrong = [SimpleNamespace(slip="", deviation=off, typed="1", parts={}, unit="ft") for off in (-3.0, -4.0, 2.0)]
    found = weak.typical(wrong, SimpleNamespace(kind="recall"))
    assert (found["words"], found["count"], found["of"]) == ("answers are too low", 2, 3)
    assert weak.typical([], SimpleNamespace(kind="recall")) is None


def test_directions_that_are_turned_about_are_called_so_and_not_high_or_low():
    from types import SimpleNamespace

    def wrong(*offs):
        return [SimpleNamespace(slip="", deviation=off, typed="1", parts={}, unit="heading") for off in offs]

    found = weak.typical(wrong(180.0, -179.0, 20.0), SimpleNamespace(kind="recall"))
    assert (found["words"], found["count"], found["of"]) == ("answers with the reciprocal", 2, 3)
    assert weak.typical(wrong(20.0, 30.0, 5.0), SimpleNamespace(kind="recall"))["words"] == "answers are too far right"
    assert retold.deviation_text(180.0, "heading") == "the reciprocal"
    assert retold.deviation_text(-20.0, "heading") == "20° too far left"
    assert retold.deviation_text(2.0, "angels") == "2,000 ft too high"


def test_what_was_told_of_a_flight_is_a_sentence():
    from types import SimpleNamespace

    def flown(value, off=None, unit="lb"):
        return SimpleNamespace(
            mode="debrief", question="in flight: gross weight", value=value, deviation=off, unit=unit
        )

    assert retold.told_wrong(flown("off", 400.0), None) == "In the air: gross weight, off by 400 lb."
    assert retold.told_wrong(flown("missed"), None) == "In the air: gross weight, missed."
    assert retold.told_wrong(flown("off", 1.0, "radials"), None) == "In the air: gross weight, off by 1 radial."


def test_a_slip_that_happened_once_is_no_pattern(answered, shelf):
    store, _ = answered(fifteen_left_out, drill="small-fix")
    assert slips.common(History(store), store, shelf) == []


def test_only_computed_drills_are_looked_at_for_how_far_off_they_are(answered, shelf):
    """A limit known by heart is known or not; a plot of it had ticks of nine thousand feet."""
    answered(lambda question: f"{question.truth + 500:g}", drill="small-platform", times=6)
    store, clock = answered(fifteen_left_out, drill="small-fix", times=6)
    found = gathered(store, clock, shelf)["deviations"]
    assert [one["id"] for one in found] == ["small-fix"] and found[0]["answers"] == 6
