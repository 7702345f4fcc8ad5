"""How people say the steps of a flow: ``said/FLOW-ID.toml`` beside the deck, a table a step.

``right`` are texts to be accepted, ``wrong`` those that get a part of the step wrong, ``near`` those that say too
little.  They teach the trainer to read; a flow without such a file is read by its wordings alone.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field
from pathlib import Path

from trainer.decks.fault import Fault, Findings, lines_of, of_syntax, shortened
from trainer.decks.shape import Table
from trainer.decks.tables import parse
from trainer.decks.textfile import read_text
from trainer.decks.words import nearest, quoted

FOLDER = "said"
RIGHT, WRONG, NEAR = SORTS = ("right", "wrong", "near")
MOST_TEXTS = 200
FEWEST = 6  # right and wrong texts of each step for the examples to be heard


@dataclass(kw_only=True)
class Said:
    """``right``, ``wrong`` and ``near`` are {step id: texts}; every step that the file names is in each of them."""

    right: dict = field(default_factory=dict)
    wrong: dict = field(default_factory=dict)
    near: dict = field(default_factory=dict)
    faults: list = field(default_factory=list)


def path_beside(deck_path, flow_id):
    """Return where the file for the flow ``flow_id`` of the deck at ``deck_path`` lies, or would lie."""
    return Path(deck_path).parent / FOLDER / f"{flow_id}.toml"


def read_said(path, steps=None):
    """Return the ``Said`` at ``path``; never raises for what stands in the file.

    ``steps`` are the ids that the flow has; None leaves them unchecked.
    """
    path, said = Path(path), Said()
    source, broken, line = read_text(path)
    if source is None:
        said.faults = [Fault(file=str(path), line=line, drill="", message=broken)]
        return said
    parsed = parse(source.text)
    findings = Findings(path)
    top = Table(parsed.data, (), findings)
    for step in parsed.data:
        if steps is not None and step not in steps:
            top.fault(step, f"{quoted(step)} is no step of this flow{nearest(step, steps)}")
        table = top.table(step)
        for sort in SORTS:
            getattr(said, sort)[step] = table.texts(sort, most=MOST_TEXTS)
        for text in sorted({*said.right[step]} & {*said.wrong[step], *said.near[step]}):
            table.fault("right", f"{quoted(text)} stands among the others, too")
        table.finish()
    found = findings.faults(lines_of(source.text), lambda at: bool(parsed.blanked))
    said.faults = shortened(of_syntax(path, parsed) + found)
    return said


def too_few(path: Path, said: Said, steps: Iterable[str]) -> list[Fault]:
    """Return a fault for each of the ``steps`` with too few texts, none for a file in which nothing is filled in.

    The examples of a flow are heard together or not at all.
    """
    if not any(texts for sort in (said.right, said.wrong) for texts in sort.values()):
        return []
    read, _, _ = read_text(path)
    lines = read.text.split("\n") if read else []
    told = []
    for step in steps:
        counts = {sort: len(getattr(said, sort).get(step, ())) for sort in (RIGHT, WRONG)}
        short = " and ".join(f"{count} {sort}" for sort, count in counts.items() if count < FEWEST)
        line = next((at for at, line in enumerate(lines, 1) if line.strip() == f"[{step}]"), 0)
        message = f'the step "{step}" has {short} texts; {FEWEST} of each are needed before the file is heard'
        told += [Fault(file=str(path), line=line, drill="", message=message)] if short else []
    return told
