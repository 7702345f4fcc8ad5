"""Tonight's card on the screen, and the few questions that fill it."""

import datetime
from collections.abc import Mapping

from trainer.decks.library import Library
from trainer.errors import UsageError
from trainer.practice.night.card import Card
from trainer.practice.night.card_rows import Row
from trainer.practice.night.card_why import Why
from trainer.practice.night.evening.tonight import QUESTIONS, Asked, filled
from trainer.practice.night.heading import Heading
from trainer.terminal import tables
from trainer.terminal.look import Look, printable
from trainer.terminal.screens import CAUTION, typeable

CARD_WIDTH = 66  # a kneeboard's, whatever the width of the screen
GAP = 3  # between the two columns
ASKING = (
    "Tonight's values. Enter leaves what stands in [ ], which the card then marks as assumed; q leaves all the rest."
)


HELP = {
    "Enter": "leaves what stands in [ ]; the card marks it as assumed",
    "q": "leaves all the rest and makes the card; so does Ctrl-D",
}


def ask_all(prompt, given: Mapping[str, float], library: Library, day: datetime.date) -> dict[str, float]:
    """Ask for what changes every night and is not ``given``; return {name: value} of what is given then."""
    known = dict(given)
    for line in prompt.look.wrap(ASKING):
        prompt.say(line, "quiet")
    for question in QUESTIONS:
        if set(question.names) <= known.keys():
            continue
        answered = _ask(prompt, question, filled(known, library, day).values)
        if answered is None:
            break
        known |= answered
    return known


def _ask(prompt, question: Asked, values: Mapping[str, float]) -> dict[str, float] | None:
    """Return what was typed, {} where it is left as it is, None where the person leaves all the rest."""
    label = f"{question.ask} [{question.text(values)}]"
    while True:
        prompt.say(label)
        try:
            line, _ = prompt.ask(lambda spent: "> ")
        except EOFError:
            return None
        word = line.strip()
        if not word or word.lower() == "q":
            return None if word else {}
        if word.lower() in ("?", "help"):
            lead = "Type the value as you would write it, in the form of what stands in [ ]:"
            for text, tone in typeable(prompt.look, lead, HELP):
                prompt.say(text, tone)
            continue
        try:
            return question.read(word)
        except UsageError as error:
            for text in prompt.look.wrap(printable(str(error))):
                prompt.say(text, "late")


def card(made: Card, look: Look, heading: Heading | None = None) -> list[tuple[str, str]]:
    """Return the lines of the card, no wider than a kneeboard."""
    width = min(CARD_WIDTH, look.width - 1)
    lines = [("TONIGHT'S CARD", "ask")]
    if heading is not None:
        pairs = " · ".join(f"{what} {text}" for what, text in heading.pairs)
        lines += [(line, "quiet") for line in _fold(pairs, width)]
    lines += [*_wrapped(made.headline, width), *_wrapped(made.basis, width)]
    for warning in made.warnings:
        lines += [(line, "bad") for line in _fold(f"! {warning}", width, hanging="  ")]
    for section in made.sections:
        lines += [("", ""), (section.title.upper(), "ask"), *_columns(section.rows, width)]
    if made.stack:
        lines += [("", ""), ("STACK", "ask")]
        lines += [(_level(level), "good" if level.own else "") for level in reversed(made.stack)]
    for title, texts in (("BUTTONS", made.buttons), ("NOTES", made.notes)):
        if texts:
            lines += [("", ""), (title, "ask"), *(line for text in texts for line in _wrapped(text, width))]
    lines.append(("", ""))
    for text in filter(None, (made.legend, *made.labels, CAUTION)):
        lines += [(line, "quiet") for line in _fold(text, width)]
    return lines


def _columns(rows: tuple[Row, ...], width: int) -> list[tuple[str, str]]:
    """Return rows side by side, two to a line; one that is too long for that has a line of its own."""
    half = (width - GAP) // 2
    lines: list[tuple[str, str]] = []
    waiting = ""
    for row in rows:
        cell = _cell(row, half)
        if len(cell) <= half and not row.note:
            if waiting:
                lines.append((f"{waiting}{' ' * GAP}{cell}", ""))
            waiting = "" if waiting else cell
            continue
        lines += [(waiting, "")] if waiting else []
        waiting = ""
        lines += [(line, "") for line in _fold(_cell(row, width), width, hanging="  ")]
    return [*lines, (waiting, "")] if waiting else lines


def _cell(row: Row, width: int) -> str:
    text = f"{row.marked} {row.note}".rstrip()
    return f"{row.label} {' ' * (width - 1 - len(row.label) - len(text))}{text}"


def _level(level):
    mark = "▸" if level.first else " "
    return f" {mark} {level.angels:10} {level.fix:>6}  push {level.push}"


def why(found: Why, look: Look) -> list[tuple[str, str]]:
    """Return the worked solution of one number of the card, and what it rests on."""
    lines = [(f"{found.title}:", "ask"), *((line, "") for line in tables.worked_lines(found.worked, look))]
    if found.flown:
        text = f"asked and taught by the rule of thumb; flown in tonight's wind about the moving ship: {found.flown}"
        lines += [(line, "") for line in look.wrap(text, indent="  ", hanging="  ")]
    if found.assumed:
        taken = ", ".join(f"{words} {text}" for words, text in found.assumed)
        lines += [(line, "late") for line in look.wrap(f"assumed, nobody gave it: {taken}", indent="  ", hanging="  ")]
    return lines


def _fold(text, width, hanging=""):
    import textwrap

    return textwrap.wrap(
        printable(text), width, subsequent_indent=hanging, break_on_hyphens=False, drop_whitespace=True
    )


def _wrapped(text, width):
    return [(line, "") for line in _fold(text, width)]
