"""The plan towards a dated event."""

import numpy as np
import pytest

from tests.memory.practice import DAY, deck, practised
from trainer.memory import event_slots
from trainer.memory.belief import Beliefs, ItemSpec
from trainer.memory.event_plan import NOT_BEGUN, STILL_SHAKY, EventPlan, practice_days
from trainer.memory.event_slots import ON_THE_DAY
from trainer.memory.outlook import as_renewed
from trainer.memory.reliability import Recalibration, log_odds

TWENTY_MINUTES_S = 1200.0


def test_practice_is_once_a_day_and_never_after_the_event():
    assert practice_days(10.5, 13.5) == [10.5, 11.5, 12.5]
    assert practice_days(10.5, 13.6) == [10.5, 11.5, 12.5, 13.5]
    assert practice_days(10.5, 10.6) == [10.5]
    assert practice_days(10.5, 10.5) == []


def test_the_schedule_keeps_the_minutes_of_every_day():
    beliefs = practised(deck(150), (DAY,))
    budgets_s = [300.0, 0.0, *[900.0] * 13]
    plan = EventPlan(beliefs, day=DAY + 1, event_day=DAY + 15.9, budgets_s=budgets_s)
    schedule = plan.schedule()
    longest = plan.market.seconds.max()
    assert len(schedule) == 15
    assert schedule[0].seconds <= 300.0
    assert sum(day.seconds for day in schedule) <= sum(budgets_s)
    assert all(day.seconds <= day.budget_s + longest for day in schedule if day.budget_s)
    assert all(len(day.ids) == len(set(day.ids)) for day in schedule[-4:])


@pytest.mark.parametrize(("days", "minutes"), [(5, 4), (10, 10), (30, 3)])
def test_no_minutes_are_left_over_while_anything_is_to_be_gained(days, minutes):
    """Prices fit the minutes only on average; a plan that leaves some idle promises too little."""
    beliefs = practised(deck(90), (DAY,), score=0.0)
    plan = EventPlan(beliefs, day=DAY + 1, event_day=DAY + 1 + days, budgets_s=60.0 * minutes)
    asked_s = sum(day.seconds for day in plan.schedule())
    assert 0.95 < asked_s / (60.0 * minutes * days) <= 1.0


def test_more_minutes_a_day_and_more_days_are_never_worse():
    """By what plans are made for; the day alone may lose a hair to the month after it."""
    beliefs = practised(deck(90), (DAY,), score=0.0)
    kept = lambda plan: plan.market.reward[0][np.arange(90), plan._chosen].sum()  # noqa: E731
    by_minutes = [
        EventPlan(beliefs, day=DAY + 1, event_day=DAY + 6.5, budgets_s=60.0 * minutes) for minutes in (1, 5, 20, 60)
    ]
    assert (np.diff([kept(plan) for plan in by_minutes]) > 0).all()
    assert (np.diff([plan.expected for plan in by_minutes]) > -1.0).all()
    assert by_minutes[-1].expected > by_minutes[0].expected + 10
    by_days = [EventPlan(beliefs, day=DAY + 1, event_day=DAY + 1.5 + days, budgets_s=300.0) for days in (1, 3, 8)]
    assert (np.diff([plan.expected for plan in by_days]) > 0).all()


def test_a_plan_looks_a_month_beyond_the_day_but_forecasts_the_day():
    beliefs = practised(deck(30), (DAY,), score=0.0)
    plan = EventPlan(beliefs, day=DAY + 1, event_day=DAY + 4, budgets_s=600.0)
    chosen = np.arange(30), plan._chosen
    assert plan.chances == pytest.approx(
        as_renewed(plan.by_purpose[ON_THE_DAY][chosen], plan.bare_chances, Recalibration(), 3)
    )
    assert plan.market.reward[0][chosen].sum() < plan.expected - 1


def test_a_plan_that_is_renewed_gives_more_than_it_promises_where_it_practises():
    promised, bare = np.array((0.2, 0.5, 0.9)), np.array((0.1, 0.4, 0.8))
    gains = [as_renewed(promised, bare, Recalibration(), days) - promised for days in (0, 1, 5, 30)]
    assert gains[0] == pytest.approx(0.0) and (gains[1] > 0.0).all()
    assert gains[2] == pytest.approx(gains[3]) and gains[2][1] == pytest.approx(0.0125, abs=0.001)
    idle = EventPlan(practised(deck(5), (DAY,)), day=DAY + 1, event_day=DAY + 4, budgets_s=0.0)
    assert idle.chances == pytest.approx(idle.bare_chances)


def test_past_errors_move_a_plan_half_as_far_as_what_is_left_alone():
    promised = np.array((0.5,))
    lower, stretched = Recalibration(shift=-0.4), Recalibration(stretch=0.8)
    assert log_odds(as_renewed(promised, promised, lower, 0)) == pytest.approx(-0.2)
    assert log_odds(lower.apply(promised)) == pytest.approx(-0.4)
    assert log_odds(as_renewed(promised, np.array((0.2,)), stretched, 0)) == pytest.approx(-0.1 * log_odds(0.2))
    worse = EventPlan(practised(deck(9), (DAY,)), day=DAY + 1, event_day=DAY + 4, budgets_s=60.0, correction=lower)
    alike = EventPlan(practised(deck(9), (DAY,)), day=DAY + 1, event_day=DAY + 4, budgets_s=60.0)
    assert (worse.chances < alike.chances).all() and worse.schedule() == alike.schedule()


def test_a_plan_beats_doing_nothing_and_is_beaten_by_nothing_it_could_not_afford():
    beliefs = practised(deck(60), (DAY, DAY + 2), score=0.0)
    plan = EventPlan(beliefs, day=DAY + 3, event_day=DAY + 8, budgets_s=TWENTY_MINUTES_S)
    assert plan.expected > plan.expected_without + 5
    assert (plan.chances <= 1.0).all() and plan.expected <= len(beliefs)


def test_what_is_forecast_without_practice_is_what_the_belief_says():
    """The plan reads chances off a table of curves; the belief computes them in full."""
    beliefs = practised(deck(12), (DAY, DAY + 2), score=1.0)
    plan = EventPlan(beliefs, day=DAY + 3, event_day=DAY + 8, budgets_s=0.0)
    assert np.allclose(plan.by_purpose[ON_THE_DAY][:, 0], plan.bare_chances, atol=0.004)
    assert plan.chances == pytest.approx(plan.bare_chances, abs=0.004)
    assert all(not day.ids for day in plan.schedule())


def test_only_items_of_the_event_are_planned_and_picked():
    beliefs = Beliefs(deck(30))
    ids = {"item-4", "item-9", "item-11"}
    plan = EventPlan(beliefs, day=DAY, event_day=DAY + 3, budgets_s=600.0, ids=ids)
    assert {name for day in plan.schedule() for name in day.ids} <= ids
    first = plan.pick()
    assert first in ids
    assert plan.pick(exclude_ids=ids) is None
    assert plan.expected <= 3


def test_what_is_not_reached_is_named_with_the_reason():
    specs = [*deck(80), ItemSpec(id="hard", kind="flow", steps=40)]
    beliefs = practised(specs[:20], (DAY, DAY + 1), score=0.0)
    states = {name: beliefs.rows[place].tobytes() for place, name in enumerate(beliefs.ids)}
    beliefs = Beliefs(specs, states, beliefs.learner.to_bytes())
    plan = EventPlan(beliefs, day=DAY + 2, event_day=DAY + 4, budgets_s=240.0)
    unreached = plan.unreached()
    chances = dict(zip(beliefs.ids, plan.chances, strict=True))
    assert {one.id for one in unreached} == {name for name, chance in chances.items() if chance < 0.7}
    planned = {name for day in plan.schedule() for name in day.ids}
    for one in unreached:
        assert (one.reason == STILL_SHAKY) == (one.id in planned)
        assert one.chance == chances[one.id]
    assert NOT_BEGUN in {one.reason for one in unreached}


def test_worth_decides_what_is_given_up():
    for chosen in (3, 31):
        specs = [ItemSpec(id=f"i{n}", kind="recall", worth=9.0 if n == chosen else 1.0) for n in range(40)]
        plan = EventPlan(Beliefs(specs), day=DAY, event_day=DAY + 1.5, budgets_s=60.0)
        assert plan.pick() == f"i{chosen}"
        assert plan.chances[chosen] == plan.chances.max()


def test_replanning_after_missed_days_still_fits_and_expects_less():
    beliefs = practised(deck(60), (DAY,), score=0.0)
    kept = EventPlan(beliefs, day=DAY + 1, event_day=DAY + 9, budgets_s=300.0)
    missed = EventPlan(beliefs, day=DAY + 6, event_day=DAY + 9, budgets_s=300.0)
    assert missed.expected < kept.expected
    assert len(missed.schedule()) == 3


def test_an_event_in_the_past_is_refused():
    with pytest.raises(ValueError, match="not after day"):
        EventPlan(Beliefs(deck(3)), day=DAY, event_day=DAY - 1, budgets_s=300.0)


def test_many_days_are_taken_together_the_last_ones_alone():
    runs = event_slots.grouped(list(range(30)))
    assert len(runs) == event_slots.MOST_SLOTS
    assert [day for run in runs for day in run] == list(range(30))
    assert runs[0] == [0] and runs[-4:] == [[26], [27], [28], [29]]
    assert event_slots.grouped([1, 2]) == [[1], [2]]
    assert event_slots.templates(1) == [(), (0,)]
