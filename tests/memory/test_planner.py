"""What the daily plan asks, and in what order."""

import numpy as np
import pytest

from tests.memory.practice import DAY, deck, practised
from trainer.memory import states
from trainer.memory.belief import Beliefs, ItemSpec, update
from trainer.memory.planner import DailyPlan, daily_roller, ranks
from trainer.memory.practice_patterns import tree_of

FIVE_MINUTES_S = 300.0


def session(beliefs, day, budget_s):
    """Practise ``beliefs`` for ``budget_s``, wrong at first and right from then on; return the ids in order."""
    plan, asked, used = DailyPlan(beliefs, day=day, budget_s=budget_s), [], 0.0
    while used < budget_s:
        name = plan.pick(exclude_ids=asked[-1:])
        used += beliefs.expected_seconds(name, day)
        row = beliefs.rows[beliefs.index(name)]
        state, score = (row.tobytes(), 1.0) if beliefs.seen(name) else (None, 0.0)
        known, at = beliefs.learner.to_bytes(), day + used / 86_400
        beliefs.set(name, *update(state, known, beliefs.spec(name), day=at, score=score))
        plan.refresh(name)
        asked.append(name)
    return asked


def test_what_is_half_forgotten_comes_before_what_was_just_answered():
    specs = [ItemSpec(id=name, kind="recall") for name in ("old", "fresh")]
    states_by_id, learner = {}, None
    for name, days in (("old", (0, 3)), ("fresh", (27, 30))):
        for day in days:
            spec = specs[name == "fresh"]
            states_by_id[name], learner = update(
                states_by_id.get(name), learner, spec, day=DAY + day, score=1, seconds=4
            )
    plan = DailyPlan(Beliefs(specs, states_by_id, learner), day=DAY + 30.01, budget_s=30)
    assert plan.pick() == "old"
    assert plan.priority("old") > plan.priority("fresh")


def test_a_prerequisite_comes_first_and_opens_the_way_when_answered_right():
    specs = [
        ItemSpec(id="flow", kind="flow", worth=50.0, after=("meaning", "from another deck")),
        ItemSpec(id="meaning", kind="recall"),
    ]
    beliefs = Beliefs(specs)
    plan = DailyPlan(beliefs, day=DAY, budget_s=FIVE_MINUTES_S)
    assert plan.priority("flow") > plan.priority("meaning")
    assert plan.pick() == "meaning"
    assert plan.pick(exclude_ids=["meaning"]) is None
    for score, answer in ((0, None), (1, "flow")):
        row = beliefs.rows[1]
        state = row.tobytes() if row[states.COUNT] else None
        beliefs.set("meaning", *update(state, None, specs[1], day=DAY, score=score))
        plan.refresh("meaning")
        assert plan.pick(exclude_ids=["meaning"]) == answer


def test_a_prerequisite_that_stays_hard_does_not_bar_the_way_for_ever():
    specs = [ItemSpec(id="after", kind="recall", after=("hard",)), ItemSpec(id="hard", kind="recall")]
    beliefs = Beliefs(specs)
    state = learner = None
    for tries in range(3):
        plan = DailyPlan(beliefs, day=DAY + tries, budget_s=60)
        assert plan.pick(exclude_ids=["hard"]) is None
        state, learner = update(state, learner, specs[1], day=DAY + tries, score=0)
        beliefs.set("hard", state, learner)
    assert DailyPlan(beliefs, day=DAY + 3, budget_s=60).pick(exclude_ids=["hard"]) == "after"


def test_excluded_groups_ids_and_new_items_are_left_out():
    specs = [
        ItemSpec(id="a", kind="recall", group="arc", worth=3.0),
        ItemSpec(id="b", kind="recall", group="arc", worth=2.0),
        ItemSpec(id="c", kind="recall", group=""),
    ]
    plan = DailyPlan(Beliefs(specs), day=DAY, budget_s=60)
    assert plan.pick() == "a"
    assert plan.pick(exclude_ids=["a"]) == "b"
    assert plan.pick(exclude_groups=["arc"]) == "c"
    assert plan.pick(exclude_groups=[""]) == "a"
    assert plan.pick(allow_new=False) is None
    assert plan.pick(exclude_ids=["a", "b", "c"]) is None
    assert DailyPlan(Beliefs([]), day=DAY, budget_s=60).pick() is None


def test_worth_changes_the_pick():
    for dear in (0, 1):
        specs = [ItemSpec(id=f"i{n}", kind="recall", worth=4.0 if n == dear else 1.0) for n in (0, 1)]
        assert DailyPlan(Beliefs(specs), day=DAY, budget_s=30).pick() == f"i{dear}"


def test_a_question_that_costs_less_comes_first_unless_the_other_is_worth_its_seconds():
    for worth, first in ((1.0, "quick"), (2.0, "quick"), (9.0, "slow")):
        specs = [
            ItemSpec(id="slow", kind="recall", design_s=20.0, worth=worth),
            ItemSpec(id="quick", kind="recall", design_s=4.0),
        ]
        assert DailyPlan(Beliefs(specs), day=DAY, budget_s=600).pick() == first


def test_what_was_asked_in_this_sitting_stands_behind_all_others():
    ranked = ranks(np.array([0.0, 5.0, 1.0]), np.array([0, 1, 4]), np.array([9.0, 0.1, 9.0]))
    assert list(ranked.argsort()) == [1, 0, 2]


def test_at_the_settled_prices_the_wishes_fit_the_minutes():
    """Items differ here: alike ones change their minds together, and no price can split them."""
    specs = [ItemSpec(id=f"i{n}", kind="recall", design_s=3.0 + 0.2 * n, worth=1.0 + n % 7) for n in range(120)]
    plan = DailyPlan(practised(specs, (DAY, DAY + 3), score=0.0), day=DAY + 9, budget_s=FIVE_MINUTES_S)
    used = plan.market.used_s(plan.market.net(plan._prices).argmax(-1))[0]
    scarce = np.array(plan.prices) > 1e-4
    assert scarce[:2].all()
    assert used[scarce] == pytest.approx(plan.market.budgets_s[0][scarce], rel=0.25)


def test_an_item_waits_for_the_next_sitting_while_there_is_any_other():
    specs = [ItemSpec(id="dear", kind="recall", worth=1000.0), ItemSpec(id="cheap", kind="recall")]
    beliefs = Beliefs(specs)
    plan = DailyPlan(beliefs, day=DAY, budget_s=60)
    assert plan.pick() == "dear"
    state, learner = update(None, None, specs[0], day=DAY + 0.001, score=0)
    beliefs.set("dear", state, learner)
    plan.refresh("dear")
    assert plan.pick() == "cheap"
    assert plan.pick(exclude_ids=["cheap"]) == "dear"
    assert DailyPlan(beliefs, day=DAY + 1, budget_s=60).pick() == "dear"


def test_deck_order_breaks_ties():
    specs = [ItemSpec(id=f"i{n}", kind="recall", deck_order=-n) for n in range(4)]
    assert DailyPlan(Beliefs(specs), day=DAY, budget_s=30).pick() == "i3"


def test_a_right_answer_sends_an_item_back_in_the_queue():
    beliefs = Beliefs(deck(30))
    plan = DailyPlan(beliefs, day=DAY, budget_s=FIVE_MINUTES_S)
    first = plan.pick()
    before = plan.priority(first)
    beliefs.set(first, *update(None, None, beliefs.spec(first), day=DAY, score=1, seconds=4.0))
    plan.refresh(first)
    assert plan.priority(first) < before
    assert plan.pick() != first


def test_refresh_gives_what_a_new_plan_at_the_same_prices_would_say():
    specs = deck(12)
    beliefs = practised(specs, (DAY, DAY + 2))
    plan = DailyPlan(beliefs, day=DAY + 5, budget_s=FIVE_MINUTES_S)
    old = {spec.id: plan.priority(spec.id) for spec in specs}
    for spec in specs:
        plan.refresh(spec.id)
        assert plan.priority(spec.id) == pytest.approx(old[spec.id], abs=1e-12)


def test_more_minutes_make_a_minute_cheaper_and_bring_more_new_items():
    prices, begun = [], []
    for minutes in (1, 5, 25):
        beliefs = practised(deck(90)[:30], (DAY, DAY + 1))
        plan = DailyPlan(beliefs, day=DAY + 3, budget_s=60.0 * minutes)
        prices.append(plan.prices[0])
        beliefs = Beliefs(deck(90))
        session(beliefs, DAY, 60.0 * minutes)
        begun.append(sum(beliefs.seen(name) for name in beliefs.ids))
    assert prices == sorted(prices, reverse=True) and prices[0] > 1.2 * prices[-1]
    assert begun == sorted(begun) and begun[-1] > begun[0]


def test_new_items_enter_no_faster_than_the_minutes_can_keep_alive():
    """Five minutes a day and 600 items: after 20 days most answers go to what was begun, and not all is begun."""
    beliefs = Beliefs(deck(600))
    again = 0
    for day in range(20):
        known = {name for name in beliefs.ids if beliefs.seen(name)}
        asked = session(beliefs, DAY + day, FIVE_MINUTES_S)
        again += day >= 10 and sum(name in known for name in asked) / len(asked)
    begun = sum(beliefs.seen(name) for name in beliefs.ids)
    assert 100 < begun < 300
    assert again / 10 > 0.4


def test_prices_of_yesterday_lead_to_the_same_plan():
    beliefs = practised(deck(60), (DAY, DAY + 4))
    cold = DailyPlan(beliefs, day=DAY + 9, budget_s=FIVE_MINUTES_S)
    warm = DailyPlan(beliefs, day=DAY + 9, budget_s=FIVE_MINUTES_S, prices=cold.prices)
    assert np.allclose(warm.prices[:3], cold.prices[:3], rtol=0.15)


def test_a_set_event_moves_its_items_forward():
    specs = [ItemSpec(id=f"i{n}", kind="recall") for n in range(20)]
    beliefs = practised(specs, (DAY, DAY + 3))
    ids = ("i7", "i13")
    calm = DailyPlan(beliefs, day=DAY + 9, budget_s=60)
    tense = DailyPlan(beliefs, day=DAY + 9, budget_s=60, events=[(DAY + 13, ids), (DAY - 1, ("i1",))])
    assert {tense.pick(), tense.pick(exclude_ids=[tense.pick()])} == set(ids)
    assert calm.pick() == "i0"


def test_alike_new_items_are_weighed_once_with_the_same_result():
    specs = deck(30)
    plan = DailyPlan(Beliefs(specs), day=DAY, budget_s=FIVE_MINUTES_S)
    one_by_one = plan._outlay(slice(None))
    assert np.allclose(plan.market.reward[0], one_by_one.reward)
    assert np.allclose(plan.market.seconds[0], one_by_one.seconds)


def test_a_tree_holds_every_beginning_of_its_templates_once():
    tree = tree_of((0.0, 2.0, 6.0), [(0, 1, 2), (1,)])
    assert len(tree.slot) == 5  # (), (0), (1), (0 1), (0 1 2)
    assert tree.member.sum(0).tolist() == [0, 1, 1, 2, 3]
    assert tree.today.tolist() == [False, True, False, True, True]
    assert len(daily_roller().tree.slot) == 32
