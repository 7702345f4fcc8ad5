"""What a forecast is for: the night, the drills that count for it, and the standard that is demanded."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from trainer.decks import standards
from trainer.decks.standards import Standard
from trainer.model import Drill
from trainer.practice import events
from trainer.store.records import Event


@dataclass(frozen=True, kw_only=True)
class Aim:
    """``on`` is None where no date was named and no event is ahead; ``event`` is the event that ``on`` is of."""

    on: datetime | None
    event: Event | None
    standard: Standard
    drills: Mapping[str, Drill]


def of(store, library, clock, home=None, *, on=None, standard="") -> Aim:
    """Return the ``Aim``: that of the next event, unless another date ``on`` (aware) or ``standard`` is asked for.

    Raises ``UsageError`` or ``DeckError`` for a standard that there is not, or that has faults.
    """
    event = events.upcoming(store, clock) if on is None else None
    name = standard or (event.standard if event else "")
    return Aim(
        on=on or (event.at if event else None),
        event=event,
        standard=standards.find(name, home),
        drills=events.drills_of(event, library, home) if event else library.drills,
    )
