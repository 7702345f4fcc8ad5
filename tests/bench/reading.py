"""python -m tests.bench.reading: how typed text is read, on everything there is; the tests take samples of it.

Every call in thirty draws, right in every form and with one thing wrong.
"""

import argparse
from collections import Counter

from tests.reading import calls_varied
from trainer.decks import library as libraries

DRAWS = 30


def main():
    """Sweep and print what was taken for right."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--draws", type=int, default=DRAWS)
    options = parser.parse_args()
    library = libraries.load()
    told("calls made", sweep_of_calls(library, options.draws))


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
    main()
