"""One whole sortie as one coherent scenario, judged as on the night.

It can be left (q) and taken up again. Phases for --phase, --from and --to: brief, man-up, catapult, departure,
check-in, marshal, approach, recovery, divert, shutdown. Without --seed your weak drills come up more often.
"""

import argparse
import sys
from pathlib import Path

from trainer.commands import copies, writable
from trainer.decks import standards
from trainer.errors import TrainerError, UsageError
from trainer.frozen import frozen
from trainer.practice.night import kept_card, left_sortie
from trainer.practice.night.evening import tonight_file
from trainer.practice.night.prepare import make_again, make_ready, seed_of, weakness_of
from trainer.terminal import look, prompts, rehearsal_screens
from trainer.terminal import rehearsal as loop
from trainer.terminal.screens import CAUTION

EXAMPLE = "trainer rehearse --seed 7 --case 3 --phase marshal"


def arguments(parser):
    """Declare the options of the command."""
    parser.add_argument("--seed", metavar="N", help="the same number gives everybody the same sortie")
    parser.add_argument("--case", type=_case, metavar="1|2|3", help="Case of the recovery as briefed")
    parser.add_argument("--phase", default="", metavar="PHASE", help="this phase alone: a few minutes")
    parser.add_argument("--from", dest="first", default="", metavar="PHASE", help="begin with this phase")
    parser.add_argument("--to", dest="last", default="", metavar="PHASE", help="end with this phase")
    parser.add_argument("--file", type=Path, metavar="FILE", help="fly tonight's values from a file, as for brief")
    parser.add_argument("--card", action="store_true", help="fly the values of the last card that brief made")
    parser.add_argument("--resume", action="store_true", help="take up the sortie that was left, without asking")
    parser.add_argument(
        "--standard", default="", metavar="NAME", help="judged by this standard, a name or a file (the stage's)"
    )
    parser.add_argument("--sheet", action="store_true", help="print the instructor's answer sheet; nothing is flown")
    parser.add_argument("--out", type=Path, metavar="FILE", help="write the result sheet (or answer sheet) as HTML")


@frozen
class _Desk:
    """What the parts of the command share."""

    options: argparse.Namespace
    world: object
    shelf: object
    screen: object


def run(options, words, world):
    """Fly one sortie in the terminal or through a pipe, or print its answer sheet."""
    if options.phase and (options.first or options.last):
        raise UsageError("--phase is a phase alone", hint="leave out --from and --to")
    if options.out is not None:
        writable.check(options.out)
    screen = look.look_for(sys.stdout, plain=world.plain)
    desk = _Desk(options=options, world=world, shelf=world.library(), screen=screen)
    if options.sheet:
        _sheet(desk)
        return
    try:
        _fly(desk)
    finally:
        copies.keep(world)


def _sheet(desk):
    """Print the answer sheet; nothing is stored."""
    flown = _new(desk)
    heading = _heading(desk, None)
    _say(rehearsal_screens.answer_sheet(flown, desk.screen, heading), desk.screen)
    if desk.options.out:
        from trainer.pages import sheet as pages

        _write(desk, pages.answer_sheet(flown, heading=heading, caution=CAUTION))


def _fly(desk):
    from trainer.practice.night.rehearsal import Rehearsal

    prompt = prompts.prompt_for(desk.screen, desk.world.clock, plain=desk.world.plain)
    found = _left(desk, prompt)
    with desk.world.store() as store:
        left, flown = found if found else (None, _new(desk, store))
        heading = _heading(desk, store)
        rehearsal = Rehearsal(flown=flown, library=desk.shelf, store=store, clock=desk.world.clock, left=left)
        sheet = loop.run(rehearsal, flown, prompt, heading)
    if desk.options.out:
        from trainer.pages import sheet as pages

        _write(desk, pages.result_sheet(flown, sheet, heading=heading, caution=CAUTION))


def _left(desk, prompt):
    """Return (left sortie, its ``Flown``) where there is one and the person takes it up, else None."""
    options = desk.options
    asked_for = (options.seed, options.case, options.phase, options.first, options.last, options.file, options.card)
    found = left_sortie.last(desk.world.home) if options.resume or not any(asked_for) else None
    if found is None:
        if options.resume:
            raise UsageError("no sortie was left", hint="`trainer rehearse` begins one")
        return None
    try:
        standard = standards.load(desk.world.home, found.standard, drills=desk.shelf.drills)
        flown = make_again(desk.shelf, standard, found.order)
        fits = found.fits(flown)
    except TrainerError:
        fits = False
    if not fits:
        print(desk.screen.line("The sortie that was left can't be taken up: your decks or files have changed."))
        return None
    return (found, flown) if options.resume or loop.takes_up(prompt, found, flown) else None


def _new(desk, store=None):
    """Return a new ``Flown``; a drawn seed lets what this pilot is weak at come up more often."""
    options, clock = desk.options, desk.world.clock
    given, day = _given(desk)
    return make_ready(
        desk.shelf, _standard(desk, store),
        seed=options.seed or seed_of(clock.now()), case=options.case, first=options.phase or options.first,
        last=options.phase or options.last, given=given, day=day,
        weakness=weakness_of(store, desk.shelf, clock) if store and not options.seed else None,
    )  # fmt: skip


def _standard(desk, store):
    """Return the standard asked for, else the one that outlook and report judge by: the event's, or the stage's."""
    from trainer.practice import aim

    name, home = desk.options.standard, desk.world.home
    if name:
        return standards.load(home, name, drills=desk.shelf.drills)
    if store is not None:
        return aim.of(store, desk.shelf, desk.world.clock, home).standard
    with desk.world.store(create=False) as opened:
        return aim.of(opened, desk.shelf, desk.world.clock, home).standard


def _given(desk):
    """Return tonight's values (None for a drawn evening) and their day."""
    day = desk.world.clock.local().date()
    if desk.options.file:
        return tonight_file.read(desk.options.file).values, day
    if not desk.options.card:
        return None, day
    card = kept_card.last(desk.world.home)
    if card is None:
        raise UsageError("there is no card yet", hint="`trainer brief` makes one")
    return card.given, day.fromisoformat(card.day) if card.day else day


def _heading(desk, store):
    from trainer import paths
    from trainer.practice.night.heading import heading

    if store is None and paths.database(desk.world.home).is_file():
        with desk.world.store(create=False) as opened:
            return heading(desk.shelf, desk.world.clock, opened)
    return heading(desk.shelf, desk.world.clock, store)


def _write(desk, html):
    from trainer.pages.render import write

    write(desk.options.out, html)
    print(desk.screen.line(f"written: {desk.options.out}"))


def _say(lines, screen):
    for text, tone in lines:
        print(screen.line(text, tone))


def _case(text):
    cases = {"1": 1, "2": 2, "3": 3, "i": 1, "ii": 2, "iii": 3}
    if text.lower() not in cases:
        raise argparse.ArgumentTypeError(f"{text!r} is no Case: 1, 2 or 3")
    return cases[text.lower()]
