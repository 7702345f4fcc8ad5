"""A rehearsal made ready: the scenario, its events, and the standard by which it is judged."""

import datetime
import math
import random
from collections.abc import Callable, Mapping
from dataclasses import field

from trainer.clock import StillClock, SystemClock
from trainer.decks.library import Library
from trainer.decks.standards import Standard
from trainer.frozen import frozen
from trainer.practice import knowledge
from trainer.practice.night.evening import tonight
from trainer.practice.night.evening.draw import complete, draw
from trainer.practice.night.evening.scenario import Scenario
from trainer.practice.night.sortie.log import PHASES, Event
from trainer.practice.night.sortie.plan import plan
from trainer.store.store import Store

USUAL_DAY = "2030-03-21"  # where no day goes with tonight's values: an equinox
FILES = ("ship", "airframe", "airwing")
READ_S, SHARE_OF_LIMIT = 8.0, 0.6  # what a question usually takes: it is read, and answered in part of its limit


@frozen
class Order:
    """What a rehearsal is made from: the same order makes the same events again.

    ``given`` are tonight's values by name, None for a drawn evening; ``weakness`` are the drills that there was
    a choice about.
    """

    seed: str
    case: int | None = None
    first: str = ""
    last: str = ""
    given: dict[str, float] | None = None
    day: str = ""
    weakness: dict[str, float] = field(default_factory=dict)


@frozen
class Flown:
    """``labels`` say what is invented; ``phases`` is "" for the whole sortie; ``titles`` are those of its flows."""

    order: Order
    scenario: Scenario
    events: tuple[Event, ...]
    left_out: tuple[str, ...]
    standard: Standard
    labels: tuple[str, ...] = ()
    phases: str = ""
    titles: dict[str, str] = field(default_factory=dict)

    @property
    def questions(self) -> int:
        """Return how many questions are asked."""
        return sum(event.question is not None for event in self.events)

    @property
    def minutes(self) -> int:
        """Return about how long it takes."""
        asked = [event.question for event in self.events if event.question]
        return math.ceil(sum(READ_S + SHARE_OF_LIMIT * question.limit_s for question in asked) / 60)


def make_ready(
    library: Library, standard: Standard, *, seed: str, case: int | None = None, first: str = "", last: str = "",
    given: Mapping[str, float] | None = None, day: datetime.date | None = None,
    weakness: Callable[[str], float] | None = None,
) -> Flown:  # fmt: skip
    """Return the ``Flown`` of ``seed``, over tonight's ``given`` values ({name: value}) where there are any.

    ``weakness`` makes weak drills come up more often where there is a choice.  Raises ``UsageError`` for phases
    that are none, and for given values that can't be flown.
    """
    noted: dict[str, float] = {}

    def weighed(drill_id):
        noted[drill_id] = round(weakness(drill_id), 3) if weakness else 0.0
        return noted[drill_id]

    assumed = ""
    if given is None:
        scenario = draw(seed, library, case=case)
    else:
        on = day or datetime.date.fromisoformat(USUAL_DAY)
        found = tonight.filled({**given, **({"case": float(case)} if case else {})}, library, on)
        scenario = complete(tonight.scenario_of(found.values, library), library, seed)
        assumed = _assumed(found)
    events, left_out = plan(scenario, library, first=first, last=last, weakness=weighed)
    phases = f"{first or PHASES[0]} to {last or 'the end'}" if first or last else ""
    flows = {event.question.drill_id for event in events if event.question and event.question.kind == "flow"}
    titles = {drill_id: getattr(library.drills[drill_id], "title", drill_id) for drill_id in flows}
    return Flown(
        order=Order(
            seed=str(seed), case=case, first=first, last=last, given=None if given is None else dict(given),
            day=day.isoformat() if day else "", weakness=noted if weakness else {},
        ),
        scenario=scenario, events=tuple(events), left_out=left_out, standard=standard,
        phases=first if first and first == last else phases,
        labels=labels(library, standard.invented, assumed), titles=titles,
    )  # fmt: skip


def _assumed(found):
    """Return which of tonight's values nobody gave, "" where all were given."""
    named = [tonight.BY_NAME[name] for name in found.resting_on(tonight.BY_NAME)]
    taken = ", ".join(f"{value.said} {value.text(found.values[value.name])}" for value in named)
    return f"Assumed, nobody gave it: {taken}." if taken else ""


def make_again(library: Library, standard: Standard, order: Order) -> Flown:
    """Return the ``Flown`` of ``order``."""
    return make_ready(
        library, standard, seed=order.seed, case=order.case, first=order.first, last=order.last, given=order.given,
        day=datetime.date.fromisoformat(order.day) if order.day else None,
        weakness=(lambda drill_id: order.weakness.get(drill_id, 0.0)) if order.weakness else None,
    )  # fmt: skip


def weakness_of(store: Store, library: Library, clock: SystemClock | StillClock) -> Callable[[str], float]:
    """Return a function that tells how likely this pilot fails a drill today, 0 to 1."""
    beliefs, day = knowledge.beliefs(library.outlines.values(), store), knowledge.day_of(clock.now())
    return lambda drill_id: 1.0 - beliefs.chance(drill_id, day)


def labels(library: Library, *more: str) -> tuple[str, ...]:
    """Return the labels of invented data: the user's files, and ``more``."""
    found = [library.notes.get(kind, "") for kind in FILES]
    return tuple(dict.fromkeys(label for label in (*found, *more) if label))


def seed_of(instant: datetime.datetime) -> str:
    """Return a seed of four digits for ``instant``: short enough to be told to a squadron."""
    return str(random.Random(instant.isoformat()).randrange(1000, 10_000))
