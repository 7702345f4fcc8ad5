"""Leave a session at random instants, in every way there is, and count what hung, what was slow, what was lost.

Run with ``python -m tests.bench.leaving [--times N] [--seed S]``: N times each on a known home and on new ones.  A
process counts as slow when it ends more than 0.3 s after a person left, hung when it never does; an answer as lost when
its verdict was on the screen and its review is not in the file.  POSIX only (it needs a pseudo-terminal).
"""

import argparse
import os
import random
import signal
import sqlite3
import statistics
import tempfile
import time
from contextlib import closing
from pathlib import Path

from tests.faults.driving import VERDICT, OnTerminal, run

GOAL_S = 0.3
HUNG_S = 10.0
LATEST_S = 2.5  # after the start; by then everything has been loaded for long
HANG_UP, CTRL_D, CTRL_C = "closed window", "Ctrl-D", "Ctrl-C"
WAYS = {
    CTRL_D: lambda driven: driven.write(b"\x04"),
    CTRL_C: lambda driven: driven.write(b"\x03"),
    "SIGTERM": lambda driven: driven.kill(signal.SIGTERM),
    "SIGHUP": lambda driven: driven.kill(signal.SIGHUP),
    HANG_UP: lambda driven: driven.hang_up(),
    "Ctrl-D, then a closed window": lambda driven: (driven.write(b"\x04"), driven.hang_up()),
}
NEED_KEYS = (CTRL_D, CTRL_C)  # what is typed before keys are live is thrown away, as it should be


def left(driven, way, at_s, typed):
    """Leave ``driven`` by ``way`` ``at_s`` after its start; return the seconds until it ended, None if it never did."""
    started = time.monotonic()
    while time.monotonic() - started < at_s or (way in NEED_KEYS and not driven.waiting()):
        driven.listen(0.01)
        if typed and driven.waiting():
            driven.send("1")
            typed -= 1
    WAYS[way](driven)
    acted = time.monotonic()
    while time.monotonic() - acted < HUNG_S:
        if driven.out is not None:
            driven.listen(0.005)
        else:
            time.sleep(0.005)
        if os.waitid(os.P_PID, driven.pid, os.WEXITED | os.WNOHANG | os.WNOWAIT):
            seconds = time.monotonic() - acted
            driven.gone()
            return seconds
    driven.kill()
    driven.gone()
    return None


def stored(home):
    """Return how many reviews lie in ``home``."""
    path = Path(home) / "reviews.db"
    if not path.exists():
        return 0
    with closing(sqlite3.connect(path)) as connection:
        return connection.execute("SELECT count(*) FROM review").fetchone()[0]


def leave_often(times, chance, home_of, say=print):
    """Leave ``times`` times a session in ``home_of(number)``; return {"hung", "slow", "lost", "seconds"}."""
    found = {"hung": 0, "slow": 0, "lost": 0, "seconds": []}
    for number in range(times):
        home = home_of(number)
        way, at_s, typed = chance.choice(list(WAYS)), chance.uniform(0.0, LATEST_S), chance.choice((0, 0, 1, 3))
        before, driven = stored(home), OnTerminal(home=home, PYTHONDONTWRITEBYTECODE="")
        seconds = left(driven, way, at_s, typed)
        lost = len(VERDICT.findall(driven.text())) - (stored(home) - before)
        slow = seconds is not None and seconds > GOAL_S
        found["hung"] += seconds is None
        found["slow"] += slow
        found["lost"] += max(0, lost)
        found["seconds"] += [] if seconds is None else [seconds]
        if seconds is None or slow or lost > 0:
            say(f"  {way} after {at_s:.2f} s, {typed} answers typed: {seconds or 'never'} s, {lost} lost")
    return found


def main():
    """Leave and print."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--times", type=int, default=500)
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args()
    chance = random.Random(options.seed)
    with tempfile.TemporaryDirectory() as folder:
        known = Path(folder) / "known"
        run("practice", "--questions", "3", home=known, typed="1\n" * 3)
        for name, home_of in (("known home", lambda _: known), ("new homes", lambda n: Path(folder) / str(n))):
            found = leave_often(options.times, chance, home_of)
            middle, worst = statistics.median(found["seconds"]), max(found["seconds"])
            print(
                f"{name}: {options.times} leavings, {found['hung']} hung, {found['lost']} answers lost,"
                f" {found['slow']} over {GOAL_S} s; median {middle * 1000:.0f} ms, longest {worst * 1000:.0f} ms"
            )


if __name__ == "__main__":
    main()
