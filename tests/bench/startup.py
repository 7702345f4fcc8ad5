"""How long until the first question is on the screen, a key is accepted, a verdict is read, a command is done.

Run with ``python -m tests.bench.startup [--reviews N] [--rounds R] [--only start|commands|verdicts]``.  Each round
measures the floors and the trainer one after another in the same run: a bare ``python -c pass``, a bare process that
imports prompt_toolkit, and ``trainer`` in a pseudo-terminal, with an empty history, with N reviews, and in a new home;
then the processor time and the memory of commands.  It prints medians and ratios; the goals stand in the last column.
POSIX only (it needs a pseudo-terminal).
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
from tests.faults.driving import VERDICT, OnTerminal
from trainer.memory.belief import ItemSpec, update
from trainer.practice import knowledge

# What the console script does, without depending on where it was installed.
FIRST = [sys.executable, "-c", "from trainer.cli import entry; entry()"]
PROMPT = "▸".encode()
# What a person who installed the trainer has: modules are compiled once.
ENVIRON = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
# command -> how many times the processor time of a bare Python it may take
COMMANDS = {
    "compute final_bearing --brc 005 --deck-angle 9": 12,
    "compute trim 33500": 12,
    "outlook": 12,
    "stage": 12,
    "deck list": 12,
    "deck show platform-altitude": 12,
    "deck show clearing-heading-round": 12,
    "brief --fuel 12.4 --stores 3800 --wind 330/12 --launch 20:30 --plain": 12,
    "cram": 12,
    "report --dry-run": 20,
}


def wall_s(code):
    """Return the seconds that a bare process running ``code`` takes."""
    started = time.perf_counter()
    subprocess.run([sys.executable, "-c", code], check=True, env=ENVIRON)
    return time.perf_counter() - started


def first_question_s(home):
    """Return (seconds until the question text is shown, seconds until keys are accepted) of one start."""
    pid, terminal = pty.fork()
    started = time.perf_counter()
    if pid == 0:
        os.execvpe(FIRST[0], FIRST, {**ENVIRON, "TRAINER_HOME": str(home), "TERM": "xterm"})
    seen, shown_at, live_at = b"", None, None
    while live_at is None:
        if not select.select([terminal], [], [], 20)[0]:
            raise SystemExit(f"no prompt within 20 s; so far: {seen[-400:]!r}")
        seen += os.read(terminal, 65536)
        now = time.perf_counter() - started
        if shown_at is None and (b"limit " in seen or b"no clock" in seen) and seen.count(b"\n") >= 5:
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
    environ = {**ENVIRON, "TRAINER_HOME": str(home)}
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


def cost(command, home):
    """Return (seconds of processor time, largest memory in MB) of a process."""
    with open(os.devnull, "r+b") as nowhere:
        process = subprocess.Popen(
            command, stdin=nowhere, stdout=nowhere, stderr=nowhere, env={**ENVIRON, "TRAINER_HOME": str(home)}
        )
        _, _, used = os.wait4(process.pid, 0)
    return used.ru_utime + used.ru_stime, used.ru_maxrss / (1024 if sys.platform == "darwin" else 1) / 1024


def verdicts(home, later=4):
    """Return the seconds from Enter to each verdict of a session: the first is typed as soon as keys are live."""
    driven = OnTerminal(home=home, PYTHONDONTWRITEBYTECODE="").until(lambda driven: driven.waiting())
    found = []
    for number in range(later + 1):
        said = len(driven.text())
        driven.send("1")
        entered = time.perf_counter()
        while not VERDICT.search(driven.text(), said):
            if time.perf_counter() - entered > 5 or not driven.listen(0.5):
                break  # it asks what was meant
        else:
            found.append((number, time.perf_counter() - entered))
        driven.settle()
        if driven.text().rstrip().endswith("stop)"):  # a miss waits for Enter
            driven.send("")
        driven.settle()
        time.sleep(1.0)  # a person reads
    driven.write(b"\x04")
    driven.rest()
    return found


def starts(options, folder, times):
    """Measure starts: floors, known homes, new homes."""
    homes = {"0": folder / "none", "N": folder / "many"}
    prepare(homes["0"], 0)
    prepare(homes["N"], options.reviews)
    for number in range(options.rounds):
        times["pass"].append(wall_s("pass"))
        times["prompt_toolkit"].append(wall_s("import prompt_toolkit"))
        for label, home in (*homes.items(), ("new home", folder / f"new-{number}")):
            text, keys = first_question_s(home)
            times[f"text {label}"].append(text)
            times[f"keys {label}"].append(keys)


def say_starts(times, reviews):
    """Print what ``starts`` measured."""
    middle = {name: statistics.median(values) for name, values in times.items()}
    for name, value in middle.items():
        print(f"{name.replace('N', f'{reviews:,} reviews'):28} {value * 1000:7.1f} ms")
    print(f"text on screen / pass            {middle['text 0'] / middle['pass']:.2f}   goal 4")
    print(f"keys accepted / prompt_toolkit   {middle['keys 0'] / middle['prompt_toolkit']:.2f}   goal 1.3")
    print(f"text, many reviews / none        {middle['text N'] / middle['text 0']:.2f}   goal 1.1")
    print(f"keys, many reviews / none        {middle['keys N'] / middle['keys 0']:.2f}   goal 1.1")
    print(f"text, new home / keys, old home  {middle['text new home'] / middle['keys 0']:.2f}   goal 1.5")


def commands(options, folder):
    """Measure and print the processor time and the memory of commands on a hundred answers."""
    home = folder / "hundred"
    typed = {"input": "1\n" * 100, "text": True, "capture_output": True}
    subprocess.run([*FIRST, "practice", "--questions", "100"], env={**ENVIRON, "TRAINER_HOME": str(home)}, **typed)
    subprocess.run(
        [*FIRST, "cram", "--on", "in 9 days"], env={**ENVIRON, "TRAINER_HOME": str(home)}, capture_output=True
    )
    bare = [cost([sys.executable, "-c", "pass"], home)[0]]
    spent = {command: [] for command in COMMANDS}
    for _ in range(options.rounds):
        bare.append(cost([sys.executable, "-c", "pass"], home)[0])
        for command, found in spent.items():
            found.append(cost([*FIRST, *command.split()], home))
    floor = statistics.median(bare)
    print(f"processor time of a bare python -c pass: {floor * 1000:.1f} ms")
    for command, found in spent.items():
        seconds, megabytes = (statistics.median(values) for values in zip(*found, strict=True))
        print(f"{command:70.70} {seconds / floor:5.1f} times, {megabytes:3.0f} MB   goal {COMMANDS[command]}")
    seconds, megabytes = cost([*FIRST, "practice", "--questions", "3", "--seed", "1"], home)
    print(f"{'practice, in a pipe':70} {seconds / floor:5.1f} times, {megabytes:3.0f} MB   goal 90 MB")


def say_verdicts(options, folder):
    """Measure and print how long verdicts are waited for."""
    prepare(folder / "judged", 0)
    first, later = [], []
    for _ in range(options.rounds):
        for number, seconds in verdicts(folder / "judged"):
            (later if number else first).append(seconds * 1000)
    print(f"first verdict, typed at once     {statistics.median(first):.0f} ms   goal 150")
    print(f"later verdicts                   {statistics.median(later):.0f} ms   goal 50")


def main():
    """Measure and print."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--reviews", type=int, default=1_000_000)
    parser.add_argument("--rounds", type=int, default=15)
    parser.add_argument("--only", choices=("start", "commands", "verdicts"))
    options = parser.parse_args()
    names = [f"{what} {label}" for label in ("0", "N", "new home") for what in ("text", "keys")]
    times = {name: [] for name in ("pass", "prompt_toolkit", *names)}
    with tempfile.TemporaryDirectory() as folder:
        if options.only in (None, "start"):
            starts(options, Path(folder), times)
            say_starts(times, options.reviews)
        if options.only in (None, "commands"):
            commands(options, Path(folder))
        if options.only in (None, "verdicts"):
            say_verdicts(options, Path(folder))


if __name__ == "__main__":
    main()
