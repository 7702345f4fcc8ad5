"""What to expect of an area on a date, how sure that is, and what it would take to reach what is demanded."""

from dataclasses import replace

import numpy as np

from trainer.memory import costs, states
from trainer.memory.belief import Beliefs
from trainer.memory.costs import normal_share
from trainer.memory.outlook import LEVEL, AreaStandard, outlook
from trainer.memory.reliability import Recalibration
from trainer.practice import knowledge

MOST_ROUNDS = 6
NEW_ROUNDS = 3  # practices that a drill never asked before takes to be held for some days
HALF_WIDTH = 1.6448536  # standard normal deviate of the interval that an outlook gives (LEVEL)
assert LEVEL == 0.90


class Knowledge:
    """Beliefs over the drills of ``library``, with the time limits that ``standard`` sets.

    Forecasts are of the drills that were met: what was never asked can only be counted.
    """

    def __init__(self, library, store, standard, correction=None):
        known, learner = knowledge.known(store)
        self.drills, self.outlines = library.drills, library.outlines
        self.standard = standard
        self.correction = correction or Recalibration()
        specs = [_with_limit(spec, standard) for spec in knowledge.specs(self.outlines.values())]
        self.beliefs = Beliefs(specs, known, learner)
        self.met = np.array([self.beliefs.seen(name) for name in self.beliefs.ids], dtype=bool)
        self.areas = np.array([spec.area for spec in specs], dtype=object)
        self._known = Beliefs([spec for spec in specs if self.beliefs.seen(spec.id)], known, learner)

    def rows(self, area):
        """Return (places of the drills met, number of drills) of ``area``."""
        mine = self.areas == area
        return np.flatnonzero(mine & self.met), int(mine.sum())

    def required(self, area):
        """Return the ids of the flows of ``area`` that the standard demands."""
        return [flow for flow in self.standard.required if flow in self.outlines and self.outlines[flow].area == area]

    def outlook(self, areas, today, on):
        """Return the ``Outlook`` of the drills met on day ``on``, seen from ``today``, for the named ``areas``.

        Its shares are of right answers, in time or not: an instructor's standard states the two apart.
        """
        standards = [AreaStandard(area=area, share=self.standard.demand(area).share) for area in areas]
        chances = self.correction.apply(self._known.chances(on))
        return outlook(self._known, day=today, on=on, standards=standards, chances=chances)

    def in_time(self, area, on):
        """Return the share of right answers to the drills met of ``area`` that come in time, None where none was."""
        rows, _ = self.rows(area)
        if not len(rows):
            return None
        return float(self.beliefs.pass_chances(on, rows).sum() / self.beliefs.chances(on, rows).sum())

    def minutes_to(self, area, share, today, event_day, *, new=0, flows=()):
        """Return the minutes of practice until the event that lift ``area`` to an expected ``share``.

        ``new`` drills are met besides, and the ``flows`` (ids) practised till they are held.  Practices are spread
        evenly over the days that are left; each drill is practised as often as pays best.  None: no practice that
        fits into those days is enough.
        """
        rows, _ = self.rows(area)
        seconds = NEW_ROUNDS * (new * self._new_seconds(area) + sum(map(self.beliefs.expected_seconds, flows)))
        if len(rows):
            gain, cost = self._options(rows, today, event_day)
            missing = share * len(rows) - float(self.beliefs.chances(event_day, rows).sum())
            bought = _cheapest(gain, cost, missing)
            if bought is None:
                return None
            seconds += bought
        return float(seconds / 60.0)

    def _new_seconds(self, area):
        names = [name for name, seen, home in zip(self.beliefs.ids, self.met, self.areas, strict=True)
                 if home == area and not seen]  # fmt: skip
        return float(np.mean([self.beliefs.expected_seconds(name) for name in names[:50]])) if names else 0.0

    def _options(self, rows, today, event_day):
        """Return (gain, seconds) [drills, rounds]: more chance on the day, and what so many practices cost.

        An answer is right as often as is expected; what would be learnt about the learner by it changes nothing
        on average, so the weights of the hypotheses stay.
        """
        table, weights = self.beliefs.table.rows(rows), self.beliefs.weights[rows]
        known = self.beliefs.learner_rows(len(rows))
        right, wrong = costs.seconds(self.beliefs.rows[rows], table, known)
        before = costs.chance(self.beliefs.rows[rows], table, weights, event_day)
        after, unmeasured = self.beliefs.rows[rows], np.full(len(rows), np.nan)
        gains, seconds = [], [np.zeros(len(rows))]
        for day in np.linspace(today, max(today, event_day - 1.0), MOST_ROUNDS):
            chance = costs.chance(after, table, weights, day)
            seconds.append(seconds[-1] + chance * right + (1.0 - chance) * wrong)
            after, _ = states.answered(
                after, table, known, day=np.full(len(rows), day), score=chance, seconds=unmeasured
            )
            gains.append(costs.chance(after, table, weights, event_day) - before)
        return np.array(gains).T, np.array(seconds[1:]).T


def odds(forecast, demanded_share):
    """Return the probability that the true share reaches ``demanded_share``; ``forecast`` is an ``AreaOutlook``."""
    return float(normal_share(np.array((forecast.share - demanded_share) / deviation(forecast))))


def deviation(forecast):
    """Return the standard deviation that the interval of an ``AreaOutlook`` stands for."""
    # One end of the interval may be cut off at 0 or 1; the other then tells how wide it is.
    return max(forecast.share - forecast.low, forecast.high - forecast.share, 1e-6) / HALF_WIDTH


def _with_limit(spec, standard):
    return replace(spec, limit_s=spec.limit_s * standard.demand(spec.area).time_factor)


def _cheapest(gain, cost, missing):
    """Return the seconds of the cheapest practices whose gains sum to ``missing``; None where all do not."""
    if missing <= 0:
        return 0.0
    best = np.argmax(gain / cost, axis=1)
    each = np.arange(len(gain))
    gains, costs = np.maximum(gain[each, best], 0.0), cost[each, best]
    order = np.argsort(-gains / costs)
    reached = np.cumsum(gains[order])
    if reached[-1] < missing:
        gains, costs = np.maximum(gain[:, -1], 0.0), cost[:, -1]
        order = np.argsort(-gains / costs)
        reached = np.cumsum(gains[order])
        if reached[-1] < missing:
            return None
    return float(np.cumsum(costs[order])[np.searchsorted(reached, missing)])
