"""Tonight's card: every number that is wanted in the cockpit, by phase, and what does not hold."""

import difflib
from dataclasses import dataclass

from trainer.engine import display
from trainer.engine.quantities import QUANTITIES
from trainer.engine.quantity import EXACT, stated
from trainer.errors import DomainError, UsageError
from trainer.practice.calculator import Worked
from trainer.practice.night.evening.limits import LIMITS, ONLY_DRAWN
from trainer.practice.night.evening.numbers import NUMBERS, clock
from trainer.practice.night.wording import ROMAN


@dataclass(frozen=True, kw_only=True)
class Row:
    """One line: ``name`` is that of the number ("" for what was given); ``text`` is "–" where it can't be had."""

    label: str
    text: str
    name: str = ""


@dataclass(frozen=True, kw_only=True)
class Section:
    """A heading and its rows."""

    title: str
    rows: tuple[Row, ...]


@dataclass(frozen=True, kw_only=True)
class Level:
    """One level of the stack as the card shows it; ``own`` marks those of your flight, ``first`` your own."""

    angels: str
    fix: str
    push: str
    own: bool
    first: bool


@dataclass(frozen=True, kw_only=True)
class Card:
    """``warnings`` say which limits the evening breaks and which numbers can't be had."""

    headline: str
    sections: tuple[Section, ...]
    stack: tuple[Level, ...]
    warnings: tuple[str, ...]
    labels: tuple[str, ...] = ()


def make(night, *, flight=1, labels=()):
    """Return the ``Card`` of ``night`` for a flight of that many aircraft."""
    builder = _Builder(night)
    sections = tuple(section for section in _sections(builder) if section.rows)
    stack = _stack(builder, int(flight))
    missing = [f"{', '.join(dict.fromkeys(titles))}: {reason}" for reason, titles in builder.missing.items()]
    warnings = tuple(dict.fromkeys((*_broken(night), *missing)))
    return Card(headline=_headline(night), sections=sections, stack=stack, warnings=warnings, labels=tuple(labels))


def _headline(night):
    scenario = night.scenario
    ship, weather = scenario.ship, scenario.weather
    return (
        f"Case {ROMAN[scenario.case]} · BRC {_say(ship.brc_deg, 'heading')} at {_say(ship.speed_kn, 'kn')} · wind"
        f" {_say(weather.wind_from_deg, 'heading')}/{weather.wind_speed_kn:g} · {_say(weather.ceiling_ft, 'ft')}"
        f" {_say(weather.visibility_nm, 'nm')} · {weather.altimeter_inhg:.2f}"
    )


def _say(value, unit):
    return display.value(value, unit)


class _Builder:
    """Makes rows of numbers; notes those that can't be had."""

    def __init__(self, night):
        self.night, self.missing = night, {}

    def row(self, name, label=""):
        """Return the row of the number ``name``, () where this Case has none."""
        number = NUMBERS[name]
        if self.night.scenario.case not in number.cases:
            return ()
        return (Row(label=label or number.title, text=self.text(name), name=name),)

    def text(self, name):
        """Return the number as text, a dash where it can't be had."""
        return self.attempt(lambda: self.night.text(name), NUMBERS[name].title)

    def attempt(self, function, title):
        """Return what ``function`` gives, a dash after noting why it gives nothing."""
        try:
            return function()
        except DomainError as error:
            self.missing.setdefault(str(error), []).append(title)
            return "–"

    def given(self, label, text):
        """Return a row of what was given or summed up."""
        return (Row(label=label, text=text),)

    def summed(self, label, function):
        """Return a row of pounds that ``function`` sums up."""
        return (Row(label=label, text=self.attempt(lambda: _say(function(), "lb"), label)),)


def _sections(b):
    night = b.night
    scenario, times = night.scenario, night.scenario.times
    return (
        Section(title="Catapult", rows=(
            *b.row("gross_weight"), *b.row("trim"), *b.row("wind_over_deck"),
            *b.row("relative_wind", "wind off the bow"), *b.row("endspeed", "end speed needed"),
        )),
        Section(title="Departure", rows=(
            *b.given("launch", _say(clock(times.launch_clock), "clock")),
            *b.row("clearing_heading", "clearing turn"), *b.row("clearing_side", "to the"),
            *b.row("climb_time", "to the climb point"), *b.row("gate_climb", "climb to the gate"),
            *b.row("arc_turn", "onto the arc at"), *b.row("arc_way", "arc to the"), *b.row("arc_degrees", "arc"),
            *b.row("arc_time", "time on the arc"), *b.row("arc_lead", "lead off the arc"),
            *b.given("radial", _say(scenario.departure_radial_deg, "heading")) * (scenario.case > 1),
            *b.row("rendezvous", "join-up radial"),
        )),
        Section(title="Marshal" if scenario.case > 1 else "Overhead", rows=(
            *b.given("check-in", _say(clock(times.check_in_clock), "clock")),
            *b.row("final_bearing"), *b.row("marshal_radial"), *b.row("fix_distance", "fix"),
            *b.given("level", f"angels {scenario.stack.angels:g}"), *b.row("inbound_course"), *b.row("push"),
            *b.given("leave at", _say(clock(night.push_clock), "clock")) * (scenario.case == 1),
            *b.given("to lose from the fix", _say(night.hold_min * 60, "s")),
            *b.row("patterns", "patterns"), *b.row("leg", "legs"),
        )),
        Section(title="Approach", rows=(
            *b.row("platform"), *b.row("level_off", "level at"), *b.row("tip_over", "glide slope at"),
            *b.row("downwind", "downwind"), *b.row("break_spacing", "break spacing"),
            *b.row("angle_wind"), *b.row("angle_crosswind", "across it, right +"),
            *b.row("on_speed", "on-speed"), *b.row("closure"), *b.row("sink_rate", "sink rate"),
        )),
        Section(title="Fuel ladder, two bolter patterns", rows=(
            *b.given("in the chocks", _say(scenario.load.fuel_lb, "lb")),
            *b.summed("at check-in", lambda: night.fuel_at_check_in_lb),
            *b.summed("at the fix", lambda: night.fuel_at_fix_lb),
            *b.row("ladder_fix", "needed there"), *b.row("ladder_push", "needed at the push"),
            *b.row("wanted_ball_fuel", "needed on the ball"), *b.row("ball_fuel", "on the ball"),
            *b.row("max_trap_fuel", "max trap"), *b.row("passes", "patterns to bingo"),
        )),
        Section(title="Divert and channels", rows=(
            *b.row("bingo", "BINGO"),
            *b.given("pigeons", f"{_say(scenario.divert.bearing_deg, 'heading')} for"
                     f" {_say(scenario.divert.distance_nm, 'nm')}"),
            *b.given("runway", _say(scenario.divert.runway_deg, "heading")),
            *b.row("divert_crosswind", "crosswind, right +"),
            *b.given("beacon", f"{scenario.ship.beacon_channel:.0f}X"),
            *b.row("beacon_ask", "asks on"), *b.row("beacon_reply", "answers on"),
            *b.row("partner", "air-to-air"),
        )),
    )  # fmt: skip


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
        push=builder.attempt(lambda: _computed("push_time", **push), "push"),
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
            if words not in ONLY_DRAWN and not holds(night):
                found.append(words)
        except DomainError:
            continue
    return found


def why(night, asked):
    """Return (title, ``Worked``) of the number, or of the quantity behind it, called ``asked``.

    Raises ``UsageError`` with the nearest name, and ``DomainError`` where the number can't be had.
    """
    wanted = asked.lower().replace("-", "_").replace(" ", "_")
    usable = {name: number for name, number in NUMBERS.items() if night.scenario.case in number.cases}
    by_quantity = {number.quantity: name for name, number in reversed(usable.items())}
    name = wanted if wanted in usable else by_quantity.get(wanted)
    if name is None:
        close = difflib.get_close_matches(wanted, [*usable, *by_quantity], 1, 0.4)
        hint = f"did you mean {close[0]}?" if close else f"it has: {', '.join(usable)}"
        raise UsageError(f"the card has no number {asked!r}", hint=hint)
    number = usable[name]
    quantity, arguments = QUANTITIES[number.quantity], night.arguments(name)
    values = quantity.compute(arguments, method=number.method)
    results = tuple(
        (result, float(values[result.name]), float(stated(result, values[result.name]))) for result in quantity.results
    )
    return number.title, Worked(
        quantity=quantity, method=number.method or EXACT, inputs=arguments, results=results, assumed={}
    )
