"""python -m tests.bench.reading: how typed text is read, on everything there is; the tests take samples of it.

Every call in thirty draws, right in every form and with one thing wrong; the texts of all authors for the steps of all
flows; every step with another thing of the trade in it.  Exit code 1 where less is kept than what is promised.

``--set FILE`` runs the texts of an author who saw only the official wording (``tests.reading.fresh_set`` tells the form
of the file), ``--blank KIND`` prints such a file to be filled in.
"""

import argparse
import sys
from collections import Counter
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path

import pytest

from tests.drills import test_shipped
from tests.reading import calls_varied, fresh_set, held_back, test_exchanged, test_two_thousand
from trainer.decks import library as libraries

DRAWS = 30
LEAST_RIGHT, MOST_NEAR = 0.97, 0.10  # of the late sets
MOST_EXCHANGED = 0.002


def main():
    """Sweep, print what was taken for right, and return whether all is kept that is promised."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--draws", type=int, default=DRAWS)
    parser.add_argument("--questions", action="store_true", help="two thousand questions of every drill instead")
    parser.add_argument("--set", type=Path, metavar="FILE", help="texts of one author instead")
    parser.add_argument("--blank", choices=fresh_set.BLANKS, help="print a set to be filled in")
    parser.add_argument("--seed", default="1", help="of a blank set")
    options = parser.parse_args()
    if options.questions:
        test_two_thousand.DRAWS = test_shipped.DRAWS = 2_000
        test_shipped.ASKED = 100
        files = (test_two_thousand.__file__, test_shipped.__file__)
        return not pytest.main(["-q", "-p", "no:cacheprovider", "--timeout", "0", *files])
    library = libraries.load()
    if options.blank:
        return not print(fresh_set.blank(options.blank, library, seed=options.seed), end="")
    if options.set:
        found = fresh_set.read_set(options.set, library)
        print("\n".join(fresh_set.lines_of(found)))
        return fresh_set.is_kept(found)
    calls = sweep_of_calls(library, options.draws)
    told("calls made", calls)
    flows = [one for one in library.drills.values() if one.kind == "flow"]
    with ProcessPoolExecutor() as pool:
        steps = [case for part in pool.map(held_back.judged, flows) for case in part]
        swept = list(pool.map(test_exchanged.swept_steps, [[flow] for flow in flows]))
    late = told_steps(steps)
    taken, tried = sum(len(wrong) for wrong, _ in swept), sum(count for _, count in swept)
    print(f"steps with another thing of the trade: accepted {taken:,} of {tried:,}")
    return (
        not any(count for (ok, _, got), count in calls.items() if not ok and got == "right")
        and late["right"] >= LEAST_RIGHT
        and late["opposite"] == 0.0
        and late["near"] <= MOST_NEAR
        and taken <= MOST_EXCHANGED * tried
    )


def told_steps(cases):
    """Print how the held back sets are read; return {kind: share accepted} of the late ones."""
    shares = {}
    for late in (False, True):
        counts = held_back.counted(cases, late=late)
        for kind in held_back.KINDS:
            of = {result: counts[kind, result] for result in ("accepted", "asked", "opposite", "refused")}
            shares[kind] = of["accepted"] / max(1, sum(of.values()))
            amounts = ", ".join(f"{result} {count:,}" for result, count in of.items())
            print(f"steps, {'late' if late else 'early'} sets, {kind}: {amounts} ({shares[kind]:.1%})")
    return shares


def sweep_of_calls(library, draws):
    """Return a ``Counter`` of (whether it is right, kind, what it is taken for)."""
    return Counter((ok, kind, got) for ok, kind, _, _, got in calls_varied.swept(library, draws))


def told(title, counts):
    """Print per kind how many were accepted."""
    for is_right, name in ((True, "right"), (False, "wrong")):
        kinds = sorted({kind for ok, kind, _ in counts if ok == is_right})
        every = Counter()
        for kind in kinds:
            of = {got: counts[is_right, kind, got] for got in ("right", "wrong", "asked")}
            every.update(of)
            print(f"{title}, {name}: {kind:24s} accepted {of['right']:,} of {sum(of.values()):,}")
        print(f"{title}, {name}: all accepted {every['right']:,}, asked {every['asked']:,} of {every.total():,}")


if __name__ == "__main__":
    sys.exit(0 if main() else 1)
