"""Tonight's values from a small TOML file: ``wind-from = 330``, ``launch = "20:30"``, one a line.

``buttons`` and ``notes`` are lists of texts of one's own that go onto the card as they are.
"""

import datetime
from collections.abc import Mapping
from dataclasses import field
from pathlib import Path

from trainer.decks.fault import Fault, of_syntax
from trainer.decks.lines import line_map
from trainer.decks.tables import parse
from trainer.decks.textfile import read_text
from trainer.decks.words import nearest, quoted
from trainer.engine.units import UNITS
from trainer.errors import DeckError, UsageError
from trainer.frozen import frozen
from trainer.practice.night.evening.tonight import BY_NAME, VALUES, Filled, Value

TEXTS = ("buttons", "notes")
MOST_TEXTS, LONGEST_TEXT = 30, 100
UNIT_WORDS = {"heading": "degrees magnetic", "clock": "ship's time"}
HEAD = """# Tonight's values for `trainer brief --file` and `trainer rehearse --file`. Take the # away from a line to
# give that value; what stands here is what is taken otherwise. A number that rests on what nobody gave is marked.
# Pounds may be written in thousands (11.5); clock times as "20:30".

# Texts of your own that go onto the card, such as the radio buttons of tonight:
# buttons = ["1 tower", "16 approach"]
# notes = ["tanker overhead at angels 10"]
"""


@frozen
class Tonight:
    """What a file gives: ``values`` by name, and texts of one's own."""

    values: dict[str, float] = field(default_factory=dict)
    buttons: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()


def read(path: Path) -> Tonight:
    """Return what the file at ``path`` gives; raises ``DeckError`` with every fault of it."""
    source, broken, line = read_text(path)
    if source is None:
        raise DeckError([Fault(file=str(path), line=line, drill="", message=broken)])
    parsed, lines = parse(source.text), line_map(source.text)
    faults = of_syntax(path, parsed)
    values, texts = {}, {}
    for key, raw in parsed.data.items():
        try:
            if key in TEXTS:
                texts[key] = _texts(key, raw)
            else:
                values[key] = _value(key, raw)
        except UsageError as error:
            faults.append(Fault(file=str(path), line=lines.line((key,)), drill="", message=str(error)))
    if faults:
        raise DeckError(faults)
    return Tonight(values=values, **texts)


def _value(key, raw):
    if key not in BY_NAME:
        raise UsageError(f"unknown key {quoted(key)}{nearest(key, (*BY_NAME, *TEXTS))}")
    if isinstance(raw, datetime.time):
        raw = f"{raw:%H:%M}"
    if isinstance(raw, bool) or not isinstance(raw, str | int | float):
        raise UsageError(f"{key}: {quoted(raw)} must be a number or a text")
    return BY_NAME[key].read(str(raw))


def _texts(key, raw):
    if not isinstance(raw, list) or not all(isinstance(text, str) for text in raw):
        raise UsageError(f'{key} must be a list of texts, like ["1 tower"]')
    return texts(key, raw)


def texts(name: str, given: list[str]) -> tuple[str, ...]:
    """Return texts for the card; raises ``UsageError`` for more, or longer ones, than it has room for."""
    if len(given) > MOST_TEXTS or any(len(text) > LONGEST_TEXT for text in given):
        raise UsageError(
            f"{name}: too much for a card", hint=f"at most {MOST_TEXTS} lines of {LONGEST_TEXT} characters"
        )
    return tuple(text.strip() for text in given if text.strip())


def template(tonight: Filled) -> str:
    """Return the text of a file with every key, its unit, its range and what is taken today."""
    lines = [f"# {_line(value, tonight.values)}" for value in VALUES]
    width = max(map(len, lines)) + 2
    notes = [_note(value, tonight.whence) for value in VALUES]
    return HEAD + "\n" + "".join(f"{line:{width}}# {note}\n" for line, note in zip(lines, notes, strict=True))


def _line(value: Value, values: Mapping[str, float]) -> str:
    number = values[value.name]
    if value.unit == "clock":
        return f'{value.name} = "{int(number) // 60:02d}:{int(number) % 60:02d}"'
    return f"{value.name} = {number:g}" if value.unit != "altimeter" else f"{value.name} = {number:.2f}"


def _note(value: Value, whence: Mapping[str, str]) -> str:
    unit = UNITS[value.unit].symbol.strip() or {"heading": "degrees magnetic", "clock": "ship's time"}.get(
        value.unit, ""
    )
    taken = {"given": "given", "assumed": "assumed"}.get(whence[value.name], f"by {whence[value.name]}")
    return ", ".join(filter(None, (value.ask, unit, value.range_text(), taken)))
