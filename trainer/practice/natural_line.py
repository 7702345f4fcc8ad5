"""A calculation as it is said: ``trim 33500``, ``clearing turn right 217``, ``crosswind runway 100 wind 130/20``.

Words name the quantity; a value with the name of an input before it is that input, and what is left fills, in order,
the inputs of which nothing is known. A line that fits several quantities with answers of different kinds is not
understood: nothing is guessed silently.
"""

import re
from collections.abc import Sequence
from typing import Any

from trainer.engine.quantity import Input, Quantity
from trainer.engine.units import UNITS
from trainer.errors import TrainerError
from trainer.frozen import frozen
from trainer.patterns import Late
from trainer.practice import calculator, finding, input_names, inputs

MOST_VALUES = 12
_BESIDE_A_NUMBER = frozenset(("cat", "catapult", "at", "with", "and", "for", "of"))
_NUMBER = Late(r"[-+:]?\d|fl ?\d", re.IGNORECASE)
_BEFORE_THE_NUMBER = ("angels", "angel", "fl")
_PAIR = Late(r"\d{1,3}/\d{1,3}")
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

    Raises ``UsageError`` where they fit quantities with answers of different kinds, and where one is meant that
    lacks an input.
    """
    parts = joined(words)
    if len(parts) > MOST_VALUES:
        return None
    named = next((at for at, part in enumerate(parts) if is_value(part)), len(parts))
    for end in range(named, 0, -1):
        names = parts[:end]
        fitting = _fitting(names, parts[end:], given, library)
        if fitting:
            return _one(names, fitting)
        if end == named < len(parts) and (meant := finding.named("_".join(names))):
            calculator.work_out(meant, given, library)  # tells what it needs
    return None


def is_value(word: str) -> bool:
    """Return whether ``word`` is a number, with or without its unit, and not a word."""
    return bool(_NUMBER.match(word.removeprefix("angels ").removeprefix("angel ")))


def is_unit(word: str) -> bool:
    """Return whether ``word`` is that of a unit."""
    return word.casefold() in _UNIT_WORDS


def joined(words: Sequence[str]) -> list[str]:
    """Return ``words`` with a number and its unit as one: 90 nm, angels 12."""
    found: list[str] = []
    for word in words:
        if found and is_unit(word) and _NUMBER.match(found[-1]):
            found[-1] = f"{found[-1]} {word}"
        elif found and found[-1].casefold() in _BEFORE_THE_NUMBER and _NUMBER.match(word):
            found[-1] = f"{found[-1].casefold()} {word}"
        else:
            found.append(word)
    return found


def _labelled(quantity, parts):
    """Return ({input: value with its name before it}, the parts that are left) as they mean inputs of ``quantity``."""
    labelled, left = {}, []
    for part in parts:
        names = [] if not is_value(part) else left[_words_from(left) :]
        for at in range(len(names)):
            label = "_".join(names[at:])
            if label.casefold() not in _BESIDE_A_NUMBER and _is_input(quantity, label, part):
                labelled[label] = part
                del left[len(left) - len(names) + at :]
                break
        else:
            left.append(part)
    kept = [part for part in left if part.casefold() not in _BESIDE_A_NUMBER]
    return labelled, [value for part in kept for value in (part.split("/") if _PAIR.fullmatch(part) else [part])]


def _words_from(parts):
    """Return where the words begin that end ``parts``."""
    at = len(parts)
    while at and not is_value(parts[at - 1]):
        at -= 1
    return at


def _is_input(quantity, label, text):
    try:
        return bool(input_names.texts_by_name(quantity, {label: text}))
    except TrainerError:
        return False


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
    labelled, values = _labelled(quantity, values)
    given = given | labelled
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
    """Return the first of ``fitting`` where all, or all that are called so, give an answer of one kind.

    Raises ``UsageError`` where they do not.
    """
    called_so = [one for one in fitting if all(name.casefold() in one[0].name.split("_") for name in names)]
    if not _of_one_kind(fitting) and called_so and _of_one_kind(called_so):
        fitting = [*called_so, *(one for one in fitting if one not in called_so)]
    elif not _of_one_kind(fitting):
        raise finding.which_one(names, [quantity for quantity, _ in fitting])
    (quantity, texts), *others = fitting
    return Understood(quantity=quantity, given=texts, others=tuple(other.name for other, _ in others))


def _of_one_kind(fitting):
    return len({quantity.result().unit for quantity, _ in fitting}) <= 1
