"""The whole sortie of a scenario, from the ready room to shutdown or to the divert field, as a list of events."""

from dataclasses import replace

from trainer.errors import UsageError
from trainer.practice.night.sortie import inbound, outbound, recovery
from trainer.practice.night.sortie.log import PHASES, Log
from trainer.practice.night.sortie.nights import Nights


def plan(scenario, library, *, first="", last="", weakness=None):
    """Return (events, ids of drills that the decks lack) of the phases from ``first`` to ``last``.

    ``weakness`` is a function of a drill's id, 0 to 1: weak ones come up more often where there is a choice.
    Raises ``UsageError`` for a phase that is none, or for a last one before the first.
    """
    begin, end = _index(first, 0), _index(last, len(PHASES) - 1)
    if begin > end:
        raise UsageError(f"{last} comes before {first}", hint=f"phases are {', '.join(PHASES)}")
    log = Log(library, scenario.seed, weakness)
    nights = Nights(scenario, library)
    outbound.fly(log, nights)
    inbound.fly(log, nights)
    recovery.fly(log, nights)
    log.close()
    chosen = PHASES[begin : end + 1]
    events = [event for event in log.events if event.phase in chosen]
    if events and begin > 0:
        events.insert(0, replace(events[0], story=_so_far(nights, events[0].phase), question=None, number=""))
    if not events:
        raise UsageError(f"tonight's sortie has no {first or last}", hint="another --seed, or other phases")
    return events, tuple(dict.fromkeys(log.left_out))


def _so_far(nights, phase):
    """Return what must be known to begin with ``phase``."""
    inland = PHASES.index(phase) > PHASES.index("check-in")
    night = nights.once("case") if inland else nights.briefed
    told = inbound.instructions(night) if inland else ()
    return (*outbound.situation(night), *told)


def _index(name, default):
    if not name:
        return default
    if name not in PHASES:
        raise UsageError(f"{name!r} is no phase", hint=f"phases are {', '.join(PHASES)}")
    return PHASES.index(name)
