"""Many draws of a drill at once, as arrays; used to try a drill before anybody practises it."""

from decimal import Decimal

import numpy as np

from trainer.decks.formula import compile_formula
from trainer.decks.spans import span_of
from trainer.engine.quantities import QUANTITIES

DECIMALS = 9


def columns(drill, library, rng, count):
    """Return {input: array of ``count`` values, or a table} without regard to ``keep``.

    ``rng`` is a ``random.Random``.  Raises ``FormulaError`` or ``DomainError`` where a drawn formula fails.
    """
    values = left_out(drill, library)
    for draw in drill.draws:
        values[draw.name] = _column(draw, values, library, rng, count)
    return values


def left_out(drill, library):
    """Return the inputs that the deck leaves out: from the user's files, else the quantity's default."""
    drawn = {draw.name for draw in drill.draws}
    quantity = QUANTITIES.get(getattr(drill, "quantity", ""))
    specs = quantity.inputs if quantity else ()
    taken = {spec.name: _taken(spec.take, library, spec.default) for spec in specs if spec.name not in drawn}
    return {name: value for name, value in taken.items() if value is not None}


def numbers(values):
    """Return those of ``values`` that a formula can name: everything but tables and words."""
    return {
        name: value
        for name, value in values.items()
        if not callable(value) and getattr(value, "dtype", None) != np.dtype(object)
    }


def chosen(values, rows):
    """Return ``values`` with only ``rows`` (a mask, indices, or one index) of each array."""
    return {
        name: value[rows] if isinstance(value, np.ndarray) and value.ndim else value for name, value in values.items()
    }


def _taken(reference, library, default):
    if reference in library.tables:
        return library.tables[reference]
    return library.values.get(reference, default)


def _column(draw, values, library, rng, count):
    if draw.span:
        return _on_grid(*span_of(draw, library), rng, count)
    if draw.any_of:
        words = any(isinstance(value, str) for value in draw.any_of)
        return np.array(draw.any_of, dtype=object if words else float)[_indices(rng, len(draw.any_of), count)]
    if draw.take in library.notes:
        return np.array(library.notes[draw.take], dtype=object)
    if draw.take:
        return _taken(draw.take, library, None)
    given = numbers(values)
    result = compile_formula(draw.formula, list(given)).evaluate(given, library.tables, library.values)
    return np.round(np.broadcast_to(result, (count,)), DECIMALS)


def _on_grid(low, high, step, rng, count):
    """Return draws from ``low``, ``low`` + ``step`` …, exact as written: 0.3 and not 0.30000000000000004."""
    exact_low, exact_high, exact_step = (Decimal(repr(number)) for number in (low, high, step))
    size = int((exact_high - exact_low) / exact_step) + 1
    return np.round(low + _indices(rng, size, count) * step, DECIMALS)


def _indices(rng, size, count):
    chance = np.array([rng.random() for _ in range(count)])
    return np.minimum((chance * size).astype(int), size - 1)
