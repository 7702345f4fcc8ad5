"""After a flight: a two-minute walk through the phases flown; what went wrong is asked in the next sessions.

Free remarks stay with your data; --export writes them, with all debriefs, as JSON.
"""

import argparse
import datetime
import json
import sys
from pathlib import Path

from trainer.commands import copies
from trainer.files import write_whole
from trainer.terminal import debrief as screens
from trainer.terminal import look, prompts

EXAMPLE = "trainer debrief --case 3 --flown 2026-12-04"


def arguments(parser):
    """Declare the options of the command."""
    parser.add_argument("--case", type=int, choices=(1, 2, 3), default=3, help="Case of the recovery flown (3)")
    parser.add_argument("--flown", type=_date, metavar="DATE", help="day of the flight, YYYY-MM-DD (today)")
    parser.add_argument("--remarks", metavar="TEXT", help="free remarks, instead of being asked for them")
    parser.add_argument("--export", type=Path, metavar="FILE", help="write all debriefs with remarks; nothing is asked")


def run(options, words, world):
    """Walk through a flight, or write the debriefs there are."""
    screen = look.look_for(sys.stdout, plain=world.plain)
    if options.export:
        with world.store(create=False) as store:
            print(screen.line(_export(store, options.export)))
        return
    from trainer.practice.night.debrief import Walk

    shelf = world.library()
    flown = options.flown or world.clock.local().date().isoformat()
    with world.store() as store:
        walk = Walk(library=shelf, store=store, clock=world.clock, case=options.case, flown=flown)
        screens.run(walk, prompts.prompt_for(screen, world.clock, plain=world.plain), remarks=options.remarks)
    copies.keep(world)


def _export(store, path):
    from trainer.practice.night.debrief import export

    records = export(store)
    text = json.dumps({"debriefs": records}, ensure_ascii=False, indent=2, sort_keys=True) + "\n"
    write_whole(path, text)
    return f"written: {path} ({len(records)} debrief{'' if len(records) == 1 else 's'})"


def _date(text):
    try:
        return datetime.date.fromisoformat(text).isoformat()
    except ValueError:
        raise argparse.ArgumentTypeError(f"{text!r} is no date: write it as 2026-12-04") from None
