"""Stages: what a pilot works towards now, read from ``decks/stages/*.toml``.

A stage is an ordered list of drills: ``core``, what is needed in the cockpit without looking, then ``more``.  An
entry is the id of a drill or flow, or ``deck:NAME`` or ``area:NAME`` for all of one deck or area.  A stage names
the standard it is measured by and the stage that follows.  The user's own file replaces a shipped one of the same
name; a task that an instructor hands back is nothing but such a file.
"""

from pathlib import Path

from trainer import paths
from trainer.decks.files import toml_files
from trainer.decks.one_record import read_record
from trainer.decks.shape import ID, REQUIRED
from trainer.decks.words import nearest, quoted
from trainer.errors import DeckError, UsageError
from trainer.frozen import frozen
from trainer.model import AREAS

FORMAT = 1
FOLDER = "stages"
FIRST = "day-departure"  # where a new pilot begins
REFERENCE = "reference"  # what is asked only when it is chosen
MOST_ENTRIES = 5_000
LONGEST_ENTRY = 80
CASES = (1, 2, 3)
DECK, AREA = "deck:", "area:"


@frozen
class Stage:
    """A stage as its file has it.

    ``core`` and ``more`` are entries: ids of drills, ``deck:NAME``, ``area:NAME``.  ``case`` is 1, 2 or 3, 0 for
    none; ``standard`` and ``next`` are names, "" for none.
    """

    name: str
    title: str
    path: Path
    case: int = 0
    standard: str = ""
    next: str = ""
    core: tuple[str, ...] = ()
    more: tuple[str, ...] = ()


def folders(home=None):
    """Return the folders in which stages lie; a later one replaces an earlier one's files by name."""
    own = (paths.own_decks(home) / FOLDER,) if home else ()
    return (paths.shipped_decks() / FOLDER, *own)


def listing(home=None):
    """Return {name: path} of the stages there are: the shipped ones as they follow each other, then one's own."""
    found = {}
    for folder in folders(home):
        found |= toml_files(folder)
    return found


def load(home=None, name=FIRST):
    """Return the ``Stage`` called ``name`` (a name, or a file that ends in ``.toml``).

    Raises ``UsageError`` for a name that no file has and ``DeckError`` with every fault of the file.
    """
    known = listing(home)
    path = Path(name) if name.endswith(".toml") else known.get(name)
    if path is None:
        raise UsageError(f"there is no stage {name[:60]!r}", hint=f"known: {', '.join(sorted(known)) or 'none'}")
    stage, faults = read(path)
    if faults:
        raise DeckError(faults)
    return stage


def read(path, *, drills=None, decks=None, others=None):
    """Return (``Stage`` or None, faults) of the file at ``path``; never raises for what stands in it.

    ``drills`` and ``decks`` are the known ones by id and name; entries must be among them where they are given.
    ``others`` is {"standard": names, "next": names} of the standards and stages that may be named.
    """
    path = Path(path)

    def build(top, findings):
        stage = _stage(top, path, drills, decks)
        _check_names(stage, findings, others or {})
        return stage

    return read_record(path, "stage", build)


def _stage(top, path, drills, decks):
    version = top.raw("format", REQUIRED)
    if version is not None and (type(version) is not int or version != FORMAT):
        top.fault("format", f"format {quoted(version)} is not known; this trainer reads format {FORMAT}")
    name = top.text("name", REQUIRED, longest=60)
    if name and name != path.stem:
        top.fault("name", f"{quoted(name)} must be the name of the file, {quoted(path.stem)}")
    title = top.text("title", REQUIRED, longest=120)
    case = top.raw("case", 0)
    if case != 0 and (type(case) is not int or case not in CASES):
        top.fault("case", f"{quoted(case)} is no Case: 1, 2 or 3")
    standard, following = top.text("standard", longest=60), top.text("next", longest=60)
    core, more = (_entries(top, key, drills, decks) for key in ("core", "more"))
    for entry in sorted({*core} & {*more}):
        top.at("more", more.index(entry)).fault("", f"{quoted(entry)} stands in core, too")
    top.finish()
    if not (core or more) and not any(top.data.get(key) for key in ("core", "more")):
        top.fault("", "there is nothing in it: core and more are both empty")
    return Stage(
        name=name, title=title, path=path, case=case, standard=standard, next=following, core=core, more=more
    )  # fmt: skip


def _check_names(stage, findings, others):
    for key, known in others.items():
        name, what = getattr(stage, key), "stage" if key == "next" else key
        if name and name not in known:
            findings.add((key,), f"there is no {what} {quoted(name)}{nearest(name, known)}")


def _entries(top, key, drills, decks):
    values = top.list(key, most=MOST_ENTRIES)
    if drills is None and _plain_ids(values):
        return tuple(values)
    entries = {}
    for index, value in enumerate(values):
        place = top.at(key, index)
        entry = place.checked_text("", value, longest=LONGEST_ENTRY)
        if not entry:
            continue
        if entry in entries:
            place.fault("", f"{quoted(entry)} stands twice; the first is entry {entries[entry] + 1}")
            continue
        wrong = _wrong(entry, drills, decks)
        if wrong:
            place.fault("", wrong)
        else:
            entries[entry] = index
    return tuple(entries)


def _plain_ids(values):
    """Return whether ``values`` are ids, each once: the rule, for which eight stages are read in a millisecond."""
    return all(type(one) is str and ID.fullmatch(one) and len(one) <= LONGEST_ENTRY for one in values) and (
        len({*values}) == len(values)
    )


def _wrong(entry, drills, decks):
    """Return what is wrong with ``entry``, "" for nothing."""
    if entry.startswith(AREA):
        area = entry.removeprefix(AREA)
        return (
            "" if area in AREAS else f"{quoted(area)} is no area{nearest(area, AREAS)} (areas are {', '.join(AREAS)})"
        )
    if entry.startswith(DECK):
        deck = entry.removeprefix(DECK)
        return "" if decks is None or deck in decks else f"there is no deck {quoted(deck)}{nearest(deck, decks)}"
    if not ID.fullmatch(entry):
        return f"{quoted(entry)} is no drill: an id, deck:NAME or area:NAME"
    return "" if drills is None or entry in drills else f"there is no drill {quoted(entry)}{nearest(entry, drills)}"
