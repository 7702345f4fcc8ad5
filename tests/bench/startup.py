"""How long until the first question is on the screen, and until a key is accepted.

Run with ``python -m tests.bench.startup [--reviews N] [--rounds R]``.  Each round measures the floors and
the trainer one after another in the same run: a bare ``python -c pass``, a bare process that imports
prompt_toolkit, and ``trainer`` in a pseudo-terminal, with an empty history and with N reviews.  It prints
medians and ratios; the goals stand in the last column.  POSIX only (it needs a pseudo-terminal).
"""

import argparse
import os
import pty
import select
import sqlite3
import statistics
import subprocess
import sys
import tempfile
import time
from contextlib import closing
from pathlib import Path

from tests.bench.commit import grow
from trainer.memory.belief import ItemSpec, update
from trainer.practice import knowledge

# What the console script does, without depending on where it was installed.
FIRST = [sys.executable, "-c", "from trainer.cli import entry; entry()"]
PROMPT = "▸".encode()


def wall_s(code):
    """Return the seconds that a bare process running ``code`` takes."""
    started = time.perf_counter()
    subprocess.run([sys.executable, "-c", code], check=True)
    return time.perf_counter() - started


def first_question_s(home):
    """Return (seconds until the question text is shown, seconds until keys are accepted) of one start."""
    pid, terminal = pty.fork()
    started = time.perf_counter()
    if pid == 0:
        os.execvpe(FIRST[0], FIRST, {**os.environ, "TRAINER_HOME": str(home), "TERM": "xterm"})
    seen, shown_at, live_at = b"", None, None
    while live_at is None:
        if not select.select([terminal], [], [], 20)[0]:
            raise SystemExit(f"no prompt within 20 s; so far: {seen[-400:]!r}")
        seen += os.read(terminal, 65536)
        now = time.perf_counter() - started
        if shown_at is None and b"limit " in seen and seen.count(b"\n") >= 5:
            shown_at = now
        if b"\x1b[6n" in seen:
            os.write(terminal, b"\x1b[1;1R")
        if PROMPT in seen:
            live_at = now
    os.write(terminal, b"\x04")
    drain(terminal)
    os.waitpid(pid, 0)
    return shown_at, live_at


def drain(terminal):
    """Read until the other side closes."""
    try:
        while select.select([terminal], [], [], 5)[0] and os.read(terminal, 65536):
            pass
    except OSError:
        pass
    os.close(terminal)


def prepare(home, reviews):
    """Fill ``home`` with ``reviews`` reviews, and let one short session choose the next first question."""
    environ = {**os.environ, "TRAINER_HOME": str(home)}
    if reviews:
        grow(home, reviews)
        # The bench of the store fills in states of its own making; the memory wants real ones.
        spec = ItemSpec(id="drill-0", kind="recall")
        state, learner = update(None, None, spec, day=20_000.0, score=1.0, seconds=5.0)
        with closing(sqlite3.connect(home / "reviews.db")) as connection, connection:
            connection.execute("UPDATE belief SET state = ?", (state,))
            connection.execute("UPDATE learner SET state = ?, model = ?", (learner, knowledge.model()))
    done = subprocess.run(
        [*FIRST, "practice", "--questions", "1"], input="s\n", text=True, env=environ, capture_output=True
    )
    # Reviews that were filled in have no real chain of digests, so the copy at the end of the session is refused.
    if done.returncode and not (reviews and "automatic copy" in done.stderr):
        raise SystemExit(done.stderr)


def main():
    """Measure and print."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--reviews", type=int, default=1_000_000)
    parser.add_argument("--rounds", type=int, default=15)
    options = parser.parse_args()
    times = {name: [] for name in ("pass", "prompt_toolkit", "text 0", "keys 0", "text N", "keys N")}
    with tempfile.TemporaryDirectory() as folder:
        homes = {"0": Path(folder) / "none", "N": Path(folder) / "many"}
        prepare(homes["0"], 0)
        prepare(homes["N"], options.reviews)
        for _ in range(options.rounds):
            times["pass"].append(wall_s("pass"))
            times["prompt_toolkit"].append(wall_s("import prompt_toolkit"))
            for label, home in homes.items():
                text, keys = first_question_s(home)
                times[f"text {label}"].append(text)
                times[f"keys {label}"].append(keys)
    middle = {name: statistics.median(values) for name, values in times.items()}
    for name, value in middle.items():
        print(f"{name.replace('N', f'{options.reviews:,} reviews'):28} {value * 1000:7.1f} ms")
    print(f"text on screen / pass            {middle['text 0'] / middle['pass']:.2f}   goal 4")
    print(f"keys accepted / prompt_toolkit   {middle['keys 0'] / middle['prompt_toolkit']:.2f}   goal 1.3")
    print(f"text, many reviews / none        {middle['text N'] / middle['text 0']:.2f}   goal 1.1")
    print(f"keys, many reviews / none        {middle['keys N'] / middle['keys 0']:.2f}   goal 1.1")


if __name__ == "__main__":
    main()
