"""Everything that can go wrong around an answer, many times over: nothing that was judged may be lost.

Run with ``python -m tests.bench.faults [--kills 1000] [--minutes M] [--seed N] [--short]``.  It kills practice in
a pipe and in a pseudo-terminal at random instants and takes the data away from it, then (where ``strace`` is
installed) kills it or lets the disk fail at every single write to the database, kills restore, merge and erase at
every write, flips bits of the database for ``M`` minutes, and runs the tests under tests/faults in their long form
(not with ``--short``).  It prints what was met and ends with 1 if anything was lost.
POSIX only.
"""

import argparse
import os
import random
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from tests.bench import faults_of_data
from tests.faults import driving, killing
from trainer.clock import SystemClock
from trainer.errors import StorageError
from trainer.practice.knowledge import after_review
from trainer.store.salvage import salvage

HOME_FOR = 25  # kills over one home; then a new one, so that first starts are met as well
WRITES = "pwrite64,write,fsync,fdatasync,ftruncate,link,rename,unlink"
FEWEST_WRITES, UNHARMED = 40, 6  # sessions that must have ended well, one after another, before it is over
ANSWERS = {"kill": "signal=KILL", "full": "error=ENOSPC", "failing": "error=EIO"}


def kills(count, rng, folder):
    """Kill ``count`` sessions, half of them in a pseudo-terminal; return the ``Tally``."""
    tally, round_number = killing.Tally(), 0
    while tally.kills < count:
        home = Path(folder) / f"kill-{round_number}"
        killing.rounds(home, min(HOME_FOR, count - tally.kills), rng, terminal=round_number % 2 == 1, tally=tally)
        shutil.rmtree(home)
        round_number += 1
        print(f"  {tally.kills:5} kills, {tally.judged} judged, {len(tally.faults)} faults", flush=True)
    return tally


def at_every_write(answer, folder):
    """Let write number 1, 2, 3 … of a session be answered with ``answer`` until sessions get through; return the tally.

    First starts and ordinary sessions take turns; either has its own count of writes.
    """
    tally, number, unharmed = killing.Tally(), 0, 0
    home = Path(folder) / f"write-{answer}"
    while number < FEWEST_WRITES or unharmed < UNHARMED:
        if number % 2 == 0:
            shutil.rmtree(home, ignore_errors=True)
        before = killing.stored(home)
        done = _watched(home, f"inject={WRITES}:{ANSWERS[answer]}:when={number // 2 + 1}")
        killing.check(before, killing.stored(home), _Said(done), tally)
        if done.returncode not in (0, 3, -9, 137):
            tally.faults.append((done.returncode, done.stdout[-500:], done.stderr[-1500:]))
        number, unharmed = number + 1, unharmed + 1 if done.returncode == 0 else 0
    tally.kills = number
    killing.resumes(home, killing.stored(home), tally)
    return tally


def _watched(home, inject):
    """Return the finished session of a process whose writes below ``home`` are answered as ``inject`` says."""
    watched = ("reviews.db", "reviews.db-wal", "reviews.db-shm", "backups", "")
    only = [word for name in watched for word in ("-P", f"{home}/{name}")] if home.exists() else []
    return subprocess.run(
        ["strace", "-f", "-qq", "-o", os.devnull, *only, "-e", f"trace={WRITES}", "-e", inject,
         *driving.TRAINER, "practice", "--questions", "2"],
        input="s\n27\nu\ns\ns\n", capture_output=True, text=True, encoding="utf-8",
        env=driving.environment(home, PYTHONDONTWRITEBYTECODE="1"), timeout=120,
    )  # fmt: skip


class _Said:
    def __init__(self, done):
        self.done = done

    def text(self):
        """Return all that was said."""
        return self.done.stdout + self.done.stderr


def flipped(minutes, rng, folder):
    """Flip bits for ``minutes``; return (files tried, sessions that went on, files saved in part, faults)."""
    from tests.faults.test_damage import flipped as damage

    home = Path(folder) / "flipped"
    for _ in range(3):
        driving.run("practice", "--questions", "8", home=home, typed="s\n27\n5000\n" * 8)
    whole, end = (home / "reviews.db").read_bytes(), time.monotonic() + 60 * minutes
    tried = went_on = saved = 0
    faults = []
    while time.monotonic() < end:
        for name in ("reviews.db-wal", "reviews.db-shm"):
            (home / name).unlink(missing_ok=True)
        (home / "reviews.db").write_bytes(damage(whole, rng))
        done = driving.run("practice", "--questions", "2", home=home, typed="s\n27\nu\ns\ns\n")
        tried += 1
        went_on += done.returncode == 0
        if done.returncode not in (0, 3) or len(done.stderr.splitlines()) > 1:
            faults.append((done.returncode, done.stderr[-1500:]))
        try:
            saved += salvage(home, update=after_review, clock=SystemClock()).saved >= 24
        except StorageError as error:
            faults.append(("nothing saved", str(error)))
        for copy in (home / "backups").glob("reviews-salvaged-*"):
            copy.unlink()
    return tried, went_on, saved, faults


def long_tests():
    """Run tests/faults in their long form and return the exit code."""
    command = [sys.executable, "-m", "pytest", "-q", "tests/faults", "tests/store/test_store_merge.py"]
    return subprocess.run(command, env={**os.environ, "TRAINER_FAULTS": "long"}, cwd=driving.ROOT).returncode


def main():
    """Run all of it and print what was met."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--kills", type=int, default=1_000)
    parser.add_argument("--minutes", type=float, default=5.0, help="of flipping bits")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--short", action="store_true", help="without the long form of the tests")
    options = parser.parse_args()
    rng, bad = random.Random(options.seed), 0
    driving.LONGEST_S = 90.0  # a machine that does other things as well is no hang
    with tempfile.TemporaryDirectory() as folder:
        bad += _tell("killed at a random instant", kills(options.kills, rng, folder))
        stolen = max(6, options.kills // 10)
        bad += _tell("data taken away", faults_of_data.taken_away(stolen, rng, folder))
        if shutil.which("strace"):
            for what in ("restore", "restore over damage", "merge", "erase"):
                bad += _tell(f"{what} killed at every write", faults_of_data.at_every_write(what, folder))
            for answer in ANSWERS:
                bad += _tell(f"every write answered: {answer}", at_every_write(answer, folder))
        tried, went_on, saved, faults = flipped(options.minutes, rng, folder)
        print(f"flipped bits: {tried} files, {went_on} sessions went on, all saved of {saved}, faults {faults[:5]}")
    bad += len(faults) + (0 if options.short else long_tests())
    sys.exit(1 if bad else 0)


def _tell(name, tally):
    print(f"{name}: {tally.kills} times, {tally.judged} judged, {tally.unseen} stored but not yet shown,")
    print(f"  {tally.withdrawn} taken back, {tally.flagged} flagged, LOST {tally.lost}, unsound {tally.unsound}")
    print(f"  {dict(tally.moments)}")
    for fault in tally.faults[:10]:
        print("  FAULT", *fault)
    return len(tally.faults)


if __name__ == "__main__":
    main()
