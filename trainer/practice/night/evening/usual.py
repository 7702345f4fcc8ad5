"""What is taken for a value of tonight that nobody gave: from the pilot's files, from other values, or assumed."""

import math

from trainer.engine.quantities import QUANTITIES
from trainer.errors import DomainError, UsageError
from trainer.frozen import frozen
from trainer.practice.night.evening.into_wind import into_the_wind
from trainer.practice.night.evening.scenario import MINUTES_PER_DAY, Ship, Weather

FLIGHT_MIN, HOLD_MIN, TO_FIX_MIN = 75, 12, 6  # usual lengths, only where nothing is given
LOWEST = {1: 2.0, 2: 7.0, 3: 6.0}
STEP = {1: 1.0, 2: 2.0, 3: 1.0}
FILES, FOLLOWS, ASSUMED = "your files", "the other values", "assumed"
DAWN_CLOCK, DUSK_CLOCK = 390.0, 1110.0  # where the ship's file has no position


@frozen
class Taken:
    """A value and whence it was taken: ``FILES``, ``FOLLOWS`` or ``ASSUMED``."""

    value: float
    whence: str = ASSUMED


def assumed(value):
    """Return a default that is assumed."""
    return lambda given, library, day: Taken(value=value)


def like(name):
    """Return a default that takes another value for this one, which is an assumption."""
    return lambda given, library, day: Taken(value=given[name])


def filed(reference, otherwise):
    """Return a default from the pilot's files, assumed where they lack it."""

    def default(given, library, day):
        if reference in library.values:
            return Taken(value=library.values[reference], whence=FILES)
        return Taken(value=otherwise)

    return default


def brc(given, library, day):
    """Return the course into the wind that was given; straight into it where the wanted wind can't be had."""
    return Taken(value=_steering(given, library).brc_deg, whence=FOLLOWS)


def ship_speed(given, library, day):
    """Return the speed that brings the wanted wind."""
    return Taken(value=_steering(given, library).speed_kn, whence=FOLLOWS)


def _steering(given, library):
    ship = Ship(
        brc_deg=given["wind-from"], speed_kn=library.values.get("ship.speed_kn", 20.0),
        deck_angle_deg=library.values["ship.deck_angle_deg"], glide_slope_deg=library.values["ship.glide_slope_deg"],
        beacon_channel=1.0, catapult=1.0,
    )  # fmt: skip
    weather = Weather(
        wind_from_deg=given["wind-from"], wind_speed_kn=given["wind-speed"], aloft_from_deg=360.0,
        aloft_speed_kn=0.0, ceiling_ft=0.0, visibility_nm=0.0, altimeter_inhg=29.92, sunrise_clock=0.0,
        sunset_clock=0.0,
    )  # fmt: skip
    try:
        return into_the_wind(ship, weather, library)
    except DomainError:
        return ship


def sunrise(given, library, day):
    """Return the sunrise at the ship's position on that day, in the time zone of her longitude."""
    return _sun(library, day, "sunrise_clock", DAWN_CLOCK)


def sunset(given, library, day):
    """Return the sunset at the ship's position on that day, in the time zone of her longitude."""
    return _sun(library, day, "sunset_clock", DUSK_CLOCK)


def day_and_place(library, day):
    """Return date, position of the ship and the time zone of her longitude as the almanac takes them.

    None where her file has no position.
    """
    place = [library.values.get(f"ship.{name}_deg") for name in ("latitude", "longitude")]
    if None in place:
        return None
    return {
        "year": float(day.year), "month": float(day.month), "day": float(day.day),
        "latitude_deg": place[0], "longitude_deg": place[1], "utc_offset_h": float(math.floor(place[1] / 15 + 0.5)),
    }  # fmt: skip


def _sun(library, day, result, otherwise):
    inputs = day_and_place(library, day)
    if inputs is None:
        return Taken(value=otherwise)
    try:
        clock = float(QUANTITIES["sun_times"].compute(inputs)[result])
    except DomainError:  # the sun does not set there
        return Taken(value=otherwise)
    return Taken(value=float(math.floor(clock + 0.5)) % MINUTES_PER_DAY, whence=FILES)


def push(given, library, day):
    """Return the first push a usual flight after the launch."""
    return Taken(value=(given["launch"] + FLIGHT_MIN) % MINUTES_PER_DAY)


def case(given, library, day):
    """Return the Case of the recovery by ceiling, visibility and the sun."""
    inputs = {
        "ceiling_ft": given["ceiling"], "visibility_nm": given["visibility"], "clock_min": given["push"],
        "sunrise_min": given["sunrise"], "sunset_min": given["sunset"],
    }  # fmt: skip
    return Taken(value=float(QUANTITIES["case_by_clock"].compute(inputs)["case"]), whence=FOLLOWS)


def lowest(given, library, day):
    """Return the lowest level that the Case allows."""
    return Taken(value=LOWEST[int(given["case"])])


def angels(given, library, day):
    """Return the third level of the stack."""
    return Taken(value=given["lowest"] + 2 * STEP[int(given["case"])])


def interval(case_number, library):
    """Return the minutes between two pushes; 0 in Case I."""
    return 0.0 if case_number == 1 else library.values.get("airwing.push_interval_min", 1.0)


def at_fix(given, library, day):
    """Return a usual time of holding before your own push."""
    number = int(given["case"])
    place = (given["angels"] - given["lowest"]) / STEP[number]
    return Taken(value=(given["push"] + place * interval(number, library) - HOLD_MIN) % MINUTES_PER_DAY)


def check_in(given, library, day):
    """Return a usual time before the fix."""
    return Taken(value=(given["at-fix"] - TO_FIX_MIN) % MINUTES_PER_DAY)


def radial(given, library, day):
    """Return a radial sixty degrees right of the BRC."""
    return Taken(value=(given["brc"] + 59) % 360 + 1)


def fuel(given, library, day, night_of):
    """Return the fuel that leads to the ball with two bolter patterns above bingo, full tanks at most."""
    full = library.values.get("airframe.fuel_capacity_lb", 10_000.0)
    try:
        night = night_of({**given, "fuel": full}, library)
        needed = night["ladder_fix"] + night["fix_burn"] + night.value("airframe.taxi_fuel_lb")
        return Taken(value=min(full, math.ceil(needed / 100) * 100.0))
    except (DomainError, UsageError):
        return Taken(value=full)
