"""The sun: rising, setting, twilight, and where it stands.

Convention: the date is the LOCAL date at ``utc_offset_h`` (hours ahead of UTC, west negative).  Noon is the
transit that falls on that date; sunrise and dawn are the last before it, sunset and dusk the first after
it, so that an evening that runs past midnight (UTC or local) still belongs to its day.  Times are minutes
since local midnight, not rounded.

Sources: USNO definitions (centre at a zenith distance of 90 degrees 50 minutes; twilight at 6, 12 and 18
degrees below the horizon) through the library ephem; refraction after NREL/TP-560-34302, equation 42.
"""

import numpy as np

from trainer.engine.almanac import MINUTES_PER_DAY, checked, midnight_day, observer_at
from trainer.engine.angles import wrap_360
from trainer.engine.domain import inside, require

TWILIGHTS = {6: "civil", 12: "nautical", 18: "astronomical"}  # degrees of the sun below the horizon
NIGHT_MARGIN_MIN = 30.0  # NAVEDTRA 14342A, note to Table 11-4
# By definition the sun's centre is 50 minutes down (34 refraction, 16 semidiameter) as seen from the middle
# of the earth; the library looks from its surface, where the sun is another 8.8 seconds (its parallax) lower.
_HORIZON = "-0:50:08.8"
_HALF_DAY = 0.5 + 1 / 48  # the interval from noon to an event cannot be longer than this (equation of time)


def sun_times(year, month, day, latitude_deg, longitude_deg, utc_offset_h):
    """Return (sunrise, transit, sunset) in minutes since local midnight; floats or arrays.

    Raises ``DomainError`` where the sun does not rise or set on that date.
    """
    places = checked(year, month, day, latitude_deg, longitude_deg, utc_offset_h)
    rise, noon, sets = np.vectorize(_sun_times, otypes=[float] * 3)(*places)
    return rise[()], noon[()], sets[()]


def twilight_times(year, month, day, latitude_deg, longitude_deg, utc_offset_h, twilight):
    """Return (dawn, dusk) in minutes since local midnight: the sun 6, 12 or 18 degrees down (``twilight``).

    Raises ``DomainError`` where it does not get that dark, or not that light.
    """
    require(np.isin(np.asarray(twilight, dtype=float), tuple(TWILIGHTS)), "twilight is 6, 12 or 18 degrees")
    places = checked(year, month, day, latitude_deg, longitude_deg, utc_offset_h)
    dawn, dusk = np.vectorize(_twilight, otypes=[float] * 2)(*places, twilight)
    return dawn[()], dusk[()]


def night(sunset_clock, sunrise_clock):
    """Return (night begins, night ends) as the Case rules see it: 30 min after sunset to 30 before sunrise.

    Clock times are minutes since midnight, floats or arrays.  Source: NAVEDTRA 14342A, Table 11-4 note.

    >>> [float(value) for value in night(1_180, 371)]
    [1210.0, 341.0]
    """
    for name, value in (("sunset", sunset_clock), ("sunrise", sunrise_clock)):
        inside(name, value, 0, MINUTES_PER_DAY)
    begins = np.mod(np.asarray(sunset_clock, dtype=float) + NIGHT_MARGIN_MIN, MINUTES_PER_DAY)
    return begins, np.mod(np.asarray(sunrise_clock, dtype=float) - NIGHT_MARGIN_MIN, MINUTES_PER_DAY)


def night_at(year, month, day, latitude_deg, longitude_deg, utc_offset_h):
    """Return (night begins that evening, night ends the next morning) for the Case rules at a place."""
    places = checked(year, month, day, latitude_deg, longitude_deg, utc_offset_h)
    sets = np.vectorize(lambda *place: _sun_times(*place)[2], otypes=[float])(*places)
    rises = np.vectorize(lambda *place: _sun_times(*place, later_days=1)[0], otypes=[float])(*places)
    return night(np.mod(sets, MINUTES_PER_DAY)[()], np.mod(rises, MINUTES_PER_DAY)[()])


def position(
    year, month, day, local_clock, latitude_deg, longitude_deg, utc_offset_h, elevation_m, pressure_hpa,
    temperature_c
):  # fmt: skip
    """Return (altitude with refraction, true azimuth, zenith distance with refraction) of the sun in degrees.

    ``local_clock`` is minutes since local midnight (fractions for seconds).  The refraction is that of an
    observer's instrument; below the horizon none is applied.
    """
    inside("clock time", local_clock, 0, MINUTES_PER_DAY)
    inside("elevation", elevation_m, -500, 12_000)
    inside("pressure", pressure_hpa, 0, 1_100)
    inside("temperature", temperature_c, -100, 60)
    places = checked(year, month, day, latitude_deg, longitude_deg, utc_offset_h)
    altitude, azimuth = np.vectorize(_position, otypes=[float] * 2)(*places, local_clock, elevation_m)
    altitude = altitude + refraction_deg(altitude, pressure_hpa, temperature_c)
    return altitude, wrap_360(azimuth), 90 - altitude


def refraction_deg(altitude_deg, pressure_hpa, temperature_c):
    """Return how much higher the sun appears, in degrees; 0 when all of it is below the horizon.

    Source: NREL/TP-560-34302, equation 42.
    """
    altitude = np.asarray(altitude_deg, dtype=float)
    up = altitude >= -(0.26667 + 0.5667)
    safe = np.where(up, altitude, 0.0)
    bend = 1.02 / (60 * np.tan(np.radians(safe + 10.3 / (safe + 5.11))))
    scale = np.asarray(pressure_hpa, dtype=float) / 1010 * 283 / (273 + np.asarray(temperature_c, dtype=float))
    return np.where(up, bend * scale, 0.0)[()]


def _noon(observer, midnight):
    """Return the transit on the date that begins at ``midnight``."""
    import ephem

    observer.date = midnight
    noon = float(observer.next_transit(ephem.Sun()))
    require(noon < midnight + 1, "the sun does not pass its highest point on that date", hint="check the offset")
    return noon


def _around(observer, noon):
    """Return (rising before, setting after) ``noon``; raises ``DomainError`` where there is none."""
    import ephem

    try:
        observer.date = noon
        rise = float(observer.previous_rising(ephem.Sun(), use_center=True))
        observer.date = noon
        sets = float(observer.next_setting(ephem.Sun(), use_center=True))
    except ephem.CircumpolarError:
        rise = sets = np.inf
    require(
        abs(noon - rise) < _HALF_DAY and abs(sets - noon) < _HALF_DAY,
        "the sun does not cross that line at that place on that date",
        hint="in polar summer or winter it stays above or below it all day",
    )
    return rise, sets


def _sun_times(year, month, day, latitude_deg, longitude_deg, utc_offset_h, later_days=0):
    midnight = midnight_day(year, month, day, utc_offset_h) + later_days
    observer = observer_at(latitude_deg, longitude_deg, _HORIZON)
    noon = _noon(observer, midnight)
    rise, sets = _around(observer, noon)
    return tuple((instant - midnight) * MINUTES_PER_DAY for instant in (rise, noon, sets))


def _twilight(year, month, day, latitude_deg, longitude_deg, utc_offset_h, twilight):
    midnight = midnight_day(year, month, day, utc_offset_h)
    observer = observer_at(latitude_deg, longitude_deg, str(-int(twilight)))
    dawn, dusk = _around(observer, _noon(observer, midnight))
    return (dawn - midnight) * MINUTES_PER_DAY, (dusk - midnight) * MINUTES_PER_DAY


def _position(year, month, day, latitude_deg, longitude_deg, utc_offset_h, local_clock, elevation_m):
    import ephem

    observer = observer_at(latitude_deg, longitude_deg, "0")
    observer.elevation = float(elevation_m)
    observer.date = midnight_day(year, month, day, utc_offset_h) + float(local_clock) / MINUTES_PER_DAY
    sun = ephem.Sun(observer)
    return np.degrees(float(sun.alt)), np.degrees(float(sun.az))
