"""What to expect: the forecast per area, now or on a date, and how honest earlier forecasts were."""

import json
import sys

from trainer.decks import standards
from trainer.practice import events, prospect, when
from trainer.terminal import look, prospects

EXAMPLE = 'trainer outlook --on "2026-12-04 20:00"'


def arguments(parser):
    """Declare the options of the command."""
    parser.add_argument("--on", metavar="WHEN", help="the date (the next event, else now)")
    parser.add_argument("--standard", metavar="NAME", default="", help="what is demanded: a name or a file")
    parser.add_argument("--json", action="store_true", help="print JSON")


def run(options, words, world):
    """Show the forecast."""
    screen = look.look_for(sys.stdout, plain=world.plain)
    shelf = world.library()
    with world.store(create=False) as store:
        event = events.upcoming(store, world.clock)
        on = when.read(options.on, world.clock) if options.on else event.at if event else world.clock.now()
        name = options.standard or (event.standard if event and not options.on else "")
        drills = events.drills_of(event, shelf, world.home) if event and not options.on else shelf.outlines
        found = prospect.prospect(
            store,
            drills,
            world.clock,
            on=on.astimezone(world.clock.local().tzinfo),
            standard=standards.find(name, world.home) if name else None,
        )
    if options.json:
        print(json.dumps(prospect.as_json(found), ensure_ascii=False, indent=2, allow_nan=False))
        return
    for line in prospects.outlook(found, screen):
        print(screen.line(line))
