"""Tonight's card: every number that is wanted in the cockpit, by phase, and what does not hold."""

from collections.abc import Iterable

from trainer.decks.library import Library
from trainer.engine import display
from trainer.engine.quantities import QUANTITIES
from trainer.engine.quantity import stated
from trainer.errors import DomainError
from trainer.frozen import frozen
from trainer.practice.night import card_rows
from trainer.practice.night.card_rows import SIGN, Rows, Section, say
from trainer.practice.night.evening.limits import LIMITS
from trainer.practice.night.evening.numbers import clock
from trainer.practice.night.evening.tonight import BY_NAME, Filled, noted_night_of
from trainer.practice.night.evening.usual import FILES
from trainer.practice.night.wording import ROMAN


@frozen
class Level:
    """One level of the stack as the card shows it; ``own`` marks those of your flight, ``first`` your own."""

    angels: str
    fix: str
    push: str
    own: bool
    first: bool


@frozen
class Card:
    """``basis`` says what the Case rests on; ``warnings`` which limits the evening breaks and what can't be had.

    ``assumed`` are (value in words, what was taken) of everything that nobody gave and some number rests on.
    """

    headline: str
    basis: str
    sections: tuple[Section, ...]
    stack: tuple[Level, ...]
    warnings: tuple[str, ...]
    assumed: tuple[tuple[str, str], ...] = ()
    labels: tuple[str, ...] = ()
    buttons: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()

    @property
    def legend(self) -> str:
        """Return what the sign means, and everything that was assumed; "" where nothing was."""
        taken = ", ".join(f"{words} {text}" for words, text in self.assumed)
        return f"{SIGN} rests on what nobody gave: {taken}." if taken else ""


def make(
    tonight: Filled, library: Library, *, labels: Iterable[str] = (), buttons: Iterable[str] = (),
    notes: Iterable[str] = (),
) -> Card:  # fmt: skip
    """Return the ``Card`` of ``tonight``; raises ``UsageError`` where the values contradict each other."""
    night = noted_night_of(tonight, library)
    builder = Rows(night, tonight)
    basis = _basis(builder)
    headline = _headline(builder)
    sections = tuple(section for section in card_rows.sections(builder) if section.rows)
    stack = _stack(builder, int(tonight.values["flight"]))
    missing = [f"{', '.join(dict.fromkeys(titles))}: {reason}" for reason, titles in builder.missing.items()]
    warnings = tuple(dict.fromkeys((*_broken(night), *missing)))
    assumed = [(BY_NAME[name].said, BY_NAME[name].text(tonight.values[name])) for name in builder.assumed]
    return Card(
        headline=headline, basis=basis, sections=sections, stack=stack, warnings=warnings, assumed=tuple(assumed),
        labels=tuple(labels), buttons=tuple(buttons), notes=tuple(notes),
    )  # fmt: skip


def _headline(b):
    case, ship, weather = b.night.scenario.case, b.night.scenario.ship, b.night.scenario.weather
    wind = f"{say(weather.wind_from_deg, 'heading')}/{weather.wind_speed_kn:g}"
    return " · ".join((
        b.signed(f"Case {ROMAN[case]}", "case"),
        f"BRC {b.signed(say(ship.brc_deg, 'heading'), 'brc')} at {b.signed(say(ship.speed_kn, 'kn'), 'ship-speed')}",
        f"wind {b.signed(wind, 'wind-from', 'wind-speed')}",
        b.signed(f"{weather.altimeter_inhg:.2f}", "altimeter"),
    ))  # fmt: skip


def _basis(b):
    """Return what the Case rests on: the sun, the ceiling, the visibility, or that it was given."""
    if "case" in b.tonight.given:
        return "The Case was given."
    weather, night = b.night.scenario.weather, b.night
    recovery = clock(night.push_clock)
    sun = "sunrise" if abs(recovery - weather.sunrise_clock) < abs(recovery - weather.sunset_clock) else "sunset"
    by_file = f" by {FILES}" if b.tonight.whence[sun] == FILES else ""
    time = b.signed(f"{sun} {say(b.tonight.values[sun], 'clock')}", sun)
    return (
        f"Case by: {'night' if night.is_dark(recovery) else 'day'} at {say(recovery, 'clock')} ({time}{by_file}),"
        f" ceiling {b.signed(say(weather.ceiling_ft, 'ft'), 'ceiling')},"
        f" visibility {b.signed(say(weather.visibility_nm, 'nm'), 'visibility')}"
    )


def _stack(builder, flight):
    """Return the levels from the lowest to the last of your flight, () for Case I."""
    night, stack = builder.night, builder.night.scenario.stack
    if night.scenario.case == 1:
        return ()
    levels = []
    for place in range(1, int(stack.position) + flight):
        levels.append(_stack_level(builder, place))
    return tuple(levels)


def _stack_level(builder, place):
    """Return the level at ``place`` of the stack, 1 for the lowest."""
    night, stack = builder.night, builder.night.scenario.stack
    angels = stack.lowest_angels + (place - 1) * stack.step_angels
    push = night.inputs("push") | {"position": float(place)}
    return Level(
        angels=f"angels {angels:g}",
        fix=builder.attempt(lambda: _computed("marshal_fix_distance", angels=angels), f"fix of angels {angels:g}"),
        push=builder.signed(builder.attempt(lambda: _computed("push_time", **push), "push"), "push", "lowest"),
        own=place >= stack.position,
        first=place == stack.position,
    )


def _computed(name, **inputs):
    quantity = QUANTITIES[name]
    result = quantity.results[0]
    return display.value(float(stated(result, quantity.compute(inputs)[result.name])), result.unit, result.round_to)


def _broken(night):
    """Return the limits that the evening breaks; those whose numbers can't be had are told as missing."""
    found = []
    for words, holds in LIMITS:
        try:
            if not holds(night):
                found.append(words)
        except DomainError:
            continue
    return found


def as_json(made: Card, tonight: Filled) -> dict[str, object]:
    """Return the card as a JSON record; every number tells on which assumed values it rests."""
    return {
        "headline": made.headline,
        "basis": made.basis,
        "warnings": list(made.warnings),
        "values": {
            name: {"value": value, "unit": BY_NAME[name].unit, "from": tonight.whence[name],
                   "assumed": list(tonight.resting_on((name,)))}
            for name, value in tonight.values.items()
        },
        "sections": {
            section.title: [
                {"label": row.label, "name": row.name, "text": row.text, "note": row.note,
                 "assumed": list(row.assumed)}
                for row in section.rows
            ]
            for section in made.sections
        },
        "stack": [{"angels": level.angels, "fix": level.fix, "push": level.push, "own": level.own}
                  for level in made.stack],
        "legend": made.legend, "buttons": list(made.buttons), "notes": list(made.notes),
        "labels": list(made.labels),
    }  # fmt: skip
