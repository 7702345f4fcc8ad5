"""What to ask next: today's minutes go where they buy the most over the months ahead.

Each item may be practised today and on days ahead; the minutes of every one of those days are limited.
Prices of a second settle what fits; an item's priority is what it gains by being asked *now* rather than
later, per second.  Greed without the "rather than later" loses to going round all items in turn.
"""

from functools import lru_cache

import numpy as np

from trainer.memory import states
from trainer.memory.practice_patterns import Horizons, Roller, subsets, tree_of
from trainer.memory.time_prices import Market

# Today and four later occasions in growing gaps; each stands for the days around it, so it has their
# minutes.  Found on the simulation bench (tests/bench), tuning seeds.
OFFSETS_DAYS = (0.0, 2.0, 6.0, 15.0, 36.0)
BUDGET_DAYS = (1.0, 3.0, 7.0, 14.0, 36.0)
# Readiness over the next three months: dates at which knowing counts, and how much.
HORIZON_DAYS = (1.5, 5.0, 12.0, 24.0, 48.0, 80.0)
HORIZON_WEIGHTS = (2.0, 5.0, 9.0, 14.0, 25.0, 30.0)

# Retention depends on the number of sittings, not on repeats within one (Walsh et al. 2023; overlearning,
# Rohrer et al. 2005): a second question on the same item waits for the next sitting if there is any other.
SAME_SITTING_DAYS = 0.25
BEHIND = 1e6  # further than any priority
DECIMALS = 9  # beyond them numbers differ from processor to processor: alike items stay in the order of the decks

ENOUGH_TRIES = 3  # a prerequisite that stays hard does not bar the way for ever


# Being ready on the day of an event counts as much as three months of being ready.
EVENT_IMPORTANCE = 1.0


@lru_cache(maxsize=4)
def daily_roller(events=()):
    """Return the ``Roller`` of daily practice; ``events`` are days ahead on which knowing counts by itself."""
    days = np.array((*HORIZON_DAYS, *events))
    weight = np.zeros((1 + len(events), len(days)))
    weight[0, : len(HORIZON_DAYS)] = np.asarray(HORIZON_WEIGHTS) / np.sum(HORIZON_WEIGHTS)
    weight[np.arange(1, 1 + len(events)), np.arange(len(HORIZON_DAYS), len(days))] = 1.0
    return Roller(tree_of(OFFSETS_DAYS, subsets(len(OFFSETS_DAYS))), Horizons(days=days, weight=weight))


def priorities(market, prices):
    """Return the value per second [learners, items] of asking now rather than later, at ``prices``."""
    net, today = market.net(prices), market.tree.today
    gain = net[..., today].max(-1) - net[..., ~today].max(-1)
    return gain / market.seconds[..., _node_today(market.tree)]


def ranks(priority, counts, days_since):
    """Return ``priority`` as it is used to choose: what was asked in this sitting stands behind everything."""
    return np.where((counts > 0) & (days_since < SAME_SITTING_DAYS), priority - BEHIND, priority)


def _node_today(tree):
    return int(np.flatnonzero((tree.slot == 0) & (tree.parent == 0))[-1])


class Plan:
    """What every plan can do: weigh items over a ``Roller``'s slots, settle prices, pick the next item.

    ``budgets_s`` are the seconds of the slots, the first of which is today; ``wishes`` [items, purposes]
    says how much each purpose of the roller's horizons counts for each item (None: each of them once).
    """

    def __init__(self, beliefs, roller, *, day, budgets_s, prices=None, wishes=None):
        self.beliefs, self.day, self.roller = beliefs, float(day), roller
        self._wishes = np.ones((len(beliefs), 1)) if wishes is None else wishes
        outlay = self._outlay_of_all()
        self.by_purpose = outlay.by_purpose
        self.market = Market(
            tree=roller.tree,
            reward=(outlay.reward * beliefs.table.worth[:, None])[None],
            seconds=outlay.seconds[None],
            budgets_s=np.asarray(budgets_s, dtype=float)[None],
        )
        known = prices is not None and len(prices) == len(budgets_s)  # an earlier version had other slots, perhaps
        self._prices = self.market.settle(np.asarray([prices], dtype=float) if known else None)
        self._priority = priorities(self.market, self._prices)[0] if len(beliefs) else np.zeros(0)
        self._deck_order = np.array([spec.deck_order for spec in beliefs.specs])

    @property
    def prices(self):
        """What a second is worth today and in the slots ahead, as plain floats."""
        return tuple(round(float(price), DECIMALS) for price in self._prices[0])

    def priority(self, name):
        """Return the value per second of asking ``name`` now rather than later."""
        return float(self._priority[self.beliefs.index(name)])

    def refresh(self, name):
        """Weigh ``name`` again after its belief has changed, at today's prices."""
        place = self.beliefs.index(name)
        one = slice(place, place + 1)
        outlay = self._outlay(one)
        self.market.reward[0, one] = outlay.reward * self.beliefs.table.worth[one, None]
        self.market.seconds[0, one] = outlay.seconds
        part = Market(
            tree=self.market.tree,
            reward=self.market.reward[:, one],
            seconds=self.market.seconds[:, one],
            budgets_s=self.market.budgets_s,
        )
        self._priority[one] = priorities(part, self._prices)[0]

    def pick(self, exclude_groups=(), exclude_ids=(), allow_new=True):
        """Return the id of the item to ask now, None if there is none that may be asked.

        Items of ``exclude_groups`` and ``exclude_ids`` are left out; without ``allow_new`` so are items never asked.
        """
        groups, names = set(exclude_groups) - {""}, set(exclude_ids)
        for place in np.lexsort((self._deck_order, -np.round(self._ranks(), DECIMALS))):
            spec = self.beliefs.specs[place]
            if spec.group in groups or spec.id in names:
                continue
            if self.beliefs.seen(spec.id) or (allow_new and self._may_begin(spec)):
                return spec.id
        return None

    def _ranks(self):
        rows = self.beliefs.rows
        # Both ways: in a sitting the last answer is later than its plan; after a clock was set back, much later.
        since = np.abs(self.day - rows[:, states.LAST_DAY])
        return ranks(self._priority, rows[:, states.COUNT], since)

    def _may_begin(self, spec):
        """Say whether everything that comes before ``spec`` was answered right once, or tried often enough."""
        return all(self._met(name) for name in spec.after if self.beliefs.has(name))

    def _met(self, name):
        row = self.beliefs.rows[self.beliefs.index(name)]
        return row[states.SCORE] >= 1.0 or row[states.COUNT] >= ENOUGH_TRIES

    def _outlay(self, index):
        beliefs = self.beliefs
        rows = beliefs.rows[index]
        table, learner_rows = beliefs.table.rows(index), beliefs.learner_rows(len(rows))
        weights, wishes = beliefs.weights[index], self._wishes[index]
        return self.roller.outlay(rows, table, learner_rows, weights, self.day, wishes)

    def _outlay_of_all(self):
        """Weigh every item; those never asked that are alike in all that matters are weighed once."""
        _, first, which = np.unique(self._likeness(), axis=0, return_index=True, return_inverse=True)
        return self._outlay(first).rows(which.reshape(-1))

    def _likeness(self):
        """Return [items, marks]: equal rows mark items that the model can't tell apart."""
        table, count = self.beliefs.table, self.beliefs.rows[:, states.COUNT]
        own = np.where(count > 0, np.arange(1, len(table) + 1), 0)
        marks = (own, table.kind, table.guess, table.slip, table.steps, table.design_s, table.limit_s)
        return np.column_stack((*marks, self._wishes)).astype(float)


class DailyPlan(Plan):
    """Today's plan for ``beliefs`` on ``day`` with ``budget_s`` seconds.

    ``prices`` are those of an earlier plan; they save time and change little.  ``events`` are pairs
    (day, ids) of dated events ahead: their items count once more for being known on the day.
    """

    def __init__(self, beliefs, *, day, budget_s, prices=None, events=()):
        budgets_s = np.asarray(BUDGET_DAYS) * float(budget_s)
        ahead = [(event_day, frozenset(ids)) for event_day, ids in events if event_day > day]
        roller = daily_roller(tuple(event_day - day for event_day, _ in ahead))
        wishes = np.ones((len(beliefs), 1 + len(ahead)))
        for purpose, (_, ids) in enumerate(ahead, start=1):
            wishes[:, purpose] = EVENT_IMPORTANCE * np.array([name in ids for name in beliefs.ids])
        super().__init__(beliefs, roller, day=day, budgets_s=budgets_s, prices=prices, wishes=wishes)
