"""How far the chosen stage is: what holds, what is being learned, and by when it will be done at this pace.

A line a day is kept in the settings, so that a summary can say what got better without reading years of reviews.
"""

from collections.abc import Iterable
from datetime import date, timedelta
from typing import Any

from trainer.frozen import frozen
from trainer.store.store import Store

HOLDS = 0.8  # a drill holds while one would be right tomorrow four times in five
DIARY = "standing by day"
MOST_DAYS = 90
PACE_DAYS = 14  # the latest days that tell the pace
FEWEST_DAYS = 3  # days of practice before a date is named
LONGEST_DAYS = 365  # a date further off means nothing


@frozen
class Standing:
    """The core of the stage called ``name``: ``of`` drills, of which ``holds`` hold and ``learning`` are begun.

    ``done`` is the date by which all will hold at the pace of the last two weeks, None where that can't be told;
    ``since`` is (date, how many held then) about a week ago, None where nothing is kept of then.
    """

    name: str
    title: str
    holds: int
    learning: int
    of: int
    done: date | None = None
    since: tuple[date, int] | None = None


def counted(core: Iterable[str], beliefs: Any, day: float) -> tuple[int, int]:
    """Return (how many of ``core`` hold on ``day``, how many of the others were begun)."""
    chances = beliefs.chances(day)
    begun = [chances[beliefs.index(name)] for name in core if beliefs.has(name) and beliefs.seen(name)]
    holds = sum(bool(chance >= HOLDS) for chance in begun)
    return holds, len(begun) - holds


def standing(store: Store, stage: Any, core: tuple[str, ...], beliefs: Any, *, day: float, today: date) -> Standing:
    """Return the ``Standing`` of ``stage`` with its ``core`` on the local date ``today``; ``day`` is tomorrow's."""
    holds, learning = counted(core, beliefs, day)
    kept = [one for one in _diary(store, stage.name) if one[0] < today]
    return Standing(
        name=stage.name,
        title=stage.title,
        holds=holds,
        learning=learning,
        of=len(core),
        done=_done(kept, holds, len(core), today),
        since=_a_week_ago(kept, today),
    )


def keep(store: Store, one: Standing, today: date) -> None:
    """Keep ``one`` in the diary as what holds on ``today``."""
    kept = [(day, holds) for day, holds in _diary(store, one.name) if day != today]
    lines = [[day.isoformat(), holds] for day, holds in sorted([*kept, (today, one.holds)])[-MOST_DAYS:]]
    diary = store.setting(DIARY)
    store.set_setting(DIARY, {**(diary if isinstance(diary, dict) else {}), one.name: lines})


def _diary(store, name):
    """Return [(date, how many held)] of the stage ``name``; what is no such line is passed over."""
    diary = store.setting(DIARY)
    lines = diary.get(name) if isinstance(diary, dict) else None
    found = []
    for line in lines if isinstance(lines, list) else ():
        try:
            day, holds = line
            found.append((date.fromisoformat(day), int(holds)))
        except (TypeError, ValueError):
            continue
    return sorted(found)


def _done(kept, holds, of, today):
    if holds >= of:
        return today
    lately = [one for one in kept if (today - one[0]).days <= PACE_DAYS]
    if len(kept) < FEWEST_DAYS or not lately:
        return None
    first, held = lately[0]
    gained = holds - held
    days = (today - first).days
    ahead = (of - holds) * days / gained if gained > 0 else LONGEST_DAYS + 1
    return today + timedelta(days=round(ahead)) if ahead <= LONGEST_DAYS else None


def _a_week_ago(kept, today):
    """Return the newest line that is a week old or older, else the oldest of all."""
    older = [one for one in kept if (today - one[0]).days >= 7]
    return older[-1] if older else kept[0] if kept else None
