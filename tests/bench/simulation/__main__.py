"""python -m tests.bench.simulation [--quick | --full]: compare the trainer with simpler rules.

The trainer is the product: its own choosing over an ordered deck with areas and groups.  Every rule gets the same
people.  Reporting seeds are not those that anything was tuned on (see ``TUNING_SEEDS``).

Each row (a rule, a family, a course) is kept in a file as soon as it is worked out, named by commit and seed; a run
that was killed goes on where it was.  With ``--out`` the tables go to a file, as those in
tests/bench/results do.  A learner of the trainer takes eight to ten seconds a course: the quick run (4 learners, 1:2:4,
daily and cram) twenty minutes on one core, the full one (100 learners) days.
"""

import argparse
import os
import subprocess
from concurrent.futures import ProcessPoolExecutor
from datetime import UTC, datetime
from pathlib import Path

from tests.bench.simulation.course import SCENARIOS
from tests.bench.simulation.families import FAMILIES, HELD_OUT, RELATED
from tests.bench.simulation.kinds import WORTHS
from tests.bench.simulation.report import SIMPLE, honesty_lines, kept_lines
from tests.bench.simulation.rows import RULES, row

TUNING_SEEDS = (500, 700)  # every constant that was chosen on the bench was chosen on these
REPORTING_SEED = 9001
QUICK = {"learners": 4, "scenarios": ("daily", "cram"), "worths": ("1:2:4",), "rules": (*SIMPLE, "trainer")}
FULL = {"learners": 100, "scenarios": tuple(SCENARIOS), "worths": tuple(WORTHS), "rules": tuple(RULES)}
KEPT = Path("build") / "bench"


def main(arguments=None):
    """Run the bench and print its tables."""
    options = parsed(arguments)
    lines = [
        "# The scheduler on simulated learners",
        "",
        f"Commit {options.commit}, seed {options.seed}, {options.learners} learners a family, "
        f"{datetime.now(UTC):%Y-%m-%d}.  `python -m tests.bench.simulation --help` tells how it is made.",
        f"Related to the trainer's own laws: {', '.join(RELATED)}.  Never used in tuning: {', '.join(HELD_OUT)}.",
        "",
    ]
    for scenario in options.scenarios:
        for worth in options.worths:
            lines += [f"## {scenario}, worth {worth}", "", *tables(scenario, worth, options)]
    if options.out:
        options.out.write_text("\n".join(lines).rstrip() + "\n", encoding="utf-8", newline="\n")
    print("\n".join(lines))


def one(job):
    """Return the row of ``job``."""
    return row(*job)


def tables(scenario, worth, options):
    """Return the lines of one scenario under one worth."""
    keys = [(family, rule) for family in options.families for rule in options.rules]
    slowest = sorted(keys, key=lambda key: key[1] in SIMPLE)  # first, so that no core waits for the last of them
    jobs = [(scenario, worth, *key, options.learners, options.seed, options.commit, options.rows) for key in slowest]
    if options.workers > 1:
        with ProcessPoolExecutor(max_workers=options.workers) as pool:
            found = dict(zip(slowest, pool.map(one, jobs), strict=True))
    else:
        found = dict(zip(slowest, map(one, jobs), strict=True))
    rows = {key: found[key] for key in keys}
    return [*kept_lines(rows, SCENARIOS[scenario].measured), *honesty_lines(rows)]


def parsed(arguments):
    """Return the options; ``--quick`` is the default."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench.simulation", description=__doc__)
    size = parser.add_mutually_exclusive_group()
    size.add_argument("--quick", action="store_const", dest="size", const=QUICK, default=QUICK)
    size.add_argument("--full", action="store_const", dest="size", const=FULL)
    parser.add_argument("--learners", type=int)
    parser.add_argument("--scenario", action="append", choices=tuple(SCENARIOS), dest="scenarios")
    parser.add_argument("--worth", action="append", choices=tuple(WORTHS), dest="worths")
    parser.add_argument("--family", action="append", choices=tuple(FAMILIES), dest="families")
    parser.add_argument("--rule", action="append", choices=tuple(RULES), dest="rules", help="beside the simple rules")
    parser.add_argument("--seed", type=int, default=REPORTING_SEED)
    parser.add_argument("--workers", type=int, default=os.cpu_count())
    parser.add_argument("--rows", type=Path, default=KEPT, help="the folder of the rows")
    parser.add_argument("--out", type=Path)
    options = parser.parse_args(arguments)
    for name, value in options.size.items():
        setattr(options, name, getattr(options, name) or value)
    options.rules = tuple(dict.fromkeys((*SIMPLE, *options.rules, "trainer")))
    options.families = options.families or tuple(FAMILIES)
    options.commit = commit()
    return options


def commit():
    """Return the commit that is measured, with a mark where files differ from it."""
    told = ("git", "describe", "--always", "--dirty=-changed", "--abbrev=8")
    return subprocess.run(told, capture_output=True, text=True, check=False).stdout.strip() or "unknown"


if __name__ == "__main__":
    main()
