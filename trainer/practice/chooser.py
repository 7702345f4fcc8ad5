"""Which choice fits a wish: an ordinary day's, today's share of a plan, or the series that finds out."""

from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

from trainer.clock import Clock
from trainer.model import Outline
from trainer.practice import events, find_out, goal, knowledge, wish
from trainer.practice.choosing import Choosing, Towards
from trainer.practice.stage import Syllabus
from trainer.practice.wish import Wish
from trainer.store.store import Store


def of(
    wanted: Wish,
    *,
    store: Store,
    clock: Clock,
    library: Any,
    home: Path,
    syllabus: Syllabus,
    drills: Mapping[str, Outline],
    first: Iterable[str],
    asked: Iterable[str],
) -> Choosing:
    """Return what chooses among ``drills`` for the ``wanted`` session.

    ``first`` are the ids asked before all others, ``asked`` those of questions that are on the screen already.
    """
    if wanted.mode == "cram":
        event = events.upcoming(store, clock)
        _, prepared = goal.prepare(event, store, library, clock, home, minutes_today=wanted.minutes)
        return Towards(prepared, store, first=first)
    choice = find_out.FindingOut if wanted.find_out else Choosing
    return choice(
        drills,
        store,
        day=knowledge.day_of(clock.now()),
        minutes=wanted.minutes,
        order=wish.in_order(wanted, syllabus, drills, find_out.spoken_for(store)),
        core=syllabus.members().core,
        rests=wish.resting(wanted, syllabus),
        first=first,
        asked=asked,
        events=goal.counting(store, library, clock, home),
    )
