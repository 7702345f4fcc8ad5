"""The library: every drill, and the numbers of the user's airframe, ship and air wing."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from trainer.decks.files import listing, signature
from trainer.errors import DeckError
from trainer.model import Drill

__all__ = ["Library", "load", "signature"]


@dataclass(frozen=True, kw_only=True)
class Library:
    """Drills by id, decks by name, and the user's numbers by reference ("ship.deck_angle_deg").

    ``notes`` holds the label of invented data under "ship", "airframe", "airwing", and their titles under
    "ship.title" …; ``sources`` and ``units`` are those of the tables.
    """

    drills: Mapping[str, Drill]
    decks: Mapping[str, Any]
    values: Mapping[str, float]
    tables: Mapping[str, Any]
    notes: Mapping[str, str]
    sources: Mapping[str, Any] = field(default_factory=dict)
    units: Mapping[str, str] = field(default_factory=dict)
    signed: str = ""

    def signature(self):
        """Return the text that ``library.signature`` gave for the files when they were read."""
        return self.signed


def load(home=None, *, files=(), airframe="", ship=""):
    """Return the ``Library`` of the shipped decks and those of ``home``, or of ``files`` alone.

    Raises ``DeckError`` with every fault, and ``UsageError`` for an airframe or ship that is not there.
    """
    # tomllib and numpy come with these; `signature` above must stay cheap.
    from trainer.decks.crossing import crossing_faults
    from trainer.decks.datafile import read_data
    from trainer.decks.deckfile import read_file

    signed = signature(home, files=files, airframe=airframe, ship=ship)
    found = listing(home, files)
    data = {kind: read_data(path) for kind, path in found.data(airframe, ship).items()}
    decks = [read_file(path) for path in (files or found.decks.values())]
    others = _ids_elsewhere(home, files, found)
    faults = [fault for file in (*data.values(), *decks) for fault in file.faults]
    faults += crossing_faults(decks, data, other_ids=others)
    if faults:
        raise DeckError(faults)
    return library_of(decks, data, signed)


def _ids_elsewhere(home, files, found):
    """Return a function that tells the ids of decks that are replaced, or left out because of ``files``."""
    from trainer.decks.deckfile import read_file

    known = []

    def ids():
        if not known:
            paths = (*found.replaced, *(listing(home).decks.values() if files else ()))
            known.append({drill_id for path in paths for drill_id in read_file(path).places})
        return known[0]

    return ids


def library_of(decks, data, signed=""):
    """Return the ``Library`` of the ``DeckFile``s ``decks`` and the ``DataFile``s ``data``, by kind."""
    drills = {drill.id: drill for file in decks for drill in file.drills}
    named = dict(sorted(data.items()))
    return Library(
        drills={drill_id: _without_absent(drill, drills) for drill_id, drill in drills.items()},
        decks={file.deck.name: file.deck for file in decks if file.deck},
        values=_joined(named, "values"),
        tables=_joined(named, "tables"),
        notes={kind: file.invented for kind, file in named.items()}
        | {f"{kind}.title": file.title for kind, file in named.items()}
        | {f"{kind}.name": file.name for kind, file in named.items()},
        sources=_joined(named, "sources"),
        units=_joined(named, "units"),
        signed=signed,
    )


def _without_absent(drill, drills):
    """Return ``drill`` waiting only for drills that are loaded: nobody could ever have learnt the others."""
    present = tuple(before for before in drill.after if before in drills)
    return drill if present == drill.after else replace(drill, after=present)


def _joined(data, attribute):
    return {f"{kind}.{name}": value for kind, file in data.items() for name, value in getattr(file, attribute).items()}
