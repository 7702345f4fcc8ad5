"""Do the minutes said reach the standard?  Learners of hidden memory practise as long as they were told to.

    python -m tests.bench.minutes [LEARNERS]

Every learner has practised for some weeks, or not at all, and is told how many minutes meeting the standard takes until
a date a week ahead; they then practise those minutes with the planner, and their true memory on the date is compared
with what is demanded.  Where they are said to be enough they reach the standard in 60 to 90 of 100 cases; where nothing
is sure to be enough, the share that is said to come of all that helps stands beside the share that comes.
"""

import sys
from dataclasses import replace
from types import SimpleNamespace
from typing import NamedTuple

import numpy as np

from tests.bench.simulation.agendas import DailyAgenda, EventAgenda
from tests.bench.simulation.course import EPOCH, session
from tests.bench.simulation.families import FAMILIES
from tests.bench.simulation.planners import Planned
from tests.bench.simulation.world import People, specs
from trainer.decks.standards import Demand, Standard
from trainer.memory import states
from trainer.memory.belief import Beliefs
from trainer.memory.learner import bytes_of
from trainer.memory.reliability import Recalibration
from trainer.model import AREAS
from trainer.practice import minutes_needed
from trainer.practice.forecast import Forecast

SHOWN = ("PPE", "DASH-like", "MCM", "fluctuation", "two speeds")
DEMAND = Demand(share=0.8, met=0.5)
STANDARD = Standard(name="bench", title="bench", path="", demands=dict.fromkeys(AREAS, DEMAND))
AHEAD = 7
GOAL = (0.60, 0.90)
ITEMS = tuple(
    SimpleNamespace(**{name: getattr(spec, name) for name in spec.__dataclass_fields__} | {"area": "fuel"})
    for spec in specs((1.0, 1.0, 1.0))
)


class Told(Forecast):
    """A forecast from the state of one learner of the bench instead of a store."""

    def __init__(self, rule, day, correction):
        self.standard, self.today, self.day, self.correction = STANDARD, day, day + AHEAD, correction
        items = [replace(spec, area="fuel") for spec in specs((1.0, 1.0, 1.0))]
        seen = {spec.id: bytes_of(row) for spec, row in zip(items, rule.rows, strict=True) if row[states.COUNT] > 0}
        state = bytes_of(rule.learner_rows[0])
        self.beliefs = Beliefs(items, seen, state)
        self.known = Beliefs([spec for spec in items if spec.id in seen], seen, state)
        self.drills = {one.id: one for one in ITEMS}
        self.names = ("fuel",)


class Came(NamedTuple):
    """What came of the minutes told to one learner: shares are of the drills that count, on the date.

    ``sure`` is whether the minutes were said to be enough; else they are all that helps, and ``foretold`` is the share
    right that was said to come of them.
    """

    minutes: float
    sure: bool
    foretold: float
    true: float
    without: float


def course(family, days, seed):
    """Return what ``Came`` of one learner."""
    items = specs((1.0, 1.0, 1.0))
    people = People.born(FAMILIES[family], items, 1, seed)
    rule = Planned(people, items, np.random.default_rng(seed + 1), DailyAgenda())
    over = np.zeros(1)
    for day in range(days):
        over = session(people, rule, EPOCH + day, 5.0, over)
    now = float(EPOCH + days)
    told = Told(rule, now, rule._corrections()[0] if days else Recalibration())
    needed = minutes_needed.of(told)
    ids = set(minutes_needed.wanted_ids(told, told.areas))
    counted = np.array([spec.id in ids for spec in items])
    rule.worth = np.where(counted, 1.0, 1e-6)
    idle = people.chances(now + AHEAD)[0, counted].mean()
    rule.agenda, rule.prices = EventAgenda(now + np.arange(AHEAD, dtype=float), now + AHEAD), None
    over = np.zeros(1)
    for day in range(AHEAD):
        over = session(people, rule, now + day, needed.total / AHEAD, over)
    foretold = needed.at_best["fuel"][1] if "fuel" in needed.at_best else DEMAND.share
    return Came(needed.total, not needed.out_of_reach, foretold, people.chances(now + AHEAD)[0, counted].mean(), idle)


def main(learners):
    """Print a line per family and length of practice; return 1 where the minutes are wrong in the end."""
    print("family        days  minutes (median)  sure  foretold  true share  without  reached")
    every = []
    for family in SHOWN:
        for days in (0, 4, 20):
            came = [one for one in (course(family, days, 100 + seed) for seed in range(learners)) if one.minutes > 0]
            every += came
            minutes, sure, foretold, true, without = map(np.array, zip(*came, strict=True))
            print(f"{family:12}  {days:4}  {np.median(minutes):16.0f}  {sure.mean():4.0%}  {foretold.mean():8.2f}"
                  f"  {true.mean():10.2f}  {without.mean():7.2f}  {_reached(came):7.0%}", flush=True)  # fmt: skip
    sure, rest = [one for one in every if one.sure], [one for one in every if not one.sure]
    said = _reached(sure)
    print(f"said to be enough: reached in {said:.0%} of {len(sure)} cases")
    foretold, true = (np.mean([getattr(one, name) for one in rest] or [np.nan]) for name in ("foretold", "true"))
    print(
        f"said not to be sure: {foretold:.0%} foretold, {true:.0%} came, reached in {_reached(rest):.0%} of {len(rest)}"
    )
    return 0 if GOAL[0] <= said <= GOAL[1] else 1


def _reached(came):
    return np.mean([one.true >= DEMAND.share for one in came] or [np.nan])


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else 6))
