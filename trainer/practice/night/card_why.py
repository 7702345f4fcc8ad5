"""How one number of the card comes about, and what it rests on."""

import difflib

from trainer.decks.library import Library
from trainer.engine import display
from trainer.engine.quantities import QUANTITIES
from trainer.engine.quantity import EXACT, stated
from trainer.errors import UsageError
from trainer.frozen import frozen
from trainer.practice.calculator import Worked
from trainer.practice.night import moon_tonight
from trainer.practice.night.evening.numbers import NUMBERS
from trainer.practice.night.evening.tonight import BY_NAME, Filled, noted_night_of

MOON = "moon"


@frozen
class Why:
    """A number worked out; ``flown`` is what its rule of thumb comes to tonight, "" where that is within limits.

    ``assumed`` are (value in words, what was taken) of what it rests on and nobody gave.
    """

    title: str
    worked: Worked
    flown: str
    assumed: tuple[tuple[str, str], ...]


def why(tonight: Filled, library: Library, asked: str) -> Why:
    """Return how the number, or the quantity behind it, called ``asked`` comes about.

    Raises ``UsageError`` with the nearest name, and ``DomainError`` where the number can't be had.
    """
    night = noted_night_of(tonight, library)
    if asked.lower() == MOON and moon_tonight.has_place(library, tonight.day):
        return _moon(tonight, night, library)
    name = _name_of(asked, night.scenario.case)
    number = NUMBERS[name]
    worked = _worked(QUANTITIES[number.quantity], night.arguments(name), number.method)
    flown, result = night.flown(name), night.result(name)
    return Why(
        title=number.title, worked=worked,
        flown="" if flown is None else display.value(flown, result.unit, result.round_to or None),
        assumed=_assumed(tonight, night.rests_on(lambda: night[name])),
    )  # fmt: skip


def _worked(quantity, arguments, method=""):
    values = quantity.compute(arguments, method=method)
    results = tuple(
        (result.of(arguments), float(values[result.name]), float(stated(result, values[result.name])))
        for result in quantity.results
    )
    return Worked(quantity=quantity, method=method or EXACT, inputs=arguments, results=results, assumed={})


def _assumed(tonight, names):
    """Return (value in words, what was taken) of what ``names`` rest on and nobody gave."""
    return tuple((BY_NAME[one].said, BY_NAME[one].text(tonight.values[one])) for one in tonight.resting_on(names))


def _moon(tonight, night, library):
    """Return how the moon's light comes about: its row is no number of the evening but a line of the almanac."""
    where = moon_tonight.where(library, tonight.day, night.ball_clock)
    assumed = _assumed(tonight, night.rests_on(lambda: night.ball_clock))
    return Why(title=MOON, worked=_worked(QUANTITIES["moon_light"], where), flown="", assumed=assumed)


def _name_of(asked, case):
    wanted = asked.lower().replace("-", "_").replace(" ", "_")
    usable = {name: number for name, number in NUMBERS.items() if case in number.cases}
    by_quantity = {number.quantity: name for name, number in reversed(usable.items())}
    name = wanted if wanted in usable else by_quantity.get(wanted)
    if name is None:
        close = difflib.get_close_matches(wanted, [*usable, *by_quantity], 1, 0.4)
        hint = f"did you mean {close[0]}?" if close else f"it has: {', '.join(usable)}"
        raise UsageError(f"the card has no number {asked!r}", hint=hint)
    return name
