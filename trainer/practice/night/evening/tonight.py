"""Tonight's own values: what the card asks for, what is taken where nobody gave it, and the scenario they make.

Every value has a name, which is its option, its key in a file and what it is asked by, and a unit in which it is
read as answers are.  One that is not given is taken from the pilot's files, or follows from others, or is assumed;
which of these it was stands beside it, because a number that rests on an assumed value must say so.
"""

import datetime
from collections.abc import Callable, Iterable, Mapping
from dataclasses import field

from trainer.decks.library import Library
from trainer.drills import answers
from trainer.engine import display
from trainer.errors import AnswerError, UsageError
from trainer.frozen import frozen
from trainer.practice.night.evening import usual
from trainer.practice.night.evening.night import Night
from trainer.practice.night.evening.noted import NotedNight
from trainer.practice.night.evening.scenario import (
    MINUTES_PER_DAY,
    Divert,
    Flight,
    Load,
    Scenario,
    Ship,
    Stack,
    Times,
    Weather,
)
from trainer.practice.night.evening.usual import Taken

STEP = usual.STEP


@frozen
class Value:
    """One value of tonight: ``low`` to ``high`` in ``unit`` is accepted; ``default`` tells it where it is not given.

    ``follows`` names the values that the default is worked out from; with none it is assumed, unless the
    pilot's files hold it.
    """

    name: str
    ask: str
    unit: str
    default: Callable[[Mapping[str, float], Library, datetime.date], Taken]
    low: float = 0.0
    high: float = 1e6
    whole: bool = False
    follows: tuple[str, ...] = ()

    @property
    def said(self) -> str:
        """Return what it is asked by as it stands within a sentence: a small letter first, BRC and Case as they are."""
        return self.ask if self.ask[:2].isupper() else self.ask[0].lower() + self.ask[1:]

    def read(self, text: str) -> float:
        """Return the number that ``text`` means; raises ``UsageError`` that says what is accepted."""
        try:
            value = answers.read_number(text, self.unit)
        except AnswerError as error:
            raise UsageError(f"{self.name}: {error.message}", hint=error.hint or self.range_text()) from None
        return self.checked(value)

    def checked(self, value: float) -> float:
        """Return ``value`` when it lies in the range; raises ``UsageError`` otherwise."""
        if not self.low <= value <= self.high:
            raise UsageError(f"{self.name}: {display.exact(value, self.unit)} is out of range", hint=self.range_text())
        if self.whole and value != int(value):
            raise UsageError(f"{self.name}: {value:g} is not a whole number", hint=self.range_text())
        return float(value)

    def range_text(self) -> str:
        """Return the range that is accepted."""
        return f"{display.exact(self.low, self.unit)} to {display.exact(self.high, self.unit)}"

    def text(self, value: float) -> str:
        """Return ``value`` as it is written."""
        return display.exact(value, self.unit)


def _heading(name, ask, default, follows=()):
    return Value(name=name, ask=ask, unit="heading", default=default, low=1, high=360, follows=follows)


def _clock(name, ask, default, follows=()):
    return Value(name=name, ask=ask, unit="clock", default=default, high=1439, follows=follows)


def _value(name, ask, unit, default, *, low=0.0, high=1e6, whole=False, follows=()):
    return Value(
        name=name, ask=ask, unit=unit, default=default, low=low, high=high, whole=whole, follows=follows
    )  # fmt: skip


WIND = ("wind-from", "wind-speed")
VALUES = (
    _heading("wind-from", "Wind from", usual.assumed(360.0)),
    _value("wind-speed", "Wind speed", "kn", usual.assumed(12.0), high=60),
    _heading("aloft-from", "Wind aloft from", usual.like("wind-from")),
    _value("aloft-speed", "Wind aloft, speed", "kn", usual.like("wind-speed"), high=100),
    _heading("brc", "BRC", usual.brc, WIND),
    _value("ship-speed", "Ship's speed", "kn", usual.ship_speed, high=45, follows=WIND),
    _value("ceiling", "Ceiling", "ft", usual.assumed(3000.0), high=60_000),
    _value("visibility", "Visibility", "nm", usual.assumed(7.0), high=100),
    _value("altimeter", "Altimeter", "inhg", usual.assumed(29.92), low=27, high=32),
    _clock("sunrise", "Sunrise", usual.sunrise),
    _clock("sunset", "Sunset", usual.sunset),
    _clock("launch", "Launch", usual.assumed(1200.0)),
    _clock("push", "First push of the stack (Case I: out of the overhead)", usual.push),
    _value("case", "Case of the recovery", "count", usual.case, low=1, high=3, whole=True,
           follows=("ceiling", "visibility", "push", "sunrise", "sunset")),
    _value("lowest", "Lowest level of the stack", "angels", usual.lowest, low=1, high=40),
    _value("angels", "Your level", "angels", usual.angels, low=1, high=40),
    _clock("at-fix", "Over the fix", usual.at_fix),
    _clock("check-in", "Check-in", usual.check_in),
    _value("flight", "Aircraft in your flight", "count", usual.assumed(2.0), low=1, high=8, whole=True),
    _value("stores", "Stores at launch", "lb", usual.filed("airframe.launch_stores_lb", 0.0), high=30_000),
    _value("retained", "Stores brought back", "lb", usual.filed("airframe.retained_stores_lb", 0.0), high=30_000),
    _value("catapult", "Catapult", "count", usual.assumed(1.0), low=1, high=4, whole=True),
    _heading("radial", "Departure radial", usual.radial),
    _value("beacon", "Beacon channel", "channel", usual.filed("ship.beacon_channel", 1.0), low=1, high=126,
           whole=True),
    _value("lead-channel", "Your lead's air-to-air channel", "channel", usual.assumed(11.0), low=1, high=126,
           whole=True),
    _heading("divert-bearing", "Divert, bearing at the recovery", usual.assumed(360.0)),
    _value("divert-distance", "Divert, distance at the recovery", "nm", usual.assumed(80.0), low=1, high=600),
    _heading("divert-runway", "Divert, runway heading", usual.like("wind-from")),
    _value("fuel", "Fuel before taxi", "lb", lambda given, files, day: usual.fuel(given, files, day, night_of),
           high=40_000),
)  # fmt: skip
BY_NAME = {value.name: value for value in VALUES}


@frozen
class Asked:
    """One of the few questions of the card; where it has two values they are written with a stroke, 315/15."""

    ask: str
    names: tuple[str, ...]

    def read(self, text: str) -> dict[str, float]:
        """Return {name: value} of what was typed; raises ``UsageError`` that says how it is written."""
        if len(self.names) == 1:
            return {self.names[0]: BY_NAME[self.names[0]].read(text)}
        parts = text.replace("/", " ").split() if "/" not in text else text.split("/")
        if len(parts) != len(self.names):
            raise UsageError(f"{text.strip()!r}: two numbers are wanted", hint=f"write it as {self.example()}")
        return {name: BY_NAME[name].read(part) for name, part in zip(self.names, parts, strict=True)}

    def example(self) -> str:
        """Return how it is written."""
        return EXAMPLES.get(self.names[0], "")

    def text(self, values: Mapping[str, float]) -> str:
        """Return today's values as they are written."""
        return "/".join(BY_NAME[name].text(values[name]) for name in self.names)


EXAMPLES = {"wind-from": "315/15", "ceiling": "3000/7", "divert-bearing": "120/80", "aloft-from": "330/40"}
# What changes every night; everything else is taken from the files, or assumed and marked.
QUESTIONS = (
    Asked(ask="Wind, from/knots", names=("wind-from", "wind-speed")),
    Asked(ask="Ceiling/visibility", names=("ceiling", "visibility")),
    Asked(ask="Launch", names=("launch",)),
    Asked(ask="Recovery: first push of the stack", names=("push",)),
    Asked(ask="Your level", names=("angels",)),
    Asked(ask="Fuel before taxi", names=("fuel",)),
    Asked(ask="Stores at launch", names=("stores",)),
    Asked(ask="Divert at the recovery, bearing/miles", names=("divert-bearing", "divert-distance")),
)
PAIRS = {
    "wind": QUESTIONS[0], "weather": QUESTIONS[1], "divert": QUESTIONS[-1],
    "aloft": Asked(ask="Wind aloft, from/knots", names=("aloft-from", "aloft-speed")),
}  # fmt: skip


@frozen
class Filled:
    """All values of the night of ``day``.

    ``roots`` are {name: assumed values that it rests on}; () for one that was given.
    """

    values: dict[str, float]
    day: datetime.date
    given: frozenset[str] = frozenset()
    whence: dict[str, str] = field(default_factory=dict)
    roots: dict[str, frozenset[str]] = field(default_factory=dict)

    def resting_on(self, names: Iterable[str]) -> tuple[str, ...]:
        """Return the assumed values, in their order, on which any of ``names`` rests."""
        found = frozenset().union(*(self.roots[name] for name in names))
        return tuple(value.name for value in VALUES if value.name in found)


def filled(given: Mapping[str, float], library: Library, day: datetime.date) -> Filled:
    """Return every value for ``given`` and what was taken for the rest on that ``day``.

    Raises ``UsageError`` where they contradict each other.
    """
    values: dict[str, float] = {}
    whence: dict[str, str] = {}
    roots: dict[str, frozenset[str]] = {}
    for value in VALUES:
        if value.name in given:
            values[value.name], whence[value.name], roots[value.name] = given[value.name], "given", frozenset()
            continue
        taken = value.default(values, library, day)
        values[value.name], whence[value.name] = taken.value, taken.whence
        if taken.whence == usual.FILES:
            roots[value.name] = frozenset()
        elif value.follows:
            roots[value.name] = frozenset().union(*(roots[name] for name in value.follows))
        else:
            roots[value.name] = frozenset((value.name,))
    return Filled(values=values, day=day, given=frozenset(given), whence=whence, roots=roots)


def scenario_of(values: Mapping[str, float], library: Library) -> Scenario:
    """Return the ``Scenario`` of tonight's ``values``; raises ``UsageError`` where they contradict each other."""
    case = int(values["case"])
    return Scenario(
        seed="tonight", case=case, ship=_ship(values, library), weather=_weather(values),
        load=Load(
            fuel_lb=values["fuel"], stores_lb=values["stores"], retained_stores_lb=values["retained"],
            board_weight_lb=0.0,
        ),
        times=_times(values), stack=_stack(case, values, library),
        divert=Divert(
            bearing_deg=values["divert-bearing"], distance_nm=values["divert-distance"],
            runway_deg=values["divert-runway"],
        ),
        flight=Flight(side_number=0.0, lead_channel=values["lead-channel"]),
        departure_radial_deg=values["radial"],
    )  # fmt: skip


def _ship(values, library):
    return Ship(
        title=library.notes.get("ship.title", ""), brc_deg=values["brc"], speed_kn=values["ship-speed"],
        deck_angle_deg=library.values["ship.deck_angle_deg"], glide_slope_deg=library.values["ship.glide_slope_deg"],
        beacon_channel=values["beacon"], catapult=values["catapult"],
    )  # fmt: skip


def _weather(values):
    return Weather(
        wind_from_deg=values["wind-from"], wind_speed_kn=values["wind-speed"], aloft_from_deg=values["aloft-from"],
        aloft_speed_kn=values["aloft-speed"], ceiling_ft=values["ceiling"], visibility_nm=values["visibility"],
        altimeter_inhg=values["altimeter"], sunrise_clock=values["sunrise"], sunset_clock=values["sunset"],
    )  # fmt: skip


def _stack(case, values, library):
    position = (values["angels"] - values["lowest"]) / STEP[case] + 1
    if position < 1 or position != int(position):
        raise UsageError(
            f"angels {values['angels']:g} is no level of a stack from angels {values['lowest']:g}",
            hint=f"Case {case} levels are {STEP[case]:g} apart; set --lowest and --angels",
        )
    return Stack(
        lowest_angels=values["lowest"], step_angels=STEP[case], position=position,
        interval_min=usual.interval(case, library),
    )  # fmt: skip


def _times(values):
    """Return the times one after the other; one that is earlier than the one before it is on the next day."""
    clocks = [values["launch"]]
    for name in ("check-in", "at-fix", "push"):
        ahead = (values[name] - clocks[-1]) % MINUTES_PER_DAY
        if ahead > MINUTES_PER_DAY / 2:
            if name != "push":
                raise _contradiction(name, values[name], clocks[-1])
            ahead -= MINUTES_PER_DAY  # the lowest of the stack may push before you are at your fix
        clocks.append(clocks[-1] + ahead)
    launch, check_in, fix, push = clocks
    if push < launch:
        raise _contradiction("push", values["push"], launch)
    return Times(launch_clock=launch, check_in_clock=check_in, fix_clock=fix, first_push_clock=push)


def _contradiction(name, value, before):
    return UsageError(
        f"{name} {display.value(value, 'clock')} lies before {display.value(before % MINUTES_PER_DAY, 'clock')}",
        hint="times go in this order: launch, check-in, at-fix, push",
    )


def night_of(values: Mapping[str, float], library: Library) -> Night:
    """Return the ``Night`` of all ``values``."""
    return Night(scenario_of(values, library), library)


def noted_night_of(tonight: Filled, library: Library) -> NotedNight:
    """Return the ``NotedNight`` of ``tonight``, which notes the values that each number rests on."""
    return NotedNight(scenario_of(tonight.values, library), library)
