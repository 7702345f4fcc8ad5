"""Which files make up the library: shipped ones, and the user's own, which replace those of the same name.

Nothing is parsed here and nothing heavy imported: a start of the trainer asks only whether anything changed.
"""

import os
import zlib
from pathlib import Path

from trainer import paths
from trainer.errors import UsageError

MOST_FILES = 500
AIRWING = "airwing.toml"
FOLDERS = {"airframe": "airframes", "ship": "ships"}


class Listing:
    """Paths by name; ``own`` {kind: names of the user's own}.

    ``replaced`` are shipped decks whose place a deck of the user's own has taken.
    """

    def __init__(self):
        self.decks, self.airframe, self.ship = {}, {}, {}
        self.airwing = None
        self.own = {}
        self.replaced = []

    def data(self, airframe="", ship=""):
        """Return {"ship": path, …} of the chosen data files; "" chooses the first by name, own ones first.

        Raises ``UsageError`` for a name that no file has.
        """
        chosen = {"airwing": self.airwing} if self.airwing else {}
        for kind, name, known in (("airframe", airframe, self.airframe), ("ship", ship, self.ship)):
            if name and name not in known:
                have = ", ".join(sorted(known)) or "none"
                raise UsageError(f"there is no {kind} {name[:60]!r}", hint=f"known: {have}")
            if known:
                chosen[kind] = known[name or min(self.own.get(kind) or known)]
        return chosen

    def all(self):
        """Return every path, those of decks first."""
        airwing = [self.airwing] if self.airwing else []
        return [*self.decks.values(), *self.airframe.values(), *self.ship.values(), *airwing]


def listing(home=None, files=()):
    """Return the ``Listing`` of the shipped decks and of ``home``; ``files`` stand instead of all decks."""
    found = Listing()
    folders = [paths.shipped_decks(), *([paths.own_decks(home)] if home else [])]
    for number, folder in enumerate(folders):
        decks = toml_files(folder)
        airwing = decks.pop("airwing", None)
        found.airwing = airwing or found.airwing
        found.replaced += [found.decks[name] for name in decks if number and name in found.decks]
        found.decks |= decks
        for kind, known in (("airframe", found.airframe), ("ship", found.ship)):
            here = toml_files(folder / FOLDERS[kind])
            known |= here
            found.own[kind] = list(here) if number else []
    if files:
        found.decks = {Path(file).stem: Path(file) for file in files}
        found.replaced = []
    return found


def toml_files(folder):
    """Return {name: path} of the TOML files in ``folder``, sorted by name; none when there is no folder."""
    try:
        names = sorted(os.listdir(folder))
    except OSError:
        return {}
    names = [name for name in names if name.endswith(".toml") and not name.startswith(".")]
    return {name.removesuffix(".toml"): Path(folder) / name for name in names[:MOST_FILES]}


def signature(home=None, *, files=(), airframe="", ship=""):
    """Return a text that changes when a deck or data file changes, appears or goes; nothing is parsed."""
    found = listing(home, files)
    marks = [airframe, ship, *(_mark(path) for path in (*found.all(), *found.replaced))]
    # Not a digest of `hashlib`, which takes as long to load as all that is loaded here: nobody gains by a clash.
    text = "\n".join(marks).encode("utf-8", "surrogateescape")
    return f"{zlib.crc32(text):08x}{zlib.adler32(text):08x}{len(text):x}"


def _mark(path):
    try:
        stat = os.stat(path)
    except OSError:
        return f"{path} gone"
    return f"{path} {stat.st_size} {stat.st_mtime_ns}"
