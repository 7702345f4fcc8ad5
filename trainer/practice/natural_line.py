"""A calculation as it is said: ``trim 33500``, ``clearing turn right 217``, ``bingo 90 nm``.

Words name the quantity; what follows fills, in order, the inputs of which nothing is known. A line that fits several
quantities with answers of different kinds is not understood: nothing is guessed silently.
"""

import re
from collections.abc import Sequence
from typing import Any

from trainer.engine.quantity import Input, Quantity
from trainer.engine.units import UNITS
from trainer.errors import TrainerError
from trainer.frozen import frozen
from trainer.patterns import Late
from trainer.practice import calculator, finding, inputs

MOST_VALUES = 12
_BESIDE_A_NUMBER = frozenset(("cat", "catapult", "at", "with", "and", "for", "of"))
_NUMBER = Late(r"[-+:]?\d|fl ?\d", re.IGNORECASE)
_UNIT_WORDS = frozenset(
    word.strip().casefold() for unit in UNITS.values() for word in (unit.name, unit.symbol, *unit.spellings)
)


@frozen
class Understood:
    """The ``quantity`` that a line means, the texts of its inputs, and the names of ``others`` that fit as well."""

    quantity: Quantity
    given: dict[str, str]
    others: tuple[str, ...] = ()


def understood(words: Sequence[str], given: dict[str, str], library: Any) -> Understood | None:
    """Return what the words (and the inputs ``given`` by name) mean, None where that is nothing.

    Raises ``UsageError`` where they fit quantities with answers of different kinds.
    """
    if len(words) > MOST_VALUES:
        return None
    for end in range(len(words), 0, -1):
        names, values = words[:end], _values(words[end:])
        if any(is_value(word) for word in names):
            continue
        fitting = _fitting(names, values, given, library)
        if fitting:
            return _one(names, fitting)
    return None


def is_value(word: str) -> bool:
    """Return whether ``word`` is a number, with or without its unit, and not a word."""
    return bool(_NUMBER.match(word))


def _values(words):
    """Return the values among ``words``: numbers with the unit behind them, 330/20 as two, words as they are."""
    found = []
    for word in words:
        if found and word.casefold() in _UNIT_WORDS and _NUMBER.match(found[-1]):
            found[-1] = f"{found[-1]} {word}"
        elif word.casefold() in _BESIDE_A_NUMBER:
            continue
        else:
            found += word.split("/") if re.fullmatch(r"\d{1,3}/\d{1,3}", word) else [word]
    return found


def _fitting(names, values, given, library):
    """Return [(quantity, {input: text})] of those found by ``names`` whose lacking inputs ``values`` fill exactly."""
    exact = finding.named("_".join(names))
    found = []
    for quantity in [exact] if exact else finding.find(names):
        texts = _filled(quantity, values, given, library, told=bool(exact))
        if texts is not None:
            found.append((quantity, texts))
    return found


def _filled(quantity, values, given, library, *, told):
    """Return {input: text}, None where the values do not fit; ``told``: why the last one does not is raised."""
    try:
        known, missing = calculator.gathered(quantity, given, library)
    except TrainerError:
        return None
    open_ones = [*missing, *(spec for spec in quantity.inputs if known[spec.name] and known[spec.name][1])]
    texts = dict(given)
    for value in values:
        spec = next((spec for spec in open_ones if _reads(spec, value, library)), None)
        if spec is None:
            if told and len(open_ones) == 1:
                inputs.read(open_ones[0], value, library)
            return None
        open_ones.remove(spec)
        texts[spec.name] = value
    return None if any(spec in open_ones for spec in missing) else texts


def _reads(spec: Input, text: str, library: Any) -> bool:
    try:
        value = inputs.read(spec, text, library)
    except TrainerError:
        return False
    return spec.unit != "table" and (bool(spec.words) or spec.low <= value <= spec.high)


def _one(names, fitting):
    """Return the first of ``fitting`` where all give an answer of one kind; raises ``UsageError`` where they do not."""
    if len({quantity.result().unit for quantity, _ in fitting}) > 1:
        raise finding.which_one(names, [quantity for quantity, _ in fitting])
    (quantity, texts), *others = fitting
    return Understood(quantity=quantity, given=texts, others=tuple(other.name for other, _ in others))
