"""A course of practice: which days, how many minutes, when the learners are measured."""

from dataclasses import dataclass

import numpy as np

from tests.bench.simulation.planners import Oracle, Planned
from tests.bench.simulation.product import Product
from tests.bench.simulation.world import People, specs

SECONDS_PER_DAY = 86_400.0
SESSION_AT = 0.5  # of the day
EPOCH = 20_000.0  # any date will do


@dataclass(frozen=True, kw_only=True)
class Scenario:
    """``days`` with a session of ``minutes``; learners are measured on each of ``measured`` days."""

    name: str
    days: tuple[int, ...]
    minutes: float
    measured: tuple[float, ...]
    event: float | None = None
    pace: float = 1.0


def daily(count, first=0):
    """Return ``count`` days in a row."""
    return tuple(range(first, first + count))


SCENARIOS = {
    scenario.name: scenario
    for scenario in (
        Scenario(name="daily", days=daily(60), minutes=5, measured=(60, 90)),
        Scenario(name="cram", days=daily(10), minutes=20, measured=(10, 40), event=10),
        Scenario(name="late joiner", days=daily(3), minutes=20, measured=(3, 33), event=3),
        Scenario(name="three-week gap", days=daily(20) + daily(19, 41), minutes=5, measured=(60, 90)),
        Scenario(name="forgets twice as fast", days=daily(60), minutes=5, measured=(60, 90), pace=2.0),
        Scenario(name="forgets half as fast", days=daily(60), minutes=5, measured=(60, 90), pace=0.5),
    )
}


@dataclass(frozen=True, kw_only=True)
class Forecast:
    """What the planner expected of ``measured`` days, and what was true: [learners, drills] each.

    ``low`` and ``high`` [learners, kinds] are the interval of the share of each kind, None where there is none.
    """

    label: str
    predicted: np.ndarray
    true: np.ndarray
    low: np.ndarray | None = None
    high: np.ndarray | None = None


@dataclass(frozen=True, kw_only=True)
class Result:
    """True ``chances`` [measured, learners, drills] after a course, ``worth`` and ``kind`` of each drill.

    ``first`` is (foretold, right): the means over all first answers, None where nothing was foretold.
    """

    chances: np.ndarray
    worth: np.ndarray
    kind: np.ndarray
    forecasts: tuple[Forecast, ...] = ()
    first: tuple[float, float] | None = None

    @property
    def kept(self):
        """The share of all worth kept [measured, learners]."""
        return (self.chances * self.worth).sum(-1) / self.worth.sum()


def run(rule_class, family, scenario, worth, *, learners, seed):
    """Return the ``Result`` of ``learners`` of ``family`` under a rule; the same ``seed``, the same people."""
    items = specs(worth)
    people = People.born(family, items, learners, seed, scenario.pace)
    rule = _rule(rule_class, people, items, scenario, np.random.default_rng(seed + 1))
    left_over, expected = np.zeros(people.learners), []
    for number, day in enumerate(scenario.days):
        rule.begin(EPOCH + day + SESSION_AT, scenario.minutes)
        if scenario.event and number == len(scenario.days) // 2 and isinstance(rule, Planned):
            expected.append(("half-way, if the plan is kept to", 0, *rule.planned()))
        left_over = practise(people, rule, EPOCH + day + SESSION_AT, scenario.minutes, left_over)
    dates = [EPOCH + SESSION_AT + day for day in scenario.measured]
    if isinstance(rule, Planned | Product):
        now = EPOCH + SESSION_AT + scenario.days[-1]
        for place, date in enumerate(dates):
            label = f"after the last session, for {scenario.measured[place] - scenario.days[-1]:.0f} days on"
            told = rule.forecast(date, now) if isinstance(rule, Planned) else (rule.forecast(date), None, None)
            expected.append((label, place, *told))
    chances = np.stack([people.chances(date) for date in dates])
    return Result(
        chances=chances,
        worth=np.array([spec.worth for spec in items]),
        kind=people.kind,
        forecasts=tuple(
            Forecast(label=label, predicted=predicted, true=chances[place], low=low, high=high)
            for label, place, predicted, low, high in expected
        ),
        first=rule.first_answers() if isinstance(rule, Product) else None,
    )


def _rule(rule_class, people, items, scenario, rng):
    if issubclass(rule_class, Planned | Oracle | Product):
        return rule_class(people, items, rng, agenda_of(scenario))
    return rule_class(people, items, rng)


def session(people, rule, day, minutes, left_over):
    """Let the rule plan the day, then every learner ``practise``."""
    rule.begin(day, minutes)
    return practise(people, rule, day, minutes, left_over)


def practise(people, rule, day, minutes, left_over):
    """Let every learner practise for ``minutes``; return the seconds over the end, owed by the next session."""
    budget = minutes * 60.0 - left_over
    used = np.zeros(people.learners)
    while True:
        who = np.flatnonzero(used < budget)
        if not len(who):
            return used - budget
        now = day + used[who] / SECONDS_PER_DAY
        drill = rule.pick(who, now)
        right, answer_s, whole_s = people.answer(who * people.drills + drill, now)
        rule.hear(who, drill, now, right, answer_s)
        used[who] += whole_s


def agenda_of(scenario):
    """Return the agenda of the planner in ``scenario``: daily, or towards an event."""
    from tests.bench.simulation.agendas import DailyAgenda, EventAgenda

    if scenario.event is None:
        return DailyAgenda()
    days = np.array(scenario.days, dtype=float) + EPOCH + SESSION_AT
    return EventAgenda(days, EPOCH + SESSION_AT + scenario.event)
