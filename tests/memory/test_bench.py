"""The simulation bench runs the production code, and its learners behave as their families should."""

import numpy as np
import pytest

from tests.bench.simulation.__main__ import main
from tests.bench.simulation.agendas import DailyAgenda, EventAgenda
from tests.bench.simulation.baselines import BASELINES
from tests.bench.simulation.course import EPOCH, SCENARIOS, SESSION_AT, Scenario, run, session
from tests.bench.simulation.families import FAMILIES
from tests.bench.simulation.planners import Oracle, Planned
from tests.bench.simulation.product import Product
from tests.bench.simulation.world import People, specs
from trainer.memory.belief import Beliefs, update
from trainer.memory.event_plan import EventPlan
from trainer.memory.learner import bytes_of
from trainer.memory.planner import DailyPlan
from trainer.memory.reliability import Recalibration, recalibration
from trainer.memory.states import COUNT
from trainer.practice.choosing import IN_A_ROW, OTHERS

WORTH = (1.0, 2.0, 4.0)
START = EPOCH + SESSION_AT
SHORT = Scenario(name="short", days=(0, 1), minutes=2, measured=(2, 32))
TO_EVENT = Scenario(name="short", days=(0, 1, 2), minutes=2, measured=(3,), event=3)


class Single:
    """One learner's practice through ``Beliefs`` and a plan, as the session does it."""

    def __init__(self, items, make_plan):
        self.items, self.make_plan, self.states, self.learner = items, make_plan, {}, None

    def begin(self, day, minutes):
        self.beliefs = Beliefs(self.items, self.states, self.learner)
        self.plan, self.previous = self.make_plan(self.beliefs, day, 60.0 * minutes), ()

    def pick(self, who, day):
        return np.array([self.beliefs.index(self.plan.pick(exclude_ids=self.previous))])

    def hear(self, who, drill, day, right, answer_s):
        spec = self.items[drill[0]]
        self.states[spec.id], self.learner = update(
            self.states.get(spec.id), self.learner, spec, day=day[0], score=float(right[0]), seconds=answer_s[0]
        )
        self.beliefs.set(spec.id, self.states[spec.id], self.learner)
        self.plan.refresh(spec.id)
        self.previous = (spec.id,)


def picks(rule_of, days, minutes):
    """Return the drills that a rule asks one learner, and the learner's chances in the end."""
    items = specs(WORTH)
    people = People.born(FAMILIES["PA"], items, 1, 3)
    rule, asked, left_over = rule_of(people, items), [], np.zeros(1)
    hear = rule.hear
    rule.hear = lambda who, drill, *rest: (asked.append(int(drill[0])), hear(who, drill, *rest))
    for day in days:
        left_over = session(people, rule, START + day, minutes, left_over)
    return asked, people.chances(START + days[-1] + 1)


def test_the_bench_asks_exactly_what_the_daily_plan_asks():
    def single(people, items):
        # Prices start afresh in both, for yesterday's are handed on by the caller.
        return Single(items, lambda beliefs, day, budget_s: DailyPlan(beliefs, day=day, budget_s=budget_s))

    def many(people, items):
        agenda = DailyAgenda()
        agenda.warm = lambda prices: None
        return Planned(people, items, np.random.default_rng(0), agenda)

    (one, chances), (other, same) = picks(single, (0, 1, 2, 5), 4), picks(many, (0, 1, 2, 5), 4)
    assert len(one) > 40
    assert one == other
    assert np.array_equal(chances, same)


def test_the_bench_asks_exactly_what_the_event_plan_asks():
    days, event = (0.0, 1.0, 2.0), START + 3

    def single(people, items):
        def plan(beliefs, day, budget_s):
            left = [START + other for other in days if START + other >= day]
            return EventPlan(beliefs, day=day, event_day=event, budgets_s=budget_s, days=left)

        return Single(items, plan)

    def many(people, items):
        agenda = EventAgenda(START + np.array(days), event)
        agenda.warm = lambda prices: None
        return Planned(people, items, np.random.default_rng(0), agenda)

    one, other = picks(single, days, 5)[0], picks(many, days, 5)[0]
    assert len(one) > 40 and one == other


def test_the_bench_forecasts_exactly_what_the_event_plan_forecasts():
    days, event, items = START + np.arange(5.0), START + 5, specs(WORTH)
    people = People.born(FAMILIES["MCM"], items, 3, 7)
    bench = Planned(people, items, np.random.default_rng(0), EventAgenda(days, event))
    bench.agenda.warm = lambda prices: None
    for day in days[:3]:
        session(people, bench, day, 25, np.zeros(3))
    bench.begin(days[3], 8)
    planned = bench.planned()[0]
    for learner in range(3):
        rows = bench.rows[learner * len(items) :][: len(items)]
        states = {spec.id: bytes_of(row) for spec, row in zip(items, rows, strict=True) if row[COUNT]}
        plan = EventPlan(
            Beliefs(items, states, bytes_of(bench.learner_rows[learner])),
            day=days[3],
            event_day=event,
            budgets_s=480.0,
            days=days[3:],
            correction=recalibration(*np.array(bench.past[learner]).T),
        )
        assert plan.correction != Recalibration()
        assert plan.chances == pytest.approx(planned[learner], abs=1e-9)


@pytest.mark.parametrize("family", FAMILIES.values(), ids=list(FAMILIES))
def test_every_family_learns_by_practice_and_forgets_without_it(family):
    people = People.born(family, specs(WORTH), 6, 1)
    rows = np.arange(6 * 120)
    before = people.chances(START).mean()
    for day in (0.0, 2.0, 5.0):
        people.answer(rows, np.full(len(rows), START + day))
    soon, later = people.chances(START + 5.01).mean(), people.chances(START + 60).mean()
    assert soon > before + 0.2
    assert later < soon - 0.05
    assert 0.05 < before < (0.5 if family.name == "returning" else 0.35)


@pytest.mark.parametrize("family", FAMILIES.values(), ids=list(FAMILIES))
def test_no_family_fails_where_one_drill_is_asked_again_and_again(family):
    """With 200 learners the oracle had one of them practise a drill 97 times; the lists of practices hold fewer."""
    people = People.born(family, specs(WORTH), 1, 1)
    for count in range(120):
        people.answer(np.zeros(1, dtype=int), np.array((START + count / 50,)))
    soon, later = people.chances(START + 2.5)[0, 0], people.chances(START + 60)[0, 0]
    assert 0.0 < later <= soon <= 1.0 and soon > 0.4


SLOW = (Planned, Product, Oracle)
PAIRS = [(rule, family) for rule in BASELINES for family in FAMILIES] + [
    (rule, family) for rule in SLOW for family in ("PPE", "all-or-none", "interference")
]


@pytest.mark.parametrize(("rule", "family"), PAIRS, ids=lambda one: getattr(one, "name", one))
def test_every_rule_teaches_every_family_something(rule, family):
    family = FAMILIES[family]
    scenario = TO_EVENT if issubclass(rule, Planned | Product | Oracle) else SHORT
    result = run(rule, family, scenario, WORTH, learners=2, seed=5)
    untaught = (
        run(rule, family, Scenario(name="none", days=(), minutes=1, measured=(2,)), WORTH, learners=2, seed=5)
        if rule in BASELINES
        else None
    )
    assert ((0 <= result.chances) & (result.chances <= 1)).all()
    assert untaught is None or result.kept[0].mean() > untaught.kept[0].mean()
    assert len(result.forecasts) == {Planned: 2, Product: 1}.get(rule, 0)


def test_the_same_seed_gives_the_same_result_and_another_one_another():
    first, again, other = (
        run(BASELINES[0], FAMILIES["MCM"], SHORT, WORTH, learners=3, seed=seed).kept for seed in (1, 1, 2)
    )
    assert np.array_equal(first, again) and not np.array_equal(first, other)


def test_nobody_gets_more_minutes_than_another():
    """What a question takes over the end is owed by the next session."""
    people = People.born(FAMILIES["PA"], specs(WORTH), 4, 1)
    rule = BASELINES[1](people, specs(WORTH), np.random.default_rng(0))
    used, answer = np.zeros(4), people.answer

    def counted(rows, day):
        right, answer_s, whole_s = answer(rows, day)
        used[rows // 120] += whole_s
        return right, answer_s, whole_s

    people.answer = counted
    left_over = np.zeros(4)
    for day in range(6):
        left_over = session(people, rule, START + day, 5, left_over)
    assert used - left_over == pytest.approx(np.full(4, 6 * 300.0))


def test_the_command_writes_a_table_and_a_killed_run_goes_on(capsys, monkeypatch, tmp_path):
    monkeypatch.setitem(SCENARIOS, "daily", SHORT)
    given = "--learners 2 --scenario daily --family MCM --workers 1 --rows".split()
    given += [str(tmp_path / "rows"), "--out", str(tmp_path / "table.md")]
    main(given)
    out = (tmp_path / "table.md").read_text(encoding="utf-8")
    assert "thrifty ladder" in out and "against the best simple rule" in out and "seed 9001" in out
    rows = sorted((tmp_path / "rows").iterdir())
    lost = next(path for path in rows if "-trainer-" in path.name)
    others = {path: path.stat().st_mtime_ns for path in rows if path != lost}
    lost.unlink()
    main(given)
    assert {path: path.stat().st_mtime_ns for path in others} == others, "what was worked out is read"
    assert lost.exists() and (tmp_path / "table.md").read_text(encoding="utf-8") == out
    assert capsys.readouterr().out


def test_the_product_chooses_as_the_session_does_and_takes_answers_as_reviews():
    people = People.born(FAMILIES["MCM"], specs(WORTH), 2, 1)
    rule = Product(people, specs(WORTH), np.random.default_rng(0), DailyAgenda())
    for day in range(3):
        session(people, rule, START + day, 5, np.zeros(2))
    for kept in rule.kept:
        met = list(dict.fromkeys(answer.drill_id for answer in kept.answers))
        order = [name for name in rule.order if name in met]
        assert len(met) < len(rule.order) / 2, "new drills wait for the minutes"
        assert max(int(name.split("-")[1]) for name in met) <= len(order) + OTHERS + IN_A_ROW + 1, (
            "met in order, nearly"
        )
    states, learner = rule.kept[0].states(), rule.kept[0].learner()
    assert states.keys() == {answer.drill_id for answer in rule.kept[0].answers} and learner


@pytest.mark.parametrize("family", ["interference", "skill"])
def test_where_drills_touch_each_other_practice_changes_the_siblings(family):
    """Interference pushes them down, a shared rule lifts them; drills of other groups stay as they are."""
    people = People.born(FAMILIES[family], specs(WORTH), 1, 1)
    rows = np.arange(120)
    for day in (0.0, 2.0):
        people.answer(rows, np.full(120, START + day))
    before = people.chances(START + 3)[0]
    kin = people.kin[7]
    people.learn(np.array([7]), np.array([START + 3]), np.zeros(1) if family == "interference" else np.ones(1))
    change = people.chances(START + 3)[0] - before
    known = people.known[kin]
    assert (change[kin][~known] < 0).all() if family == "interference" else (change[kin][~known] > 0).all()
    others = np.setdiff1d(rows, [7, *kin])
    assert not change[others].any()
