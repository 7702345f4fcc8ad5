"""Tonight's card on the screen, and the questions that fill it."""

from trainer.errors import UsageError
from trainer.practice.night.evening.tonight import VALUES
from trainer.terminal import tables
from trainer.terminal.look import printable
from trainer.terminal.screens import CAUTION

CARD_WIDTH = 66  # a kneeboard's, whatever the width of the screen
ASKING = "Tonight's values, one by one: Enter takes what stands in [ ], q takes it for all that are left."


def ask_all(prompt, given, library):
    """Ask for every value that is not ``given``; return {name: value} of all of them."""
    values = {}
    rest = False
    for line in prompt.look.wrap(ASKING):
        prompt.say(line, "quiet")
    for value in VALUES:
        if value.name in given:
            values[value.name] = given[value.name]
            continue
        default = value.default(values, library)
        if not rest:
            values[value.name], rest = _ask(prompt, value, default)
        else:
            values[value.name] = default
    return values


def _ask(prompt, value, default):
    """Return (value, whether the person leaves the rest to the defaults)."""
    label = f"{value.ask} [{value.text(default)}]"
    while True:
        prompt.say(label)
        try:
            line, _ = prompt.ask(lambda spent: "> ")
        except EOFError:
            return default, True
        word = line.strip()
        if not word or word.lower() == "q":
            return default, bool(word)
        try:
            return value.read(word), False
        except UsageError as error:
            for text in prompt.look.wrap(printable(str(error))):
                prompt.say(text, "late")


def card(made, look):
    """Return the lines of the card, no wider than a kneeboard."""
    width = min(CARD_WIDTH, look.width - 1)
    lines = [("TONIGHT'S CARD", "ask"), *_wrapped(made.headline, width)]
    for warning in made.warnings:
        lines += [(line, "bad") for line in _fold(f"! {warning}", width, hanging="  ")]
    for section in made.sections:
        lines += [("", ""), (section.title.upper(), "ask"), *_columns(section.rows, width)]
    if made.stack:
        lines += [("", ""), ("STACK", "ask")]
        lines += [(_level(level), "good" if level.own else "") for level in reversed(made.stack)]
    lines.append(("", ""))
    for text in (*made.labels, CAUTION):
        lines += [(line, "quiet") for line in _fold(text, width)]
    return lines


def _columns(rows, width):
    """Return rows side by side, two to a line where the screen is wide enough."""
    half = width // 2
    cells = [f"{row.label} {row.text}" for row in rows]
    if half < max(map(len, cells), default=0) + 2:
        return [(line, "") for cell in cells for line in _fold(cell, width)]
    cells = [f"{row.label:{half - 2 - len(row.text)}}{row.text}" for row in rows]
    pairs = [cells[at : at + 2] for at in range(0, len(cells), 2)]
    return [("    ".join(pair).rstrip(), "") for pair in pairs]


def _level(level):
    mark = "▸" if level.first else " "
    return f" {mark} {level.angels:10} {level.fix:>6}  push {level.push}"


def why(title, worked, look):
    """Return the worked solution of one number of the card."""
    return [(f"{title}:", "ask"), *((line, "") for line in tables.worked_lines(worked, look))]


def _fold(text, width, hanging=""):
    import textwrap

    return textwrap.wrap(printable(text), width, subsequent_indent=hanging, break_on_hyphens=False)


def _wrapped(text, width):
    return [(line, "") for line in _fold(text, width)]
