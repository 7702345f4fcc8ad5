"""The library index: what decks say, kept so that a start need not read them again.

It holds data only: for each deck, found by the hash of its bytes, what is wrong with it, the outlines of its drills and
their tables as JSON; the tables of the small files; and which decks and numbers go together without a fault.  A drill
is built from its table by the same readers, with the same checks, as from the deck itself, so an index from a stranger
can do no more than a deck from a stranger.  What is damaged, foreign, or made by another trainer counts for nothing.
"""

import hashlib
import json
import os
from functools import cached_property
from pathlib import Path

from trainer import paths
from trainer.decks.deck import Deck, DeckFile
from trainer.decks.fault import Fault
from trainer.decks.files import FOLDERS, toml_files
from trainer.decks.tables import KNOWN, parse
from trainer.model import Drill, Outline

NAME = ".index"
FIRST_LINE = b"trainer deck index 1 "
MOST_BYTES = 1_000_000  # of a deck, as in `textfile`
LARGEST = 100_000_000  # bytes; a larger index is none of ours
MOST_SOUND = 20  # combinations of decks and numbers that are remembered
AFTER = Outline._fields.index("after")
SHAPE = (str, str, str, str, float, float, list, str, int, str, int, str, int, int, str, int, int)
READ_BY = ("model.py", "decks", "engine", "engine/quantities")  # what decides how a deck is read
SMALL = "small files"
SMALL_FOLDERS = ("stages", "standards", *FOLDERS.values())
NO_INDEX = (TypeError, ValueError, KeyError, IndexError, AttributeError, RecursionError)


def places(home=None) -> list[Path]:
    """Return where an index may lie: beside the shipped decks (made with the wheel), and in ``home``."""
    return [paths.shipped_decks() / NAME, *([Path(home) / NAME] if home else [])]


def stamp(package: Path = paths.PACKAGE, *, portable: bool = False) -> str:
    """Return the mark of the trainer that reads: it changes when the code that reads decks does.

    Sizes tell releases apart; in a checkout, where a digit may be changed, the times of the files count as well, unless
    the mark is to be ``portable``, for a wheel.
    """
    checkout = not portable and not (package / "shipped").is_dir()
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

    def __init__(self, at: list[Path], *, portable: bool = False):
        self._shipped, self._own = at[0], at[-1]
        self._stamp = stamp(portable=portable)
        self._known = {place: _read(place, self._stamp) for place in at}
        self._used = {place: {} for place in at}
        self._sound = {place: sound for place, (_, sound) in self._known.items()}
        for entries, _ in self._known.values():
            _, small = entries.pop(SMALL, ({}, b""))
            KNOWN.update(_texts(small))
        self._new = set()

    def deck(self, path) -> DeckFile:
        """Return the ``DeckFile`` at ``path``, from an index where its bytes are known; never raises."""
        path = Path(path)
        key = key_of(path)
        for place, (known, _) in self._known.items():
            if key in known:
                try:
                    file = IndexedFile(path, key, *known[key], place)
                except NO_INDEX:
                    continue  # sealed, but none of ours
                self._used[place][key] = known[key]
                return file
        from trainer.decks.deckfile import read_file

        file = read_file(path)
        entry = _entry(file) if key else None
        if entry:
            place = self._place(path)
            self._used[place][key] = entry
            self._new.add(place)
        return file

    def _place(self, path):
        return self._shipped if path.parent == self._shipped.parent else self._own

    def is_sound(self, together: str) -> bool:
        """Return whether the decks and numbers marked by ``together`` were found to go together without a fault."""
        return any(together in sound for sound in self._sound.values())

    def note_sound(self, together: str, decks: list[DeckFile]) -> None:
        """Remember that ``decks`` go together without a fault with the numbers marked by ``together``."""
        place = self._shipped if all(self._place(file.path) == self._shipped for file in decks) else self._own
        self._sound[place] = [*self._sound[place], together][-MOST_SOUND:]
        self._new.add(place)

    def keep(self):
        """Write what was read anew; where that can't be, it will be read anew again."""
        refused = False
        for place in dict.fromkeys((self._shipped, self._own)):
            entries, sound = self._used[place], self._sound[place]
            if refused:  # the home keeps what the folder of shipped decks does not take
                entries, sound = entries | self._used[self._shipped], sound + self._sound[self._shipped]
            if place in self._new or refused:
                entries = {**entries, SMALL: ({}, _small(self._shipped.parent, self._own.parent / "decks"))}
                refused = not _write(place, entries, sound, self._stamp)


def forget(place: Path):
    """Remove the file at ``place`` as far as that can be done."""
    try:
        place.unlink(missing_ok=True)
    except OSError:
        pass


class IndexedFile(DeckFile):
    """A deck as the index knows it.  Its drills are built one by one, and the text is read only to tell a line."""

    def __init__(self, path, key, entry, bodies, place):
        self._hash = key.partition(":")[2]
        super().__init__(
            path=path,
            deck=Deck(path=path, hash=self._hash, **entry["deck"]) if entry["deck"] else None,
            faults=[Fault(file=str(path), line=at, drill=drill, message=text) for at, drill, text in entry["faults"]],
        )
        self._place, self._bodies, (self._end,) = place, bodies, entry["rest"]
        self._outlines = {row[0]: _outline(row) for row in entry["rows"]}
        self._spans = {row[0]: row[-2:] for row in entry["rows"]}

    def unfold(self) -> DeckFile:
        """Return this with places, prerequisites and references, ready to be checked with other decks."""
        try:
            self._unfold()
        except NO_INDEX:
            return self._read()
        return self

    def _unfold(self):
        self.places = {drill_id: tuple(place) for drill_id, place in self._rest["places"].items()}
        self.after = {drill_id: tuple(after) for drill_id, after in self._rest["after"].items()}
        self.references = [_reference(*one) for one in self._rest["references"]]

    def _read(self):
        from trainer.decks.deckfile import read_file

        forget(self._place)
        return read_file(self.path)

    @cached_property
    def _rest(self):
        return json.loads(self._bodies[self._end :])

    @cached_property
    def lines(self):
        """Return the map from places to lines."""
        from trainer.decks.lines import line_map
        from trainer.decks.textfile import read_text

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
        except NO_INDEX:
            pass
        return self._read().build(drill_id)

    def _built(self, drill_id):
        from trainer.decks.deckfile import reader_of
        from trainer.decks.fault import Findings
        from trainer.decks.shape import Table

        start, end = self._spans[drill_id]
        place, findings = tuple(self._rest["places"][drill_id]), Findings(self.path)
        table = Table(json.loads(self._bodies[start:end]), place, findings)
        drill = reader_of(place[0])(table, self._setting)
        if findings.found:
            raise ValueError("the table has faults")
        return drill

    @cached_property
    def _setting(self):
        from trainer.decks.deckfile import read_head
        from trainer.decks.fault import Findings
        from trainer.decks.shape import Table

        return read_head(DeckFile(path=self.path), Table(self._rest["head"], (), Findings(self.path)), self._hash)


def key_of(path: Path) -> str:
    """Return "stem:hash of the bytes" of the file at ``path``, "" for one that can't be read."""
    try:
        if not path.is_file() or path.stat().st_size > MOST_BYTES:
            return ""
        return f"{path.stem}:{hashlib.sha256(path.read_bytes()).hexdigest()}"
    except (OSError, ValueError):
        return ""


def _entry(file):
    """Return (what the index says of ``file``, its tables as JSON), None for what is no JSON."""
    rows, bodies, deck = [], b"", file.deck
    try:
        for drill_id, outline in file.outlines.items():
            kind, number = file.places[drill_id]
            body = json.dumps(file.tables[kind][number], allow_nan=False, separators=(",", ":")).encode()
            rows.append([*outline, len(bodies), len(bodies) + len(body)])
            bodies += body
        entry = {
            "deck": {"name": deck.name, "title": deck.title, "area": deck.area, "invented": deck.invented}
            if deck
            else None,
            "rows": rows,
            "faults": [[fault.line, fault.drill, fault.message] for fault in file.faults],
            "rest": [len(bodies)],
        }
        rest = {
            "head": {key: file.tables[key] for key in ("deck", "source") if key in file.tables} if deck else {},
            "places": file.places,
            "after": file.after,
            "references": [[one.place, one.drill, one.name, one.is_table, one.spec] for one in file.references],
        }
        bodies += json.dumps(rest, allow_nan=False, separators=(",", ":")).encode()
        return json.loads(json.dumps(entry, allow_nan=False)), bodies
    except (TypeError, ValueError, KeyError):
        return None


def _small(*folders):
    """Return, as JSON, the tables of the small files in ``folders`` by the hash of their bytes; of sound ones only."""
    from trainer.decks.textfile import read_text

    found = {}
    for folder in folders:
        files = [file for inside in SMALL_FOLDERS for file in toml_files(folder / inside).values()]
        for file in [*files, folder / "airwing.toml"]:
            source, _, _ = read_text(file)
            parsed = parse(source.text) if source else None
            try:
                if source and parsed and not parsed.syntax:
                    found[source.hash] = json.dumps(parsed.data, allow_nan=False)
            except (TypeError, ValueError):
                pass  # a date, or no number: told when it is read
    return json.dumps(found).encode()


def _texts(small):
    """Return {hash: JSON} of what ``_small`` gave, {} for anything else."""
    try:
        found = json.loads(small or b"{}")
        return {hash: text for hash, text in found.items() if type(text) is str and isinstance(json.loads(text), dict)}
    except NO_INDEX:
        return {}


def _outline(row):
    """Return the ``Outline`` in ``row``; raises ``ValueError`` for what is none."""
    if tuple(map(type, row)) != SHAPE or {*map(type, row[AFTER])} - {str}:
        raise ValueError("no outline")
    return Outline._make((*row[:AFTER], tuple(row[AFTER]), *row[AFTER + 1 : -2]))


def _reference(place, drill, name, is_table, wanted):
    from trainer.decks.read_common import Reference, Wanted

    spec = Wanted(*wanted) if wanted else None
    return Reference(place=tuple(place), drill=drill, name=name, is_table=is_table, spec=spec)


def _read(place, stamp):
    """Return ({key: (entry, bodies)}, sound combinations) at ``place``, nothing where it is not as it was written."""
    try:
        if not place.is_file() or place.stat().st_size > LARGEST:
            return {}, []
        first, sealed, head, bodies = place.read_bytes().split(b"\n", 3)
        if first != FIRST_LINE + stamp.encode() or sealed != _seal(head, bodies):
            return {}, []
        entries, sound = json.loads(head)
        whole = memoryview(bodies)
        return {key: (entry, bytes(whole[start:end])) for key, (start, end, entry) in entries.items()}, list(sound)
    except (OSError, *NO_INDEX):
        return {}, []


def _write(place, entries, sound, stamp):
    """Write ``entries`` to ``place``, whole or not at all; return whether that could be done."""
    spans, bodies = {}, b""
    for key, (entry, body) in entries.items():
        spans[key] = [len(bodies), len(bodies) + len(body), entry]
        bodies += body
    head = json.dumps([spans, sound], separators=(",", ":")).encode()
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
