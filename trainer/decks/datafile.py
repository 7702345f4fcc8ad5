"""Data files: the numbers of an airframe, a ship, the air wing – the user's own or invented ones."""

from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path

from trainer.decks.belonging import misplaced
from trainer.decks.fault import Fault, Findings, of_syntax, shortened
from trainer.decks.plausible import other_kind, wrong_sizes
from trainer.decks.shape import NAME, REQUIRED, Table
from trainer.decks.tables import parse
from trainer.decks.textfile import read_text
from trainer.decks.unit_names import read_unit
from trainer.decks.words import quoted
from trainer.engine.tables import InterpolatedTable, StepTable
from trainer.model import STATUSES, WINGS, Source

FORMAT = 1
KINDS = {"airframes": "airframe", "ships": "ship"}
AIRWING = "airwing"
MOST_VALUES = 500
MOST_ROWS = 500


@dataclass(kw_only=True)
class DataFile:
    """``kind`` is "airframe", "ship", "airwing", or "" for a file that lies in no such folder.

    ``values`` and ``tables`` are named without the kind; ``sources`` and ``units`` are those of the tables.  ``wings``
    is what an airframe is, "" where the file does not say; ``called`` is what it is called on the radio.
    """

    path: Path
    kind: str
    text: str = ""
    name: str = ""
    title: str = ""
    invented: str = ""
    wings: str = ""
    called: str = ""
    values: dict = field(default_factory=dict)
    tables: dict = field(default_factory=dict)
    sources: dict = field(default_factory=dict)
    units: dict = field(default_factory=dict)
    faults: list = field(default_factory=list)

    @cached_property
    def lines(self):
        """Return the map from places to lines."""
        from trainer.decks.lines import line_map

        return line_map(self.text)

    def fault(self, place, message):
        """Return a fault at ``place`` of this file."""
        return Fault(file=str(self.path), line=self.lines.line(place), drill="", message=message)


def kind_of(path):
    """Return which data a file holds by its folder: "airframe", "ship", "airwing", "" for none of them."""
    path = Path(path)
    return AIRWING if path.name == f"{AIRWING}.toml" else KINDS.get(path.absolute().parent.name, "")


def read_data(path):
    """Return the ``DataFile`` at ``path``; never raises for what stands in the file."""
    path = Path(path)
    file = DataFile(path=path, kind=kind_of(path))
    source, broken, line = read_text(path)
    if source is None:
        file.faults = [Fault(file=str(path), line=line, drill="", message=broken)]
        return file
    file.text = source.text
    parsed = parse(source.text, source.hash)
    findings = Findings(path)
    elsewhere = misplaced(parsed.data, "data")
    if elsewhere:
        findings.add((), elsewhere)
    elif parsed.data or not parsed.syntax:
        _read_all(file, Table(parsed.data, (), findings))
    found = findings.faults(lambda place: file.lines.line(place), lambda at: bool(parsed.blanked))
    file.faults = shortened(of_syntax(path, parsed) + found)
    return file


def _read_all(file, top):
    version = top.raw("format", REQUIRED)
    if version is not None and (type(version) is not int or version != FORMAT):
        top.fault("format", f"format {quoted(version)} is not known; this trainer reads format {FORMAT}")
    file.name = top.text("name", REQUIRED, longest=60)
    if file.name and file.name != file.path.stem:
        top.fault("name", f"{quoted(file.name)} must be the name of the file, {quoted(file.path.stem)}")
    file.title, file.invented = top.text("title", REQUIRED, longest=120), top.text("invented")
    file.wings = top.word("wings", WINGS, "")
    file.called = top.text("called", file.name.replace("-", " ").title(), longest=30)
    values = top.table("values")
    for name in _names(values):
        number = values.number(name)
        if number is not None:
            file.values[name] = number
    elsewhere = other_kind(file.kind, file.values)
    if elsewhere:
        top.fault("", elsewhere)
    for name, message in wrong_sizes(file.values):
        values.fault(name, message)
    tables = top.table("table")
    for name in _names(tables):
        if name in file.values:
            tables.fault(name, f"{quoted(name)} is a value already")
        _read_table(file, name, tables.table(name))
    top.finish()


def _names(table):
    """Return the names in ``table`` that can be referred to; the others are noted."""
    names = list(table.data)
    if len(names) > MOST_VALUES:
        table.fault("", f"there are {len(names):,} entries; at most {MOST_VALUES} are read")
        names = []
    for name in names:
        if not NAME.fullmatch(name):
            table.fault(name, f"{quoted(name)} is no name: lower-case letters, digits and _")
    return [name for name in names if NAME.fullmatch(name)]


def _read_table(file, name, table):
    kind = table.word("kind", ("step", "interpolated"))
    rows = _rows(table)
    low = table.number("low", REQUIRED) if kind == "step" else None
    if not kind:
        table.known.append("low")
    unit, title = read_unit(table), table.text("title", longest=120)
    source, status = table.text("source", REQUIRED), table.word("status", STATUSES)
    table.finish()
    if not kind or not rows or (kind == "step" and low is None):
        return
    label = f"{file.kind or file.name}.{name}"
    at, values = tuple(row[0] for row in rows), tuple(row[1] for row in rows)
    try:
        if low is not None:
            file.tables[name] = StepTable(low=low, upto=at, values=values, name=label, unit=unit)
        else:
            file.tables[name] = InterpolatedTable(at=at, values=values, name=label, unit=unit)
    except ValueError as error:
        table.fault("rows", str(error))
    file.units[name] = unit
    file.sources[name] = Source(text=source or title, status=status or "memory")


def _rows(table):
    """Return the rows as pairs of numbers, [] after a fault."""
    rows, good = table.list("rows", most=MOST_ROWS, required=True), []
    if table.data.get("rows") == []:
        table.fault("rows", "there is no row")
    for index, row in enumerate(rows):
        place = table.at("rows", index)
        if not isinstance(row, list) or len(row) != 2:
            place.fault("", f"row {index + 1} must be two numbers, [argument, value]{_with_comma(row)}")
            continue
        pair = [place.checked_number("", number) for number in row]
        if None not in pair:
            good.append(tuple(pair))
    return good if len(good) == len(rows) else []


def _with_comma(row):
    """Return what is to be written where a number of ``row`` has a comma, as in [24,600, 5]."""
    parts = row[:2] if isinstance(row, list) and len(row) == 3 else [None]
    told = all(type(part) is int and 0 <= part < 1000 for part in parts)
    return f"; a number has no comma: write {parts[0]}{parts[1]:03d}" if told else ""
