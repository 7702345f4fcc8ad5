"""Dates and places as the library of ephemerides takes them, for sun and moon."""

from datetime import date

import numpy as np

from trainer.engine.domain import inside, require
from trainer.errors import DomainError

MINUTES_PER_DAY = 1440.0
FIRST_YEAR, LAST_YEAR = 1900, 2100
# ephem counts days from noon of 31 December 1899.
_EPHEM_EPOCH = date(1899, 12, 31).toordinal() + 0.5


def checked(year, month, day, latitude_deg, longitude_deg, utc_offset_h):
    """Return the six as they are; raises ``DomainError`` for one outside its range."""
    for name, value, low, high in (
        ("year", year, FIRST_YEAR, LAST_YEAR),
        ("month", month, 1, 12),
        ("day", day, 1, 31),
    ):
        inside(name, value, low, high)
        require(np.asarray(value, dtype=float) % 1 == 0, f"the {name} is a whole number")
    inside("latitude", latitude_deg, -90, 90)
    inside("longitude", longitude_deg, -360, 360)
    inside("hours ahead of UTC", utc_offset_h, -14, 14)
    return year, month, day, latitude_deg, longitude_deg, utc_offset_h


def midnight_day(year, month, day, utc_offset_h):
    """Return local midnight as the library counts days; raises ``DomainError`` for a date that does not exist."""
    try:
        ordinal = date(int(year), int(month), int(day)).toordinal()
    except ValueError:
        raise DomainError(f"there is no {int(day)}. of month {int(month)} in {int(year)}") from None
    return ordinal - _EPHEM_EPOCH - float(utc_offset_h) / 24


def observer_at(latitude_deg, longitude_deg, horizon):
    """Return the library's observer at sea level; ``horizon`` ("-0:34") is where it sees things rise, without air."""
    import ephem

    observer = ephem.Observer()
    observer.lat, observer.lon = np.radians(float(latitude_deg)), np.radians(float(longitude_deg))
    observer.pressure, observer.elevation, observer.horizon = 0, 0, horizon
    return observer
