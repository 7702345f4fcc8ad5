"""Tonight's numbers on one kneeboard card, from options, a file, or asked one by one.

Without any value the card asks for them; what is not given follows from the rest or from your files.
"""

import argparse
import sys
from pathlib import Path

from trainer.errors import UsageError
from trainer.practice.night import card as cards
from trainer.practice.night.evening import tonight, tonight_file
from trainer.practice.night.prepare import labels
from trainer.terminal import brief as screens
from trainer.terminal import look, prompts
from trainer.terminal.screens import CAUTION

EXAMPLE = "trainer brief --wind 330/12 --launch 20:30 --fuel 11.5 --out card.html"
PAPERS = ("a5", "half-letter")


def arguments(parser):
    """Declare the options of the command: one for each value of tonight."""
    parser.add_argument("--file", type=Path, metavar="FILE", help="take values from a TOML file")
    parser.add_argument("--out", type=Path, metavar="FILE", help="write the card as HTML, to be printed")
    parser.add_argument("--paper", choices=PAPERS, default="a5", help="size of the printed card (a5)")
    parser.add_argument("--why", metavar="NUMBER", help="show how one number of the card comes about")
    parser.add_argument("--airframe", default="", metavar="NAME", help="another airframe of your files")
    parser.add_argument("--ship", default="", metavar="NAME", help="another ship of your files")
    parser.add_argument("--wind", type=_wind, metavar="FROM/KT", help="--wind-from and --wind-speed in one")
    values = parser.add_argument_group("tonight's values")
    for value in tonight.VALUES:
        values.add_argument(f"--{value.name}", metavar="…", help=f"{value.ask} ({value.range_text()})")


def run(options, words, world):
    """Print the card, or the worked solution of one of its numbers."""
    shelf = world.library(airframe=options.airframe, ship=options.ship)
    screen = look.look_for(sys.stdout, plain=world.plain)
    given = _given(options)
    if not given:
        given = screens.ask_all(prompts.prompt_for(screen, world.clock, plain=world.plain), given, shelf)
        print()
    values, night = tonight.night_of(given, shelf)
    if options.why:
        _say(screens.why(*cards.why(night, options.why), screen), screen)
        return
    made = cards.make(night, flight=values["flight"], labels=labels(shelf))
    _say(screens.card(made, screen), screen)
    if options.out:
        _write(options, made, night, screen)


def _given(options):
    """Return {name: value} of the file and the options; options go first."""
    given = tonight_file.read(options.file) if options.file else {}
    given |= options.wind or {}
    for value in tonight.VALUES:
        text = getattr(options, value.name.replace("-", "_"))
        if text is not None:
            given[value.name] = value.read(text)
    return given


def _write(options, made, night, screen):
    from trainer.pages import card as pages
    from trainer.pages.render import write

    write(options.out, pages.card(made, night, paper=options.paper, caution=CAUTION))
    print(screen.line(f"written: {options.out}"))


def _say(lines, screen):
    for text, tone in lines:
        print(screen.line(text, tone))


def _wind(text):
    bearing, slash, speed = text.partition("/")
    try:
        return {
            "wind-from": tonight.BY_NAME["wind-from"].read(bearing),
            "wind-speed": tonight.BY_NAME["wind-speed"].read(speed if slash else ""),
        }
    except UsageError as error:
        raise argparse.ArgumentTypeError(f"{text!r} is no wind: write it as 330/12 ({error.message})") from None
