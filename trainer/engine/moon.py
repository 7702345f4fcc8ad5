"""The moon: rising and setting on a local date, how much of it is lit and how high it stands, and the rule for it.

The date is the LOCAL date at ``utc_offset_h`` (hours ahead of UTC, west negative); times are minutes since local
midnight, not rounded.  About once a month the moon does not rise (or set) on a date, because each rising is some
fifty minutes after the last.

Sources: USNO definitions (upper limb, 34 minutes of refraction) through the library ephem.
"""

import numpy as np

from trainer.engine.almanac import MINUTES_PER_DAY, checked, midnight_day, observer_at
from trainer.engine.domain import inside, require

LATER_MIN_A_DAY = 50.0  # the rule; 24 hours in 29.53 days are 48.8 minutes
MONTH_DAYS = 29.53
_HORIZON = "-0:34"


def moon_times(year, month, day, latitude_deg, longitude_deg, utc_offset_h):
    """Return (rise, set) in minutes since local midnight; floats or arrays.

    Raises ``DomainError`` where the moon does not rise, or does not set, on that date.
    """
    places = checked(year, month, day, latitude_deg, longitude_deg, utc_offset_h)
    rise, sets = np.vectorize(_moon_times, otypes=[float] * 2)(*places)
    return rise[()], sets[()]


def moon_light(year, month, day, local_clock, latitude_deg, longitude_deg, utc_offset_h):
    """Return (per cent of the disc that is lit, degrees above the horizon) at a local clock time.

    The altitude is without refraction; below the horizon it is negative.
    """
    inside("clock time", local_clock, 0, MINUTES_PER_DAY)
    places = checked(year, month, day, latitude_deg, longitude_deg, utc_offset_h)
    light, altitude = np.vectorize(_moon_light, otypes=[float] * 2)(*places, local_clock)
    return light[()], altitude[()]


def moonrise_by_rule(sunset_clock, days_after_full):
    """Return the clock time of moonrise that many days after full moon, before it negative, by the rule.

    A full moon rises at sunset, and each day later fifty minutes after the day before.

    >>> float(moonrise_by_rule(1_110, 3))
    1260.0
    """
    inside("sunset", sunset_clock, 0, MINUTES_PER_DAY)
    inside("days after full moon", days_after_full, -7, 10)
    return np.mod(np.asarray(sunset_clock, dtype=float) + LATER_MIN_A_DAY * days_after_full, MINUTES_PER_DAY)


def days_since_new(year, month, day, local_clock, utc_offset_h):
    """Return the age of the moon in days at a local clock time; a float."""
    import ephem

    moment = midnight_day(year, month, day, utc_offset_h) + float(local_clock) / MINUTES_PER_DAY
    return moment - float(ephem.previous_new_moon(moment))


def up_until(year, month, day, local_clock, latitude_deg, longitude_deg, utc_offset_h):
    """Return (whether the moon is up, minutes since midnight at which that next changes) at a clock time; floats.

    The minutes may be more than a day.  Raises ``DomainError`` where it stays up, or down, for days.
    """
    import ephem

    midnight = midnight_day(year, month, day, utc_offset_h)
    observer = observer_at(latitude_deg, longitude_deg, _HORIZON)
    try:
        found = []
        for following in (observer.next_rising, observer.next_setting):
            observer.date = midnight + float(local_clock) / MINUTES_PER_DAY
            found.append((float(following(ephem.Moon())) - midnight) * MINUTES_PER_DAY)
    except ephem.CircumpolarError:
        found = [np.inf, np.inf]
    require(max(found) < np.inf, "the moon does not rise and set there in these days")
    rises, sets = found
    return sets < rises, min(found)


def _moon_times(year, month, day, latitude_deg, longitude_deg, utc_offset_h):
    import ephem

    midnight = midnight_day(year, month, day, utc_offset_h)
    observer = observer_at(latitude_deg, longitude_deg, _HORIZON)
    found = []
    for what, following in (("rise", observer.next_rising), ("set", observer.next_setting)):
        observer.date = midnight
        try:
            moment = float(following(ephem.Moon()))
        except ephem.CircumpolarError:
            moment = np.inf
        require(
            moment < midnight + 1,
            f"the moon does not {what} on that date",
            hint="it does once in a month; ask for the day before or after",
        )
        found.append((moment - midnight) * MINUTES_PER_DAY)
    return tuple(found)


def _moon_light(year, month, day, latitude_deg, longitude_deg, utc_offset_h, local_clock):
    import ephem

    observer = observer_at(latitude_deg, longitude_deg, "0")
    observer.date = midnight_day(year, month, day, utc_offset_h) + float(local_clock) / MINUTES_PER_DAY
    moon = ephem.Moon(observer)
    return float(moon.phase), np.degrees(float(moon.alt))
