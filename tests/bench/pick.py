"""How long the choice of the next drill takes, the plan of a day, and a plan towards an event, at 2,000 drills.

    python -m tests.bench.pick [--drills 2000] [--picks 200]

The floor of a pick is one pass over the same beliefs in the same run: the chance of a right answer for every
drill.  A pick is that of the session, its rules included, with what follows an answer.  Times are the processor's, so
that a busy machine tells the same.  Ends with 1 where a goal is missed.
"""

import argparse
import random
import statistics
import time
import tracemalloc

from tests.bench.simulation.product import Kept, outline
from trainer.memory.belief import Beliefs, ItemSpec, update
from trainer.memory.event_plan import EventPlan
from trainer.memory.planner import DailyPlan
from trainer.model import AREAS
from trainer.practice.choosing import Choosing

TODAY = 20_000.0
KINDS = ("recall", "recall", "recall", "computed", "computed", "flow")
WORTH = {"recall": 1.0, "computed": 2.0, "flow": 4.0}


def practised(count, chance):
    """Return (specs, states, learner) of ``count`` drills, three of four of them practised a few times."""
    specs, states, learner = [], {}, None
    for number in range(count):
        kind = KINDS[number % len(KINDS)]
        spec = ItemSpec(id=f"drill-{number}", kind=kind, worth=WORTH[kind], limit_s=30.0, group=f"group-{number // 3}",
                        area=AREAS[number // 200 % len(AREAS)])  # fmt: skip
        specs.append(spec)
        state = None
        for age in sorted((chance.uniform(0.1, 60) for _ in range(chance.randrange(4))), reverse=True):
            score = float(chance.random() < 0.7)
            state, learner = update(state, learner, spec, day=TODAY - age, score=score, seconds=chance.uniform(3, 20))
        if state is not None:
            states[spec.id] = state
    return specs, states, learner


def timed(action):
    """Return (what ``action`` returned, milliseconds)."""
    began = time.process_time()
    result = action()
    return result, (time.process_time() - began) * 1_000


def main():
    """Measure and print."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--drills", type=int, default=2_000)
    parser.add_argument("--picks", type=int, default=200)
    wanted = parser.parse_args()
    chance = random.Random(1)
    specs, states, learner = practised(wanted.drills, chance)
    tracemalloc.start()
    beliefs, loaded_ms = timed(lambda: Beliefs(specs, states, learner))
    held_mb = tracemalloc.get_traced_memory()[0] / 1e6
    tracemalloc.stop()
    _, plan_ms = timed(lambda: DailyPlan(beliefs, day=TODAY, budget_s=300.0))
    floors = [timed(lambda: beliefs.chances(TODAY))[1] for _ in range(5)]
    picks = picked(specs, states, learner, wanted.picks, chance)
    _, event_ms = timed(lambda: EventPlan(beliefs, day=TODAY, event_day=TODAY + 30, budgets_s=1200.0))
    pick, floor = statistics.median(picks), statistics.median(floors)
    print(f"{wanted.drills:,} drills; one pass over all beliefs {floor:.2f} ms: a pick is {pick / floor:.2f} of it")
    print(f"beliefs loaded in {loaded_ms:.0f} ms; the slowest pick took {max(picks):.1f} ms")
    measured = {
        "beliefs held, MB": (held_mb, 15.0),
        "plan of the day, ms": (plan_ms, 2_000.0),
        "plan towards an event, 30 days, ms": (event_ms, 500.0),
        "pick and what follows, median, ms": (pick, 5.0),
    }
    for name, (found, goal) in measured.items():
        print(f"{name:36s} {found:8.1f}   goal {goal:7.0f}{'' if found <= goal else '   MISSED'}")
    return int(any(found > goal for found, goal in measured.values()))


def picked(specs, states, learner, count, chance):
    """Return the milliseconds of each of ``count`` picks of a session over all drills, some of them never met."""
    store = Kept()
    store.beliefs.update(states)
    store.person = learner
    outlines = {spec.id: outline(spec) for spec in specs}
    choosing = Choosing(outlines, store, day=TODAY, minutes=5, order=tuple(outlines))
    taken = []
    for _ in range(count):
        name, found_ms = timed(choosing.pick)
        spec, right = choosing.beliefs.spec(name), chance.random() < 0.7
        state, store.person = update(
            store.beliefs.get(name), store.person, spec, day=TODAY, score=float(right), seconds=8.0
        )
        _, believed_ms = timed(lambda: choosing.believe(name, state, store.person))  # noqa: B023
        _, noted_ms = timed(lambda: choosing.answered(name, right=right))  # noqa: B023
        taken.append(found_ms + believed_ms + noted_ms)
    return taken


if __name__ == "__main__":
    raise SystemExit(main())
