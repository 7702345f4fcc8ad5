"""Tonight's numbers on one kneeboard card, from options, a file, or a few questions.

Without any value the card asks for what changes every night; the rest follows from that, from your files, or is
assumed and marked. The card is kept: --why NUMBER and `trainer rehearse --card` work from the last one.
"""

import argparse
import datetime
import json
import sys
from pathlib import Path

from trainer.commands import writable
from trainer.errors import StorageError, UsageError
from trainer.practice.night import card as cards
from trainer.practice.night import card_why, heading, kept_card
from trainer.practice.night.evening import tonight, tonight_file
from trainer.practice.night.kept_card import KeptCard
from trainer.practice.night.prepare import labels
from trainer.terminal import brief as screens
from trainer.terminal import look, prompts
from trainer.terminal.screens import CAUTION

EXAMPLE = "trainer brief --wind 330/12 --launch 20:30 --push 21:45 --fuel 11.5 --divert 120/80 --out card.html"
PAPERS = ("a5", "half-letter")


def arguments(parser):
    """Declare the options of the command: one for each value of tonight, and pairs written with a stroke."""
    parser.add_argument("--file", type=Path, metavar="FILE", help="take values from a TOML file")
    parser.add_argument("--template", type=Path, metavar="FILE", help="write such a file, with every key, and stop")
    parser.add_argument("--out", type=Path, metavar="FILE", help="write the card as HTML, to be printed")
    parser.add_argument("--paper", choices=PAPERS, default="a5", help="size of the printed card (a5)")
    parser.add_argument("--json", action="store_true", help="print the card as JSON")
    parser.add_argument("--why", metavar="NUMBER", help="show how one number comes about, of the last card")
    parser.add_argument("--airframe", default="", metavar="NAME", help="another airframe of your files")
    parser.add_argument("--ship", default="", metavar="NAME", help="another ship of your files")
    parser.add_argument("--button", action="append", metavar="TEXT", help="a radio button of yours; may be repeated")
    parser.add_argument("--note", action="append", metavar="TEXT", help="a note of yours; may be repeated")
    values = parser.add_argument_group("tonight's values")
    for name, asked in tonight.PAIRS.items():
        values.add_argument(f"--{name}", type=_pair(asked), metavar="…/…", help=f"{asked.ask}: {asked.example()}")
    for value in tonight.VALUES:
        values.add_argument(f"--{value.name}", metavar="…", help=f"{value.ask} ({value.range_text()})")


def run(options, words, world):
    """Print the card, or the worked solution of one of its numbers, or write a file to fill in."""
    for path in (options.out, options.template):
        if path is not None:
            writable.check(path)
    wanted = _given(options)
    last = kept_card.last(world.home)
    if options.why and not wanted.given and last is not None:
        wanted = last
    shelf = world.library(**wanted.files)
    screen = look.look_for(sys.stdout, plain=world.plain)
    day = datetime.date.fromisoformat(wanted.day) if wanted.day else world.clock.local().date()
    if options.template:
        _write_template(options.template, wanted, shelf, day, screen)
    elif options.why:
        filled = tonight.filled(wanted.given, shelf, day)
        _say(screens.why(card_why.why(filled, shelf, options.why), screen), screen)
    else:
        _card(options, wanted, shelf, day, screen, world)


def _card(options, wanted, shelf, day, screen, world):
    given = wanted.given
    if not given and not options.json:
        given = screens.ask_all(prompts.prompt_for(screen, world.clock, plain=world.plain), given, shelf, day)
        print()
    filled = tonight.filled(given, shelf, day)
    made = cards.make(filled, shelf, labels=labels(shelf), buttons=wanted.buttons, notes=wanted.notes)
    kept = KeptCard(
        given=given, day=day.isoformat(), buttons=wanted.buttons, notes=wanted.notes, files=wanted.files
    )  # fmt: skip
    head = _kept(kept, shelf, world)
    if options.json:
        record = {"heading": dict(head.pairs), **cards.as_json(made, filled)}
        print(json.dumps(record, ensure_ascii=False, indent=2))
    else:
        _say(screens.card(made, screen, head), screen)
    if options.out:
        _write(options, made, filled, shelf, head)
        if not options.json:
            print(screen.line(f"written: {options.out}"))


def _kept(kept, shelf, world):
    """Keep the card, and return its heading; one that can't be kept is no reason to have none."""
    try:
        with world.store() as store:
            kept_card.keep(store, kept)
            return heading.heading(shelf, world.clock, store)
    except StorageError as error:
        print(f"trainer: this card is not kept: {error.message}", file=sys.stderr)
        return heading.heading(shelf, world.clock, None)


def _given(options) -> KeptCard:
    """Return what the file and the options give; options go first."""
    found = tonight_file.read(options.file) if options.file else tonight_file.Tonight()
    given = dict(found.values)
    for name in tonight.PAIRS:
        given |= getattr(options, name) or {}
    for value in tonight.VALUES:
        text = getattr(options, value.name.replace("-", "_"))
        if text is not None:
            given[value.name] = value.read(text)
    chosen = {"airframe": options.airframe, "ship": options.ship}
    return KeptCard(
        given=given, day="",
        buttons=(*found.buttons, *tonight_file.texts("--button", options.button or [])),
        notes=(*found.notes, *tonight_file.texts("--note", options.note or [])),
        files={kind: name for kind, name in chosen.items() if name},
    )  # fmt: skip


def _write_template(path, wanted, shelf, day, screen):
    from trainer.pages.render import write

    write(path, tonight_file.template(tonight.filled(wanted.given, shelf, day)))
    print(screen.line(f"written: {path} – fill it in, then `trainer brief --file {path}`"))


def _write(options, made, filled, shelf, head):
    from trainer.pages import card as pages
    from trainer.pages.render import write

    night = tonight.night_of(filled.values, shelf)
    write(options.out, pages.card(made, night, heading=head, paper=options.paper, caution=CAUTION))


def _say(lines, screen):
    for text, tone in lines:
        print(screen.line(text, tone))


def _pair(asked):
    def read(text):
        try:
            return asked.read(text)
        except UsageError as error:
            raise argparse.ArgumentTypeError(
                f"{text!r}: write it as {asked.example()} ({error.message})"
            ) from None  # fmt: skip

    return read
