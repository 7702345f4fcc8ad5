"""A plan towards a dated event: which items on which day, what to expect, what will not be reached.

The plan maximises the worth of what will be answered right and in time on the day, under the minutes of
each day that is left.  It is made anew from the belief whenever it is asked for, so a missed day, a lapse
or a change of minutes needs no repair: today's plan never assumes that yesterday's was kept.
"""

import numpy as np

from trainer.frozen import frozen
from trainer.memory import event_slots, states
from trainer.memory.outlook import as_renewed
from trainer.memory.planner import Plan
from trainer.memory.reliability import Recalibration

REACHED = 0.7  # an item likelier than this to be right on the day counts as reached
NOT_BEGUN, NO_MINUTES, STILL_SHAKY = "not begun", "no minutes", "still shaky"


@frozen
class PlannedDay:
    """What is to be done on one ``day``: the items in order, and the seconds they will take."""

    day: float
    budget_s: float
    seconds: float
    ids: tuple[str, ...]


@frozen
class Unreached:
    """An item that will probably be missed on the day, although it belongs to the event.

    ``reason`` is ``NOT_BEGUN`` (never asked, and the minutes buy more elsewhere), ``NO_MINUTES`` (known
    once, and the minutes buy more elsewhere) or ``STILL_SHAKY`` (practised, but not enough of it fits).
    """

    id: str
    chance: float
    reason: str


def practice_days(now, event_day):
    """Return the days of practice from ``now`` on, one a day at the same hour, all before ``event_day``.

    >>> practice_days(10.5, 13.0)
    [10.5, 11.5, 12.5]
    """
    count = max(0, int(np.ceil(event_day - now - 1e-9)))
    return [now + ahead for ahead in range(count)]


class EventPlan(Plan):
    """The plan for the event on ``event_day``, seen from ``day``.

    ``budgets_s`` is the seconds of every day that is left, or one number for each of them alike; its first
    entry is what is left of today.  ``ids`` are the items that count (None: all).  ``prices`` are those of
    the plan of the same day.  ``days`` may replace the days of practice (ascending, the first is ``day``).
    ``correction`` is the learner's own ``reliability.Recalibration`` of forecasts; it moves no plan.
    Raises ``ValueError`` when the event is past.
    """

    def __init__(self, beliefs, *, day, event_day, budgets_s, ids=None, prices=None, days=None, correction=None):
        self.days = tuple(practice_days(day, event_day) if days is None else days)
        if not self.days or event_day <= day:
            raise ValueError(f"the event on day {event_day} is not after day {day}")
        self.event_day, self.correction = float(event_day), correction or Recalibration()
        self.budgets_of_days_s = np.broadcast_to(np.asarray(budgets_s, dtype=float), (len(self.days),))
        wanted = set(beliefs.ids if ids is None else ids)
        self.counts = np.array([name in wanted for name in beliefs.ids], dtype=bool)
        begun = self.counts & (beliefs.rows[:, states.COUNT] > 0)
        most = event_slots.most_slots(self.budgets_of_days_s.sum(), begun.sum())
        self._runs = event_slots.grouped(list(range(len(self.days))), most)
        slot_days = [float(np.mean([self.days[place] for place in run])) for run in self._runs]
        slot_budgets_s = [float(self.budgets_of_days_s[run].sum()) for run in self._runs]
        roller = event_slots.roller_until(day, slot_days, event_day)
        wishes = np.zeros((len(beliefs), 2))
        wishes[:, event_slots.KEPT_FOR] = self.counts
        super().__init__(beliefs, roller, day=day, budgets_s=slot_budgets_s, prices=prices, wishes=wishes)
        self._chosen = self.market.fitted(self._prices, order=self._deck_order)  # 0 for what does not count

    @property
    def is_planned(self):
        """Return whether the plan asks for the item at all [items]."""
        return self._chosen > 0

    @property
    def chances(self):
        """Return the chance of a right answer in time [items] on the day, if the plan is kept to."""
        on_the_day = self.by_purpose[event_slots.ON_THE_DAY]
        promised = on_the_day[np.arange(len(self.counts)), self._chosen]
        bare = self.beliefs.pass_chances(self.event_day)
        planned = as_renewed(promised, bare, self.correction, len(self.days))
        return np.where(self._chosen > 0, planned, self.correction.apply(bare))

    @property
    def bare_chances(self):
        """Return the chance of a right answer in time [items] on the day, if nothing more is done."""
        return self.correction.apply(self.beliefs.pass_chances(self.event_day))

    @property
    def expected(self):
        """How many of the event's items will be right in time on the day, if the plan is kept to."""
        return float(self.chances[self.counts].sum())

    @property
    def expected_without(self):
        """How many would be right in time without any more practice."""
        return float(self.bare_chances[self.counts].sum())

    def pick(self, exclude_groups=(), exclude_ids=(), allow_new=True):
        """Return the id of the event's item to ask now, None if there is none that may be asked."""
        others = [name for name, counts in zip(self.beliefs.ids, self.counts, strict=True) if not counts]
        return super().pick(exclude_groups, (*exclude_ids, *others), allow_new)

    def schedule(self):
        """Return the ``PlannedDay`` of every day that is left, today first."""
        tree, days = self.roller.tree, [[] for _ in self.days]
        spent = np.zeros(len(self.days))
        for place in self._in_order():
            for node in np.flatnonzero(tree.member[:, self._chosen[place]]):
                run = self._runs[tree.slot[node]]
                emptiest = max(run, key=lambda one: self.budgets_of_days_s[one] - spent[one])
                days[emptiest].append(self.beliefs.ids[place])
                spent[emptiest] += self.market.seconds[0, place, node]
        return tuple(
            PlannedDay(
                day=self.days[one],
                budget_s=float(self.budgets_of_days_s[one]),
                seconds=float(spent[one]),
                ids=tuple(names),
            )
            for one, names in enumerate(days)
        )

    def unreached(self):
        """Return the ``Unreached`` items of the event, the most valuable first."""
        chances, worth = self.chances, self.beliefs.table.worth
        places = np.flatnonzero(self.counts & (chances < REACHED))
        places = places[np.lexsort((chances[places], -worth[places]))]
        return tuple(
            Unreached(id=self.beliefs.ids[place], chance=float(chances[place]), reason=self._reason(place))
            for place in places
        )

    def _reason(self, place):
        if self._chosen[place] > 0:
            return STILL_SHAKY
        return NO_MINUTES if self.beliefs.seen(self.beliefs.ids[place]) else NOT_BEGUN

    def _in_order(self):
        """Return the places of all items, the best bargain first."""
        net = self.market.net(self._prices)[0]
        gain = net.max(-1) - net[:, 0]
        return np.lexsort((self._deck_order, -gain))
