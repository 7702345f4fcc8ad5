"""What a forecast is for: the night, the drills that count for it, and the standard that is demanded."""

from collections.abc import Mapping
from datetime import datetime

from trainer.decks import standards
from trainer.decks.standards import Standard
from trainer.frozen import frozen
from trainer.model import Outline
from trainer.practice import events, goal, stage
from trainer.store.records import Event


@frozen
class Aim:
    """``on`` is None where no date was named and no event is ahead; ``event`` is the event that ``on`` is of.

    ``drills`` are outlines by id: the core, the required flows, the user's own; ``stage`` is the title of the stage
    that is worked towards, ``core`` the ids of its core.
    """

    on: datetime | None
    event: Event | None
    standard: Standard
    drills: Mapping[str, Outline]
    stage: str = ""
    core: tuple[str, ...] = ()


def of(store, library, clock, home=None, *, on=None, standard="") -> Aim:
    """Return the ``Aim``: that of the next event, unless another date ``on`` (aware) or ``standard`` is asked for.

    Without an event that names areas, the core of the event's stage, else of the chosen one, says which drills count,
    beside the user's own that stand in no stage; without one that names a standard it says by which.

    Raises ``UsageError`` or ``DeckError`` where the ``standard`` asked for is not there, or has faults.
    """
    event = events.upcoming(store, clock) if on is None else None
    syllabus = stage.chosen(store, library, home)
    if event is not None:
        syllabus = stage.Syllabus(library, home, goal.stage_of(store, event))
    name = (event.standard if event else "") or (syllabus.chosen.standard if syllabus.chosen else "")
    # What was chosen once stops nothing when its file has gone; what is asked for now must be there.
    demanded = standards.load(home, standard) if standard else standards.find(name, home, store.tell)
    core = syllabus.members().core or syllabus.members().all
    counting = (*core, *(one for one in demanded.required if one in library.outlines), *syllabus.own())
    areas = event.areas if event else ()
    outlines = {one: library.outlines[one] for one in counting}
    return Aim(
        on=on or (event.at if event else None),
        event=event,
        standard=demanded,
        drills=goal.of(event, store, library, home).core if event and areas else outlines,
        core=core,
        stage=syllabus.chosen.title if syllabus.chosen else "",
    )
