"""The moon of tonight as the card tells it: how much of it is lit, and until when it is up or down."""

import datetime

from trainer.decks.library import Library
from trainer.engine import display
from trainer.engine.moon import up_until
from trainer.engine.quantities import QUANTITIES
from trainer.practice.night.evening.scenario import MINUTES_PER_DAY
from trainer.practice.night.evening.usual import day_and_place


def has_place(library: Library, day: datetime.date) -> bool:
    """Return whether the ship's file tells where she is."""
    return day_and_place(library, day) is not None


def told(library: Library, day: datetime.date, clock_min: float) -> str:
    """Return the moon at ``clock_min``, minutes since the midnight that ``day`` begins with, as the card tells it.

    Raises ``DomainError`` where it stays up, or down, for days.
    """
    at = where(library, day, clock_min)
    lit = float(QUANTITIES["moon_light"].compute(at)["lit_pct"])
    up, changes = up_until(**at)
    changes_at = display.value(round(changes % MINUTES_PER_DAY) % MINUTES_PER_DAY, "clock")
    return f"{'up until' if up else 'down until'} {changes_at}, {display.value(lit, '%', 1.0)} lit"


def where(library: Library, day: datetime.date, clock_min: float) -> dict[str, float]:
    """Return date, clock time and place at ``clock_min`` as the almanac takes them."""
    days, clock = divmod(clock_min, MINUTES_PER_DAY)
    place = day_and_place(library, day + datetime.timedelta(days=days)) or {}
    return {**place, "local_clock": clock}
