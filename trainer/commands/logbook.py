"""The logbook: what was practised, flown and learned, by day, week and area.

The terminal shows the latest of everything; `--out FILE.html` writes all of it as one page.
"""

import sys
from pathlib import Path

from trainer.practice import logbook
from trainer.terminal import logbook as screen_of
from trainer.terminal import look

EXAMPLE = "trainer logbook --out logbook.html"


def arguments(parser):
    """Declare the options of the command."""
    parser.add_argument("--out", type=Path, metavar="FILE", help="write all of it as one page (HTML)")


def run(options, words, world):
    """Show the logbook, or write its page."""
    screen = look.look_for(sys.stdout, plain=world.plain)
    with world.store(create=False) as store:
        book = logbook.of(store, world.library().outlines)
    today = world.clock.local().date()
    if options.out:
        from trainer.pages import logbook_page, render
        from trainer.terminal.screens import CAUTION

        render.write(options.out, logbook_page.html(book, day=today, caution=CAUTION))
        print(screen.line(f"wrote {options.out}"))
        return
    for text, tone in screen_of.lines(book, screen, today):
        print(screen.line(text, tone))
