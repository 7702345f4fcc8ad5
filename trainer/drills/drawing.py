"""The inputs of a computed drill: drawn by chance, taken from the user's files, or computed from others.

``draw_once`` draws the numbers of a question, ``columns`` those of thousands at once, by which a drill is tried.
"""

import math
from decimal import Decimal
from functools import lru_cache

import numpy as np

from trainer.decks.formula import compile_formula
from trainer.decks.spans import span_of
from trainer.drills import chance
from trainer.engine.quantities import QUANTITIES
from trainer.errors import DomainError

DECIMALS = 9  # a computed input is cut here, so that what is shown is what is used


def draw_once(drill, library, rng):
    """Return {input: value} of one draw: a float, a plain word, or a table's name; ``keep`` is not tested."""
    quantity = QUANTITIES.get(getattr(drill, "quantity", ""))
    values = left_out(drill, quantity, {draw.name for draw in drill.draws}, library)
    for draw in drill.draws:
        values[draw.name] = _drawn(draw, quantity, values, library, rng)
    return values


def columns(drill, library, rng, count):
    """Return {input: array of ``count`` values, a number, or a table's name} of draws; ``keep`` is not tested."""
    quantity = QUANTITIES.get(getattr(drill, "quantity", ""))
    values = left_out(drill, quantity, {draw.name for draw in drill.draws}, library)
    for draw in drill.draws:
        values[draw.name] = _column(draw, quantity, values, library, rng, count)
    return values


def of_rows(values, rows):
    """Return ``values`` (see ``columns``) with only ``rows`` (a mask, indices, or one index) of each array."""
    return {name: value[rows] if isinstance(value, np.ndarray) else value for name, value in values.items()}


def kept(drill, values, library):
    """Return whether ``values`` meet every ``keep`` condition; a mask where they are arrays."""
    numbers, met = numeric(values), True
    for text in drill.keep:
        met = met & (evaluate(text, numbers, library, condition=True) != 0)
        if met is False:
            break
    return met


def numeric(values):
    """Return those of ``values`` that a formula can use: everything but words and tables."""
    return {name: value for name, value in values.items() if not _is_word(value)}


def _is_word(value):
    return isinstance(value, str) or getattr(value, "dtype", None) == np.dtype(object)


def evaluate(text, values, library, *, condition=False):
    """Return what the formula ``text`` gives for ``values``."""
    formula = _compiled(text, tuple(sorted(values)), condition)
    return formula.evaluate(values, library.tables, library.values)


def coded(words, value):
    """Return the number of the coded ``value`` (a word or the number itself); raises ``DomainError``."""
    if not isinstance(value, str):
        return float(value)
    for code, word in words.items():
        if word.casefold() == value.casefold():
            return float(code)
    raise DomainError(f'"{value}" is not one of: {", ".join(words.values())}')


@lru_cache(maxsize=4096)
def _compiled(text, names, condition):
    return compile_formula(text, names, condition=condition)


def _drawn(draw, quantity, values, library, rng):
    words = words_of(quantity, draw.name)
    if draw.span is not None:
        low, high, step = span_of(draw, library)
        return chance.on_grid(rng, low, high, step)
    if draw.any_of:
        value = chance.choice(rng, draw.any_of)
        return coded(words, value) if words else value if isinstance(value, str) else float(value)
    if draw.take:
        return _taken(draw.take, library)
    return round(float(evaluate(draw.formula, numeric(values), library)), DECIMALS)


def _column(draw, quantity, values, library, rng, count):
    if draw.span is not None:
        low, high, step = span_of(draw, library)
        return _on_grid(low, high, step, rng, count)
    if draw.any_of:
        words = words_of(quantity, draw.name)
        several = [coded(words, value) if words else value for value in draw.any_of]
        is_word = any(isinstance(value, str) for value in several)
        return np.array(several, dtype=object if is_word else float)[_indices(rng, len(several), count)]
    if draw.take:
        return _taken(draw.take, library)
    return np.round(np.broadcast_to(evaluate(draw.formula, numeric(values), library), (count,)), DECIMALS)


def _on_grid(low, high, step, rng, count):
    """Return draws from ``low``, ``low`` + ``step`` …, exact as written: 0.3 and not 0.30000000000000004."""
    exact_low, exact_high, exact_step = (Decimal(repr(number)) for number in (low, high, step))
    size = int((exact_high - exact_low) / exact_step) + 1
    return np.round(low + _indices(rng, size, count) * step, DECIMALS)


def _indices(rng, size, count):
    chances = np.array([rng.random() for _ in range(count)])
    return np.minimum((chances * size).astype(int), size - 1)


def words_of(quantity, name):
    """Return the words of the coded input ``name`` of ``quantity``, {} for any other input."""
    for spec in quantity.inputs if quantity else ():
        if spec.name == name:
            return spec.words
    return {}


def _taken(reference, library):
    """Return a number or a word of the user's files, or the name itself where it is a table."""
    if reference in library.tables:
        return reference
    if reference.endswith(".called"):
        return library.notes[reference]
    if reference not in library.values:
        raise DomainError(f'"{reference}" is not in your files', hint="add it to the ship, airframe or air wing")
    return float(library.values[reference])


def left_out(drill, quantity, drawn, library):
    """Return the inputs that the deck leaves out: from the user's files, else the quantity's default."""
    found = {}
    for spec in quantity.inputs if quantity else ():
        if spec.name in drawn:
            continue
        if spec.take and (spec.take in library.values or spec.take in library.tables):
            found[spec.name] = _taken(spec.take, library)
        elif spec.default is not None:
            found[spec.name] = float(spec.default)
        else:
            raise DomainError(f'drill "{drill.id}": nothing gives the input "{spec.name}"')
    return found


def same_numbers(drill, inputs, avoid):
    """Return whether chance gave the very numbers of one of ``avoid``."""
    names = [draw.name for draw in drill.draws if draw.any_of or draw.span is not None]
    return any(all(last.get(name) == inputs[name] for name in names) for last in avoid)


def chances(drill, library):
    """Return how many different draws there are, roughly: the product of what chance decides."""
    return math.prod(
        len(draw.any_of) if draw.any_of else _steps(span_of(draw, library))
        for draw in drill.draws
        if draw.any_of or draw.span is not None
    )


def _steps(span):
    low, high, step = span
    return int(round((high - low) / step)) + 1
