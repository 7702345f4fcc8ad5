"""The library index: what decks say, kept so that a start need not read them again.

It holds data only: for each deck, found by the hash of its bytes, what is wrong with it, the outlines of its drills,
and their tables as JSON.  A drill is built from its table by the same readers, with the same checks, as from the deck
itself, so an index from a stranger can do no more than a deck from a stranger.  What is damaged, foreign, or made by
another trainer is as good as not there.
"""

import hashlib
import json
import os
from functools import cached_property
from pathlib import Path

from trainer import paths
from trainer.decks.deckfile import DeckFile, read_file, read_head, reader_of
from trainer.decks.fault import Fault, Findings
from trainer.decks.lines import line_map
from trainer.decks.read_common import Reference, Wanted
from trainer.decks.shape import Table
from trainer.decks.textfile import MOST_BYTES, read_text
from trainer.model import Drill, Outline

NAME = ".index"
FIRST_LINE = b"trainer deck index 1 "
LARGEST = 100_000_000  # bytes; a larger file is none of ours
AFTER = Outline._fields.index("after")
SHAPE = (str, str, str, str, float, float, list, str, int, str, int, str, int, int, str, int, int)
READ_BY = ("model.py", "decks", "engine", "engine/quantities")  # what decides how a deck is read


def places(home=None) -> list[Path]:
    """Return where an index may lie: beside the shipped decks (made with the wheel), and in ``home``."""
    return [paths.shipped_decks() / NAME, *([Path(home) / NAME] if home else [])]


def stamp(package: Path = paths.PACKAGE) -> str:
    """Return the mark of the trainer that reads: it changes when the code that reads decks does.

    Sizes tell releases apart; in a checkout, where a digit may be changed, the times of the files count as well.
    """
    checkout = not (package / "shipped").is_dir()
    marks = []
    for name in READ_BY:
        path = package / name
        for file in sorted(os.scandir(path), key=lambda one: one.name) if path.is_dir() else [path]:
            if file.name.endswith(".py"):
                stat = file.stat()
                marks.append(f"{name}/{file.name} {stat.st_size} {stat.st_mtime_ns if checkout else ''}")
    return hashlib.sha256("\n".join(marks).encode()).hexdigest()


class Index:
    """What the indexes at the ``places`` know of decks: the one beside the shipped decks, then that of the home."""

    def __init__(self, at: list[Path]):
        self._shipped, self._own = at[0], at[-1]
        self._stamp = stamp()
        self._known = {place: _read(place, self._stamp) for place in at}
        self._used = {place: {} for place in at}
        self._new = set()

    def deck(self, path) -> DeckFile:
        """Return the ``DeckFile`` at ``path``, from an index where its bytes are known; never raises."""
        path = Path(path)
        key = _key(path)
        for place, known in self._known.items():
            if key in known:
                try:
                    file = IndexedFile(path, key, *known[key], place)
                except (TypeError, ValueError, KeyError, IndexError, AttributeError):
                    continue  # sealed, but none of ours
                self._used[place][key] = known[key]
                return file
        file = read_file(path)
        entry = _entry(file) if key else None
        if entry:
            place = self._shipped if path.parent == self._shipped.parent else self._own
            self._used[place][key] = entry
            self._new.add(place)
        return file

    def keep(self):
        """Write what was read anew; where that can't be, it will be read anew again."""
        shipped, own = self._used[self._shipped], self._used[self._own]
        if self._shipped in self._new and not _write(self._shipped, shipped, self._stamp):
            _write(self._own, own | shipped, self._stamp)
        elif self._own in self._new and self._own != self._shipped:
            _write(self._own, own, self._stamp)


def forget(place: Path):
    """Remove the file at ``place`` as far as that can be done."""
    try:
        place.unlink(missing_ok=True)
    except OSError:
        pass


class IndexedFile(DeckFile):
    """A deck as the index knows it.  Its drills are built one by one, and the text is read only to tell a line."""

    def __init__(self, path, key, entry, bodies, place):
        super().__init__(
            path=path,
            places={drill_id: tuple(place) for drill_id, place in entry["places"].items()},
            after={drill_id: tuple(after) for drill_id, after in entry["after"].items()},
            references=[_reference(*one) for one in entry["references"]],
            faults=[Fault(file=str(path), line=at, drill=drill, message=text) for at, drill, text in entry["faults"]],
        )
        self._place, self._bodies = place, bodies
        self._outlines = {row[0]: _outline(row) for row in entry["rows"]}
        self._spans = {row[0]: row[-2:] for row in entry["rows"]}
        if entry["head"]:
            self._setting = read_head(self, Table(entry["head"], (), Findings(path)), key.partition(":")[2])

    @cached_property
    def lines(self):
        """Return the map from places to lines."""
        source, _, _ = read_text(self.path)
        return line_map(source.text if source else "")

    @cached_property
    def outlines(self):
        """Return the outlines of the drills without faults, by id."""
        return self._outlines

    def build(self, drill_id) -> Drill:
        """Return the drill ``drill_id``; where its table is not what the outline says, it is read from the deck."""
        try:
            drill = self._built(drill_id)
            object.__setattr__(drill, "line", self._outlines[drill_id].line)
            if Outline.of(drill) == self._outlines[drill_id]:
                return drill
        except (TypeError, ValueError, AttributeError, KeyError, IndexError, RecursionError):
            pass
        forget(self._place)
        return read_file(self.path).build(drill_id)

    def _built(self, drill_id):
        start, end = self._spans[drill_id]
        place, findings = self.places[drill_id], Findings(self.path)
        table = Table(json.loads(self._bodies[start:end]), place, findings)
        drill = reader_of(place[0])(table, self._setting)
        if findings.found:
            raise ValueError("the table has faults")
        return drill


def _key(path):
    """Return "stem:hash of the bytes" of the deck at ``path``, "" for one that can't be read."""
    try:
        if not path.is_file() or path.stat().st_size > MOST_BYTES:
            return ""
        return f"{path.stem}:{hashlib.sha256(path.read_bytes()).hexdigest()}"
    except (OSError, ValueError):
        return ""


def _entry(file):
    """Return (what the index says of ``file``, its tables as JSON), None for what is no JSON."""
    rows, bodies = [], b""
    try:
        for drill_id, outline in file.outlines.items():
            kind, number = file.places[drill_id]
            body = json.dumps(file.tables[kind][number], allow_nan=False, separators=(",", ":")).encode()
            rows.append([*outline, len(bodies), len(bodies) + len(body)])
            bodies += body
        head = {key: file.tables[key] for key in ("deck", "source") if key in file.tables} if file.deck else None
        entry = {
            "head": head,
            "rows": rows,
            "places": file.places,
            "after": file.after,
            "references": [_row(one) for one in file.references],
            "faults": [[fault.line, fault.drill, fault.message] for fault in file.faults],
        }
        return json.loads(json.dumps(entry, allow_nan=False)), bodies
    except (TypeError, ValueError, KeyError):
        return None


def _outline(row):
    """Return the ``Outline`` in ``row``; raises ``ValueError`` for what is none."""
    if tuple(map(type, row)) != SHAPE or {*map(type, row[AFTER])} - {str}:
        raise ValueError("no outline")
    row[AFTER] = tuple(row[AFTER])
    return Outline(*row[:-2])


def _row(reference):
    return [reference.place, reference.drill, reference.name, reference.is_table, reference.spec]


def _reference(place, drill, name, is_table, wanted):
    return Reference(
        place=tuple(place), drill=drill, name=name, is_table=is_table, spec=Wanted(*wanted) if wanted else None
    )


def _read(place, stamp):
    """Return {key: (entry, bodies)} of the index at ``place``, {} where there is none as it was written."""
    try:
        if not place.is_file() or place.stat().st_size > LARGEST:
            return {}
        first, sealed, head, bodies = place.read_bytes().split(b"\n", 3)
        if first != FIRST_LINE + stamp.encode() or sealed != _seal(head, bodies):
            return {}
        entries = json.loads(head)
        whole = memoryview(bodies)
        return {key: (entry, bytes(whole[start:end])) for key, (start, end, entry) in entries.items()}
    except (OSError, ValueError, TypeError, AttributeError, RecursionError):
        return {}


def _write(place, entries, stamp):
    """Write ``entries`` to ``place``, whole or not at all; return whether that could be done."""
    head, bodies = {}, b""
    for key, (entry, body) in entries.items():
        head[key] = [len(bodies), len(bodies) + len(body), entry]
        bodies += body
    head = json.dumps(head, separators=(",", ":")).encode()
    part = place.with_name(f"{place.name}.{os.getpid()}")
    try:
        with open(part, "xb") as file:
            file.write(b"\n".join((FIRST_LINE + stamp.encode(), _seal(head, bodies), head, bodies)))
        os.replace(part, place)
        return True
    except OSError:
        forget(part)
        return False


def _seal(head, bodies):
    return hashlib.sha256(head + b"\n" + bodies).hexdigest().encode()
