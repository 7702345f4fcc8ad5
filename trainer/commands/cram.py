"""Towards a qualification night: sets the event, shows the plan, runs today's share.

Without options it shows the plan for the next event. A missed day needs nothing: the plan is made anew each time.
"""

import sys
from pathlib import Path

from trainer.commands import practice
from trainer.decks import standards
from trainer.errors import UsageError
from trainer.model import AREAS
from trainer.practice import aim, events, goal, minutes_needed, stage, stage_files, when
from trainer.practice.forecast import Forecast
from trainer.practice.stage import Syllabus
from trainer.practice.wish import Wish
from trainer.terminal import look, prospects

EXAMPLE = 'trainer cram --on "2026-12-04 20:00" --stage night-recovery --minutes-per-day 20'


def arguments(parser):
    """Declare the options of the command."""
    parser.add_argument("--on", metavar="WHEN", help='when it is: "2026-12-04 20:00", or "in 10 days"')
    parser.add_argument("--minutes-per-day", type=practice.minutes, metavar="M", help="minutes a day (20)")
    parser.add_argument("--stage", default="", metavar="NAME", help="the stage it is for (the chosen one)")
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
    changes = options.on or options.start or options.calendar or options.cancel is not None
    with world.store() if changes else world.store_to_read() as store:
        if options.cancel is not None:
            _cancel(store, options.cancel)
        if options.list or options.cancel is not None:
            return _print(screen, _listed(store, world, screen))
        event = _set(options, store, world) if options.on else events.upcoming(store, world.clock)
        if event is None:
            raise UsageError("no event is set", hint='for example: trainer cram --on "in 10 days" --minutes-per-day 20')
        shelf = world.library()
        aimed, prepared = goal.prepare(event, store, shelf, world.clock, world.home)
        if options.calendar:
            from trainer.pages import calendar
            from trainer.practice.evidence import custody

            calendar.write(prepared, Path(options.calendar), world.clock, custody.own_id(store))
            print(screen.line(f"wrote {options.calendar}"))
        if not options.start:
            return _print(screen, _plan(aimed, prepared, store, shelf, screen, world))
    _start(prepared, world)


def _plan(towards, prepared, store, shelf, screen, world):
    aimed = aim.of(store, shelf, world.clock, world.home)
    forecast = Forecast(store, prepared.drills, world.clock, standard=aimed.standard, on=prepared.event.at)
    needed = minutes_needed.of(forecast, planned=float(prepared.plan.budgets_of_days_s.sum()) / 60.0)
    return prospects.plan(prepared, towards, screen, today=world.clock.local(), forecast=forecast, needed_min=needed)


def _set(options, store, world):
    unknown = [area for area in options.area if area not in AREAS]
    if unknown:
        raise UsageError(f"{unknown[0]!r} is not an area", hint=f"areas are {', '.join(AREAS)}")
    standard = standards.load(world.home, options.standard).kept_as if options.standard else ""
    name = stage_files.named(Syllabus(world.library(), world.home), options.stage) if options.stage else ""
    before = events.upcoming(store, world.clock) or max(store.events(), key=lambda one: one.at, default=None)
    event = events.set_event(
        store,
        world.clock,
        at=when.read(options.on, world.clock),
        minutes_per_day=options.minutes_per_day or (before.minutes_per_day if before else events.DEFAULT_MINUTES),
        areas=options.area,
        standard=standard,
        name=options.name,
    )
    goal.set_stage(store, event, name or stage.chosen_name(store))
    return event


def _start(prepared, world):
    if prepared.left_today_s < 30:
        raise UsageError("today's share is done", hint="`trainer practice` goes on; the plan is made anew tomorrow")
    practice.practise(Wish(minutes=prepared.left_today_s / 60.0, mode="cram"), world)


def _listed(store, world, screen):
    now, lines = world.clock.now(), []
    for event in store.events():
        state = "ahead" if event.at > now else "past"
        areas = ", ".join(event.areas) or goal.stage_of(store, event)
        at = event.at.astimezone(world.clock.local().tzinfo)
        text = f"{event.id}  {at:%Y-%m-%d %H:%M}  {state}  {event.name}: {event.minutes_per_day:g} min a day, {areas}"
        lines += screen.wrap(text, hanging="   ")
    return lines or ["no event is set"]


def _cancel(store, number):
    if not store.remove_event(number):
        raise UsageError(f"there is no event {number}", hint="`trainer cram --list` shows them with their numbers")


def _print(screen, lines):
    for line in lines:
        print(screen.line(line))
