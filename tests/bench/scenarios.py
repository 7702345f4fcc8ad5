"""Draw 10,000 evenings for each Case and check all of them: ``python -m tests.bench.scenarios [COUNT [CASE]]``.

Checked are every limit, and every number against another path (``tests.night.recomputed``: sums by hand and flights
by time steps), for the evening as briefed and after everything that goes wrong.  The suite does the same with a few.
Prints per Case how many were drawn, what broke or disagreed, how many milliseconds one took, and how often each
thing went wrong; leaves with 1 where anything broke.
"""

import sys
import time
from collections import Counter

from tests.night.test_another_path import disagreements
from trainer.decks import library
from trainer.practice.night.evening import limits
from trainer.practice.night.evening.draw import draw
from trainer.practice.night.evening.night import Night

COUNT = 10_000


def main(count, cases):
    shelf, bad = library.load(), 0
    for case in cases:
        begun, kinds, broken, numbers = time.process_time(), Counter(), Counter(), 0
        for number in range(count):
            scenario = draw(f"bench {number}", shelf, case=case)
            broken.update(limits.faults(scenario, shelf))
            for stage in dict.fromkeys((scenario, scenario.stages()[-1])):
                night = Night(stage, shelf)
                broken.update(f"{name} by another path: {found}" for name, found in disagreements(night, shelf).items())
                numbers += len(night.known)
            kinds.update(one.kind for one in scenario.disturbances)
            kinds.update([scenario.ending, f"{scenario.bolters} bolters"])
        each = (time.process_time() - begun) / count * 1000
        print(
            f"Case {case}: {count:,} drawn, {numbers:,} numbers recomputed, {sum(broken.values())} broken,"
            f" {each:.0f} ms of processor each"
        )
        print("   " + ", ".join(f"{kind} {found / count:.0%}" for kind, found in kinds.most_common()))
        bad += sum(broken.values())
        for words, found in broken.most_common(20):
            print(f"   {found} × {words}")
    return 1 if bad else 0


if __name__ == "__main__":
    given = [int(word) for word in sys.argv[1:]]
    sys.exit(main(given[0] if given else COUNT, given[1:] or (1, 2, 3)))
