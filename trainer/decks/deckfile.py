"""One deck file: read whole, with every fault."""

import re
from bisect import bisect_right
from importlib import import_module
from pathlib import Path

from trainer.decks.belonging import misplaced
from trainer.decks.deck import Deck, DeckFile
from trainer.decks.fault import Fault, Findings, of_syntax, shortened
from trainer.decks.read_common import Setting, read_sources
from trainer.decks.shape import REQUIRED, Table
from trainer.decks.tables import parse
from trainer.decks.textfile import read_text
from trainer.decks.words import quoted
from trainer.model import AREAS, DEFAULT_WORTH, KINDS, PHASES
from trainer.patterns import Late

FORMAT = 1
MOST_DRILLS = 5_000
# kind of table -> the module that reads it; those with numbers load numpy, which not every command needs
KINDS_OF_TABLE = {
    "computed": "read_computed", "recall": "read_recall", "flow": "read_flow",
    "call": "read_call", "listen": "read_call",
}  # fmt: skip
_DRILL_HEADER = Late(r"^[ \t]*\[\[[ \t]*(computed|recall|flow|call|listen)[ \t]*\]\]", re.MULTILINE)


def read(path):
    """Return (``Deck`` or ``None``, drills without faults, all faults) of the file at ``path``."""
    file = read_file(path)
    return file.deck, file.drills, file.faults


def read_file(path):
    """Return the ``DeckFile`` at ``path``; never raises for what stands in the file."""
    path = Path(path)
    source, broken, line = read_text(path)
    if source is None:
        return DeckFile(path=path, faults=[Fault(file=str(path), line=line, drill="", message=broken)])
    parsed = parse(source.text)
    file = DeckFile(path=path, text=source.text, tables=parsed.data)
    findings = Findings(path)
    elsewhere = misplaced(parsed.data, "deck")
    if elsewhere:
        findings.add((), elsewhere)
    elif parsed.data or not parsed.syntax:
        _read_all(file, Table(parsed.data, (), findings), source)
    syntax = of_syntax(path, parsed)
    found = findings.faults(file.line_of, _unreadable(source.text, parsed.blanked))
    file.faults = shortened(syntax + found)
    bad = {fault.drill for fault in found}
    file.drills = [drill for drill in file.drills if drill.id and drill.id not in bad and not syntax]
    return file


def reader_of(kind):
    """Return the function that reads a table of the ``kind`` (one of ``KINDS_OF_TABLE``) into a drill."""
    return getattr(import_module(f"trainer.decks.{KINDS_OF_TABLE[kind]}"), f"read_{kind}")


def _read_all(file, top, source):
    setting = read_head(file, top, source.hash)
    file.references = setting.references
    count = sum(len(top.data[kind]) for kind in KINDS_OF_TABLE if isinstance(top.data.get(kind), list))
    if count > MOST_DRILLS:
        top.fault("", f"there are {count:,} drills; at most {MOST_DRILLS:,} are read")
        return
    lines = _header_lines(source.text)
    for kind in KINDS_OF_TABLE:
        reader, tables = reader_of(kind), top.tables(kind, most=MOST_DRILLS)
        known = lines.get(kind, ())
        for index, table in enumerate(tables):
            before = len(top.findings.found)
            drill = reader(table, setting)
            line = known[index] if len(known) == len(tables) else file.line_of(table.place)
            _keep(file, table, drill, line, clean=len(top.findings.found) == before)
    top.finish()


def _keep(file, table, drill, line, *, clean):
    if drill.id in file.places:
        first = file.line_of(file.places[drill.id])
        message = f"the id stands twice; the first is in line {first}"
        table.findings.add((*table.place, "id"), message, drill.id)
        return
    if drill.id:
        file.places[drill.id] = table.place
        file.after[drill.id] = drill.after
    if clean and drill.id:
        # A frozen record is made once; the line is known only out here.
        object.__setattr__(drill, "line", line)
        file.drills.append(drill)


def read_head(file, top, hash):
    """Set ``file.deck`` from the head in ``top`` and return the ``Setting`` that its drills share."""
    head = top.table("deck", required=True)
    stem = file.path.stem
    version = head.raw("format", REQUIRED)
    if version is not None and (type(version) is not int or version != FORMAT):
        head.fault("format", f"format {quoted(version)} is not known; this trainer reads format {FORMAT}")
    name = head.text("name", REQUIRED, longest=60)
    if name and name != stem:
        head.fault("name", f"{quoted(name)} must be the name of the file, {quoted(stem)}")
    title, area = head.text("title", REQUIRED, longest=120), head.word("area", AREAS)
    phase = head.word("phase", PHASES, "")
    invented, worth = head.text("invented"), _read_worth(head)
    head.finish()
    sources = read_sources(top)
    file.deck = Deck(name=stem, title=title, area=area, path=file.path, hash=hash, invented=invented)
    return Setting(
        path=file.path, deck=stem, area=area, phase=phase, worth=worth, sources=sources, references=[],
    )  # fmt: skip


def _read_worth(head):
    table = head.table("worth")
    worth = {kind: table.number(kind, DEFAULT_WORTH[kind], low=0.01, high=100) for kind in KINDS}
    table.finish()
    return worth


def _header_lines(text):
    """Return {kind: [line of each drill]}; wrong only where a text of several lines holds such a header."""
    lines, at, line = {}, 0, 1
    for match in _DRILL_HEADER.finditer(text):
        line += text.count("\n", at, match.start())
        at = match.start()
        lines.setdefault(match.group(1), []).append(line)
    return lines


def _unreadable(text, blanked):
    """Return a function that tells whether the drill around a line has lines that could not be read."""
    starts = sorted(line for lines in _header_lines(text).values() for line in lines)
    blocks = {bisect_right(starts, line) for line in blanked}
    return lambda line: bisect_right(starts, line) in blocks
