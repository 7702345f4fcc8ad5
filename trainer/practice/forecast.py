"""What to expect of a pilot on a date, against a standard: the one forecast that every screen and page tells.

Forecasts are of the drills that were met: what was never asked can only be counted.  How far earlier forecasts leaned
corrects this one (``practice/honesty``); whether an area meets its standard says ``practice/standard_met``.
"""

from collections.abc import Collection, Mapping
from dataclasses import replace
from datetime import datetime
from functools import cached_property
from itertools import islice

import numpy as np

from trainer.decks.standards import Demand, Standard
from trainer.frozen import frozen
from trainer.memory.belief import Beliefs
from trainer.memory.costs import normal_share
from trainer.memory.outlook import LEVEL, PLAN_DOUBT, AreaStandard, outlook
from trainer.model import AREAS, Outline
from trainer.practice import honesty, knowledge, standard_met
from trainer.practice.standard_met import RequiredFlow

HALF_WIDTH = 1.6448536  # standard normal deviate of the interval that an outlook gives (LEVEL)
assert LEVEL == 0.90


@frozen
class AreaForecast:
    """One area on the date: drills ``met`` ``of`` all; the shares are of the drills met, None where none is.

    ``right`` is the share of right answers, between ``low`` and ``high`` with probability ``LEVEL``; ``in_time`` the
    share of the right ones that come in time.  ``chance_right`` and ``chance_in_time`` are the probabilities that each
    reaches what ``demand`` wants.
    """

    area: str
    met: int
    of: int
    demand: Demand
    flows: tuple[RequiredFlow, ...] = ()
    right: float | None = None
    low: float | None = None
    high: float | None = None
    in_time: float | None = None
    chance_right: float = 0.0
    chance_in_time: float = 0.0

    @property
    def chance(self) -> float:
        """Return the probability that both shares reach what is demanded: what errs about one errs about the other."""
        return min(self.chance_right, self.chance_in_time)

    @property
    def deviation(self) -> float:
        """Return the standard deviation that the interval stands for."""
        # One end of the interval may be cut off at 0 or 1; the other then tells how wide it is.
        right, low, high = self.right or 0.0, self.low or 0.0, self.high or 0.0
        return max(right - low, high - right, 1e-6) / HALF_WIDTH

    @cached_property
    def judged(self) -> tuple[str, str]:
        """Return (verdict, reason)."""
        return standard_met.verdict(self)

    @property
    def verdict(self) -> str:
        """Return "ready", "close", "short" or "not known"."""
        return self.judged[0]

    @property
    def why(self) -> str:
        """Return the reason of the verdict in words."""
        return self.judged[1]


@frozen
class Best:
    """What ten minutes now on ``area`` would buy: the drills, and the rise of the share right and of the chance."""

    area: str
    ids: tuple[str, ...]
    share_gain: float
    chance_gain: float


class Forecast:
    """The forecast for the aware instant ``on`` over ``drills`` (outlines by id), seen from the ``clock``'s now.

    ``standard`` sets the demands and the time limits.  Raises ``StorageError`` where damage has changed what is stored.
    """

    def __init__(self, store, drills: Mapping[str, Outline], clock, *, standard: Standard, on: datetime):
        self.now, self.on, self.standard, self.drills = clock.now(), on, standard, dict(drills)
        self.today = knowledge.day_of(self.now)
        self.day = max(self.today, knowledge.day_of(on))
        self.correction = honesty.correction(store, self.now)
        self._store = store
        states, learner = knowledge.known(store)
        specs = [self.limited(spec) for spec in knowledge.specs(self.drills.values())]
        self.beliefs = Beliefs(specs, states, learner)
        self.known = Beliefs([spec for spec in specs if self.beliefs.seen(spec.id)], states, learner)
        homes = {drill.area for drill in self.drills.values()}
        self.names = tuple(area for area in AREAS if area in homes)

    def limited(self, spec):
        """Return the item ``spec`` with the time limit that the standard sets."""
        return replace(spec, limit_s=spec.limit_s * self.standard.demand(spec.area).time_factor)

    @cached_property
    def past(self) -> honesty.Past:
        """Return how honest earlier forecasts were."""
        return honesty.past(self._store)

    @cached_property
    def areas(self) -> tuple[AreaForecast, ...]:
        """Return the ``AreaForecast`` of each area, in the order of a sortie."""
        return tuple(self._area(area) for area in self.names)

    @cached_property
    def overall(self) -> AreaForecast:
        """Return the forecast over all drills met, under the name ""."""
        blank = AreaForecast(area="", met=len(self.known), of=len(self.drills), demand=Demand())
        return self._filled(blank, self._outlook.overall) if self._outlook else blank

    @cached_property
    def verdict(self) -> tuple[str, str]:
        """Return (verdict, sentence) over all areas."""
        return standard_met.overall([(one.area, one.verdict) for one in self.areas])

    @property
    def beyond(self) -> float:
        """Return how many times longer the wait is than any gap seen so far (0: nothing was answered)."""
        return self._outlook.beyond if self._outlook else 0.0

    @cached_property
    def ten_minutes(self) -> tuple[Best, ...]:
        """Return what ten minutes now would buy in each area, the best first; () for today."""
        by = {one.area: one for one in self.areas}
        found = [self._best(one, by[one.area]) for one in (self._outlook.ten_minutes if self._outlook else ())]
        return tuple(sorted(found, key=lambda one: -one.chance_gain))

    def share_now(self, area: str) -> float | None:
        """Return the share right of the drills met of ``area`` if they were asked now."""
        rows = self._rows(area)
        return float(self._right(self.today)[rows].mean()) if len(rows) else None

    def chances(self, day: float) -> np.ndarray:
        """Return the chance of a right answer, in time or not, of each of all drills [drills] on ``day``."""
        return self.correction.apply(self.beliefs.chances(day))

    @cached_property
    def right(self) -> np.ndarray:
        """Return the ``chances`` on the date."""
        return self.chances(self.day)

    @cached_property
    def clean(self) -> np.ndarray:
        """Return the chance of a right answer in time of each of all drills [drills] on the date."""
        return self.right * self.beliefs.pass_chances(self.day) / np.maximum(self.beliefs.chances(self.day), 1e-9)

    def kept(self, plan, areas: Collection[str] | None = None) -> tuple[AreaForecast, ...]:
        """Return the ``AreaForecast`` of each of ``areas`` if ``plan`` (an ``EventPlan`` to the date) is kept to.

        Drills that the plan begins count as met; a required flow counts as whole where the plan makes it likely.
        """
        right, clean, planned = self._with(plan)
        return tuple(self._kept(one, right, clean, planned) for one in self.areas if areas is None or one.area in areas)

    def _with(self, plan):
        """Return (right, clean, planned) [drills]: chances if the plan is kept to, and whether it asks for each."""
        of = plan.beliefs
        places = np.array([of.index(name) if of.has(name) else -1 for name in self.beliefs.ids], dtype=int)
        inside = places >= 0
        gain, planned = np.zeros(len(places)), np.zeros(len(places), dtype=bool)
        rise = (plan.chances - plan.bare_chances) / np.maximum(1.0 - plan.bare_chances, 1e-9)
        gain[inside] = np.maximum(rise[places[inside]], 0.0)
        planned[inside] = plan.is_planned[places[inside]]
        clean = self.clean + (1.0 - self.clean) * gain
        # What was right but late becomes rarer as the room for it shrinks.
        return clean + (self.right - self.clean) * (1.0 - gain), clean, planned

    def _kept(self, bare, right, clean, planned):
        seen = np.array([self.beliefs.seen(name) for name in self.beliefs.ids], dtype=bool)
        mine = np.array([spec.area == bare.area for spec in self.beliefs.specs], dtype=bool) & (seen | planned)
        if not mine.any():
            return bare
        share = float(right[mine].mean())
        gain = max(0.0, share - float(self.right[mine].mean()))
        deviation = np.hypot(bare.deviation if bare.right is not None else 0.1, PLAN_DOUBT * gain)
        whole = dict(zip(self.beliefs.ids, clean, strict=True))
        flows = tuple(replace(flow, whole=flow.whole or whole[flow.id] >= standard_met.SURE) for flow in bare.flows)
        half = HALF_WIDTH * deviation
        return self._judged(
            replace(bare, met=int(mine.sum()), flows=flows, right=share, low=max(0.0, share - half),
                    high=min(1.0, share + half), in_time=float(clean[mine].sum() / right[mine].sum())),
            deviation,
        )  # fmt: skip

    @cached_property
    def _outlook(self):
        if not len(self.known):
            return None
        standards = [AreaStandard(area=area, share=self.standard.demand(area).share) for area in self.names]
        return outlook(self.known, day=self.today, on=self.day, standards=standards, chances=self._right(self.day))

    def _right(self, day):
        return self.correction.apply(self.known.chances(day))

    def _rows(self, area):
        return np.array([at for at, spec in enumerate(self.known.specs) if area in ("", spec.area)], dtype=int)

    def _area(self, area):
        blank = AreaForecast(
            area=area,
            met=len(self._rows(area)),
            of=sum(drill.area == area for drill in self.drills.values()),
            demand=self.standard.demand(area),
            flows=tuple(self._flow(flow) for flow in self.standard.required if self._is_of(flow, area)),
        )
        found = next((one for one in (self._outlook.areas if self._outlook else ()) if one.area == area), None)
        return self._filled(blank, found) if found else blank

    def _is_of(self, flow, area):
        return flow in self.drills and self.drills[flow].area == area

    def _filled(self, blank, found):
        rows = self._rows(blank.area)
        right = self._right(self.day)[rows]
        soon = self.known.pass_chances(self.day, rows) / np.maximum(self.known.chances(self.day, rows), 1e-9)
        filled = replace(
            blank, right=found.share, low=found.low, high=found.high, in_time=float((right * soon).sum() / right.sum())
        )
        return self._judged(filled, filled.deviation)

    @staticmethod
    def _judged(area, deviation):
        """Return ``area`` with its chances: both shares err by the same ``deviation``."""
        over = area.right - area.demand.share, area.right * (area.in_time - area.demand.in_time)
        of_right, of_time = (float(normal_share(np.array(one / deviation))) for one in over)
        return replace(area, chance_right=of_right, chance_in_time=of_time)

    def _best(self, found, area):
        more = self._judged(replace(area, right=min(1.0, area.right + found.share_gain)), area.deviation)
        return Best(
            area=area.area, ids=found.ids, share_gain=found.share_gain, chance_gain=max(0.0, more.chance - area.chance)
        )

    def _flow(self, flow):
        latest = list(islice(self._store.reviews(drill=flow, newest_first=True), standard_met.FLOW_ANSWERS))
        whole = bool(latest) and all(standard_met.is_whole(one.score, one.mode) for one in latest)
        return RequiredFlow(id=flow, title=self.drills[flow].label, answers=len(latest), whole=whole)
