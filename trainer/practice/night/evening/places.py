"""Drawn places: the marshal stack, the divert field, and where you check in."""

import math

import numpy as np

from trainer.engine.airspeed import true_airspeed
from trainer.engine.angles import components, direction_and_size, reciprocal
from trainer.engine.atmosphere import standard_temperature_c
from trainer.engine.triangle import heading_and_groundspeed
from trainer.errors import DomainError
from trainer.practice.night.evening import moments
from trainer.practice.night.evening.scenario import Divert, Inbound, Stack

FIELDS = ("Marrow Field", "Saltmere", "Port Ellery", "Tarn Head")  # invented
# Case: lowest level, step, most levels
LEVELS = {1: (2.0, 1.0, 3), 2: (7.0, 2.0, 5), 3: (6.0, 1.0, 8)}
CONTROL_AREA_NM = 50  # NAVEDTRA 14342A, Table 11-1


def whole_direction(direction_deg):
    """Return a whole direction from 1 to 360."""
    return float((round(direction_deg) - 1) % 360 + 1)


def stack(case, rng, library):
    """Return the stack of that Case and your place in it."""
    lowest, step, most = LEVELS[case]
    interval = 0.0 if case == 1 else library.values.get("airwing.push_interval_min", 1.0)
    position = rng.randrange(1 if case == 1 else 2, most + 1)
    return Stack(lowest_angels=lowest, step_angels=step, position=float(position), interval_min=interval)


def divert(weather, rng, instead_of=None):
    """Return a field, its runway roughly into the wind; ``instead_of`` another one it has another bingo as well."""
    distances = [
        distance for distance in range(40, 121, 5)
        if instead_of is None or abs(distance - instead_of.distance_nm) >= 25
    ]  # fmt: skip
    names = [name for name in FIELDS if instead_of is None or name != instead_of.name]
    runway = whole_direction(round((weather.wind_from_deg + rng.randrange(-60, 61)) / 10) * 10)
    return Divert(
        name=rng.choice(names), bearing_deg=float(rng.randrange(5, 361, 5)),
        distance_nm=float(rng.choice(distances)), runway_deg=runway,
    )  # fmt: skip


def inbound(nights, minutes, rng):
    """Return where you check in: ``minutes`` from the fix (Case I: the ship) at the airspeed of the push.

    Of the fixes of all ``nights`` the farthest counts.  Raises ``DomainError`` where that place is outside the
    control area or inside the fix.
    """
    angels = float(rng.randrange(18, 27))
    radial = whole_direction(reciprocal(nights[0]["final_bearing"]) + rng.randrange(-25, 26))
    nearest = max(0.0 if night.scenario.case == 1 else night["fix_distance"] for night in nights) + 2
    distances = np.arange(math.ceil(nearest), CONTROL_AREA_NM + 1.0)
    spare = minutes - np.max([minutes_to_the_fix(night, radial, distances, angels) for night in nights], axis=0)
    in_time = distances[(spare >= 0) & (spare < 1)]
    if not in_time.size:
        raise DomainError("the fix can't be reached in that time, or too soon")
    return Inbound(radial_deg=radial, distance_nm=float(in_time[-1]), angels=angels)


def minutes_to_the_fix(night, radial_deg, distance_nm, angels):
    """Return the minutes from there to the marshal fix, or in Case I to the ship, over the moving ship.

    The distance may be an array; then so are the minutes.
    """
    east, north = (-part for part in components(radial_deg, distance_nm))
    if night.scenario.case != 1:
        fix_east, fix_north = components(night["marshal_radial"], night["fix_distance"])
        east, north = east + fix_east, north + fix_north
    course, distance = direction_and_size(east, north)
    feet = angels * 1000
    tas = true_airspeed(night.value("airwing.push_airspeed_kn"), feet, standard_temperature_c(feet))[0]
    felt = moments.over_the_ship(night, moments.wind_aloft(night))
    return distance / heading_and_groundspeed(course, tas, **felt)[1] * 60
