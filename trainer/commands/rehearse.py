"""One whole sortie as one coherent scenario, judged as on the night.

Phases for --from and --to: brief, man-up, catapult, departure, check-in,
marshal, approach, recovery, divert, shutdown.
"""

import argparse
import sys
from pathlib import Path

from trainer.commands import copies
from trainer.decks import standards
from trainer.practice.night.evening import tonight_file
from trainer.practice.night.prepare import make_ready, seed_of
from trainer.terminal import look, prompts, rehearsal_screens
from trainer.terminal import rehearsal as loop
from trainer.terminal.screens import CAUTION

EXAMPLE = "trainer rehearse --seed 7 --case 3 --from marshal"


def arguments(parser):
    """Declare the options of the command."""
    parser.add_argument("--seed", metavar="N", help="the same number gives everybody the same sortie")
    parser.add_argument("--case", type=_case, metavar="1|2|3", help="Case of the recovery as briefed")
    parser.add_argument("--from", dest="first", default="", metavar="PHASE", help="begin with this phase")
    parser.add_argument("--to", dest="last", default="", metavar="PHASE", help="end with this phase")
    parser.add_argument("--file", type=Path, metavar="FILE", help="fly tonight's values from a file, as for brief")
    parser.add_argument("--standard", default="", metavar="NAME", help="the standard to be judged by (name or file)")
    parser.add_argument("--sheet", action="store_true", help="print the instructor's answer sheet; nothing is flown")
    parser.add_argument("--out", type=Path, metavar="FILE", help="write the result sheet (or answer sheet) as HTML")


def run(options, words, world):
    """Fly one sortie in the terminal or through a pipe, or print its answer sheet."""
    shelf = world.library()
    standard = standards.load(world.home, options.standard, drills=shelf.drills)
    seed = options.seed or seed_of(world.clock.now())
    given = tonight_file.read(options.file).values if options.file else None
    flown = make_ready(
        shelf,
        standard,
        seed=seed,
        case=options.case,
        first=options.first,
        last=options.last,
        given=given,
        day=world.clock.local().date(),
    )
    screen = look.look_for(sys.stdout, plain=world.plain)
    if options.sheet:
        _say(rehearsal_screens.answer_sheet(flown, screen), screen)
        _write(options.out, "answer_sheet", flown, None, screen)
        return
    sheet = _fly(flown, shelf, screen, world)
    try:
        _write(options.out, "result_sheet", flown, sheet, screen)
    finally:
        copies.keep(world)


def _fly(flown, shelf, screen, world):
    from trainer.practice.night.rehearsal import Rehearsal

    with world.store() as store:
        rehearsal = Rehearsal(
            events=flown.events, library=shelf, store=store, clock=world.clock, standard=flown.standard
        )
        return loop.run(rehearsal, flown, prompts.prompt_for(screen, world.clock, plain=world.plain))


def _write(path, page, flown, sheet, screen):
    if path is None:
        return
    from trainer.pages import sheet as pages
    from trainer.pages.render import write

    if page == "answer_sheet":
        html = pages.answer_sheet(flown, caution=CAUTION)
    else:
        html = pages.result_sheet(flown, sheet, caution=CAUTION)
    write(path, html)
    print(screen.line(f"written: {path}"))


def _say(lines, screen):
    for text, tone in lines:
        print(screen.line(text, tone))


def _case(text):
    cases = {"1": 1, "2": 2, "3": 3, "i": 1, "ii": 2, "iii": 3}
    if text.lower() not in cases:
        raise argparse.ArgumentTypeError(f"{text!r} is no Case: 1, 2 or 3")
    return cases[text.lower()]
