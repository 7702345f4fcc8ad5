"""Texts of an author who saw only the official wording, read from a file and run for the first time.

The file is TOML, a table for each drill, or for each step of a flow as ``[FLOW-ID.STEP-ID]``; three lists, any of
which may be left out: ``right`` (an instructor would take it), ``wrong`` (would not), ``little`` (true, but says too
little to be told from another answer)::

    seed = "1"                                   # of the questions; may be left out

    [spin-altitude]                         # a number, or recall in words
    right = ["angels one point two", "1,200 feet"]
    wrong = ["2,000"]

    [call-the-ball]                              # a call: {name} is a drawn value as written, {name!} as spoken
    right = ["{side_number!} {type_name} ball {state_klb}"]

    [catapult-launch.salute]                     # a step of a flow
    little = ["hand"]

``python -m tests.bench.reading --set FILE`` prints the counts and every text that was not taken as its author meant;
``--blank KIND`` (steps, recall, calls or numbers) prints such a file with the questions in it and no texts.
"""

import random
import re
import tomllib
from collections import Counter
from pathlib import Path
from typing import NamedTuple

from tests.reading import fishing
from trainer.decks.library import Library
from trainer.drills import calls, grading, questions, recitation
from trainer.errors import AnswerError
from trainer.model import CallDrill, Question

RIGHT, WRONG, LITTLE = MEANT = ("right", "wrong", "little")
ACCEPTED, ASKED, REFUSED = GOT = ("accepted", "asked", "refused")
BLANKS = {"steps": 60, "recall": 60, "calls": 1_000, "numbers": 150}


class Read(NamedTuple):
    """A text of the set, what its author meant by it, and what it was taken for."""

    drill: str
    meant: str
    text: str
    got: str
    revealed: str = ""


class BadSet(Exception):
    """The file is no set: it names a drill, a step or a list that is not there."""


def read_set(path: Path, library: Library) -> list[Read]:
    """Return a ``Read`` for each text of the file; raises ``BadSet`` and what ``tomllib`` raises."""
    found = tomllib.loads(path.read_text(encoding="utf-8"))
    seed = str(found.pop("seed", "1"))
    return [one for name, table in found.items() for one in _of_drill(name, table, seed, library)]


def _of_drill(name, table, seed, library):
    if name not in library.drills:
        raise BadSet(f'there is no drill "{name}"')
    drill = library.drills[name]
    if drill.kind != "flow":
        question = questions.make(drill, library, seed)
        return [_answered(name, *one, drill, question, library) for one in _texts(name, table)]
    out, wordings = [], recitation.wordings(drill)
    for step, lists in table.items():
        if step not in wordings:
            raise BadSet(f'the flow "{name}" has no step "{step}"')
        out += [_said(f"{name}.{step}", *one, step, drill) for one in _texts(f"{name}.{step}", lists)]
    return out


def _texts(name, table):
    strange = [key for key in table if key not in MEANT]
    if strange:
        raise BadSet(f'[{name}] has a list "{strange[0]}"; the lists are {", ".join(MEANT)}')
    return [(meant, text) for meant in MEANT for text in table.get(meant, ())]


def _said(name, meant, text, step, drill):
    """Return the ``Read`` of a text as a line of the recited flow."""
    try:
        found = recitation.read_line(text, drill)
    except AnswerError as error:
        return Read(name, meant, text, ASKED, _revealed(text, error, recitation.wordings(drill)[step]))
    return Read(name, meant, text, ACCEPTED if found == step else REFUSED)


def _answered(name, meant, text, drill, question, library):
    typed = filled(text, drill, question) if isinstance(drill, CallDrill) else text
    try:
        grade = grading.grade(question, drill, library, typed, 1.0)
    except AnswerError as error:
        rights = [question.truth_text, *(fishing.accepted(drill, question) if drill.kind == "recall" else ())]
        return Read(name, meant, typed, ASKED, _revealed(typed, error, rights))
    return Read(name, meant, typed, ACCEPTED if grade.score > 0.5 and _is_whole(grade) else REFUSED)


def _is_whole(grade):
    """Return whether a call has all its items: three of four are no right call."""
    return all(score == 1.0 for score in grade.parts.values())


def _revealed(text, error, rights):
    """Return what the screen says beside the text itself where that holds an answer, "" where it holds none."""
    shown = f"{error.message} {error.hint or ''}".replace(f'"{text}"', "")
    return shown if fishing.reveals(text, shown, rights) else ""


def filled(text: str, drill: CallDrill, question: Question) -> str:
    """Return ``text`` with the drawn values: {name} as it is written, {name!} as it is spoken."""
    spoken = re.sub(r"\{(\w+)!\}", lambda name: calls.said("{" + name[1] + "}", drill, question.inputs), text)
    return calls.filled(spoken, drill, question.inputs)


def lines_of(found: list[Read]) -> list[str]:
    """Return the report: counts, shares, and every text that was not taken as it was meant."""
    counts, out = Counter((one.meant, one.got) for one in found), []
    for meant in MEANT:
        of = [counts[meant, got] for got in GOT]
        if any(of):
            amounts = ", ".join(f"{got} {count:,}" for got, count in zip(GOT, of, strict=True))
            out.append(f"{meant}: {amounts} ({of[0] / sum(of):.1%} accepted)")
    out.append(f"revealed: {sum(bool(one.revealed) for one in found):,} of {len(found):,}")
    for one in found:
        if one.revealed or one.got != (ACCEPTED if one.meant == RIGHT else REFUSED):
            told = f" – revealed: {one.revealed}" if one.revealed else ""
            out.append(f"  {one.drill}: {one.meant}, {one.got}: {one.text!r}{told}")
    return out


def is_kept(found: list[Read]) -> bool:
    """Return whether right ≥ 97 %, little ≤ 10 %, no wrong one accepted, no right one refused, nothing revealed."""
    counts, all_of = Counter((one.meant, one.got) for one in found), Counter(one.meant for one in found)
    return (
        counts[RIGHT, ACCEPTED] >= 0.97 * all_of[RIGHT]
        and counts[RIGHT, REFUSED] == counts[WRONG, ACCEPTED] == 0
        and counts[LITTLE, ACCEPTED] <= 0.10 * all_of[LITTLE]
        and not any(one.revealed for one in found)
    )


def blank(kind: str, library: Library, *, seed: str = "1") -> str:
    """Return a set without texts: ``BLANKS[kind]`` questions drawn at random (all calls), each with its answer."""
    rng = random.Random(f"{kind} {seed}")
    every = sorted(_asked_of(kind, library))
    chosen = rng.sample(every, min(BLANKS[kind], len(every)))
    return "\n\n".join([f'seed = "{seed}"', *(_blank_table(one, seed, library) for one in chosen)]) + "\n"


def _asked_of(kind, library):
    """Return (drill id, step id or "") of all that a set of a ``kind`` may ask."""
    drills = library.drills.values()
    if kind == "steps":
        return [(one.id, step.id) for one in drills if one.kind == "flow" for step in one.steps]
    if kind == "calls":
        return [(one.id, "") for one in drills if isinstance(one, CallDrill) and not one.hear]
    words = {one.id for one in fishing.in_words(library)[0]}
    if kind == "recall":
        return [(one, "") for one in words]
    numbers = [one for one in drills if one.kind == "computed" or getattr(one, "value", None) is not None]
    return [(one.id, "") for one in numbers if not isinstance(one, CallDrill)]


def _blank_table(asked, seed, library):
    name, step = asked
    drill = library.drills[name]
    if step:
        found = next(one for one in drill.steps if one.id == step)
        head = [f"{drill.title}: {found.cue}".rstrip(": "), f"step: {found.do}"]
        key = f"{name}.{step}"
    else:
        question = questions.make(drill, library, seed)
        head, key = [*question.text.splitlines(), f"answer: {question.truth_text}"], name
        if isinstance(drill, CallDrill):
            head.append(f"values: {', '.join(f'{{{draw.name}}}' for draw in drill.draws)}")
    return "\n".join([*(f"# {line}" for line in head), f"[{key}]", *(f"{meant} = []" for meant in MEANT)])
