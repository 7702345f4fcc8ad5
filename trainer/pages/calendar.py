"""The plan as a calendar file (RFC 5545), which any calendar program takes."""

from datetime import UTC, timedelta

from trainer import __version__
from trainer.files import write_whole

THE_DAY_BEFORE = timedelta(days=1)


def write(prepared, path, clock, whose):
    """Write one entry per day of practice and one for the event to ``path``; raises ``StorageError``.

    ``whose`` is the pilot's own id (``custody.own_id``): entries of two pilots in one calendar stay apart.
    """
    write_whole(path, calendar_of(prepared, clock, whose).to_ical())


def calendar_of(prepared, clock, whose):
    """Return the ``icalendar.Calendar`` of the plan."""
    from icalendar import Calendar

    calendar = Calendar()
    calendar.add("prodid", f"-//trainer//{__version__}//EN")
    calendar.add("version", "2.0")
    event = prepared.event
    for number, day in enumerate(prepared.plan.schedule()):
        if day.ids:
            begins = clock.now() + timedelta(days=number)
            areas = sorted({prepared.drills[drill_id].area for drill_id in day.ids})
            text = f"{len(day.ids)} drills: {', '.join(areas)}\ntrainer cram --start"
            name = f"practice-{begins.astimezone(clock.local().tzinfo):%Y%m%d}-{whose}"
            calendar.add_component(_entry(clock, name, begins, day.seconds, "Practice", text, warned=timedelta(0)))
    text = f"Plan: {event.minutes_per_day:g} minutes a day. Practice aid for simulation; not for real flight."
    name = f"event-{event.at.astimezone(UTC):%Y%m%dT%H%M}-{whose}"
    calendar.add_component(_entry(clock, name, event.at, 3600, event.name, text, warned=THE_DAY_BEFORE))
    return calendar


def _entry(clock, name, begins, seconds, title, text, *, warned):
    """Return an entry with an alarm that goes off ``warned`` before it begins.

    Its ``name`` makes a plan that is made anew take the place of the one before, in any calendar.
    """
    from icalendar import Alarm, Event

    entry = Event()
    entry.add("uid", f"{name}@trainer")
    entry.add("dtstamp", clock.now())
    entry.add("dtstart", begins.replace(microsecond=0))
    entry.add("duration", timedelta(minutes=max(1, round(seconds / 60))))
    entry.add("summary", title)
    entry.add("description", text)
    alarm = Alarm()
    alarm.add("action", "DISPLAY")
    alarm.add("description", title)
    alarm.add("trigger", -warned)
    entry.add_component(alarm)
    return entry
