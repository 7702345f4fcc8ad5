"""The library: every drill, and the numbers of the user's airframe, ship and air wing."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from trainer.decks.files import listing, signature
from trainer.errors import DeckError
from trainer.model import Drill, Outline

__all__ = ["Library", "load", "signature"]


@dataclass(frozen=True, kw_only=True)
class Library:
    """Drills by id, decks by name, and the user's numbers by reference ("ship.deck_angle_deg").

    A drill is built when it is asked for; ``outlines`` tell of every drill what choosing, counting and planning need.
    ``notes`` holds the label of invented data under "ship", "airframe", "airwing", their titles under
    "ship.title" … and their files under "ship.path" …; ``sources`` and ``units`` are those of the tables.  ``faults``
    are those of files that could be read in part only, or not at all; ``told`` has a line for each of these files.
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


def load(home=None, *, files=(), airframe="", ship=""):
    """Return the ``Library`` of the shipped decks and those of ``home``, or of ``files`` alone.

    A bad file costs its own drills and a line of ``told``.  Raises ``UsageError`` for an airframe or ship that is not
    there, and ``DeckError`` where ``files`` give no drill at all.
    """
    # These load tomllib; `signature` above must stay cheap.
    from trainer.decks.datafile import read_data
    from trainer.decks.index import Index, places
    from trainer.decks.resting import lines, resting

    signed = signature(home, files=files, airframe=airframe, ship=ship)
    found = listing(home, files)
    index = Index(places(home))
    decks = [index.deck(path) for path in (files or found.decks.values())]
    if not files:
        index.keep()
    data = {kind: read_data(path) for kind, path in found.data(airframe, ship).items()}
    rests, faults, costs = resting(decks, data, _ids_elsewhere(home, files, found, index))
    shelf = library_of(decks, data, signed, rests=rests, faults=tuple(faults), told=tuple(lines(faults, costs)))
    if files and faults and not shelf.outlines:
        raise DeckError(faults)
    return shelf


def _ids_elsewhere(home, files, found, index):
    """Return a function that tells the ids of decks that are replaced, or left out because of ``files``."""
    known = []

    def ids():
        if not known:
            paths = (*found.replaced, *(listing(home).decks.values() if files else ()))
            known.append({drill_id for path in paths for drill_id in index.deck(path).places})
        return known[0]

    return ids


def library_of(decks, data, signed="", *, rests=frozenset(), faults=(), told=()):
    """Return the ``Library`` of the ``DeckFile``s ``decks`` and the ``DataFile``s ``data``, by kind.

    ``rests`` are (path of a deck, id) of drills to be left out.
    """
    owner, outlines = {}, {}
    for file in decks:
        for drill_id, outline in file.outlines.items():
            if (str(file.path), drill_id) not in rests:
                owner[drill_id], outlines[drill_id] = file, outline
    outlines = {drill_id: _without_absent(outline, outlines) for drill_id, outline in outlines.items()}
    named = dict(sorted(data.items()))
    return Library(
        drills=Drills(outlines, owner),
        outlines=outlines,
        decks={file.deck.name: file.deck for file in decks if file.deck},
        values=_joined(named, "values"),
        tables=_joined(named, "tables"),
        notes={kind: file.invented for kind, file in named.items()}
        | {f"{kind}.title": file.title for kind, file in named.items()}
        | {f"{kind}.name": file.name for kind, file in named.items()}
        | {f"{kind}.path": str(file.path) for kind, file in named.items()},
        sources=_joined(named, "sources"),
        units=_joined(named, "units"),
        signed=signed,
        faults=faults,
        told=told,
    )


def _without_absent(outline, outlines):
    """Return ``outline`` waiting only for drills that are loaded: nobody could ever have learnt the others."""
    present = tuple(before for before in outline.after if before in outlines)
    return outline if present == outline.after else outline._replace(after=present)


def _joined(data, attribute):
    return {f"{kind}.{name}": value for kind, file in data.items() for name, value in getattr(file, attribute).items()}
