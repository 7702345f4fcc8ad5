"""How much the store costs over bare sqlite3, and whether it grows with the history.

    python -m tests.bench.commit [--reviews 1000000] [--answers 400]

An answer is compared with the same review, state and learner written by bare ``sqlite3`` in one transaction
at the same durability, to a file of its own in the same folder, turn by turn in the same run.  The bare
program computes no digest, keeps nothing for undo, reads no state and has neither triggers nor checks.
Opening, answering and undoing are compared between an empty file and one with many reviews.  All ratios
are of medians; the disk and other programs shift single times, hardly the ratios.
"""

import argparse
import sqlite3
import statistics
import tempfile
import time
from contextlib import closing
from pathlib import Path

from tests.store import invented
from trainer.store import files, rows
from trainer.store.store import Store

GOAL_COMMIT = 1.5
GOAL_GROWTH = 1.1
DRILLS = 2_000
STATE = bytes(range(240))  # about what a drill's state takes


def update(states, learner, review):
    """Cost nothing: what a memory computes is not the store's."""
    return dict.fromkeys(states, STATE), STATE


def timed(action, *arguments):
    began = time.perf_counter()
    action(*arguments)
    return (time.perf_counter() - began) * 1_000


class Bare:
    """The least that writes the same bytes as durably."""

    def __init__(self, path):
        self.connection = sqlite3.connect(path, isolation_level=None)
        for pragma in ("journal_mode=WAL", "synchronous=FULL", "wal_autocheckpoint=1"):
            self.connection.execute(f"PRAGMA {pragma}")
        columns = ", ".join(rows.COLUMNS)
        self.connection.execute(f"CREATE TABLE review (id INTEGER PRIMARY KEY, {columns}, digest)")
        self.connection.execute("CREATE INDEX by_drill ON review (drill_id, id)")
        self.connection.execute("CREATE TABLE belief (item TEXT PRIMARY KEY, state, last) WITHOUT ROWID")
        self.connection.execute("CREATE TABLE learner (id INTEGER PRIMARY KEY, state)")
        self.insert = f"INSERT INTO review VALUES (NULL{', ?' * (len(rows.COLUMNS) + 1)})"

    def record(self, row, item):
        self.connection.execute("BEGIN IMMEDIATE")
        last = self.connection.execute(self.insert, (*row, rows.FIRST_DIGEST)).lastrowid
        self.connection.execute("REPLACE INTO belief VALUES (?, ?, ?)", (item, STATE, last))
        self.connection.execute("REPLACE INTO learner VALUES (1, ?)", (STATE,))
        self.connection.execute("COMMIT")


def answer(number):
    return invented.review(number, drill_id=f"drill-{number * 7919 % DRILLS}")


def commit(folder, answers):
    """Return the medians in ms of an answer stored by the store and by the bare program."""
    bare, ours, theirs = Bare(folder / "bare.db"), [], []
    with closing(bare.connection), Store.open(folder / "store", clock=invented.clock()) as store:
        for number in range(answers):
            review = answer(number)
            row = rows.to_row(review, (review.drill_id,))
            ours.append(timed(store.record, review, update))
            theirs.append(timed(bare.record, row, review.drill_id))
    warm = answers // 10
    return statistics.median(ours[warm:]), statistics.median(theirs[warm:])


def grow(home, count):
    """Fill the store of ``home`` with ``count`` reviews by SQL; their digests are not those of a real chain."""
    Store.open(home, clock=invented.clock()).close()
    row = dict(zip(rows.COLUMNS, rows.to_row(answer(0), ("drill-0",)), strict=True))
    row |= {"id": None, "digest": bytes(32)}
    columns = ", ".join(row)
    drill = f"'drill-' || (n * 7919 % {DRILLS})"
    values = ", ".join({"id": "n", "drill_id": drill}.get(name, f":{name}") for name in row)
    with closing(sqlite3.connect(home / "reviews.db", isolation_level=None)) as connection:
        connection.execute("PRAGMA synchronous=OFF")
        connection.execute(
            f"WITH RECURSIVE count (n) AS (SELECT 1 UNION ALL SELECT n + 1 FROM count WHERE n < {count})"
            f" INSERT INTO review ({columns}) SELECT {values} FROM count",
            row,
        )
        connection.execute(
            "INSERT INTO belief SELECT drill_id, :state, max(id) FROM review GROUP BY drill_id", {"state": STATE}
        )
        connection.execute("INSERT INTO learner (id, state) VALUES (1, :state)", {"state": STATE})
    files.flush_file(home / "reviews.db")  # else the first answers wait until all of it is on the disk


def start(home):
    """Do what the store has to do before the first question is on the screen."""
    with Store.open(home, clock=invented.clock()) as store:
        store.opening()
        store.setting("minutes")
        store.last_inputs("drill-5", 5)


def work(homes):
    """Return [(median ms of an answer, of an undo)] for each of ``homes``, taken turn by turn."""
    stores = [Store.open(home, clock=invented.clock()) for home in homes]
    recorded, undone = [[] for _ in homes], [[] for _ in homes]
    for number in range(220):
        for store, times in zip(stores, recorded, strict=True):
            times.append(timed(store.record, answer(number), update))
    for _ in range(40):
        for store, times in zip(stores, undone, strict=True):
            times.append(timed(store.withdraw, store.last_review()[0], update))
    for store in stores:
        store.close()
    return [(statistics.median(r[20:]), statistics.median(u)) for r, u in zip(recorded, undone, strict=True)]


def growth(folder, count):
    """Return {what: (median ms with no reviews, median ms with ``count``)}."""
    empty, full = folder / "empty", folder / "full"
    grow(full, count)
    Store.open(empty, clock=invented.clock()).close()
    starts = [(timed(start, empty), timed(start, full)) for _ in range(200)][20:]
    answers, undos = zip(*work((empty, full)), strict=True)
    return {"opening": tuple(map(statistics.median, zip(*starts, strict=True))), "answer": answers, "undo": undos}


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--reviews", type=int, default=1_000_000)
    parser.add_argument("--answers", type=int, default=400)
    wanted = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        ours, bare = commit(Path(folder), wanted.answers)
        print(f"answer:  {ours:.3f} ms, bare sqlite3 {bare:.3f} ms: {ours / bare:.2f} x (goal {GOAL_COMMIT} x)")
        for what, (none, many) in growth(Path(folder), wanted.reviews).items():
            goal = f" (goal {GOAL_GROWTH} x)" if what == "opening" else ""
            print(
                f"{what + ':':8} {none:.3f} ms with no reviews, {many:.3f} ms with {wanted.reviews:,}:"
                f" {many / none:.2f} x{goal}"
            )


if __name__ == "__main__":
    main()
