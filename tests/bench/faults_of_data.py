"""Kills and thefts around the data as a whole: restore, merge and erase at every write, and a home that is taken away.

Parts of ``python -m tests.bench.faults``.
"""

import os
import shutil
import subprocess
from pathlib import Path

from tests.faults import driving, killing
from tests.faults.driving import Piped

WRITES = "pwrite64,write,fsync,fdatasync,ftruncate,link,linkat,rename,renameat,renameat2,unlink,unlinkat"
MOST_WRITES, UNHARMED = 400, 3


def seeds(home):
    """Return the seeds of the reviews that ``home`` holds; AssertionError where it is not sound."""
    found = killing.stored(home)
    assert found.problems == [], found.problems
    return [review.seed for review in found.reviews]


def practise(home, count, seed):
    done = driving.run("practice", "--questions", str(count), "--seed", seed, home=home, typed="s\n" * count)
    assert done.returncode == 0, done.stderr


def at_every_write(what, folder):
    """Kill ``trainer data WHAT`` at its first write, its second … until it gets through; return the ``Tally``."""
    tally, sample = killing.Tally(), Path(folder) / "sample"
    shutil.rmtree(sample, ignore_errors=True)
    practise(sample, 3, "1")
    copy = Path(folder) / "copy.db"
    driving.run("data", "backup", copy, home=sample)
    other = Path(folder) / "other"
    shutil.rmtree(other, ignore_errors=True)
    driving.run("data", "restore", copy, home=other)
    practise(other, 2, "2")
    practise(sample, 2, "3")
    if what == "restore over damage":
        data = bytearray((sample / "reviews.db").read_bytes())
        (sample / "reviews.db").write_bytes(bytes(4096) + data[4096:])
    before = None if what == "restore over damage" else seeds(sample)
    words = {
        "restore": ("restore", copy), "restore over damage": ("restore", copy),
        "merge": ("merge", other / "reviews.db"), "erase": ("erase", "--yes"),
    }[what]  # fmt: skip
    number, through, home = 0, 0, Path(folder) / "killed"
    while through < UNHARMED and number < MOST_WRITES:
        number += 1
        shutil.rmtree(home, ignore_errors=True)
        shutil.copytree(sample, home)
        code = _killed(home, ("data", *words), number)
        through = through + 1 if code == 0 else 0
        tally.kills += code != 0
        try:
            _check(what, home, before, code)
        except AssertionError as error:
            tally.faults.append((what, number, code, str(error)[:500]))
            tally.lost += 1
    if number == MOST_WRITES:
        tally.faults.append((what, "never got through"))
    return tally


def _check(what, home, before, code):
    there = (home / "reviews.db").exists()
    if what == "erase":
        driving.run("data", "erase", "--yes", home=home)
        left = [path.name for path in home.rglob("*.db*")] if home.exists() else []
        assert left == [], left
        return
    assert there, "no database: the next start would begin anew"
    if what == "restore over damage":
        kept = [path.read_bytes()[4096:8192] for path in home.rglob("*.db*")]
        assert code != 0 or len(seeds(home)) == 3
        assert kept
        return
    now = seeds(home)
    done = {"restore": before[:3], "merge": None}[what]
    assert now in (before, done) or (what == "merge" and len(now) == 7 and set(before) < set(now)), now
    assert code != 0 or now != before
    assert driving.run("data", "verify", home=home).returncode == 0


def _killed(home, words, number):
    command = ["strace", "-f", "-qq", "-o", os.devnull, "-e", f"trace={WRITES}", "-e",
               f"inject={WRITES}:signal=KILL:when={number}", *driving.TRAINER, *map(str, words)]  # fmt: skip
    done = subprocess.run(command, capture_output=True, env=driving.environment(home, PYTHONDONTWRITEBYTECODE="1"),
                          timeout=120)  # fmt: skip
    return done.returncode


def taken_away(count, rng, folder):
    """Take the data away from ``count`` sessions at a random instant; all that was judged must come back."""
    tally = killing.Tally()
    for number in range(count):
        home = Path(folder) / f"taken-{number}"
        practise(home, 1, "1")
        copy = shutil.copyfile(home / "reviews.db", Path(folder) / "taken.db")
        take = rng.choice([_delete, _delete_home, _move_home, _replace, _overwrite, _spoil])
        session = Piped("practice", "--questions", "6", "--seed", str(number), home=home)
        moment = rng.randint(1, 5)
        for place in range(6):
            if place == moment:
                take(home, copy)
            if not _answered(session):
                break
        code, text = session.rest(), session.text()
        tally.moments[take.__name__.strip("_").replace("_", " ")] += 1
        tally.kills += code == 3
        if take is _spoil:
            shutil.copyfile(copy, home / "reviews.db")
        practise(home, 1, "last")
        found = killing.stored(home)
        shown = killing.judged(text)
        tally.judged += len(shown)
        stored = [killing.bare(review.question) for review in found.reviews]
        missing = [asked for asked in shown if not any(question in asked for question in stored)]
        if missing or found.problems or "Traceback" in text:
            tally.lost += len(missing)
            tally.faults.append((take.__name__, moment, code, missing, found.problems, text[-600:]))
        for place in (home, home.with_name(home.name + "-moved")):
            shutil.rmtree(place, ignore_errors=True)
    return tally


def _answered(session):
    try:
        session.until(Piped.waiting)
    except AssertionError:
        return False  # it has ended
    session.send("s")
    return True


def _delete(home, copy):
    (home / "reviews.db").unlink(missing_ok=True)


def _delete_home(home, copy):
    shutil.rmtree(home, ignore_errors=True)


def _move_home(home, copy):
    if home.exists():
        shutil.rmtree(home.with_name(home.name + "-moved"), ignore_errors=True)
        home.rename(home.with_name(home.name + "-moved"))


def _replace(home, copy):
    shutil.copyfile(copy, home / "new.db")
    os.replace(home / "new.db", home / "reviews.db")


def _overwrite(home, copy):
    shutil.copyfile(copy, home / "reviews.db")


def _spoil(home, copy):
    (home / "reviews.db").write_bytes(b"\xa5" * 40_000)
