"""The library: every drill, and the numbers of the user's airframe, ship and air wing."""

from collections.abc import Iterator, Mapping, Set
from dataclasses import field, replace
from functools import cached_property
from hashlib import sha256
from typing import Any

from trainer import paths
from trainer.decks.files import listing, signature, toml_files
from trainer.errors import DeckError, TrainerError
from trainer.frozen import frozen
from trainer.model import Drill, Outline

__all__ = ["Library", "load", "signature"]


@frozen
class Library:
    """Drills by id, decks by name, and the user's numbers by reference ("ship.deck_angle_deg").

    A drill is built when it is asked for; ``outlines`` tell of every drill what choosing, counting and planning need.
    ``notes`` holds the label of invented data under "ship", "airframe", "airwing", their titles under
    "ship.title" …, what they are called on the radio under "ship.called" … and their files under "ship.path" …;
    ``sources`` and ``units`` are those of the tables.  ``faults`` are those of files that could be read in part
    only, or not at all; ``told`` has a line for each of these files.
    """

    drills: Mapping[str, Drill]
    outlines: Mapping[str, Outline]
    decks: Mapping[str, Any]
    values: Mapping[str, float]
    tables: Mapping[str, Any]
    notes: Mapping[str, str]
    sources: Mapping[str, Any] = field(default_factory=dict)
    units: Mapping[str, str] = field(default_factory=dict)
    signed: str = ""
    faults: tuple = ()
    told: tuple[str, ...] = ()

    def signature(self):
        """Return the text that ``library.signature`` gave for the files when they were read."""
        return self.signed


class Drills(Mapping):
    """The drills by id, each built when it is first asked for."""

    def __init__(self, outlines, owner):
        self._outlines, self._owner = outlines, owner
        self._built = {}

    def __getitem__(self, drill_id: str) -> Drill:
        if drill_id not in self._built:
            after = self._outlines[drill_id].after
            drill = self._owner[drill_id].build(drill_id)
            self._built[drill_id] = drill if drill.after == after else replace(drill, after=after)
        return self._built[drill_id]

    def __iter__(self) -> Iterator[str]:
        return iter(self._outlines)

    def __len__(self) -> int:
        return len(self._outlines)

    def __contains__(self, drill_id: object) -> bool:
        return drill_id in self._outlines


class Late(Mapping):
    """Numbers, tables or notes of the user's files, read when the first of them is asked for."""

    def __init__(self, read):
        self._read = read

    @cached_property
    def _all(self):
        return self._read()

    def __getitem__(self, name):
        if name not in self._all:
            raise MissingNumber(name)
        return self._all[name]

    def __iter__(self):
        return iter(self._all)

    def __len__(self):
        return len(self._all)

    def __contains__(self, name):
        return name in self._all


class MissingNumber(TrainerError, KeyError):
    """A number or table that something needs is in none of the user's files."""

    __str__ = TrainerError.__str__

    def __init__(self, name):
        kind = name.partition(".")[0]
        super().__init__(
            f'"{name}" is not in your {kind} file', hint=f"add it, or choose another {kind} with `deck use`"
        )


def load(home=None, *, files=(), airframe="", ship="", portable=False):
    """Return the ``Library`` of the shipped decks and those of ``home``, or of ``files`` alone.

    What was read is kept in the index, ``portable`` for a wheel.  A bad file costs its own drills and a line of
    ``told``.  Raises ``UsageError`` for an airframe or ship that is not there, and ``DeckError`` where ``files`` give
    no drill at all.
    """
    from trainer.decks.index import Index, key_of, places

    signed = signature(home, files=files, airframe=airframe, ship=ship)
    found = listing(home, files)
    index = Index(places(home), portable=portable)
    decks = [index.deck(path) for path in (files or found.decks.values())]
    chosen = found.data(airframe, ship)
    data = Data(chosen)
    keys = [f"{file.path.stem}:{file.deck.hash if file.deck else ''}" for file in decks]
    keys += [key_of(path) for path in (*chosen.values(), *found.replaced)]
    together = sha256("\n".join((*chosen, *keys)).encode()).hexdigest()
    told = [] if files else own_lists(home)
    if index.is_sound(together) and not any(file.faults for file in decks):
        index.keep()
        return library_of(decks, data, signed, told=tuple(told))
    from trainer.decks.resting import lines, resting

    others = _ids_elsewhere(home, files, found, index)
    decks = [file.unfold() for file in decks]
    rests, faults, costs = resting(decks, data.files, others)
    if not (faults or files):
        index.note_sound(together, decks)
    if not files:
        index.keep()
    shelf = library_of(decks, data, signed, rests=rests, faults=tuple(faults), told=(*lines(faults, costs), *told))
    if files and faults and not shelf.outlines:
        raise DeckError(faults)
    return shelf


def own_lists(home):
    """Return a line for each stage or standard of the user's own that has faults: the others stand in."""
    own = paths.own_decks(home) if home else None
    found = {name: list(toml_files(own / name).values()) if own else [] for name in ("stages", "standards")}
    if not any(found.values()):
        return []
    from trainer.decks import stages, standards

    faults = [fault for path in found["stages"] for fault in stages.read(path)[1]]
    faults += [fault for path in found["standards"] for fault in standards.read(path)[1]]
    if not faults:
        return []
    from trainer.decks.resting import lines

    return lines(faults, {})


class Data:
    """The chosen data files by kind, each read once and only when something of them is asked for."""

    def __init__(self, chosen, files=None):
        self._chosen = chosen
        if files is not None:
            self.files = files

    @cached_property
    def files(self):
        """Return {"ship": ``DataFile``, …}."""
        from trainer.decks.datafile import read_data

        return {kind: read_data(path) for kind, path in sorted(self._chosen.items())}

    def joined(self, attribute):
        """Return {"ship.deck_angle_deg": …} of all the files."""
        return {
            f"{kind}.{name}": value
            for kind, file in self.files.items()
            for name, value in getattr(file, attribute).items()
        }

    def notes(self):
        """Return the labels, titles, names and paths of the files."""
        notes = {kind: file.invented for kind, file in self.files.items()}
        for kind, file in self.files.items():
            notes |= {f"{kind}.title": file.title, f"{kind}.name": file.name, f"{kind}.path": str(file.path)}
            notes[f"{kind}.called"] = file.called
            notes |= {f"{kind}.wings": file.wings} if file.wings else {}
        return notes


def _ids_elsewhere(home, files, found, index):
    """Return a function that tells the ids of decks that are replaced, or left out because of ``files``."""
    known = []

    def ids():
        if not known:
            paths = (*found.replaced, *(listing(home).decks.values() if files else ()))
            known.append({drill_id for path in paths for drill_id in index.deck(path).unfold().places})
        return known[0]

    return ids


def library_of(decks, data, signed="", *, rests: Set[tuple[str, str]] = frozenset(), faults=(), told=()):
    """Return the ``Library`` of the ``DeckFile``s ``decks`` and the numbers of ``data``.

    ``rests`` are (path of a deck, id) of drills to be left out.
    """
    owner, outlines = {}, {}
    for file in decks:
        for drill_id, outline in file.outlines.items():
            if not rests or (str(file.path), drill_id) not in rests:
                owner[drill_id], outlines[drill_id] = file, outline
    outlines = {drill_id: _without_absent(outline, outlines) for drill_id, outline in outlines.items()}
    return Library(
        drills=Drills(outlines, owner),
        outlines=outlines,
        decks={file.deck.name: file.deck for file in decks if file.deck},
        values=Late(lambda: data.joined("values")),
        tables=Late(lambda: data.joined("tables")),
        notes=Late(data.notes),
        sources=Late(lambda: data.joined("sources")),
        units=Late(lambda: data.joined("units")),
        signed=signed,
        faults=faults,
        told=told,
    )


def _without_absent(outline, outlines):
    """Return ``outline`` waiting only for drills that are loaded: nobody could ever have learnt the others."""
    if all(before in outlines for before in outline.after):
        return outline
    return outline._replace(after=tuple(before for before in outline.after if before in outlines))
