"""Practice that is killed: what the screen showed as judged must be on the disk, and the next session goes on.

Used by the short tests and by the long run of ``python -m tests.bench.faults``.
"""

import re
from collections import Counter
from dataclasses import dataclass, field

from tests.faults import driving
from tests.faults.driving import OnTerminal, Piped
from trainer.clock import SystemClock
from trainer.practice.knowledge import after_review
from trainer.store.store import Store

# What a person types, wrong and right, words of command among it.
LINES = ("s", "s", "s", "27", "5000", "355", "1", "2", "left", "12:45", "h", "u", "w", "f", "", "hook up", "q?")
START_S = 0.9  # a session's first question is there by then; earlier instants are met as well
PACE = (-3.7, -1.2)  # powers of ten of the seconds between a line and a kill that follows it


@dataclass
class Tally:
    """What a run has met."""

    kills: int = 0
    judged: int = 0  # verdicts that were on the screen
    unseen: int = 0  # stored, but killed before the verdict was on the screen
    withdrawn: int = 0
    flagged: int = 0
    lost: int = 0
    unsound: int = 0
    moments: Counter = field(default_factory=Counter)
    faults: list = field(default_factory=list)


@dataclass(frozen=True)
class Stored:
    """What the database holds."""

    reviews: list
    withdrawn: int
    flags: int
    problems: list


def stored(home):
    """Return what the database of ``home`` holds, nothing for one that was not made yet."""
    with Store.open(home, clock=SystemClock(), create=False) as store:
        reviews = list(store.reviews(withdrawn=True))
        return Stored(reviews, len(reviews) - store.count(), len(store.flags()), store.verify(after_review))


def judged(text):
    """Return the questions of a transcript, without white space, that a verdict was shown for."""
    starts = [match.start() for match in driving.ASKED.finditer(text)] + [len(text)]
    blocks = [text[start:end] for start, end in zip(starts, starts[1:], strict=False)]
    return [bare(block) for block in blocks if driving.VERDICT.search(block)]


def bare(text):
    """Return ``text`` without white space: lines are broken by width."""
    return re.sub(r"\s+", "", text)


def kill_one(home, rng, *, terminal):
    """Practise, kill at a random instant, and return (the program, what it was doing)."""
    driven = (OnTerminal if terminal else Piped)(home=home)
    lines = rng.choice((0, 0, 1, 1, 2, 3, 5, 8))
    if lines == 0:
        return _killed_after(driven, rng.random() * START_S, "while it started")
    for _ in range(lines):
        driven.until(_waits)
        driven.send(rng.choice(LINES))
    return _killed_after(driven, 10 ** rng.uniform(*PACE), "while it judged")


def _waits(driven):
    return driven.waiting()


def _killed_after(driven, seconds, moment):
    import time

    end = time.monotonic() + seconds
    while (left := end - time.monotonic()) > 0 and driven.listen(left):
        pass
    driven.kill()
    code = driven.rest()
    return driven, (moment if code == -9 else "it had ended")


def check(before, after, driven, tally):
    """Compare what ``driven`` showed with what was stored ``before`` and ``after`` it; note it in ``tally``."""
    text = driven.text()
    shown, new = judged(text), after.reviews[len(before.reviews) :]
    tally.judged += len(shown)
    tally.unseen += max(0, len(new) - len(shown))
    lost = [
        number
        for number, block in enumerate(shown)
        if number >= len(new) or bare(driving.ESCAPES.sub("", new[number].question)) not in block
    ]
    undone, flagged = text.count(driving.UNDONE), text.count(driving.FLAGGED)
    tally.withdrawn += undone
    tally.flagged += flagged
    lost += ["a withdrawal"] * max(0, undone - (after.withdrawn - before.withdrawn))
    lost += ["a flag"] * max(0, flagged - (after.flags - before.flags))
    extra = len(new) > len(shown) + 1
    if lost or extra:
        tally.lost += len(lost)
        tally.faults.append((lost, len(shown), len(new), text[-2000:]))
    if after.problems:
        tally.unsound += 1
        tally.faults.append((after.problems, text[-2000:]))
    if "Traceback" in text:
        tally.faults.append(("traceback", text[-3000:]))


def rounds(home, count, rng, *, terminal, tally=None):
    """Kill ``count`` sessions over one home, and let a last one resume and end by itself; return the ``Tally``."""
    tally = tally or Tally()
    before = stored(home)
    for _ in range(count):
        driven, moment = kill_one(home, rng, terminal=terminal)
        tally.kills += moment != "it had ended"
        tally.moments[f"{'terminal' if terminal else 'pipe'}, {moment}"] += 1
        after = stored(home)
        check(before, after, driven, tally)
        before = after
    resumes(home, before, tally)
    return tally


def resumes(home, before, tally):
    """Let a session of two questions begin, answer and end."""
    done = driving.run("practice", "--questions", "2", home=home, typed="s\ns\n")
    after = stored(home)
    if done.returncode or len(after.reviews) != len(before.reviews) + 2 or after.problems or done.stderr:
        tally.faults.append(("did not resume", done.returncode, done.stdout[-1000:], done.stderr[-1000:]))
    sound = driving.run("data", "verify", home=home)
    if sound.returncode or not sound.stdout.startswith("Sound"):
        tally.faults.append(("verify", sound.stdout, sound.stderr))
