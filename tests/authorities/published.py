"""The published values that the engine is checked against: reading them and comparing with them.

Every file ``tests/authorities/*.json`` is a list of rows.  A row gives a ``quantity``, its ``inputs``, the
``outputs`` as [printed value, tolerance], the ``source`` it was read from, the ``kind`` of the print, and a
``note``.  Where the page prints another unit than ours, an output is [value, tolerance, unit] and an input
[value, unit], so that the row holds what the page prints.  Angles and coordinates compare modulo 360, clock
times modulo a day.  ``refute`` marks a known misprint or trap: the engine must NOT give it, be it that it
gives something else or that it refuses the inputs.
"""

import json
from pathlib import Path

import numpy as np

from trainer.engine.quantities import QUANTITIES
from trainer.engine.tables import InterpolatedTable, StepTable
from trainer.engine.units import UNITS, convert
from trainer.errors import DomainError
from trainer.model import STATUSES

FOLDER = Path(__file__).resolve().parent
KEYS = {"id", "quantity", "method", "inputs", "outputs", "source", "kind", "note", "refute"}
SOURCE_KEYS = {"text", "section", "url", "status"}
ROUND = {"direction": 360.0, "angle": 360.0, "coordinate": 360.0}


def rows():
    """Return all rows of all files, each with the name of its ``file``, in the order of the files."""
    found = []
    for path in sorted(FOLDER.glob("*.json")):
        for row in json.loads(path.read_text(encoding="utf-8")):
            found.append({**row, "file": path.name})
    return found


def form_faults(row):
    """Return what is wrong with the form of ``row`` as a list of sentences."""
    found = [f"unknown key {key!r}" for key in row if key not in KEYS | {"file"}]
    found += [f"no {key!r}" for key in ("id", "quantity", "inputs", "outputs", "source", "kind") if not row.get(key)]
    source = row.get("source", {})
    found += [f"unknown source key {key!r}" for key in source if key not in SOURCE_KEYS]
    found += [] if source.get("text") else ["the source has no text"]
    if source.get("status") not in STATUSES:
        found.append(f"status {source.get('status')!r} is not one of {', '.join(STATUSES)}")
    quantity = QUANTITIES.get(row.get("quantity"))
    if quantity is None:
        return [*found, f"there is no quantity {row.get('quantity')!r}"]
    given, taken = set(row.get("inputs", ())), {spec.name for spec in quantity.inputs}
    found += [f"{quantity.name} has no input {name!r}" for name in sorted(given - taken)]
    results = {result.name for result in quantity.results}
    found += [f"{quantity.name} has no result {name!r}" for name in row.get("outputs", ()) if name not in results]
    if row.get("method", "") not in ("", *quantity.methods):
        found.append(f"{quantity.name} has no method {row['method']!r}")
    for name, printed in row.get("outputs", {}).items():
        if not (isinstance(printed, list) and len(printed) in (2, 3) and printed[1] >= 0):
            found.append(f"{name}: an output is [printed value, tolerance] or [value, tolerance, unit]")
    return found


def inputs_of(row):
    """Return the inputs of ``row`` in the units of its quantity, defaults filled in."""
    values = {}
    for spec in QUANTITIES[row["quantity"]].inputs:
        value = row["inputs"].get(spec.name, spec.default)
        if isinstance(value, list):
            value = convert(value[0], value[1], spec.unit)
        values[spec.name] = _coded(spec, value)
    return values


def _coded(spec, value):
    """Return the number of a coded value that the row names by its word, or the table that it writes out."""
    if isinstance(value, dict):
        return _table(value)
    if isinstance(value, str):
        return {word: number for number, word in spec.words.items()}[value]
    return value


def _table(given):
    """Return the table of {"step": {"low": …, "rows": [[up to, value], …]}} or {"interpolated": [[x, y], …]}."""
    if "step" in given:
        upto, values = zip(*given["step"]["rows"], strict=True)
        return StepTable(low=given["step"]["low"], upto=upto, values=values)
    at, values = zip(*given["interpolated"], strict=True)
    return InterpolatedTable(at=at, values=values)


def computed(row):
    """Return {result: value in the printed unit} for every printed output of ``row``."""
    quantity = QUANTITIES[row["quantity"]]
    values = quantity.compute(inputs_of(row), method=row.get("method", ""))
    shown = {}
    for name, printed in row["outputs"].items():
        result = quantity.result(name)
        value = float(values[name])
        shown[name] = convert(value, result.unit, printed[2]) if len(printed) == 3 else value
    return shown


def deviation(result, value, printed):
    """Return ``value`` less ``printed``, the short way round where the result's unit goes round.

    >>> from types import SimpleNamespace
    >>> deviation(SimpleNamespace(unit="heading", words={}), 359.0, 1.0)
    -2.0
    """
    difference = value - printed
    unit = UNITS[result.unit]
    cycle = ROUND.get(unit.dimension, unit.cycle)
    if cycle and not result.words:
        difference = float(np.mod(difference + cycle / 2, cycle)) - cycle / 2
    return difference


def misses(row):
    """Return a sentence for each printed output of ``row`` that the engine does not give."""
    quantity = QUANTITIES[row["quantity"]]
    try:
        values = computed(row)
    except DomainError as refusal:
        return [f"{name}: refused, {refusal}" for name in row["outputs"]]
    found = []
    for name, value in values.items():
        result, (printed, tolerance) = quantity.result(name), row["outputs"][name][:2]
        printed = _coded(result, printed)
        off = deviation(result, value, printed)
        # A hair, so that a deviation of exactly half a printed unit passes.
        if not abs(off) <= tolerance + 1e-12 * max(1.0, abs(printed)):
            found.append(
                f"{name}: computed {value:.10g}, printed {printed:.10g}, off by {off:.3g}, allowed {tolerance:g}"
            )
    return found
