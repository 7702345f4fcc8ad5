"""Dated events (a qualification night) and the plan towards the next one."""

from typing import Any

from trainer.errors import UsageError
from trainer.frozen import frozen
from trainer.memory.event_plan import EventPlan, practice_days
from trainer.practice import honesty, knowledge, when
from trainer.store.records import Event

DEFAULT_MINUTES = 20.0
LONGEST_DAYS = 120  # beyond that a plan by the day means nothing; daily practice does as well


def upcoming(store, clock):
    """Return the next ``Event``, None where none is ahead."""
    ahead = [event for event in store.events() if event.at > clock.now()]
    return min(ahead, key=lambda event: event.at, default=None)


def set_event(store, clock, *, at, minutes_per_day, areas=(), standard="", name=""):
    """Keep a new event, in place of an upcoming one at the same instant; return it.

    Raises ``UsageError`` for an event that is past or too far away.
    """
    if at <= clock.now():
        raise UsageError(f"{at:%Y-%m-%d %H:%M} is past", hint="name a time ahead")
    if when.days_between(clock.local(), at) > LONGEST_DAYS:
        raise UsageError(
            f"{at:%Y-%m-%d} is more than {LONGEST_DAYS} days away", hint="until then daily practice plans as well"
        )
    for event in store.events():
        if event.at == at:
            store.remove_event(event.id)
    store.add_event(
        Event(
            name=name or "qualification",
            at=at,
            offset_min=int(at.utcoffset().total_seconds() // 60),
            minutes_per_day=minutes_per_day,
            areas=tuple(areas),
            standard=standard,
        )
    )
    return next(event for event in store.events() if event.at == at)


@frozen
class Prepared:
    """An event with its drills, what is believed of them, and the plan."""

    event: Event
    days: int
    drills: dict[str, Any]
    beliefs: Any
    plan: EventPlan
    left_today_s: float


def prepare(event, store, drills, clock, *, minutes_today=None):
    """Return the ``Prepared`` plan for ``event`` over ``drills`` as things stand now.

    ``minutes_today`` replaces what is left of today's share of the minutes.
    """
    beliefs = knowledge.beliefs(drills.values(), store)
    now = clock.now()
    left_s = left_today_s(event, store, clock) if minutes_today is None else minutes_today * 60.0
    days = when.days_between(clock.local(), event.at.astimezone(clock.local().tzinfo))
    count = len(practice_days(knowledge.day_of(now), knowledge.day_of(event.at)))
    plan = EventPlan(
        beliefs,
        day=knowledge.day_of(now),
        event_day=knowledge.day_of(event.at),
        budgets_s=[max(left_s, 1.0), *[event.minutes_per_day * 60.0] * (count - 1)],
        correction=honesty.correction(store, now),
    )
    return Prepared(event=event, days=days, drills=dict(drills), beliefs=beliefs, plan=plan, left_today_s=left_s)


def left_today_s(event, store, clock):
    """Return the seconds of today's share that have not been practised yet."""
    spent = sum(seconds or 0.0 for (seconds,) in store.table(("seconds",), since=when.midnight(clock)))
    return max(0.0, event.minutes_per_day * 60.0 - spent)
