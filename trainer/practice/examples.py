"""An example of how a quantity is asked for, with numbers that belong together."""

import contextlib
import random

from trainer.drills import computed
from trainer.engine import display
from trainer.errors import TrainerError
from trainer.practice.input_names import option

DRAWS = 3  # of each drill; a draw may lack what the quantity needs
TRIES = 200  # random numbers from the range, where no drill asks for the quantity
COMMON = 1000  # the middle of a range up to 100,000 is no likely number


def example(quantity, library, given, missing, works):
    """Return a command that works when it is typed: what is ``given``, and likely numbers for what is ``missing``.

    The numbers are those of a drill of this quantity; ``works`` tells whether the texts by input can be worked out.
    """
    command = dict(given)
    for numbers in _likely(quantity, library):
        texts = {spec.name: _typed(spec, numbers[spec.name]) for spec in missing if spec.name in numbers}
        command = {**given, **texts}
        if works(command):
            break
    parts = " ".join(f"{option(name)} {_in_shell(text)}" for name, text in command.items())
    return f"for example: trainer compute {quantity.name} {parts}".rstrip()


def _likely(quantity, library):
    """Yield sets of inputs: a few draws of each drill of ``quantity``, then numbers from the range."""
    chance = random.Random(quantity.name)  # seeded by the name: always the same example
    for outline in library.outlines.values():
        if outline.quantity == quantity.name:
            for _ in range(DRAWS):
                with contextlib.suppress(TrainerError):
                    yield computed.make(library.drills[outline.id], library, chance).inputs
    for _ in range(TRIES):
        yield {spec.name: _between(spec, chance) for spec in quantity.inputs if spec.unit != "table"}


def _between(spec, chance):
    if spec.words:
        return chance.choice(tuple(spec.words))
    low = max(spec.low, 0) if spec.high > 0 else spec.low
    return round(chance.uniform(low, min(spec.high, low + COMMON)))


def _typed(spec, value):
    """Return ``value`` as a person would type it."""
    if isinstance(value, str):
        return value
    if spec.words:
        return spec.words[int(value)]
    if spec.unit in ("clock", "minute"):
        return display.value(value, spec.unit)
    return f"{float(value):.6f}".rstrip("0").rstrip(".")


def _in_shell(text):
    return f'"{text}"' if " " in text else text
