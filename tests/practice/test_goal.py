"""What an event is for, and a plan that takes required flows and the core first."""

from datetime import UTC, datetime, timedelta

import pytest

from trainer.clock import StillClock
from trainer.decks import library
from trainer.practice import aim, events, goal, stage


@pytest.fixture(scope="module")
def shelf():
    return library.load()


@pytest.fixture
def clock():
    return StillClock(datetime(2030, 3, 1, 19, tzinfo=UTC))


def test_twelve_days_of_ten_minutes_plan_every_required_flow_and_the_core(store, clock, shelf):
    store.set_setting(stage.CHOSEN, "night-recovery")
    night = events.set_event(store, clock, at=clock.local() + timedelta(days=12), minutes_per_day=10)
    aimed, prepared = goal.prepare(night, store, shelf, clock)
    planned = {one for day in prepared.plan.schedule() for one in day.ids}
    assert len(aimed.required) >= 5 and set(aimed.required) <= planned
    assert len(planned & set(aimed.core)) >= 0.9 * len(aimed.core)


def test_with_few_minutes_the_required_flows_come_first_and_more_is_left_out(store, clock, shelf):
    store.set_setting(stage.CHOSEN, "night-recovery")
    night = events.set_event(store, clock, at=clock.local() + timedelta(days=4), minutes_per_day=5)
    aimed, prepared = goal.prepare(night, store, shelf, clock)
    assert set(prepared.drills) == set(aimed.core), "no minute for what is not in the core"
    planned = {one for day in prepared.plan.schedule() for one in day.ids}
    assert set(aimed.required) <= planned
    assert len(planned) < len(aimed.core)


def test_an_event_keeps_the_stage_it_was_set_for(store, clock, shelf):
    night = events.set_event(store, clock, at=clock.local() + timedelta(days=4), minutes_per_day=5)
    goal.set_stage(store, night, "fuel")
    store.set_setting(stage.CHOSEN, "navigation")
    assert goal.of(night, store, shelf).title.startswith("Fuel")
    assert goal.of(night, store, shelf).required == ("bingo",)
    store.remove_event(night.id)
    other = events.set_event(store, clock, at=clock.local() + timedelta(days=9), minutes_per_day=5)
    goal.set_stage(store, other, "emergencies")
    assert list(store.setting(goal.STAGES).values()) == ["emergencies"], "what was for past events goes"


def test_an_event_for_areas_leaves_out_what_is_only_for_reference(store, clock, shelf):
    night = events.set_event(store, clock, at=clock.local() + timedelta(days=4), minutes_per_day=5, areas=("fuel",))
    aimed = goal.of(night, store, shelf)
    assert {drill.area for drill in aimed.core.values()} == {"fuel"}
    assert not set(aimed.drills) & stage.Syllabus(shelf).reference


def test_damaged_stages_of_events_count_as_none(store, clock, shelf):
    night = events.set_event(store, clock, at=clock.local() + timedelta(days=4), minutes_per_day=5)
    for damaged in ("x", {str(night.id): 7}, [1]):
        store.set_setting(goal.STAGES, damaged)
        assert goal.stage_of(store, night) == "day-departure"


def test_the_forecast_counts_the_core_the_required_flows_and_the_users_own(store, clock, shelf):
    """Of 75 drills of the deck area 45 were demanded, where the core of the day departure has fewer than forty."""
    store.set_setting(stage.CHOSEN, "night-recovery")
    syllabus = stage.chosen(store, shelf)
    required = aim.of(store, shelf, clock).standard.required
    assert set(aim.of(store, shelf, clock).drills) == {*syllabus.members().core, *required}
    events.set_event(store, clock, at=clock.local() + timedelta(days=4), minutes_per_day=5)
    night = events.upcoming(store, clock)
    assert set(aim.of(store, shelf, clock).drills) == set(goal.of(night, store, shelf).core), "as it is planned"
