"""What a dated event is for: a stage, or areas; what of it counts first; and the plan towards it."""

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from trainer.decks import standards
from trainer.errors import TrainerError
from trainer.frozen import frozen
from trainer.model import Outline
from trainer.practice import events, stage
from trainer.store.records import Event
from trainer.store.store import Store

STAGES = "stages of events"  # the setting: {number of the event: name of the stage}
REQUIRED_WORTH = 3.0  # a required flow counts so many times as much as another: without it nobody passes
MOST_UNREACHED = 0.1  # of the core; with more of it out of reach nothing else is planned


@frozen
class Goal:
    """``core`` comes first, ``more`` only if there are minutes left; ``required`` are ids of flows in it.

    ``title`` is that of the stage, "" where the event names areas.
    """

    title: str
    core: Mapping[str, Outline]
    more: Mapping[str, Outline]
    required: tuple[str, ...]

    @property
    def drills(self) -> dict[str, Outline]:
        """Return the outlines of core and more, by id."""
        return {**self.core, **self.more}


def set_stage(store: Store, event: Event, name: str) -> None:
    """Note that ``event`` is for the stage called ``name``."""
    kept = store.setting(STAGES)
    left = {str(one.id) for one in store.events()}
    found = {number: one for number, one in kept.items() if number in left} if isinstance(kept, dict) else {}
    store.set_setting(STAGES, found | {str(event.id): name})


def stage_of(store: Store, event: Event) -> str:
    """Return the name of the stage that ``event`` is for: the chosen one where none was named."""
    kept = store.setting(STAGES)
    name = kept.get(str(event.id)) if isinstance(kept, dict) else None
    return name if isinstance(name, str) and name else stage.chosen_name(store)


def of(event: Event, store: Store, library: Any, home: Path | None = None) -> Goal:
    """Return the ``Goal`` of ``event`` over ``library``."""
    syllabus = stage.Syllabus(library, home, stage_of(store, event))
    outlines = library.outlines
    if event.areas:
        core = [one for one, drill in outlines.items() if drill.area in event.areas and one not in syllabus.reference]
        more, title, standard = [], "", event.standard
    else:
        members = syllabus.members()
        core, more = list(members.core or members.all), [*syllabus.own(), *(members.more if members.core else ())]
        title = syllabus.chosen.title if syllabus.chosen else ""
        standard = event.standard or (syllabus.chosen.standard if syllabus.chosen else "")
    required = [one for one in _required(standard, home) if one in outlines and (not event.areas or one in core)]
    core = dict.fromkeys((*required, *core))
    return Goal(
        title=title,
        core={one: _weighed(outlines[one], required) for one in core},
        more={one: outlines[one] for one in more if one not in core},
        required=tuple(required),
    )


def _required(standard, home):
    try:
        return standards.find(standard, home).required
    except TrainerError:
        return ()  # who asks for the standard itself is told what is wrong with it


def _weighed(outline, required):
    return outline._replace(worth=outline.worth * REQUIRED_WORTH) if outline.id in required else outline


def prepare(event, store, library, clock, home=None, *, minutes_today=None) -> tuple[Goal, events.Prepared]:
    """Return the ``Goal`` of ``event`` and the plan towards it: over its core, and over more where that leaves time."""
    goal = of(event, store, library, home)
    planned = events.prepare(event, store, goal.core, clock, minutes_today=minutes_today)
    if goal.more and len(planned.plan.unreached()) <= MOST_UNREACHED * len(goal.core):
        planned = events.prepare(event, store, goal.drills, clock, minutes_today=minutes_today)
    return goal, planned


def counting(store, library, clock, home=None) -> list[tuple[float, tuple[str, ...]]]:
    """Return [(day, ids)] of the events ahead: daily practice lets their drills count once more."""
    from trainer.practice import knowledge

    return [
        (knowledge.day_of(event.at), tuple(of(event, store, library, home).core))
        for event in store.events()
        if event.at > clock.now()
    ]
