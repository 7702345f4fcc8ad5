"""Standards: what an instructor demands of each area, read from ``decks/standards/*.toml``.

A standard gives for each area the share of right answers, the share of these that came in time, a factor on
the drills' time limits, and the fewest questions by which an area may be judged; and the flows that must be
wholly right.  The user's own file replaces a shipped one of the same name.
"""

from collections.abc import Callable, Mapping
from dataclasses import field, fields, replace
from pathlib import Path

from trainer import paths
from trainer.decks.one_record import read_record
from trainer.decks.shape import REQUIRED
from trainer.decks.words import nearest, quoted
from trainer.errors import DeckError, UsageError
from trainer.frozen import frozen
from trainer.model import AREAS

FORMAT = 1
FOLDER = "standards"
MOST_REQUIRED = 100
USUAL = "night-board"  # where neither a name is given nor the user has a standard of their own


@frozen
class Demand:
    """What is demanded of one area: ``share`` right, ``in_time`` of these within ``time_factor`` times the limit.

    With fewer than ``fewest`` questions the area is not judged.  A report on practice (not one night's questions)
    also asks that the share ``met`` of the area's drills was ever asked.
    """

    share: float = 0.8
    in_time: float = 0.0
    time_factor: float = 1.0
    fewest: float = 1.0
    met: float = 0.0


RANGES = {"share": (0, 1), "in_time": (0, 1), "time_factor": (0.1, 10), "fewest": (1, 1000), "met": (0, 1)}


@frozen
class Standard:
    """``demands`` has an entry for every area; ``required`` are ids of flows.

    ``kept_as`` is what brings it back from any folder: its name, or the whole path of a file that lies elsewhere.
    """

    name: str
    title: str
    path: Path
    invented: str = ""
    demands: Mapping[str, Demand] = field(default_factory=dict)
    required: tuple[str, ...] = ()
    kept_as: str = ""

    def demand(self, area):
        """Return the ``Demand`` on ``area``."""
        return self.demands[area]

    @property
    def areas(self):
        """Return the demands by area."""
        return self.demands


def folders(home=None):
    """Return the folders in which standards lie; a later one replaces an earlier one's files by name."""
    own = (paths.own_decks(home) / FOLDER,) if home else ()
    return (paths.shipped_decks() / FOLDER, *own)


def listing(home=None):
    """Return {name: path} of the standards there are; own ones come first."""
    shipped, *own = folders(home)
    mine = {path.stem: path for folder in own for path in sorted(folder.glob("*.toml"))}
    return mine | {path.stem: path for path in sorted(shipped.glob("*.toml")) if path.stem not in mine}


def load(home=None, name="", *, drills=None):
    """Return the ``Standard`` called ``name`` (a name or a file; "" is the first of the
    user's own, else the usual one).

    ``drills`` are the known drills by id; required flows must be among them.  Raises ``UsageError`` for a name
    that no file has and ``DeckError`` with every fault of the file.
    """
    known = listing(home)
    if not name and not known:
        raise UsageError("there is no standard", hint="put one into decks/standards/ of your folder")
    by_file = name.endswith(".toml")
    path = Path(name).absolute() if by_file else known.get(name or _usual(known))
    if path is None:
        raise UsageError(f"there is no standard {name[:60]!r}", hint=f"known: {', '.join(sorted(known)) or 'none'}")
    standard, faults = read(path, drills=drills)
    if standard is None or faults:
        raise DeckError(faults)
    return replace(standard, kept_as=str(path) if by_file else standard.name)


def _usual(known):
    first = next(iter(known))
    return USUAL if known[first].parent == paths.shipped_decks() / FOLDER and USUAL in known else first


def find(name: str = "", home: Path | None = None, tell: Callable[[str], None] | None = None) -> Standard:
    """Return the ``Standard`` called ``name`` as ``load`` does, whatever drills there are.

    Where its file has gone or has faults the shipped one of that name stands in, else the usual one: a file that was
    chosen once must not stop anything.  ``tell``, if given, is called with a line that says so.
    """
    try:
        return load(home, name)
    except (UsageError, DeckError) as error:
        found = load(None, name if name in listing() else "")
        if tell is not None:
            tell(f"{str(error).splitlines()[0]}; {found.title!r} stands in")
        return found


def read(path, *, drills=None):
    """Return (``Standard`` or None, faults) of the file at ``path``; never raises for what stands in it."""
    path = Path(path)
    return read_record(path, "standard", lambda top, findings: _standard(top, path, drills))


def _standard(top, path, drills):
    version = top.raw("format", REQUIRED)
    if version is not None and (type(version) is not int or version != FORMAT):
        top.fault("format", f"format {quoted(version)} is not known; this trainer reads format {FORMAT}")
    name = top.text("name", REQUIRED, longest=60)
    if name and name != path.stem:
        top.fault("name", f"{quoted(name)} must be the name of the file, {quoted(path.stem)}")
    title, invented = top.text("title", REQUIRED, longest=120), top.text("invented")
    common = _demand(top.table("all"), Demand())
    own = top.table("area")
    demands: dict[str, Demand] = dict.fromkeys(AREAS, common)
    for area in own.data:
        if area in AREAS:
            demands[area] = _demand(own.table(area), common)
        else:
            own.fault(area, f"{quoted(area)} is no area{nearest(area, AREAS)} (areas are {', '.join(AREAS)})")
    required = _required(top.table("flows"), drills)
    top.finish()
    return Standard(name=name, title=title, path=path, invented=invented, demands=demands, required=required)


def _demand(table, common):
    """Return the ``Demand`` of ``table``; what it leaves out comes from ``common``."""
    given = {}
    for spec in fields(Demand):
        low, high = RANGES[spec.name]
        value = table.number(spec.name, getattr(common, spec.name), low=low, high=high)
        given[spec.name] = getattr(common, spec.name) if value is None else value
    table.finish()
    return Demand(**given)


def _required(table, drills):
    required = table.texts("required", most=MOST_REQUIRED)
    table.finish()
    flows = None if drills is None else [one for one, drill in drills.items() if drill.kind == "flow"]
    for drill_id in required if flows is not None else ():
        if drill_id not in flows:
            table.fault("required", f"{quoted(drill_id)} is no flow{nearest(drill_id, flows)}")
    return required
