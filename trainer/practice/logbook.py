"""The logbook: what was practised, flown and learned, by day, week and area.

Everything follows from the reviews, debriefs and events that are stored; nothing is kept beside them.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

import numpy as np

from trainer.drills.titles import title
from trainer.model import AREAS, Outline
from trainer.practice.evidence.history import History, as_date
from trainer.practice.evidence.sorties import PAUSE_MIN, flights
from trainer.store.store import Store

SOLID_AFTER = 2  # right answers in a row, each on a later day than the answer before


@dataclass(frozen=True, kw_only=True)
class Week:
    """A week from its ``monday``: on which of its seven ``days`` there was practice, and what came of it.

    ``right`` of the ``answers`` were right; ``minutes`` are those measured; ``solid`` drills became solid.
    """

    monday: date
    days: tuple[bool, ...]
    answers: int
    right: int
    minutes: float
    solid: int


@dataclass(frozen=True, kw_only=True)
class AreaLine:
    """What was practised of one ``area``: ``solid`` of its ``met`` drills are solid."""

    area: str
    answers: int
    right: int
    minutes: float
    met: int
    solid: int


@dataclass(frozen=True, kw_only=True)
class Entry:
    """One line of the logbook: a rehearsal, a flight or an event, in words."""

    day: date
    text: str


@dataclass(frozen=True, kw_only=True)
class Logbook:
    """``weeks`` are the oldest first and without gaps, ``areas`` in the order of a sortie.

    ``solid`` are (day, title) of what became solid and is still so, and ``entries`` what was flown, rehearsed or
    set as an event, both the latest first.  ``unmeasured`` answers have no time.
    """

    days: int = 0
    answers: int = 0
    minutes: float = 0.0
    unmeasured: int = 0
    weeks: tuple[Week, ...] = ()
    areas: tuple[AreaLine, ...] = ()
    solid: tuple[tuple[date, str], ...] = ()
    entries: tuple[Entry, ...] = ()


def of(store: Store, outlines: Mapping[str, Outline]) -> Logbook:
    """Return the ``Logbook`` of what ``store`` holds; ``outlines`` name its drills, what they lack is left nameless."""
    history = History(store)
    solid = became_solid(history)
    named = [(day, title(outlines[one])) for one, day in solid.items() if one in outlines]
    asked = ~history.modes.is_("debrief") if len(history) else np.zeros(0, dtype=bool)
    seconds = history.seconds[asked]
    return Logbook(
        days=len(np.unique(history.days[asked])),
        answers=int(asked.sum()),
        minutes=float(np.nansum(seconds)) / 60.0,
        unmeasured=int(np.isnan(seconds).sum()),
        weeks=_weeks(history, asked, solid.values()),
        areas=_areas(history, asked, solid, outlines),
        solid=tuple(sorted(named, key=lambda one: one[0], reverse=True)),
        entries=_entries(store, history, outlines),
    )


def became_solid(history: History) -> dict[str, date]:
    """Return {drill id: day} of the drills that are solid: right again and again, each time on a later day.

    One that is missed is so no more until it is right on later days anew.
    """
    runs: dict[int, int] = {}
    last: dict[int, int] = {}
    since: dict[int, int] = {}
    for drill, day, right in zip(history.drills.rows, history.days, history.right, strict=True):
        if not right:
            runs[drill] = 0
            since.pop(drill, None)
        elif last.get(drill) != day:
            runs[drill] = runs.get(drill, 0) + 1
            if runs[drill] >= SOLID_AFTER:
                since.setdefault(drill, day)
        last[drill] = day
    return {history.drills.names[drill]: as_date(day) for drill, day in since.items()}


def _weeks(history: History, asked: Any, solid: Iterable[date]) -> tuple[Week, ...]:
    if not asked.any():
        return ()
    days, solid = history.days[asked], list(solid)
    mondays = (days + 3) // 7 * 7 - 3  # 1970-01-01 was a Thursday
    found = []
    for monday in range(int(mondays.min()), int(mondays.max()) + 1, 7):
        mine = mondays == monday
        begins, practised = as_date(monday), set((days[mine] - monday).tolist())
        found.append(
            Week(
                monday=begins,
                days=tuple(day in practised for day in range(7)),
                answers=int(mine.sum()),
                right=int(history.right[asked][mine].sum()),
                minutes=float(np.nansum(history.seconds[asked][mine])) / 60.0,
                solid=sum(begins <= day < begins + timedelta(days=7) for day in solid),
            )
        )
    return tuple(found)


def _areas(history, asked, solid, outlines):
    home = {name: outlines[name].area if name in outlines else "" for name in history.drills.names}
    rows = history.area_rows(home.get)
    lines = []
    for area in AREAS:
        mine = rows.is_(area) & asked if len(history) else asked
        if mine.any():
            met = {history.drills.names[one] for one in np.unique(history.drills.rows[mine])}
            lines.append(
                AreaLine(
                    area=area,
                    answers=int(mine.sum()),
                    right=int((mine & history.right).sum()),
                    minutes=float(np.nansum(history.seconds[mine])) / 60.0,
                    met=len(met),
                    solid=len(met & solid.keys()),
                )
            )
    return tuple(lines)


def _entries(store, history, outlines):
    """Return rehearsals, flights and events, the latest first."""
    found = [Entry(day=day, text=f"rehearsal: {right} of {count} right") for day, count, right in _rehearsals(history)]
    for one in flights(store, outlines, most=None):
        text = f"flown: {one['right']} of {one['told']} right"
        found.append(Entry(day=date.fromisoformat(one["day"]), text=text))
    found += [Entry(day=one.at.date(), text=f"event: {one.name}") for one in store.events()]
    return tuple(sorted(found, key=lambda one: one.day, reverse=True))


def _rehearsals(history):
    """Yield (day, questions, right) of every rehearsal; a long pause between two answers parts them."""
    mine = np.flatnonzero(history.modes.is_("rehearsal")) if len(history) else np.zeros(0, dtype=int)
    parts = np.split(mine, np.flatnonzero(np.diff(history.minutes[mine]) > PAUSE_MIN) + 1) if len(mine) else ()
    for part in parts:
        yield as_date(history.days[part[0]]), len(part), int(history.right[part].sum())
