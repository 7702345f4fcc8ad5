"""What every kind of drill has: id, area, source, time limit, prerequisites, and the draws of its inputs."""

from pathlib import Path
from typing import NamedTuple

from trainer.decks.shape import REQUIRED, Table
from trainer.decks.words import nearest, quoted
from trainer.frozen import frozen
from trainer.model import AREAS, PHASES, STATUSES, Source

DEFAULT_LIMIT_S = {"recall": 10.0, "computed": 30.0, "flow": 45.0}
LONGEST_LIMIT_S = 900
HIGHEST_WORTH = 100
MOST_PREREQUISITES = 30


@frozen
class Setting:
    """What the drills of one file share."""

    path: Path
    deck: str
    area: str
    phase: str
    worth: dict
    sources: dict
    references: list


class Wanted(NamedTuple):
    """What an input of a quantity wants of a number: its range, or the ``words`` (values) that it knows."""

    name: str
    title: str
    unit: str
    low: float
    high: float
    words: list

    @classmethod
    def of(cls, spec):
        """Return what ``spec`` (an ``Input``, or None for no input) wants."""
        return cls(spec.name, spec.title, spec.unit, spec.low, spec.high, sorted(spec.words)) if spec else None


@frozen
class Reference:
    """A value or table of the user's files that a drill needs; ``spec`` is what the input that takes it wants."""

    place: tuple
    drill: str
    name: str
    is_table: bool | None  # None: either will do
    spec: Wanted | None = None


def read_sources(top):
    """Return {short name: ``Source``} of ``[source.*]``, the faulty ones too."""
    table = top.table("source")
    sources = {}
    for name in table.data:
        entry = table.table(name)
        text, status = entry.text("text", REQUIRED), entry.word("status", STATUSES)
        section, url = entry.text("section"), entry.text("url")
        entry.finish()
        sources[name] = Source(text=text, status=status or "memory", section=section, url=url)
    return sources


def read_source(table, setting, *, required=True):
    """Return the ``Source`` that a drill or step names, with its own section and status; ``None`` for none."""
    name = table.raw("source", REQUIRED if required else None)
    section = table.text("section")
    status = table.word("status", STATUSES, "")
    if name is None:
        return None
    source = setting.sources.get(name) if isinstance(name, str) else None
    if source is None:
        near = nearest(name, setting.sources) if isinstance(name, str) else ""
        table.fault("source", f"{quoted(name)} is no [source.…] of this deck{near}")
        return None
    return Source(
        text=source.text, url=source.url,
        section=section or source.section, status=status or source.status,
    )  # fmt: skip


def read_drill(top, setting, kind, *, group=""):
    """Return (table with the drill's id, the fields common to all kinds) of one drill."""
    drill_id = top.identifier()
    table = Table(top.data, top.place, top.findings, drill_id)
    table.known = top.known
    if len(drill_id) == 2:
        table.fault("id", f"{quoted(drill_id)} is no id: 3 to 60 lower-case letters, digits and hyphens")
    return table, {
        "id": drill_id,
        "deck": setting.deck,
        "kind": kind,
        "area": table.word("area", AREAS, setting.area),
        "phase": table.word("phase", PHASES, setting.phase),
        "source": read_source(table, setting),
        "worth": table.number("worth", setting.worth[kind], low=0.01, high=HIGHEST_WORTH),
        "limit_s": table.number("limit_s", DEFAULT_LIMIT_S[kind], low=1, high=LONGEST_LIMIT_S),
        "after": read_after(table, drill_id),
        "group": table.text("group", group, longest=60),
        "level": read_level(table),
    }


def read_after(table, own):
    """Return the ids of the drills that come first."""
    after = table.texts("after", most=MOST_PREREQUISITES)
    if own and own in after:
        table.fault("after", "a drill can't come before itself")
    return after


def read_level(table):
    """Return 1 (round numbers), 2 (odd numbers) or 3 (a step hidden in words)."""
    level = table.raw("level", 1)
    if type(level) is not int or level not in (1, 2, 3):
        table.fault("level", f"{quoted(level)} must be 1, 2 or 3")
        return 1
    return level


def read_tolerance(table, key="within", *, required=False):
    """Return (on, inside), neither negative, ``inside`` not less than ``on``; ``None`` for none."""
    if not table.has(key):
        if required:
            table.fault("", f'"{key}" is missing: how far an answer may be off', missing=True)
        return None
    entry = table.table(key)
    tolerance = read_limits(entry, REQUIRED)
    entry.finish()
    return tolerance


def read_limits(entry, default):
    """Return (on, inside) of ``entry`` or ``None`` after a fault."""
    on, inside = entry.number("on", default, low=0), entry.number("inside", default, low=0)
    if on is not None and inside is not None and inside < on:
        entry.fault("inside", f"{inside:g} is less than on = {on:g}")
        return None
    return None if on is None or inside is None else (on, inside)
