"""Towards a qualification night: sets the event, shows the plan, runs today's share.

Without options it shows the plan for the next event. A missed day needs nothing: the plan is made anew each time.
"""

import sys
from pathlib import Path

from trainer.commands import practice
from trainer.decks import standards
from trainer.errors import UsageError
from trainer.model import AREAS
from trainer.practice import aim, events, minutes_needed, when
from trainer.practice.forecast import Forecast
from trainer.practice.wish import Wish
from trainer.terminal import look, prospects

EXAMPLE = 'trainer cram --on "2026-12-04 20:00" --minutes-per-day 20 --area marshal --area fuel'


def arguments(parser):
    """Declare the options of the command."""
    parser.add_argument("--on", metavar="WHEN", help='when it is: "2026-12-04 20:00", or "in 10 days"')
    parser.add_argument("--minutes-per-day", type=practice.minutes, metavar="M", help="minutes a day (20)")
    parser.add_argument("--area", action="append", default=[], metavar="A", help="only this area (repeatable)")
    parser.add_argument("--name", default="", metavar="NAME", help="what to call it")
    parser.add_argument("--standard", default="", metavar="NAME", help="what is demanded: a name or a file")
    parser.add_argument("--start", action="store_true", help="run today's share of the plan")
    parser.add_argument("--calendar", metavar="FILE", help="write the plan as a calendar file (RFC 5545)")
    parser.add_argument("--list", action="store_true", help="list all events, past ones too")
    parser.add_argument("--cancel", type=int, metavar="N", help="remove event N of the list")


def run(options, words, world):
    """Set, list, cancel, show or start."""
    screen = look.look_for(sys.stdout, plain=world.plain)
    changes = options.on or options.start or options.cancel is not None
    with world.store(create=bool(changes)) as store:
        if options.cancel is not None:
            _cancel(store, options.cancel)
        if options.list or options.cancel is not None:
            return _print(screen, _listed(store, world, screen))
        event = _set(options, store, world) if options.on else events.upcoming(store, world.clock)
        if event is None:
            raise UsageError("no event is set", hint='for example: trainer cram --on "in 10 days" --minutes-per-day 20')
        shelf = world.library()
        drills = events.drills_of(event, shelf, world.home)
        prepared = events.prepare(event, store, drills, world.clock)
        if options.calendar:
            from trainer.pages import calendar

            calendar.write(prepared, Path(options.calendar), world.clock)
            print(screen.line(f"wrote {options.calendar}"))
        if not options.start:
            return _print(screen, _plan(prepared, store, shelf, screen, world))
    _start(prepared, world)


def _plan(prepared, store, shelf, screen, world):
    aimed = aim.of(store, shelf, world.clock, world.home)
    forecast = Forecast(store, prepared.drills, world.clock, standard=aimed.standard, on=prepared.event.at)
    needed = minutes_needed.of(forecast, planned=float(prepared.plan.budgets_of_days_s.sum()) / 60.0)
    return prospects.plan(prepared, screen, today=world.clock.local(), forecast=forecast, needed_min=needed)


def _set(options, store, world):
    unknown = [area for area in options.area if area not in AREAS]
    if unknown:
        raise UsageError(f"{unknown[0]!r} is not an area", hint=f"areas are {', '.join(AREAS)}")
    if options.standard:
        standards.find(options.standard, world.home)
    return events.set_event(
        store,
        world.clock,
        at=when.read(options.on, world.clock),
        minutes_per_day=options.minutes_per_day or events.DEFAULT_MINUTES,
        areas=options.area,
        standard=options.standard,
        name=options.name,
    )


def _start(prepared, world):
    if prepared.left_today_s < 30:
        raise UsageError("today's share is done", hint="`trainer practice` goes on; the plan is made anew tomorrow")
    areas = prepared.event.areas or tuple({drill.area for drill in prepared.drills.values()})
    practice.practise(Wish(minutes=prepared.left_today_s / 60.0, areas=areas, mode="cram"), world)


def _listed(store, world, screen):
    now, lines = world.clock.now(), []
    for event in store.events():
        state = "ahead" if event.at > now else "past"
        areas = ", ".join(event.areas) or "all areas"
        at = event.at.astimezone(world.clock.local().tzinfo)
        text = f"{event.id}  {at:%Y-%m-%d %H:%M}  {state}  {event.name}: {event.minutes_per_day:g} min a day, {areas}"
        lines += screen.wrap(text, hanging="   ")
    return lines or ["no event is set"]


def _cancel(store, number):
    if number not in [event.id for event in store.events()]:
        raise UsageError(f"there is no event {number}", hint="`trainer cram --list` shows them with their numbers")
    store.remove_event(number)


def _print(screen, lines):
    for line in lines:
        print(screen.line(line))
