"""Tonight's own values: what the card asks for, the defaults, and the scenario that they make.

Every value has a name, which is its option, its key in a file and what it is asked by; a unit in which it is
read as answers are; and a default, which may follow from values given before it.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from trainer.drills import answers
from trainer.engine import display
from trainer.errors import AnswerError, DomainError, UsageError
from trainer.practice.night.evening.draw import into_the_wind
from trainer.practice.night.evening.night import Night
from trainer.practice.night.evening.scenario import Divert, Flight, Load, Scenario, Ship, Stack, Times, Weather

FLIGHT_MIN, TO_FIX_MIN, HOLD_MIN = 60, 6, 12  # usual lengths, only where nothing is given
LOWEST = {1: 2.0, 2: 7.0, 3: 6.0}
STEP = {1: 1.0, 2: 2.0, 3: 1.0}


@dataclass(frozen=True, kw_only=True)
class Value:
    """One value of tonight: ``low`` to ``high`` in ``unit`` is accepted; ``default(given, library)`` fills it."""

    name: str
    ask: str
    unit: str
    default: Callable[[dict, Any], float]
    low: float = 0.0
    high: float = 1e6
    whole: bool = False

    def read(self, text):
        """Return the number that ``text`` means; raises ``UsageError`` that says what is accepted."""
        try:
            value = answers.read_number(text, self.unit)
        except AnswerError as error:
            raise UsageError(f"{self.name}: {error.message}", hint=error.hint or self.range_text()) from None
        return self.checked(value)

    def checked(self, value):
        """Return ``value`` when it lies in the range; raises ``UsageError`` otherwise."""
        if not self.low <= value <= self.high:
            raise UsageError(f"{self.name}: {display.exact(value, self.unit)} is out of range", hint=self.range_text())
        if self.whole and value != int(value):
            raise UsageError(f"{self.name}: {value:g} is not a whole number", hint=self.range_text())
        return float(value)

    def range_text(self):
        """Return the range that is accepted."""
        return f"{display.exact(self.low, self.unit)} to {display.exact(self.high, self.unit)}"

    def text(self, value):
        """Return ``value`` as it is written."""
        return display.exact(value, self.unit)


def _of(reference, usual):
    return lambda given, library: library.values.get(reference, usual)


def _usual(value):
    return lambda given, library: value


def _after(name, minutes):
    return lambda given, library: (given[name] + minutes) % 1440


def _brc(given, library):
    return _steering(given, library).brc_deg


def _speed(given, library):
    return _steering(given, library).speed_kn


def _steering(given, library):
    """Return the ship into the wind that was given; straight into it where the wanted wind can't be had."""
    ship = Ship(
        brc_deg=given["wind-from"], speed_kn=library.values.get("ship.speed_kn", 20.0),
        deck_angle_deg=library.values["ship.deck_angle_deg"], glide_slope_deg=library.values["ship.glide_slope_deg"],
        beacon_channel=1.0, catapult=1.0,
    )  # fmt: skip
    weather = Weather(
        wind_from_deg=given["wind-from"], wind_speed_kn=given["wind-speed"], ceiling_ft=0.0, visibility_nm=0.0,
        altimeter_inhg=29.92, sunrise_clock=0.0, sunset_clock=0.0,
    )  # fmt: skip
    try:
        return into_the_wind(ship, weather, library)
    except DomainError:
        return ship


def _case(given, library):
    from trainer.engine.quantities import QUANTITIES

    inputs = {
        "ceiling_ft": given["ceiling"], "visibility_nm": given["visibility"], "clock_min": given["push"],
        "sunrise_min": given["sunrise"], "sunset_min": given["sunset"],
    }  # fmt: skip
    return float(QUANTITIES["case_by_clock"].compute(inputs)["case"])


def _lowest(given, library):
    return LOWEST[int(given["case"])]


def _angels(given, library):
    return given["lowest"] + 2 * STEP[int(given["case"])]


def _fuel(given, library):
    """Return the fuel that leads to the ball with two bolter patterns above bingo, full tanks at most."""
    full = library.values.get("airframe.fuel_capacity_lb", 10_000.0)
    try:
        night = Night(scenario_of(given | {"fuel": full}, library), library)
        needed = night["ladder_fix"] + night["fix_burn"] + night.value("airframe.taxi_fuel_lb")
        return min(full, math.ceil(needed / 100) * 100.0)
    except (DomainError, UsageError):
        return full


VALUES = tuple(
    Value(**fields)
    for fields in (
        {"name": "wind-from", "ask": "Wind from", "unit": "heading", "default": _usual(360.0), "low": 1, "high": 360},
        {"name": "wind-speed", "ask": "Wind speed", "unit": "kn", "default": _usual(12.0), "high": 60},
        {"name": "brc", "ask": "BRC", "unit": "heading", "default": _brc, "low": 1, "high": 360},
        {"name": "ship-speed", "ask": "Ship's speed", "unit": "kn", "default": _speed, "high": 45},
        {"name": "ceiling", "ask": "Ceiling", "unit": "ft", "default": _usual(3000.0), "high": 60_000},
        {"name": "visibility", "ask": "Visibility", "unit": "nm", "default": _usual(7.0), "high": 100},
        {"name": "altimeter", "ask": "Altimeter", "unit": "inhg", "default": _usual(29.92), "low": 27, "high": 32},
        {"name": "sunrise", "ask": "Sunrise", "unit": "clock", "default": _usual(390.0), "high": 1439},
        {"name": "sunset", "ask": "Sunset", "unit": "clock", "default": _usual(1110.0), "high": 1439},
        {"name": "launch", "ask": "Launch", "unit": "clock", "default": _usual(1200.0), "high": 1439},
        {"name": "check-in", "ask": "Check-in", "unit": "clock", "default": _after("launch", FLIGHT_MIN),
         "high": 1439},
        {"name": "at-fix", "ask": "Over the fix", "unit": "clock", "default": _after("check-in", TO_FIX_MIN),
         "high": 1439},
        {"name": "push", "ask": "First push of the stack", "unit": "clock", "default": _after("at-fix", HOLD_MIN),
         "high": 1439},
        {"name": "case", "ask": "Case of the recovery", "unit": "count", "default": _case, "low": 1, "high": 3,
         "whole": True},
        {"name": "lowest", "ask": "Lowest level of the stack", "unit": "angels", "default": _lowest, "low": 1,
         "high": 40},
        {"name": "angels", "ask": "Your level", "unit": "angels", "default": _angels, "low": 1, "high": 40},
        {"name": "flight", "ask": "Aircraft in your flight", "unit": "count", "default": _usual(2.0), "low": 1,
         "high": 8, "whole": True},
        {"name": "stores", "ask": "Stores at launch", "unit": "lb",
         "default": _of("airframe.launch_stores_lb", 0.0), "high": 30_000},
        {"name": "retained", "ask": "Stores brought back", "unit": "lb",
         "default": _of("airframe.retained_stores_lb", 0.0), "high": 30_000},
        {"name": "catapult", "ask": "Catapult", "unit": "count", "default": _usual(1.0), "low": 1, "high": 4,
         "whole": True},
        {"name": "radial", "ask": "Departure radial", "unit": "heading",
         "default": lambda given, library: (given["brc"] + 59) % 360 + 1, "low": 1, "high": 360},
        {"name": "beacon", "ask": "Beacon channel", "unit": "channel",
         "default": _of("ship.beacon_channel", 1.0), "low": 1, "high": 126, "whole": True},
        {"name": "lead-channel", "ask": "Your lead's air-to-air channel", "unit": "channel",
         "default": _usual(11.0), "low": 1, "high": 126, "whole": True},
        {"name": "divert-bearing", "ask": "Divert, bearing", "unit": "heading", "default": _usual(360.0), "low": 1,
         "high": 360},
        {"name": "divert-distance", "ask": "Divert, distance", "unit": "nm", "default": _usual(80.0), "low": 1,
         "high": 600},
        {"name": "divert-runway", "ask": "Divert, runway heading", "unit": "heading",
         "default": lambda given, library: given["wind-from"], "low": 1, "high": 360},
        {"name": "fuel", "ask": "Fuel before taxi", "unit": "lb", "default": _fuel, "high": 40_000},
    )
)  # fmt: skip
BY_NAME = {value.name: value for value in VALUES}


def filled(given, library):
    """Return ``given`` with the default of every value that is missing; raises ``UsageError`` outside a range."""
    complete = {}
    for value in VALUES:
        complete[value.name] = given[value.name] if value.name in given else value.default(complete, library)
    return complete


def scenario_of(values, library):
    """Return the ``Scenario`` of tonight's ``values``; raises ``UsageError`` where they contradict each other."""
    case = int(values["case"])
    step, interval = STEP[case], 0.0 if case == 1 else library.values.get("airwing.push_interval_min", 1.0)
    position = (values["angels"] - values["lowest"]) / step + 1
    if position < 1 or position != int(position):
        raise UsageError(
            f"angels {values['angels']:g} is no level of a stack from angels {values['lowest']:g}",
            hint=f"Case {case} levels are {step:g} apart; set --lowest and --angels",
        )
    return Scenario(
        seed="tonight", case=case,
        ship=Ship(
            title=library.notes.get("ship.title", ""), brc_deg=values["brc"], speed_kn=values["ship-speed"],
            deck_angle_deg=library.values["ship.deck_angle_deg"],
            glide_slope_deg=library.values["ship.glide_slope_deg"], beacon_channel=values["beacon"],
            catapult=values["catapult"],
        ),
        weather=Weather(
            wind_from_deg=values["wind-from"], wind_speed_kn=values["wind-speed"], ceiling_ft=values["ceiling"],
            visibility_nm=values["visibility"], altimeter_inhg=values["altimeter"], sunrise_clock=values["sunrise"],
            sunset_clock=values["sunset"],
        ),
        load=Load(
            fuel_lb=values["fuel"], stores_lb=values["stores"], retained_stores_lb=values["retained"],
            board_weight_lb=0.0,
        ),
        times=_times(values),
        stack=Stack(
            lowest_angels=values["lowest"], step_angels=step, position=position, interval_min=interval,
        ),
        divert=Divert(
            bearing_deg=values["divert-bearing"], distance_nm=values["divert-distance"],
            runway_deg=values["divert-runway"],
        ),
        flight=Flight(side_number=0.0, lead_channel=values["lead-channel"]),
        departure_radial_deg=values["radial"],
    )  # fmt: skip


def _times(values):
    """Return the times one after the other; one that is earlier than the one before it is on the next day."""
    clocks = [values["launch"]]
    for name in ("check-in", "at-fix", "push"):
        ahead = (values[name] - clocks[-1]) % 1440
        if ahead > 720:
            raise UsageError(
                f"{name} {display.value(values[name], 'clock')} lies before "
                f"{display.value(clocks[-1] % 1440, 'clock')}",
                hint="times go in this order: launch, check-in, at-fix, push",
            )
        clocks.append(clocks[-1] + ahead)
    launch, check_in, fix, push = clocks
    return Times(launch_clock=launch, check_in_clock=check_in, fix_clock=fix, first_push_clock=push)


def night_of(given, library):
    """Return (values, ``Night``) of what was given."""
    values = filled(given, library)
    return values, Night(scenario_of(values, library), library)
