"""A file that holds one record, a stage or a standard: read whole, with every fault and its line."""

from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

from trainer.decks.belonging import misplaced
from trainer.decks.fault import Fault, Findings, lines_of, of_syntax, shortened
from trainer.decks.shape import Table
from trainer.decks.tables import parse
from trainer.decks.textfile import read_text

Record = TypeVar("Record")


def read_record(path: Path, kind: str, build: Callable[[Table, Findings], Record]) -> tuple[Record | None, list[Fault]]:
    """Return (what ``build`` makes of the file at ``path``, or None, faults); never raises for what stands in it.

    ``kind`` is "stage" or "standard": a file that plainly is another kind is told where it belongs.
    """
    source, broken, line = read_text(path)
    if source is None:
        return None, [Fault(file=str(path), line=line, drill="", message=broken)]
    parsed, findings = parse(source.text, source.hash), Findings(path)
    record = None
    elsewhere = misplaced(parsed.data, kind)
    if elsewhere:
        findings.add((), elsewhere)
    elif parsed.data or not parsed.syntax:
        record = build(Table(parsed.data, (), findings), findings)
    faults = of_syntax(path, parsed)
    faults += findings.faults(lines_of(source.text), lambda at: bool(parsed.blanked))
    faults = shortened(faults)
    return (None if faults else record), faults
