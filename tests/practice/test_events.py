"""Dated events, the plan towards them, and the outlook, over the small deck."""

from datetime import timedelta

import pytest

from tests.practice.conftest import SMALL
from trainer.decks import library
from trainer.errors import UsageError
from trainer.pages import calendar
from trainer.practice import events, goal
from trainer.practice.evidence import custody


@pytest.fixture
def shelf():
    return library.load(files=(SMALL,))


@pytest.fixture
def night(store, clock):
    return events.set_event(store, clock, at=clock.local() + timedelta(days=9, hours=2), minutes_per_day=10)


def test_an_event_is_kept_and_is_the_next_one(store, clock, night):
    assert events.upcoming(store, clock) == night
    assert (night.minutes_per_day, night.name) == (10, "qualification")


def test_the_nearest_event_is_the_next_and_past_ones_are_kept(store, clock, night):
    nearer = events.set_event(store, clock, at=clock.local() + timedelta(days=2), minutes_per_day=5)
    assert events.upcoming(store, clock) == nearer
    clock.instant += timedelta(days=3)
    assert events.upcoming(store, clock) == night
    clock.instant += timedelta(days=30)
    assert events.upcoming(store, clock) is None
    assert len(store.events()) == 2


def test_the_same_instant_again_replaces_the_event(store, clock, night):
    events.set_event(store, clock, at=night.at, minutes_per_day=30)
    assert [event.minutes_per_day for event in store.events()] == [30]


@pytest.mark.parametrize(("days", "says"), [(-1, "is past"), (400, "days away")])
def test_an_event_that_cannot_be_planned_is_refused(store, clock, days, says):
    with pytest.raises(UsageError, match=says):
        events.set_event(store, clock, at=clock.local() + timedelta(days=days), minutes_per_day=20)


def test_the_plan_has_a_line_for_every_day_and_promises_more_than_doing_nothing(store, clock, night, shelf):
    prepared = events.prepare(night, store, goal.of(night, store, shelf).drills, clock)
    assert prepared.days == 9
    schedule = prepared.plan.schedule()
    assert len(schedule) == 10, "today, eight days between, and the morning of the event's own day"
    assert all(day.seconds <= 600 * 1.01 for day in schedule)
    assert prepared.plan.expected > prepared.plan.expected_without + 2


def test_only_the_areas_of_the_event_count(store, clock, shelf):
    night = events.set_event(store, clock, at=clock.local() + timedelta(days=3), minutes_per_day=5, areas=("comms",))
    assert list(goal.of(night, store, shelf).drills) == ["small-popeye", "small-reply"]


def test_a_session_of_cramming_asks_only_what_counts(store, clock, begin):
    events.set_event(store, clock, at=clock.local() + timedelta(days=3), minutes_per_day=5, areas=("approach",))
    session = begin(mode="cram", minutes=1.0, areas=("approach",))
    while session.next() is not None:
        session.give_up(1.0)
    reviews = list(store.reviews())
    assert {review.area for review in reviews} == {"approach"}
    assert {review.mode for review in reviews} == {"cram"}


def test_what_was_practised_today_is_taken_off_todays_share(store, clock, night, begin):
    assert events.left_today_s(night, store, clock) == 600
    moving = type("Moving", (type(clock),), {"measures": True})(clock.instant)
    session = begin(questions=2)
    session._clock = moving
    for seconds in (30.0, 100.0):  # the first question of all has no clock
        session.next()
        session.give_up(seconds)
    assert events.left_today_s(night, store, clock) == 500
    clock.instant += timedelta(days=1)
    assert events.left_today_s(night, store, clock) == 600


def test_a_set_event_moves_daily_practice_towards_its_drills(store, clock, shelf):
    night = events.set_event(store, clock, at=clock.local() + timedelta(days=3), minutes_per_day=5, areas=("comms",))
    ((day, ids),) = goal.counting(store, shelf, clock)
    assert ids == ("small-popeye", "small-reply")
    assert day == pytest.approx(night.at.timestamp() / 86_400)


def test_the_calendar_is_read_back_by_its_library(store, clock, night, shelf, tmp_path):
    from icalendar import Calendar

    prepared = events.prepare(night, store, goal.of(night, store, shelf).drills, clock)
    path = tmp_path / "plan.ics"
    calendar.write(prepared, path, clock, custody.own_id(store))
    content = path.read_bytes()
    entries = Calendar.from_ical(content).walk("VEVENT")
    planned = [day for day in prepared.plan.schedule() if day.ids]
    assert len(entries) == len(planned) + 1
    assert entries[-1].decoded("dtstart") == night.at
    assert len({str(entry["uid"]) for entry in entries}) == len(entries)
    assert all(str(entry["uid"]).endswith(f"-{custody.own_id(store)}@trainer") for entry in entries)
    alarms = [entry.walk("VALARM") for entry in entries]
    assert all(len(one) == 1 and str(one[0]["action"]) == "DISPLAY" for one in alarms), "RFC 5545, 3.6.6"
    assert [one[0].decoded("trigger") for one in alarms] == [timedelta(0)] * len(planned) + [timedelta(days=-1)]
    assert all(len(line) <= 75 for line in content.split(b"\r\n")), "RFC 5545, 3.1: lines are folded at 75 octets"
    assert b"\n" not in content.replace(b"\r\n", b""), "RFC 5545, 3.1: lines end with CRLF"


def test_a_plan_made_anew_takes_the_place_of_the_one_before_in_a_calendar(store, clock, shelf):
    """The event set again with other minutes had another number, and its entries stood twice."""
    at = clock.local() + timedelta(days=3)

    def entries(minutes):
        night = events.set_event(store, clock, at=at, minutes_per_day=minutes)
        prepared = events.prepare(night, store, goal.of(night, store, shelf).drills, clock)
        found = calendar.calendar_of(prepared, clock, "pilot-one").walk("VEVENT")
        return {str(entry["uid"]) for entry in found}

    first, again = entries(2), entries(3)
    assert first == again and len(first) > 2
