"""Draw 10,000 evenings for each Case and check every limit: ``python -m tests.bench.scenarios [COUNT [CASE]]``.

The suite does the same with a few hundred.  Prints per Case how many were drawn, how many broke a limit, how
many milliseconds one took, and how often each thing went wrong; leaves with 1 where a limit was broken.
"""

import sys
import time
from collections import Counter

from trainer.decks import library
from trainer.practice.night.evening import limits
from trainer.practice.night.evening.draw import draw

COUNT = 10_000


def main(count, cases):
    shelf, bad = library.load(), 0
    for case in cases:
        begun, kinds, broken = time.perf_counter(), Counter(), Counter()
        for number in range(count):
            scenario = draw(f"bench {number}", shelf, case=case)
            broken.update(limits.faults(scenario, shelf))
            kinds.update(one.kind for one in scenario.disturbances)
            kinds.update([scenario.ending, f"{scenario.bolters} bolters"])
        each = (time.perf_counter() - begun) / count * 1000
        print(f"Case {case}: {count:,} drawn, {sum(broken.values())} limits broken, {each:.1f} ms each")
        print("   " + ", ".join(f"{kind} {found / count:.0%}" for kind, found in kinds.most_common()))
        bad += sum(broken.values())
        for words, found in broken.items():
            print(f"   {found} × {words}")
    return 1 if bad else 0


if __name__ == "__main__":
    given = [int(word) for word in sys.argv[1:]]
    sys.exit(main(given[0] if given else COUNT, given[1:] or (1, 2, 3)))
