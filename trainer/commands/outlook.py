"""What to expect: the forecast per area, now or on a date, and how honest earlier forecasts were."""

import json
import sys

from trainer.practice import aim, outlook_record, when
from trainer.practice.forecast import Forecast
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
    with world.store_to_read() as store:
        on = when.read(options.on, world.clock) if options.on else None
        aimed = aim.of(store, shelf, world.clock, world.home, on=on, standard=options.standard)
        zone = world.clock.local().tzinfo
        on = (aimed.on or world.clock.now()).astimezone(zone)
        found = Forecast(store, aimed.drills, world.clock, standard=aimed.standard, on=on)
        lines = [] if options.json else prospects.outlook(found, screen)
        record = outlook_record.of(found) if options.json else None
    if options.json:
        from trainer.pages.tidy import tidy

        print(json.dumps(tidy(record), ensure_ascii=False, indent=2, allow_nan=False))
        return
    for line in lines:
        print(screen.line(line))
