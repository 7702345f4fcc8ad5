"""The rows of tonight's card: every number that is wanted in the cockpit, by phase, and what it rests on."""

from collections.abc import Callable, Iterable

from trainer.engine import display
from trainer.engine.units import UNITS
from trainer.errors import DomainError
from trainer.frozen import frozen
from trainer.practice.night import moon_tonight
from trainer.practice.night.evening.noted import NotedNight
from trainer.practice.night.evening.numbers import NUMBERS, clock
from trainer.practice.night.evening.tonight import VALUES, Filled

MISSING = "–"
SIGN = "*"  # stands behind what rests on a value that nobody gave
# What decides whether one goes on or goes home says on its own line what it rests on.
SAFETY = ("bingo", "wanted_ball_fuel", "ladder_fix", "ladder_push", "passes", "divert_crosswind", "divert_time")


@frozen
class Row:
    """One line: ``name`` is that of the number ("" for what was given); ``text`` is "–" where it can't be had.

    ``assumed`` names the values that nobody gave and on which it rests; ``note`` is told on the same line.
    """

    label: str
    text: str
    name: str = ""
    assumed: tuple[str, ...] = ()
    note: str = ""

    @property
    def marked(self) -> str:
        """Return the text with the sign of what is assumed."""
        return f"{self.text} {SIGN}" if self.assumed and self.text != MISSING else self.text


@frozen
class Section:
    """A heading and its rows."""

    title: str
    rows: tuple[Row, ...]


def say(value: float, unit: str) -> str:
    """Return a value as the trade writes it."""
    return display.value(value, unit)


class Rows:
    """Makes rows of numbers; notes those that can't be had, and what was assumed for any."""

    def __init__(self, night: NotedNight, tonight: Filled):
        self.night, self.tonight, self.missing = night, tonight, {}
        self._assumed = set()

    @property
    def assumed(self):
        """Return the names of the values assumed so far, in their order."""
        return tuple(value.name for value in VALUES if value.name in self._assumed)

    def resting_on(self, names: Iterable[str]) -> tuple[str, ...]:
        """Return the assumed values on which ``names`` rest, and keep them for the legend."""
        found = self.tonight.resting_on(names)
        self._assumed.update(found)
        return found

    def signed(self, text: str, *names: str) -> str:
        """Return ``text`` with the sign where one of the values ``names`` rests on an assumption."""
        return f"{text}{SIGN}" if self.resting_on(names) else text

    def row(self, name: str, label: str = "") -> tuple[Row, ...]:
        """Return the row of the number ``name``, () where this Case has none."""
        number = NUMBERS[name]
        if self.night.scenario.case not in number.cases:
            return ()
        return self._made(label or number.title, lambda: self._both(name), name)

    def _both(self, name):
        """Return the number as text, and as it is really flown where the rule of thumb is off by more than its limits.

        A flown value is told to the step of the quantity.
        """
        flown, result = self.night.flown(name), self.night.result(name)
        if flown is None:
            return self.night.text(name)
        told = display.value(flown, result.unit, result.round_to or None).removesuffix(UNITS[result.unit].symbol)
        return f"{self.night.text(name)}, flown {told}"

    def given(self, label: str, function: Callable[[], str]) -> tuple[Row, ...]:
        """Return a row of what was given or summed up by ``function``."""
        return self._made(label, function)

    def pounds(self, label: str, function: Callable[[], float]) -> tuple[Row, ...]:
        """Return a row of pounds that ``function`` sums up."""
        return self._made(label, lambda: say(function(), "lb"))

    def _made(self, label, function, name=""):
        text = self.attempt(function, NUMBERS[name].title if name else label)
        assumed = self.resting_on(self.night.rests_on(function))
        note = _on_what(assumed) if name in SAFETY else ""
        return (Row(label=label, text=text, name=name, assumed=assumed, note=note),)

    def attempt(self, function: Callable[[], str], title: str) -> str:
        """Return what ``function`` gives, a dash after noting why it gives nothing."""
        try:
            return function()
        except DomainError as error:
            self.missing.setdefault(str(error), []).append(title)
            return MISSING


def _on_what(assumed):
    """Return the words for a row that decides whether one goes on, "" where the divert was given."""
    if {"divert-bearing", "divert-distance"} & set(assumed):
        return "divert assumed"
    return "runway assumed" if "divert-runway" in assumed else ""


def sections(b: Rows) -> tuple[Section, ...]:
    """Return the sections of the card; one may have no rows in this Case."""
    case = b.night.scenario.case
    return (
        Section(title="Catapult", rows=_catapult(b)),
        Section(title="Departure", rows=_departure(b)),
        Section(title="Marshal" if case > 1 else "Overhead", rows=_marshal(b)),
        Section(title="Approach", rows=_approach(b)),
        Section(title="Fuel ladder, two bolter patterns", rows=_ladder(b)),
        Section(title="Divert at the recovery, channels", rows=_divert(b)),
    )


def _catapult(b):
    return (
        *b.pounds("fuel after taxi", lambda: b.night.fuel_on_catapult_lb), *b.row("gross_weight"),
        *b.row("trim"), *b.row("wind_over_deck"), *b.row("relative_wind", "off the bow"),
        *b.row("endspeed", "end speed needed"),
    )  # fmt: skip


def _departure(b):
    scenario = b.night.scenario
    return (
        *b.given("launch", lambda: say(clock(scenario.times.launch_clock), "clock")),
        *b.row("clearing_heading", "clearing turn"), *b.row("clearing_side", "to the"),
        *b.row("departure_speed"), *b.row("climb_time", "to the climb point"),
        *b.row("gate_climb", "climb to the gate"), *b.row("arc_turn", "onto the arc at"),
        *b.row("arc_way", "arc to the"), *b.row("arc_degrees", "arc"), *b.row("arc_time", "time on the arc"),
        *b.row("arc_lead", "lead off the arc"),
        *b.given("radial", lambda: say(scenario.departure_radial_deg, "heading")) * (scenario.case > 1),
        *b.row("rendezvous", "join-up radial"),
    )  # fmt: skip


def _marshal(b):
    night, scenario = b.night, b.night.scenario
    instrument = scenario.case > 1
    return (
        *b.given("check-in", lambda: say(clock(scenario.times.check_in_clock), "clock")),
        *b.row("final_bearing"), *b.row("marshal_radial"), *b.row("fix_distance", "fix"),
        *b.given("level", lambda: f"angels {scenario.stack.angels:g}"), *b.row("inbound_course"), *b.row("push"),
        *b.given("leave at", lambda: say(clock(night.push_clock), "clock")) * (not instrument),
        *b.given("to lose from the fix", lambda: say(night.hold_min * 60, "s")),
        *b.row("patterns", "patterns"), *b.row("leg", "legs, no wind"),
        *b.row("leg_out", "leg out, in wind"), *b.row("leg_in", "leg in, in wind"),
    )  # fmt: skip


def _approach(b):
    night = b.night
    return (
        *b.row("closing", "closing the ship"), *b.row("platform"), *b.row("level_off", "level at"),
        *b.row("tip_over", "glide slope at"), *b.given("on the ball", lambda: say(clock(night.ball_clock), "clock")),
        *_moon(b),
        *b.row("downwind", "downwind"), *b.row("break_spacing", "break spacing"),
        *b.row("angle_wind"), *b.row("angle_crosswind", "across it, right +"),
        *b.row("landing_weight", "weight on the ball"), *b.row("on_speed", "on-speed"), *b.row("closure"),
        *b.row("sink_rate", "sink rate"),
    )  # fmt: skip


def _moon(b):
    """Return the row of the moon at the recovery, () by day or where the ship's file has no position."""
    night, day = b.night, b.tonight.day
    if not night.is_dark(night.push_clock) or not moon_tonight.has_place(night.library, day):
        return ()
    return b.given("moon", lambda: moon_tonight.told(night.library, day, night.ball_clock))


def _ladder(b):
    night = b.night
    return (
        *b.pounds("in the chocks", lambda: night.scenario.load.fuel_lb),
        *b.pounds("at check-in", lambda: night.fuel_at_check_in_lb),
        *b.pounds("at the fix", lambda: night.fuel_at_fix_lb), *b.row("ladder_fix", "needed there"),
        *b.pounds("at the push", lambda: night.fuel_at_push_lb), *b.row("ladder_push", "needed then"),
        *b.row("ball_fuel", "on the ball"), *b.row("wanted_ball_fuel", "needed on it"),
        *b.row("max_trap_fuel", "max trap"), *b.row("passes", "patterns to bingo"),
    )  # fmt: skip


def _divert(b):
    divert = b.night.scenario.divert
    return (
        *b.row("bingo", "BINGO"),
        *b.given("pigeons", lambda: f"{say(divert.bearing_deg, 'heading')} for {say(divert.distance_nm, 'nm')}"),
        *b.given("runway", lambda: say(divert.runway_deg, "heading")),
        *b.row("divert_crosswind", "crosswind, right +"), *b.row("divert_time", "time there"),
        *b.given("beacon", lambda: f"{b.night.scenario.ship.beacon_channel:.0f}X"), *b.row("partner", "air-to-air"),
    )  # fmt: skip
