"""Two months of five minutes a day through the real session: how much of the stage is met and held.

Only the person is simulated: memory of a family of the simulation bench, seconds and slips by kind of drill.  Decks,
stages, session, store and clock are those of the product.

    python -m tests.bench.months [--days 60] [--minutes 5] [--family MCM] [--stage day-departure] [--seeds 1]
"""

import argparse
import itertools
import tempfile
from collections import Counter
from datetime import UTC, datetime, timedelta
from pathlib import Path

import numpy as np

from tests.bench.simulation import kinds
from tests.bench.simulation.families import FAMILIES
from tests.bench.simulation.world import People
from trainer.clock import StillClock
from trainer.decks import library
from trainer.memory.items import KINDS
from trainer.model import ON_THE_NUMBER, OUTSIDE_LIMITS, Grade
from trainer.practice import knowledge
from trainer.practice.session import Session
from trainer.practice.stage import CHOSEN, Syllabus
from trainer.practice.wish import Wish
from trainer.store.store import Store

START = datetime(2030, 3, 1, 19, tzinfo=UTC)
FLUENT_S = np.array((6.0, 14.0, 16.0))  # of one question, by kind; a flow is mostly asked a step at a time
HELD = 0.8  # true chance of a right answer from which on a drill is held
KNOWN = {"novice": 0.03, "half-known": 0.5, "expert": 0.95}  # share of drills that a learner knew before


class Ticking(StillClock):
    """A clock that measures, and moves only when it is told to."""

    measures = True


class Person:
    """One simulated learner who answers the questions of real sessions."""

    def __init__(self, family, shelf, seed, known):
        self.places = {name: place for place, name in enumerate(shelf.drills)}
        items = knowledge.specs(list(shelf.drills.values()))
        self.people = People.born(family, items, 1, seed)
        self.people.known = np.random.default_rng(seed + 1).random(len(items)) < known
        self.kind = [KINDS.index(drill.kind) for drill in shelf.drills.values()]

    def answer(self, drill_id, day):
        """Return (right, seconds to the answer, seconds in all), and learn from it."""
        place = self.places[drill_id]
        right, answer_s, whole_s = self.people.answer(np.array([place]), np.array([day]))
        faster = FLUENT_S[self.kind[place]] / kinds.FLUENT_S[self.kind[place]]
        return bool(right[0]), float(answer_s[0]) * faster, float(whole_s[0]) * faster

    def held(self, ids, day):
        """Return which of ``ids`` are held on ``day``."""
        chances = self.people.chances(day)[0]
        return [name for name in ids if chances[self.places[name]] >= HELD]


def practise(store, clock, shelf, person, minutes):
    """Run one session; return [(drill id, right, whether it was new)]."""
    known = set(knowledge.known(store)[0])
    wish = Wish(minutes=minutes)
    session = Session(store=store, clock=clock, wish=wish, load_library=lambda: shelf, signature="bench")
    answers = []
    while (question := session.next()) is not None:
        right, answer_s, whole_s = person.answer(question.drill_id, knowledge.day_of(clock.now()))
        clock.instant += timedelta(seconds=answer_s)
        session._record(question, _grade(question, right), question.truth_text, answer_s)
        clock.instant += timedelta(seconds=max(0.0, whole_s - answer_s))
        answers.append((question.drill_id, right, question.drill_id not in known))
        known.add(question.drill_id)
    session.finish()
    return answers


def _grade(question, right):
    verdict = ON_THE_NUMBER if right else OUTSIDE_LIMITS
    return Grade(verdict=verdict, score=float(right), value=question.truth_text, deviation=None)


def live(shelf, family, known, *, seed, days, minutes, stage, tell):
    """Let one learner practise daily; ``tell(day, line)`` is handed the figures of days 5, 10, 20 …."""
    syllabus = Syllabus(shelf, None, stage)
    core, order = syllabus.members().core, syllabus.order()
    person, clock, log = Person(family, shelf, seed, known), Ticking(START), []
    with tempfile.TemporaryDirectory() as folder:
        with Store.open(Path(folder), clock=clock) as store:
            store.set_setting(CHOSEN, stage)
        for day in range(1, days + 1):
            with Store.open(Path(folder), clock=clock) as store:
                log.append(practise(store, clock, shelf, person, minutes))
                met = set(knowledge.known(store)[0])
            clock.instant = START + timedelta(days=day)
            if day in (1, 2, 5, 30) or day % 10 == 0:
                tell(day, figures(log, met, core, order, person, knowledge.day_of(clock.now()), shelf))
    return log


def figures(log, met, core, order, person, day, shelf):
    """Return one line about the days so far."""
    lately = log[-10:]
    answers = [one for session in lately for one in session]
    reviews = [right for _, right, new in answers if not new]
    runs = [len(list(run)) for s in lately for _, run in itertools.groupby(shelf.drills[name].area for name, _, _ in s)]
    staged = set(core)
    kinds_met = Counter(shelf.drills[name].kind for name in met)
    share = np.mean([name in staged for name, _, _ in answers])
    met_of = ", ".join(f"{kinds_met[kind]} {kind}" for kind in KINDS)
    right = f"{np.mean(reviews):4.0%}" if reviews else "none"
    return (
        f"met {len(met):4} ({met_of}) · core met {len(met & staged):3}"
        f" held {len(person.held(core, day)):3} of {len(core)} · all held {len(person.held(met, day)):4}"
        f" · last ten days: {len(answers) / len(lately):4.1f} a day,"
        f" {sum(new for *_, new in answers) / len(lately):3.1f} new,"
        f" reviews right {right}, of the core {share:4.0%}, longest run {max(runs)}"
    )


def main():
    """Run the months and print them."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--days", type=int, default=60)
    parser.add_argument("--minutes", type=float, default=5.0)
    parser.add_argument("--family", action="append", choices=sorted(FAMILIES))
    parser.add_argument("--learner", action="append", choices=tuple(KNOWN))
    parser.add_argument("--stage", default="day-departure")
    parser.add_argument("--seeds", type=int, default=1)
    options = parser.parse_args()
    shelf = library.load()
    for family, learner, seed in itertools.product(
        options.family or ["MCM", "power law", "fluctuation"], options.learner or KNOWN, range(1, options.seeds + 1)
    ):
        print(f"{family}, {learner}, seed {seed}", flush=True)
        live(
            shelf, FAMILIES[family], KNOWN[learner], seed=seed, days=options.days, minutes=options.minutes,
            stage=options.stage, tell=lambda day, line: print(f"  day {day:2}: {line}", flush=True),
        )  # fmt: skip


if __name__ == "__main__":
    main()
