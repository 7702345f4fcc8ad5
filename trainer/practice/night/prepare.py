"""A rehearsal made ready: the scenario, its events, and the standard by which it is judged."""

import random
from dataclasses import dataclass

from trainer.practice.night.evening import tonight
from trainer.practice.night.evening.draw import complete, draw
from trainer.practice.night.evening.scenario import Scenario
from trainer.practice.night.sortie.log import PHASES, Event
from trainer.practice.night.sortie.plan import plan

FILES = ("ship", "airframe", "airwing")


@dataclass(frozen=True, kw_only=True)
class Flown:
    """``labels`` say what is invented; ``phases`` is "" for the whole sortie."""

    scenario: Scenario
    events: tuple[Event, ...]
    left_out: tuple[str, ...]
    standard: object
    labels: tuple[str, ...] = ()
    phases: str = ""

    @property
    def questions(self):
        """Return how many questions are asked."""
        return sum(event.question is not None for event in self.events)


def make_ready(library, standard, *, seed, case=None, first="", last="", given=None, day=None):
    """Return the ``Flown`` of ``seed``, over tonight's ``given`` values ({name: value}) where there are any.

    Raises ``UsageError`` for phases that are none, and for given values that can't be flown.
    """
    if given is None:
        scenario = draw(seed, library, case=case)
    else:
        found = tonight.filled(given | ({"case": float(case)} if case else {}), library, day)
        scenario = complete(tonight.scenario_of(found.values, library), library, seed)
    events, left_out = plan(scenario, library, first=first, last=last)
    phases = f"{first or PHASES[0]} to {last or 'the end'}" if first or last else ""
    return Flown(
        scenario=scenario, events=tuple(events), left_out=left_out, standard=standard, phases=phases,
        labels=labels(library, standard.invented),
    )  # fmt: skip


def labels(library, *more):
    """Return the labels of invented data: the user's files, and ``more``."""
    found = [library.notes.get(kind, "") for kind in FILES]
    return tuple(dict.fromkeys(label for label in (*found, *more) if label))


def seed_of(instant):
    """Return a seed of four digits for ``instant``: short enough to be told to a squadron."""
    return str(random.Random(instant.isoformat()).randrange(1000, 10_000))
