"""The text of a question: a deck's ``{name}`` and ``{name:100}`` filled with drawn values."""

from trainer.decks import placeholders
from trainer.decks.unit_names import unit_of
from trainer.engine import display


def filled(text, shown_as):
    """Return ``text`` with ``shown_as(name, step)`` in place of each placeholder; no step means the usual form.

    >>> filled("angels {angels}, {{so}}", lambda name, step: "12")
    'angels 12, {so}'
    """
    out = ""
    for part in placeholders.split(text):
        piece = part if isinstance(part, str) else shown_as(part.name, part.step)
        # Decks write "angels {angels}", and the usual form of the value begins with the word itself.
        out += piece.removeprefix("angels ") if out.casefold().endswith("angels ") else piece
    return out


def input_text(value, unit_name, *, words=None, step=None):
    """Return one drawn value in its usual form, rounded to ``step`` first; ``words`` are those of a coded one."""
    if isinstance(value, str):
        return value
    if words:
        return display.coded(value, words)
    return display.value(value, unit_name, step) if step else display.exact(value, unit_name)


def title_of(name):
    """Return the words for an input that has nothing but its name: "low_lb" is "low".

    >>> title_of("fuel_on_ball_lb"), title_of("angels"), title_of("brc_deg")
    ('fuel on ball', 'angels', 'BRC')
    """
    parts, unit = name.split("_"), unit_of(name)
    ending = len(unit.split("/")) if unit and len(parts) > 1 else 0
    return " ".join("BRC" if part == "brc" else part for part in parts[: len(parts) - ending])
