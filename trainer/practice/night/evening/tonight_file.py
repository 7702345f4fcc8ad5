"""Tonight's values from a small TOML file: ``wind-from = 330``, ``launch = "20:30"``, one a line."""

import datetime

from trainer.decks.fault import Fault, of_syntax
from trainer.decks.lines import line_map
from trainer.decks.tables import parse
from trainer.decks.textfile import read_text
from trainer.decks.words import nearest, quoted
from trainer.errors import DeckError, UsageError
from trainer.practice.night.evening.tonight import BY_NAME


def read(path):
    """Return {name: value} of the file at ``path``; raises ``DeckError`` with every fault of it."""
    source, broken, line = read_text(path)
    if broken:
        raise DeckError([Fault(file=str(path), line=line, drill="", message=broken)])
    parsed, lines = parse(source.text), line_map(source.text)
    faults = of_syntax(path, parsed)
    values = {}
    for key, raw in parsed.data.items():
        try:
            values[key] = _value(key, raw)
        except UsageError as error:
            faults.append(Fault(file=str(path), line=lines.line((key,)), drill="", message=str(error)))
    if faults:
        raise DeckError(faults)
    return values


def _value(key, raw):
    if key not in BY_NAME:
        raise UsageError(f"unknown key {quoted(key)}{nearest(key, BY_NAME)}")
    if isinstance(raw, datetime.time):
        raw = f"{raw:%H:%M}"
    if isinstance(raw, bool) or not isinstance(raw, str | int | float):
        raise UsageError(f"{key}: {quoted(raw)} must be a number or a text")
    return BY_NAME[key].read(str(raw))
