"""The minutes that it takes to meet the standard, worked out by the planner that will be followed.

The plan towards the date is asked what it would do at one price of a second after another; at the first price at which
an area meets its standard, the seconds that it spends on that area are what the area takes.
"""

from collections.abc import Mapping
from dataclasses import field

import numpy as np

from trainer.frozen import frozen
from trainer.memory import costs, event_slots
from trainer.memory.belief import Beliefs
from trainer.memory.event_plan import practice_days
from trainer.memory.outlook import as_renewed
from trainer.practice import standard_met
from trainer.practice.forecast import Forecast

PRICES = 14
CHEAPEST = 1e-4  # of the dearest price: what is worth less is not worth a second
DRAWS = 3  # of what a drill may be
# On the bench (tests/bench/minutes) what the plan asks for reached the standard half the time; so much more is said.
SPARE = 1.4
LEAST_RISE = 0.01  # of the nearness to the standard; what brings less is not told
# What is bought is expected to be so far above what is demanded; no practice makes an area surer than the most.
MARGIN, MOST_SHARE = 0.02, 0.95


@frozen
class Needed:
    """Minutes ``by_area``, None where no practice until the date is expected to be enough.

    ``planned`` are the minutes until then that are meant for it (None: no event is set).  ``at_best`` tells for the
    areas out of reach (minutes, share right, share of it in time): what all the practice that helps would take, and
    lead to.
    """

    by_area: Mapping[str, float | None] = field(default_factory=dict)
    at_best: Mapping[str, tuple[float, float, float]] = field(default_factory=dict)
    planned: float | None = None

    @property
    def total(self) -> float:
        """Return the minutes of all areas; of those out of reach, what all the practice that helps takes."""
        return sum(self._each.values())

    @property
    def _each(self):
        at_best = {area: minutes for area, (minutes, *_) in self.at_best.items()}
        return {area: at_best.get(area, 0.0) if one is None else one for area, one in self.by_area.items()}

    @property
    def out_of_reach(self) -> tuple[str, ...]:
        """Return the areas that no practice until the date is expected to bring to the standard."""
        return tuple(area for area, minutes in self.by_area.items() if minutes is None)

    @property
    def dropped(self) -> tuple[str, ...]:
        """Return the areas to leave, so that the rest fits into the minutes planned.

        Emergencies are the last to go; what no practice brings to the standard is the first, then what takes most.
        """
        if self.planned is None or self.total <= self.planned:
            return ()
        each, left, dropped = self._each, self.planned, []
        for area in sorted(each, key=lambda one: (one != "emergency", self.by_area[one] is None, each[one])):
            left -= each[area]
            if left < 0:
                left += each[area]
                dropped.append(area)
        return tuple(area for area in self.by_area if area in dropped)

    @property
    def advice(self) -> str:
        """Return in words what to leave; where nothing fits whole, what to begin with."""
        if len(self.dropped) < sum(minutes > 0 for minutes in self._each.values()):
            return f"drop {', '.join(self.dropped)}"
        least = min(self.dropped, key=lambda area: (self.by_area[area] is None, self._each[area]))
        return f"no area fits whole, begin with {least}"


def told(needed: Needed, *, by_area: bool = True) -> list[str]:
    """Return in sentences what it takes (``by_area`` too), beside what is planned, and what to leave."""
    if not needed.total and not needed.out_of_reach:
        return ["Every area meets its standard: no more practice is needed for it."]
    line = f"To meet the standard takes about {_minutes(needed.total)}"
    if needed.planned is not None:
        line += f"; {_minutes(needed.planned)} are planned until then"
        enough = ", which is enough" + (" for the rest" if needed.out_of_reach else "")
        line += f": {needed.advice}" if needed.dropped else enough
    each = ", ".join(f"{area} {_minutes(one)}" for area, one in needed.by_area.items() if one and by_area)
    lines = [f"{line}{f' ({each})' if each else ''}."]
    if needed.out_of_reach:
        each = ", ".join(f"{area}{_at_best(needed.at_best.get(area))}" for area in needed.out_of_reach)
        lines.append(f"No practice until then is sure to be enough for {each}.")
    return lines


def _at_best(found):
    return f" ({_minutes(found[0])}: {found[1]:.0%} right, {found[2]:.0%} in time)" if found else ""


def _minutes(value):
    return f"{max(1.0, value):.0f} min" if value < 90 else f"{value / 60:.1f} h"


def of(forecast: Forecast, *, planned: float | None = None) -> Needed:
    """Return what every area of ``forecast`` takes until its date; ``planned`` minutes are meant for it."""
    short = [one for one in forecast.areas if one.verdict != standard_met.READY]
    by_area: dict[str, float | None] = {one.area: 0.0 for one in forecast.areas}
    found, at_best = dict.fromkeys(one.area for one in short), {}
    if short and forecast.day > forecast.today:
        found, at_best = _searched(forecast, short)
    return Needed(by_area=by_area | found, at_best=at_best, planned=planned)


def _searched(forecast, short):
    """Return ({area: minutes, None where none are enough}, what is at best led to in the areas out of reach)."""
    followed = _Followed(forecast, wanted_ids(forecast, short))
    areas = np.array([spec.area for spec in followed.beliefs.specs])
    found: dict[str, float | None] = dict.fromkeys(one.area for one in short)
    at_best, nearest, dearest = {}, {}, followed.dearest()
    least = {one.area: max(1.0, _recitals_min(forecast, one.flows)) for one in short}
    for price in np.geomspace(dearest, dearest * CHEAPEST, PRICES):
        followed.buy(price)
        for one in forecast.kept(followed, [area for area, minutes in found.items() if minutes is None]):
            minutes = max(least[one.area], SPARE * float(followed.seconds[areas == one.area].sum()) / 60.0)
            if _is_enough(one):
                found[one.area] = minutes
            elif one.right is not None and _nearness(one) > nearest.get(one.area, 0.0) + LEAST_RISE:
                nearest[one.area], at_best[one.area] = _nearness(one), (minutes, one.right, one.in_time)
        if None not in found.values():
            break
    return found, {area: best for area, best in at_best.items() if found[area] is None}


def _recitals_min(forecast, flows):
    """Return the minutes in which those of ``flows`` that are not whole are recited as often as makes them so."""
    limits_s = [forecast.beliefs.spec(flow.id).limit_s for flow in flows if not flow.whole]
    return standard_met.FLOW_ANSWERS * sum(limits_s) / 60.0


class _Followed:
    """The plan as it will be followed: made anew every day from what the answers have shown.

    A plan that is made once takes every drill for a mean of all that it may be, and so finds no practice that makes a
    hard one sure.  Here each drill stands for ``DRAWS`` of what it may be, drawn from the belief; each of them is
    planned for as if the answers had shown it already.  What is chosen, at the price of a second, is what the planner
    of ``EventPlan`` chooses at that price.
    """

    def __init__(self, forecast, ids):
        beliefs = forecast.beliefs
        mine = np.flatnonzero(np.isin(np.array(beliefs.ids, dtype=object), list(ids)))
        self.beliefs = Beliefs([beliefs.specs[place] for place in mine])  # for ids and places only
        drawn = np.repeat(mine, DRAWS)
        part = beliefs.rows[drawn], beliefs.table.rows(drawn), beliefs.learner_rows(len(drawn))
        weights = _drawn(beliefs.weights[drawn], len(mine))
        self._days = practice_days(forecast.today, forecast.day)
        runs = [float(np.mean(run)) for run in event_slots.grouped(self._days)]
        roller = event_slots.roller_until(forecast.today, runs, forecast.day)
        wishes = np.zeros((len(drawn), 2))
        wishes[:, event_slots.KEPT_FOR] = 1.0
        outlay = roller.outlay(*part, weights, forecast.today, wishes)
        self._gain = (outlay.reward - outlay.reward[:, :1]) * part[1].worth[:, None]
        self._seconds = _of_templates(roller.tree, outlay.seconds)
        self._promised = outlay.by_purpose[event_slots.ON_THE_DAY]
        self._bare = costs.pass_chance(*part, weights, forecast.day)
        self._correction = forecast.correction
        self.bare_chances = _mean(self._correction.apply(self._bare))

    def dearest(self):
        """Return the price of a second from which on nothing is worth practising."""
        return float((self._gain[:, 1:] / np.maximum(self._seconds[:, 1:], 1e-9)).max(initial=1e-9))

    def buy(self, price):
        """Take what is worth ``price`` a second: sets ``chances``, ``is_planned`` and ``seconds`` [drills]."""
        chosen, each = (self._gain - price * self._seconds).argmax(1), np.arange(len(self._gain))
        kept = as_renewed(self._promised[each, chosen], self._bare, self._correction, len(self._days))
        self.chances = _mean(np.where(chosen > 0, kept, self._correction.apply(self._bare)))
        self.seconds = _mean(self._seconds[each, chosen])
        self.is_planned = (chosen > 0).reshape(-1, DRAWS).any(1)


def _of_templates(tree, seconds):
    """Return the seconds [rows, templates] of each template: those of its beginning and of its last practice."""
    found = seconds.copy()
    for nodes in tree.levels:
        found[:, nodes] += found[:, tree.parent[nodes]]
    return found


def _drawn(weights, drills):
    """Return weights [rows, hypotheses] that are 1 for the one that is drawn, evenly spread over each drill's draws."""
    start = np.repeat(np.random.default_rng(drills).random(drills), DRAWS)
    marks = (np.tile(np.arange(DRAWS), drills) + start) / DRAWS
    picked = (weights.cumsum(1) < marks[:, None]).sum(1)
    return np.eye(weights.shape[1])[np.minimum(picked, weights.shape[1] - 1)]


def _mean(values):
    return values.reshape(-1, DRAWS).mean(1)


def wanted_ids(forecast, short):
    """Return what there is to practise: drills met, required flows, and as many new drills as the standard wants."""
    wanted = {one.area: standard_met.drills_wanted(one) - one.met for one in short}
    flows = {flow.id for one in short for flow in one.flows if not flow.whole}
    found = []
    for drill in forecast.drills.values():
        new = not forecast.beliefs.seen(drill.id)
        if drill.area in wanted and (not new or drill.id in flows or wanted[drill.area] > 0):
            found.append(drill.id)
            wanted[drill.area] -= new and drill.id not in flows
    return found


def _nearness(one):
    """Return how near an ``AreaForecast`` comes to the standard: 1 for each demand that is met, less for less."""
    wanted = standard_met.drills_wanted(one)
    shares = (one.met / wanted, one.right / max(one.demand.share, 1e-9), one.in_time / max(one.demand.in_time, 1e-9))
    whole = sum(flow.whole for flow in one.flows) / len(one.flows) if one.flows else 1.0
    return whole + sum(min(1.0, share) for share in shares)


def _is_enough(one):
    """Return whether the ``AreaForecast`` of a plan that is kept is enough to call the area ready."""
    return (
        one.right is not None
        and one.met >= standard_met.drills_wanted(one)
        and all(flow.whole for flow in one.flows)
        and one.right >= min(MOST_SHARE, one.demand.share + MARGIN)
        and one.in_time >= min(MOST_SHARE, one.demand.in_time + MARGIN)
    )
