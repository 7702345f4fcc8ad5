"""How long a report on a long history takes, and how much memory, against a floor measured in the same run.

    python -m tests.bench.report [REVIEWS]

The floor is a bare process that reads the same rows with sqlite3 and takes one SHA-256 over each.  The history is
the sample pilot's, over and over.
"""

import os
import resource
import sqlite3
import subprocess
import sys
import tempfile
import time
from datetime import timedelta
from pathlib import Path

from tests import sample
from trainer import paths
from trainer.practice.knowledge import after_review
from trainer.store import rows
from trainer.store.store import Store

REVIEWS = 100_000
RUNS = 3
GOAL_S, GOAL_MB = 3.0, 300.0
FLOOR = """
import hashlib, sqlite3, sys
connection = sqlite3.connect(sys.argv[1])
for row in connection.execute("SELECT * FROM review"):
    hashlib.sha256(repr(row).encode()).digest()
"""


def fill(home, count):
    """Let the sample pilot practise, then repeat those reviews until there are ``count``; return the clock."""
    clock = sample.practise(home)
    with Store.open(home, clock=clock) as store:
        known = list(store.reviews())
    connection = sqlite3.connect(paths.database(home), isolation_level=None)
    last_id, digest = connection.execute("SELECT id, digest FROM review ORDER BY id DESC LIMIT 1").fetchone()
    names = ("id", *rows.COLUMNS, "digest")
    insert = f"INSERT INTO review ({', '.join(names)}) VALUES ({', '.join('?' * len(names))})"
    connection.execute("BEGIN")
    for number in range(last_id + 1, count + 1):
        review = known[number % len(known)]
        shift = timedelta(days=42 * (number // len(known)))
        row = list(rows.to_row(review, (review.drill_id,)))
        row[1 + rows.FIELDS.index("at")] = rows.utc_text(review.at + shift)
        digest = rows.digest(digest, number, row)
        connection.execute(insert, (number, *row, digest))
    connection.execute("COMMIT")
    connection.close()
    clock.instant = known[-1].at + timedelta(days=42 * (count // len(known)) + 1)
    with Store.open(home, clock=clock) as store:
        store.repair(after_review)
    return clock


def run(command, environment):
    """Return (seconds, processor seconds, peak MB) of a process; the peak is that of the largest child so far."""
    began, before = time.perf_counter(), resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run(command, check=True, env=environment, stdout=subprocess.DEVNULL)
    seconds, after = time.perf_counter() - began, resource.getrusage(resource.RUSAGE_CHILDREN)
    busy = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    return seconds, busy, after.ru_maxrss / 1024


def main(count):
    with tempfile.TemporaryDirectory() as folder:
        home = Path(folder) / "home"
        clock = fill(home, count)
        environment = {**os.environ, "TRAINER_HOME": str(home), "TRAINER_NOW": clock.instant.isoformat()}
        floor = [sys.executable, "-c", FLOOR, str(paths.database(home))]
        report = [sys.executable, "-m", "trainer", "report", "--format", "html", "--out", str(Path(folder) / "out")]
        floor_s, floor_busy_s, floor_mb = min(run(floor, environment) for _ in range(RUNS))
        found = [run(report, environment) for _ in range(RUNS)]
    seconds, busy_s, _ = min(found)
    peak_mb = max(mb for *_, mb in found)
    print(f"{count:,} reviews: report {seconds:.2f} s ({busy_s:.2f} s of processor), {peak_mb:.0f} MB")
    print(f"floor {floor_s:.2f} s ({floor_busy_s:.2f} s of processor), {floor_mb:.0f} MB")
    print(f"ratio to the floor {seconds / floor_s:.1f}; goal {GOAL_S:g} s and {GOAL_MB:g} MB", end=" ")
    met = seconds < GOAL_S and peak_mb < GOAL_MB
    print("met" if met else "NOT met")
    return 0 if met else 1


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else REVIEWS))
