"""How long the choice of the next drill takes, the plan of a day, and a plan towards an event, at 2,000 drills.

    python -m tests.bench.pick [--drills 2000] [--picks 200]

The floor of a pick is one pass over the same beliefs in the same run: the chance of a right answer for every
drill.  Goals: a pick below 10 ms, a day's plan and 30 days' plan below 2 s, beliefs below 50 MB.
"""

import argparse
import random
import statistics
import time
import tracemalloc

from trainer.memory.belief import Beliefs, ItemSpec, update
from trainer.memory.event_plan import EventPlan
from trainer.memory.planner import DailyPlan

TODAY = 20_000.0
KINDS = ("recall", "recall", "recall", "computed", "computed", "flow")
WORTH = {"recall": 1.0, "computed": 2.0, "flow": 4.0}


def practised(count, chance):
    """Return (specs, states, learner) of ``count`` drills, three of four of them practised a few times."""
    specs, states, learner = [], {}, None
    for number in range(count):
        kind = KINDS[number % len(KINDS)]
        spec = ItemSpec(id=f"drill-{number}", kind=kind, worth=WORTH[kind], group=f"group-{number // 3}")
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
    began = time.perf_counter()
    result = action()
    return result, (time.perf_counter() - began) * 1_000


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
    plan, plan_ms = timed(lambda: DailyPlan(beliefs, day=TODAY, budget_s=300.0))
    picks, floors, last = [], [], ()
    for _ in range(wanted.picks):
        name, found_ms = timed(lambda: plan.pick(exclude_ids=last))  # noqa: B023
        last = (name,)
        spec = beliefs.spec(name)
        state, learner = update(
            states.get(name), learner, spec, day=TODAY, score=float(chance.random() < 0.7), seconds=8.0
        )
        states[name] = state
        beliefs.set(name, state, learner)
        _, refresh_ms = timed(lambda: plan.refresh(name))  # noqa: B023
        picks.append(found_ms + refresh_ms)
        floors.append(timed(lambda: beliefs.chances(TODAY))[1])
    _, event_ms = timed(lambda: EventPlan(beliefs, day=TODAY, event_day=TODAY + 30, budgets_s=1200.0))
    pick, floor = statistics.median(picks), statistics.median(floors)
    print(f"{wanted.drills:,} drills")
    print(f"beliefs loaded                 {loaded_ms:8.1f} ms, {held_mb:.1f} MB held      goal 50 MB")
    print(f"plan of the day                {plan_ms:8.1f} ms                   goal 2,000 ms")
    print(f"plan towards an event, 30 days {event_ms:8.1f} ms                   goal 2,000 ms")
    print(f"refresh and pick, median       {pick:8.2f} ms (worst {max(picks):.2f})      goal 10 ms")
    print(f"one pass over all beliefs      {floor:8.2f} ms: a pick is {pick / floor:.2f} of it")


if __name__ == "__main__":
    main()
