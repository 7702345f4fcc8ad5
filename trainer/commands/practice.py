"""Today's practice: five minutes of questions, where they buy the most."""

import os
import sys
from difflib import get_close_matches

from trainer.commands import early
from trainer.errors import UsageError

EXAMPLE = "trainer practice --minutes 10 --area marshal --area fuel"
MINUTES = 5.0
FIRST_EVENING = (
    "Make it yours: `trainer deck new airframe FILE` and `trainer deck new ship FILE` write files for your own"
    " numbers, `trainer deck use` chooses them, and `trainer cram --on WHEN` plans for a qualification night."
)


def arguments(parser):
    """Declare the options of the command."""
    parser.add_argument("--minutes", type=minutes, default=MINUTES, metavar="M", help="how long (5)")
    parser.add_argument("--questions", type=_count, metavar="N", help="how many questions, instead of minutes")
    parser.add_argument("--area", action="append", default=[], metavar="A", help="only this area (repeatable)")
    parser.add_argument("--deck", action="append", default=[], metavar="NAME", help="only this deck: a name or a file")
    parser.add_argument("--case", type=int, choices=(1, 2, 3), default=0, help="nothing that is for another Case alone")
    parser.add_argument("about", nargs="*", metavar="WORDS", help="only what these words find: trim, clearing turn")
    parser.add_argument("--seed", metavar="N", help="draw the same questions again")


def run(options, words, world):
    """Run one session in the terminal or through a pipe."""
    plain = not (options.area or options.deck or options.seed or options.case or options.about)
    prompt = early.prompt_with_question(world, options.minutes, options.questions) if plain else None
    if prompt and prompt.left:
        return early.farewell(prompt)

    from trainer.practice.wish import Wish

    files = tuple(deck for deck in options.deck if deck.endswith(".toml") or os.path.exists(deck))
    wish = Wish(
        minutes=options.minutes,
        questions=options.questions,
        areas=tuple(area.lower() for area in options.area),
        decks=files,
        deck_names=tuple(_deck(name, world) for name in options.deck if name not in files),
        drills=_found(options.about, world) if options.about else (),
        case=options.case,
        seed=options.seed,
    )
    practise(wish, world, prompt)


def _deck(name, world):
    """Return the name of the deck that ``name`` means, whatever its capitals."""
    decks, wanted = world.library().decks, name.strip().lower().replace(" ", "-")
    if wanted in decks:
        return wanted
    close = get_close_matches(wanted, decks, 1, 0.5)
    hint = f"did you mean {close[0]}? " if close else ""
    raise UsageError(f"there is no deck {name[:60]!r}", hint=f"{hint}`trainer deck list` shows them")


def _found(about, world):
    """Return the ids of the drills that the words ``about`` find."""
    from trainer.practice import finding

    shelf = world.library()
    found = finding.drills(about, shelf)
    if not found:
        raise finding.no_such_drill(about, shelf)
    return tuple(found)


def today(world):
    """Run an ordinary day's session: what `trainer` alone does."""
    prompt = early.prompt_with_question(world, MINUTES, None)
    if prompt and prompt.left:
        return early.farewell(prompt)

    from trainer.practice.wish import Wish

    practise(Wish(minutes=MINUTES), world, prompt)


def practise(wish, world, prompt=None):
    """Run the session of ``wish``; ``prompt`` is the one that was live before, if there was one."""
    from trainer.commands import copies
    from trainer.practice.session import Session
    from trainer.terminal import look, loop, prompts, screens

    shelf = prompt.shelf if prompt else None
    with world.store() as store:
        session = Session(
            store=store,
            clock=world.clock,
            wish=wish,
            load_library=(lambda: shelf) if prompt else lambda: world.library(wish.decks),
            signature=world.signature(wish.decks),
            shown=prompt.record if prompt else None,
            begun=prompt.begun if prompt else None,
        )
        screen = look.look_for(sys.stdout, plain=world.plain)
        first_time = store.count() == 0
        if prompt is None:
            lines = screens.greeting(screen, minutes=wish.minutes, questions=wish.questions, first_time=first_time)
            early.print_lines(screen, lines)
        loop.run(session, prompt or prompts.prompt_for(screen, world.clock, plain=world.plain))
        if first_time and store.count():
            early.print_lines(screen, [("", ""), *((line, "") for line in screen.wrap(FIRST_EVENING))])
    copies.keep(world)


def minutes(text):
    """Return the number of minutes in ``text``, an argument of the command line."""
    from argparse import ArgumentTypeError

    try:
        value = float(text)
    except ValueError:
        value = 0.0
    if not 0 < value <= 600:
        raise ArgumentTypeError(f"{text!r} is not a number of minutes from 1 to 600")
    return value


def _count(text):
    from argparse import ArgumentTypeError

    if not (text.isascii() and text.isdigit() and 0 < int(text) <= 10_000):
        raise ArgumentTypeError(f"{text!r} is not a number from 1 to 10000")
    return int(text)
