"""Right, opposite and too short texts for shipped steps, each set written before the reading was run on it.

The first-run figures stand in the head of each file.  Sets 24 to 43 (``LATE``) are what is promised: 300 typed variants
over 60 steps each, by twenty authors; no weight was fitted to them.
"""

import tomllib
from collections import Counter
from functools import cache
from pathlib import Path

from trainer.drills import recitation
from trainer.errors import AnswerError
from trainer.reading.freetext import judge

SETS = sorted(Path(__file__).parent.glob("unseen_*.toml"))
LATE = 24
RIGHT, OPPOSITE, NEAR = KINDS = ("right", "opposite", "near")


def number_of(path):
    """Return the number of a set."""
    return int(path.stem.removeprefix("unseen_"))


@cache
def texts_by_flow():
    """Return {flow: [(number of the set, step, kind, text)]} of all sets."""
    found = {}
    for path in SETS:
        for flow, steps in tomllib.loads(path.read_text(encoding="utf-8")).items():
            for step, kinds in steps.items():
                found.setdefault(flow, []).extend(
                    (number_of(path), step, kind, text) for kind, texts in kinds.items() for text in texts
                )
    return found


def taken_for(asked, text):
    """Return the step that ``text`` is accepted as, "opposite", "" where it is no step, "asked" where it is asked back.

    ``asked`` is (the wordings of the flow, what it says by itself, the flow).
    """
    try:
        found = judge.find(text, *asked)
    except AnswerError:
        return "asked"
    return found.key or ("opposite" if found.opposite else "")


def judged(drill):
    """Return [(number of the set, step, kind, text, what it is taken for)] for the steps that ``drill`` still has."""
    asked = recitation.wordings(drill), recitation.about(drill), drill
    return [(*case, taken_for(asked, case[3])) for case in texts_by_flow().get(drill.id, ()) if case[1] in asked[0]]


def counted(cases, *, late):
    """Return a ``Counter`` of (kind, "accepted", "asked", "opposite" or "refused") of the late sets, or the early."""
    found = Counter()
    for number, step, kind, _, got in cases:
        if (number >= LATE) == late:
            found[kind, "accepted" if got == step else got if got in ("asked", "opposite") else "refused"] += 1
    return found
