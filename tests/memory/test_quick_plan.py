"""A plan made quickly is as good as one made slowly: laws that weigh nothing, few slots, wishes that can't change."""

import random

import numpy as np
import pytest

from tests.bench.pick import TODAY, practised
from trainer.memory import event_slots, laws, states, traces
from trainer.memory.belief import Beliefs
from trainer.memory.event_plan import EventPlan
from trainer.memory.practice_patterns import Roller, tree_of, weighty
from trainer.memory.time_prices import LOWERED, ROUNDING_S

OF_LAWS = slice(states.OF_TRACES, None)


@pytest.fixture(scope="module")
def beliefs():
    """Return what is believed of 150 items after some two hundred answers."""
    return Beliefs(*practised(150, random.Random(3)))


def plan_of(beliefs, *, days=30, seconds_an_item=15.0):
    """Return the plan towards an event in ``days`` days with so many seconds in all for each item."""
    return EventPlan(beliefs, day=TODAY, event_day=TODAY + days, budgets_s=seconds_an_item * len(beliefs) / days)


def followed(beliefs, plan):
    """Return the worth that is kept when the days of ``plan`` are followed, with every day a slot and every law."""
    asked = {name: [] for name in beliefs.ids}
    for number, day in enumerate(plan.schedule()):
        for name in day.ids:
            asked[name].append(number)
    ways = sorted({(), *map(tuple, asked.values())})
    roller = Roller(tree_of(np.arange(len(plan.days), dtype=float), ways), plan.roller.horizons)
    nodes = [_node(roller.tree, way) for way in asked.values()]
    rolled = roller.outlay(beliefs.rows, beliefs.table, beliefs.learner_rows(len(beliefs)), beliefs.weights, TODAY)
    kept = rolled.by_purpose[event_slots.KEPT_FOR][np.arange(len(beliefs)), nodes]
    return float((kept * beliefs.table.worth).sum())


def _node(tree, way):
    node = 0
    for slot in way:
        node = next(n for n in range(1, len(tree.slot)) if tree.slot[n] == slot and tree.parent[n] == node)
    return node


def test_laws_that_weigh_next_to_nothing_change_no_plan(beliefs, monkeypatch):
    quick = plan_of(beliefs, seconds_an_item=60.0)
    monkeypatch.setattr(event_slots, "NEGLIGIBLE", 0.0)
    slow = plan_of(beliefs, seconds_an_item=60.0)
    monkeypatch.undo()
    each, worth = np.arange(len(beliefs)), beliefs.table.worth
    kept = [float((slow.by_purpose[0][each, plan._chosen] * worth).sum()) for plan in (quick, slow)]
    assert kept[0] == pytest.approx(kept[1], rel=0.001)
    assert np.abs(quick.by_purpose - slow.by_purpose).max() < event_slots.NEGLIGIBLE
    assert quick.expected == pytest.approx(slow.expected, rel=0.003)
    assert not np.array_equal(quick.by_purpose, slow.by_purpose)  # something was left out


def test_what_is_left_out_weighs_little_and_the_rest_is_one(beliefs):
    kept, dynamics, lawful = weighty(beliefs.weights[:30], event_slots.NEGLIGIBLE)
    assert kept.sum(1) == pytest.approx(1.0)
    assert 0 < np.abs(kept - beliefs.weights[:30]).sum(1).max() < 2 * event_slots.NEGLIGIBLE
    assert (kept == 0).all(0).sum() == (~np.isin(np.arange(traces.DYNAMICS), dynamics)).sum() * traces.READOUTS + sum(
        len(kept[0, OF_LAWS][family]) for family, there in zip(laws.FAMILIES, lawful, strict=True) if not there
    )
    one = np.eye(beliefs.weights.shape[1])[[states.OF_TRACES + laws.FAMILIES[1].start]]
    assert weighty(one, event_slots.NEGLIGIBLE)[2] == (False, True, False)
    same, every, all_laws = weighty(beliefs.weights, 0.0)
    assert same is beliefs.weights and every == traces.ALL and all(all_laws)


@pytest.mark.parametrize("days", [10, 30])
def test_where_minutes_are_few_six_slots_keep_as_much_as_ten(beliefs, monkeypatch, days):
    few = plan_of(beliefs, days=days)
    monkeypatch.setattr(event_slots, "FEW_BELOW_S", 0.0)
    many = plan_of(beliefs, days=days)
    assert (len(few._runs), len(many._runs)) == (event_slots.FEW_SLOTS, event_slots.MOST_SLOTS)
    assert followed(beliefs, few) >= 0.995 * followed(beliefs, many)


def test_where_minutes_are_plenty_or_all_is_new_there_are_ten_slots(beliefs):
    assert len(plan_of(beliefs, seconds_an_item=60.0)._runs) == event_slots.MOST_SLOTS
    new = Beliefs(beliefs.specs)
    assert len(plan_of(new, seconds_an_item=5.0)._runs) == event_slots.MOST_SLOTS


def test_wishes_fit_as_if_every_item_were_asked_in_turn(beliefs):
    plan = plan_of(beliefs)
    market, prices = plan.market, plan._prices
    asked, left = market._asked(0), market.budgets_s[0].copy()
    chosen, each = np.zeros(len(beliefs), dtype=int), np.arange(len(beliefs))
    for share in LOWERED:
        net = market.reward[0] - np.einsum("s,ist->it", share * prices[0], asked)
        for item in np.lexsort((plan._deck_order, -(net.max(-1) - net[each, chosen]))):
            room = left + asked[item, :, chosen[item]] + ROUNDING_S
            fits = (asked[item] <= room[:, None]).all(0)
            taken = int(np.where(fits, net[item], -np.inf).argmax())
            left += asked[item, :, chosen[item]] - asked[item, :, taken]
            chosen[item] = taken
    assert np.array_equal(chosen, plan._chosen)
