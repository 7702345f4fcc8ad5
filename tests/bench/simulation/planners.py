"""The trainer's planner in the bench: production code for many learners at once, and the oracle.

``Planned`` calls the functions of ``trainer.memory`` that ``Beliefs`` and ``DailyPlan`` call, on the rows
of all learners together; tests/memory/test_bench.py checks that one learner gets the very picks of
``DailyPlan``.  The oracle is the same planner, given the learners' true model and parameters.
"""

import numpy as np

from tests.bench.simulation.baselines import Rule
from trainer.memory import costs, event_slots, outlook, planner, prior, reliability, states
from trainer.memory import learner as learners
from trainer.memory.items import KINDS, ItemTable
from trainer.memory.practice_patterns import Outlay
from trainer.memory.time_prices import Market


class Planning(Rule):
    """What the planner and the oracle share: a market, prices, priorities.  ``agenda`` says which slots."""

    def __init__(self, people, items, rng, agenda):
        super().__init__(people, items, rng)
        self.people, self.agenda = people, agenda
        self.worth = np.array([spec.worth for spec in items])
        self.prices = None
        self.count = np.zeros(self.last.shape)

    def begin(self, day, minutes):
        """Plan the day for every learner."""
        self.day = day
        roller, budget_days = self.agenda.today(day)
        self.roller, everyone = roller, np.arange(self.people.learners * self.drills)
        outlay = self.outlay(everyone, np.full(len(everyone), day))
        shape = (self.people.learners, self.drills, len(roller.tree.slot))
        self.by_purpose = outlay.by_purpose.reshape(-1, *shape)
        market = Market(
            tree=roller.tree,
            reward=outlay.reward.reshape(shape) * self.worth[:, None],
            seconds=outlay.seconds.reshape(shape),
            budgets_s=np.tile(np.asarray(budget_days) * minutes * 60.0, (self.people.learners, 1)),
        )
        self.prices = market.settle(self.agenda.warm(self.prices))
        self.market, self.priority = market, planner.priorities(market, self.prices)

    def score(self, who, day):
        """Return the ranks."""
        since = self.day - self.last[who]
        return planner.ranks(self.priority[who], self.count[who], since)

    def hear(self, who, drill, day, right, answer_s):
        """Count the answers."""
        super().hear(who, drill, day, right, answer_s)
        self.count[who, drill] += 1

    def weigh_again(self, who, drill, day):
        """Renew the priority of the drills just asked, as ``DailyPlan.refresh`` does."""
        outlay = self.outlay(who * self.drills + drill, day)
        part = Market(
            tree=self.roller.tree,
            reward=(outlay.reward * self.worth[drill, None])[:, None],
            seconds=outlay.seconds[:, None],
            budgets_s=self.market.budgets_s[who],
        )
        self.priority[who, drill] = planner.priorities(part, self.prices[who])[:, 0]


class Planned(Planning):
    """The trainer's planner without the session's choosing around it."""

    name = "plan alone"

    def __init__(self, people, items, rng, agenda):
        super().__init__(people, items, rng, agenda)
        self.rows = states.empty(people.learners * self.drills)
        self.learner_rows = learners.empty(people.learners)
        self.table = ItemTable.of(items).rows(np.tile(np.arange(self.drills), people.learners))
        self.owner = np.repeat(np.arange(people.learners), self.drills)
        self.general = prior.general(self.table.kind, self.table.steps)
        self.past = [[] for _ in range(people.learners)]  # (predicted, right, days since) of each answer

    def begin(self, day, minutes):
        """Fit the prior to each learner, then plan the day."""
        loglik, answers = states.loglik_of(self.rows), self.rows[:, states.COUNT]
        self.prior = prior.personal(self.general, self.table.kind, loglik, answers, self.owner)
        self.weights = prior.weights(self.prior, loglik)
        super().begin(day, minutes)

    def outlay(self, rows, day):
        """Return the ``Outlay`` of ``rows``, at the day of the plan."""
        learner_rows = self.learner_rows[self.owner[rows]]
        wishes = np.tile(self.agenda.wishes, (len(rows), 1))
        part = self.rows[rows], self.table.rows(rows), learner_rows, self.weights[rows]
        return self.roller.outlay(*part, self.day, wishes)

    def hear(self, who, drill, day, right, answer_s):
        """Update belief and learner, then the priority."""
        super().hear(who, drill, day, right, answer_s)
        rows = who * self.drills + drill
        self._remember(who, rows, day, right)
        self.rows[rows], self.learner_rows[who] = states.answered(
            self.rows[rows],
            self.table.rows(rows),
            self.learner_rows[who],
            day=day,
            score=right.astype(float),
            seconds=answer_s,
        )
        self.weights[rows] = prior.weights(self.prior[rows], states.loglik_of(self.rows[rows]))
        self.weigh_again(who, drill, day)

    def _remember(self, who, rows, day, right):
        """Note what was predicted before each answer, as a review does."""
        chance = costs.chance(self.rows[rows], self.table.rows(rows), self.weights[rows], day)
        gap = np.where(self.rows[rows, states.COUNT] > 0, day - self.rows[rows, states.LAST_DAY], np.nan)
        for learner, *answer in zip(who, chance, right, gap, strict=True):
            self.past[learner].append(answer)

    def forecast(self, date, now):
        """Return (chances, low, high) for ``date`` without further practice, as the outlook gives them."""
        loglik, answers = states.loglik_of(self.rows), self.rows[:, states.COUNT]
        fitted = prior.personal(self.general, self.table.kind, loglik, answers, self.owner)
        weights = prior.weights(fitted, loglik)
        chances = costs.chances(self.rows, self.table, date)
        mean = _corrected(np.einsum("rh,rh->r", chances, weights).reshape(self.last.shape), self._corrections())
        return self._with_interval(mean, mean, outlook.spread(chances, weights), date - now)

    def planned(self):
        """Return (chances, low, high) for the event if the plan of today is kept to."""
        chosen = np.stack([self.market.fitted(self.prices, learner) for learner in range(self.people.learners)])
        mean = np.take_along_axis(self.by_purpose[event_slots.ON_THE_DAY], chosen[..., None], -1)[..., 0]
        chances = costs.chances(self.rows, self.table, self.agenda.event_day)
        own = self._corrections()
        idle = np.einsum("rh,rh->r", chances, self.weights).reshape(mean.shape)
        bare = _corrected(idle, own)
        left = sum(day >= self.day for day in self.agenda.days)
        each = zip(mean, idle, own, strict=True)
        renewed = np.stack([outlook.as_renewed(*one, left) for one in each])
        spread, horizon = outlook.spread(chances, self.weights), self.agenda.event_day - self.day
        return self._with_interval(np.where(chosen > 0, renewed, bare), bare, spread, horizon)

    def _corrections(self):
        return [reliability.recalibration(*np.array(past).T) for past in self.past]

    def _with_interval(self, mean, bare, variances, horizon):
        """Return ``mean`` with the interval of the share of each kind, by the rules of ``trainer.memory.outlook``.

        ``bare`` are the chances without further practice.
        """
        row = self.learner_rows
        shared = outlook.sigma(horizon, row[:, learners.DAYS], row[:, learners.LONGEST_GAP])
        kinds = [self.people.kind == kind for kind in range(len(KINDS))]
        variances = variances.reshape(mean.shape)
        share = np.stack([mean[:, kind].mean(-1) for kind in kinds], -1)
        gain = mean - bare
        deviation = [outlook.share_deviation(variances[:, kind], shared, gain[:, kind].mean(-1)) for kind in kinds]
        return (mean, *outlook.interval(share, np.stack(deviation, -1)))


def _corrected(chances, corrections):
    return np.stack([one.apply(each) for one, each in zip(corrections, chances, strict=True)])


class Oracle(Planning):
    """The same planner with the true model, true parameters and true costs; it sees the same answers."""

    name = "oracle"

    def __init__(self, people, items, rng, agenda):
        super().__init__(people, items, rng, agenda)
        self.memory = {name: values.copy() for name, values in people.memory.items()}

    def hear(self, who, drill, day, right, answer_s):
        """Follow the true memory as far as answers show it."""
        super().hear(who, drill, day, right, answer_s)
        people, rows = self.people, who * self.drills + drill
        people.practise(self.memory, rows, day * people.pace, right.astype(float))
        self.weigh_again(who, drill, day)

    def outlay(self, rows, day):
        """Return the true ``Outlay`` of ``rows`` by rolling the true memory along the tree."""
        blocks = [slice(start, start + 120) for start in range(0, len(rows), 120)]
        parts = [self._block(rows[part], day[part]) for part in blocks]
        given, seconds = (
            np.concatenate([part[0] for part in parts], axis=1),
            np.concatenate([part[1] for part in parts]),
        )
        return Outlay(reward=np.tensordot(self.agenda.wishes, given, 1), seconds=seconds, by_purpose=given)

    def _block(self, rows, day):
        people, tree, family = self.people, self.roller.tree, self.people.family
        part = {name: values[rows][:, None] for name, values in people.parameters.items()}
        memory = family.compact({name: values[rows] for name, values in self.memory.items()}, len(tree.levels))
        nodes = len(tree.slot)
        grown = {name: np.repeat(values[:, None], nodes, axis=1) for name, values in memory.items()}
        right_s, wrong_s = people.typical_s(rows)
        seconds = np.zeros((len(rows), nodes))
        for level in tree.levels:
            before = {name: values[:, tree.parent[level]] for name, values in grown.items()}
            when = (day[:, None] + tree.offsets[tree.slot[level]]) * people.pace
            right = people.observed(rows, family.knowing(before, part, when))
            seconds[:, level] = right * right_s[:, None] + (1.0 - right) * wrong_s[:, None]
            for name, values in family.practised(before, part, when, right).items():
                grown[name][:, level] = values
        node, place, matrix = self.roller.readings
        when = (day[:, None] + self.roller.horizons.days[place]) * people.pace
        read = {name: values[:, node] for name, values in grown.items()}
        return people.observed(rows, family.knowing(read, part, when)) @ matrix, seconds
