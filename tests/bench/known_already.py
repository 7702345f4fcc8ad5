"""What a series of five minutes finds out: how much of a stage a pilot who knows it is done with after one evening.

Three pilots go through the real session (decks, stage, store, clock): one knows nine drills in ten, one knows none and
guesses, one knows none and says so.  ``done`` is what was answered right or what a right answer spoke for; the easy
half of the core are the drills of its lowest levels.

    python -m tests.bench.known_already [--stage day-departure] [--evenings 1] [--seeds 8]
"""

import argparse
import random
import tempfile
from datetime import UTC, datetime, timedelta
from pathlib import Path
from statistics import fmean

from tests.bench.months import Ticking
from trainer.decks import library
from trainer.model import ON_THE_NUMBER, OUTSIDE_LIMITS, Grade
from trainer.practice import find_out, knowledge, standing
from trainer.practice.session import Session
from trainer.practice.stage import CHOSEN, Syllabus
from trainer.practice.wish import Wish
from trainer.store.store import Store

START = datetime(2030, 3, 1, 19, tzinfo=UTC)
SECONDS = {"recall": 6.0, "computed": 14.0, "flow": 16.0}  # of a question that is known, reading and verdict included
PILOTS = {"knows 9 of 10": 0.9, "guesses": 0.0, "says so": 0.0}
LUCKY = 0.02  # chance of hitting a number or a wording that nobody offers


def evening(store, clock, shelf, right_at, wish):
    """Run one session; return {drill id: right at the first asking} in order."""
    session = Session(store=store, clock=clock, wish=wish, load_library=lambda: shelf, signature="bench")
    first = {}
    while (question := session.next()) is not None:
        right = right_at(question)
        clock.instant += timedelta(seconds=SECONDS[question.kind] * (1.0 if right else 1.8))
        if right is None:
            session.give_up(SECONDS[question.kind])
        else:
            grade = Grade(verdict=ON_THE_NUMBER if right else OUTSIDE_LIMITS, score=float(right))
            session._record(question, grade, "", SECONDS[question.kind])
        first.setdefault(question.drill_id, bool(right))
    return first


def answering(pilot, core, rng):
    """Return the function that answers as ``pilot`` does: True, False, or None for "I don't know"."""
    known = {one for one in core if rng.random() < PILOTS[pilot]}

    def right_at(question):
        if pilot == "says so":
            return None
        if question.drill_id in known:
            return rng.random() < 0.97
        return rng.random() < (1.0 / len(question.choices) if question.choices else LUCKY)

    return right_at


def one_run(pilot, shelf, stage, seed, evenings):
    """Return the figures of one pilot as a dict."""
    with tempfile.TemporaryDirectory() as folder:
        clock = Ticking(START)
        with Store.open(Path(folder), clock=clock) as store:
            store.set_setting(CHOSEN, stage)
            core = Syllabus(shelf, None, stage).members().core
            easy = set(sorted(core, key=lambda one: shelf.outlines[one].level)[: len(core) // 2])
            right_at, asked = answering(pilot, core, random.Random(seed)), {}
            for number in range(evenings):
                clock.instant = START + timedelta(days=number)
                asked |= evening(store, clock, shelf, right_at, Wish(minutes=5, find_out=True, seed=f"{seed}-{number}"))
            spoken = find_out.spoken_for(store)
            done = ({one for one, right in asked.items() if right} | spoken) & set(core)
            beliefs = knowledge.beliefs([shelf.outlines[one] for one in core], store)
            holds, _ = standing.counted(core, beliefs, knowledge.day_of(clock.now()) + 1.0)
            before = set(asked)
            clock.instant = START + timedelta(days=evenings)
            later = evening(store, clock, shelf, right_at, Wish(minutes=5, seed=f"{seed}-later"))
            new = [one for one in later if one not in before]
    return {
        "core": len(core), "asked": len(asked), "right": sum(asked.values()), "spoken for": len(spoken),
        "done": len(done) / len(core), "easy half done": len(done & easy) / len(easy), "holds": holds / len(core),
        "new next evening": len(new), "of these easy": sum(one in easy for one in new),
    }  # fmt: skip


def main():
    """Print the table."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--stage", default="day-departure")
    parser.add_argument("--evenings", type=int, default=1)
    parser.add_argument("--seeds", type=int, default=8)
    options = parser.parse_args()
    shelf = library.load()
    names = None
    for pilot in PILOTS:
        runs = [one_run(pilot, shelf, options.stage, seed, options.evenings) for seed in range(1, options.seeds + 1)]
        if names is None:
            names = list(runs[0])
            print(f"{options.stage}, {options.evenings} evening(s), means over seeds 1-{options.seeds}")
            print(f"{'':14}" + "".join(f"{name:>17}" for name in names))
        print(f"{pilot:14}" + "".join(f"{fmean(run[name] for run in runs):17.2f}" for name in names), flush=True)


if __name__ == "__main__":
    main()
