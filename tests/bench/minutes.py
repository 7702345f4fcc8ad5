"""Do the minutes said reach the standard?  Learners of hidden memory practise as long as they were told to.

    python -m tests.bench.minutes [LEARNERS]

Every learner has practised for some weeks, or not at all, and is told how many minutes meeting the standard takes until
a date a week ahead; they then practise those minutes with the planner, and their true memory on the date is compared
with what is demanded.  Said to be right, the minutes reach the standard in 60 to 90 of 100 cases.
"""

import sys
from dataclasses import replace
from types import SimpleNamespace

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


def course(family, days, seed):
    """Return (minutes said, true share, share without) of one learner; NaN minutes where none were thought enough."""
    items = specs((1.0, 1.0, 1.0))
    people = People.born(FAMILIES[family], items, 1, seed)
    rule = Planned(people, items, np.random.default_rng(seed + 1), DailyAgenda())
    over = np.zeros(1)
    for day in range(days):
        over = session(people, rule, EPOCH + day, 5.0, over)
    now = float(EPOCH + days)
    told = Told(rule, now, rule._corrections()[0] if days else Recalibration())
    said = minutes_needed.of(told).by_area["fuel"]
    ids = set(minutes_needed.wanted_ids(told, told.areas))
    counted = np.array([spec.id in ids for spec in items])
    rule.worth = np.where(counted, 1.0, 1e-6)
    idle = people.chances(now + AHEAD)[0, counted].mean()
    rule.agenda, rule.prices = EventAgenda(now + np.arange(AHEAD, dtype=float), now + AHEAD), None
    over = np.zeros(1)
    for day in range(AHEAD):
        over = session(people, rule, now + day, (60.0 if said is None else said) / AHEAD, over)
    return np.nan if said is None else said, people.chances(now + AHEAD)[0, counted].mean(), idle


def main(learners):
    """Print a line per family and length of practice."""
    print("family        days  minutes said (median)  none said  true share  without  reached")
    hits = []
    for family in SHOWN:
        for days in (0, 4, 20):
            said, true, idle = np.array([course(family, days, 100 + one) for one in range(learners)]).T
            known = ~np.isnan(said) & (said > 0)
            reached = list(true[known] >= DEMAND.share)
            hits += reached
            print(f"{family:12}  {days:4}  {np.nanmedian(said):10.0f}             {np.isnan(said).mean():8.0%}"
                  f"  {true.mean():10.2f}  {idle.mean():7.2f}  {np.mean(reached or [np.nan]):.0%}")  # fmt: skip
    print(f"all: reached in {np.mean(hits):.0%} of {len(hits)} cases")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 6)
