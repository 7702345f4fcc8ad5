"""Numbers inside calls: state, angels, radial of a position, EAT on the clock, time hack, Charlie.

Clock times are minutes since midnight.  Sources: CNATRA P-1211 glossary (angels), NAVEDTRA 14342A Table 11-1
(Charlie with a number) and its amphibious part (expected times at 22 and 52); the rest is common practice.
"""

import numpy as np

from trainer.engine.angles import reciprocal
from trainer.engine.domain import inside, require

DAY_MIN = 1_440.0


def spoken_state(fuel_lb):
    """Return the state as spoken, thousands and tenths: rounded down, never up."""
    inside("fuel", fuel_lb, 0, 40_000)
    return (np.floor(np.round(np.asarray(fuel_lb, dtype=float) / 100.0, 9)) / 10.0)[()]


def angels(altitude_ft):
    """Return the altitude in angels: thousands of feet (1,500 ft is 1.5)."""
    inside("altitude", altitude_ft, 0, 60_000)
    return np.asarray(altitude_ft, dtype=float)[()] / 1000.0


def position_radial_deg(bearing_to_ship_deg):
    """Return the radial to report: the bearing from the ship, reciprocal of the bearing to it."""
    inside("bearing to the ship", bearing_to_ship_deg, 0, 360)
    return reciprocal(bearing_to_ship_deg)


def eat_clock_min(now_min, eat_minute):
    """Return (clock time, minutes from now) of the next ``eat_minute`` past an hour.

    A time that is now is still to come in this minute: minutes from now are 0 to 59.
    """
    inside("time now", now_min, 0, DAY_MIN)
    inside("minute of the EAT", eat_minute, 0, 59)
    ahead = np.mod(np.asarray(eat_minute, dtype=float) - now_min, 60.0)
    return np.mod(np.asarray(now_min, dtype=float) + ahead, DAY_MIN)[()], ahead[()]


def expected_22_52_min(now_min):
    """Return the clock time of the next :22 or :52."""
    inside("time now", now_min, 0, DAY_MIN)
    ahead = np.mod(22.0 - np.asarray(now_min, dtype=float), 30.0)
    return np.mod(now_min + ahead, DAY_MIN)[()]


def hack_correction_s(own_minute, own_second, ship_minute, ship_second):
    """Return the seconds to add to your own clock to have the ship's time, between -1,800 and 1,800."""
    for value in (own_minute, own_second, ship_minute, ship_second):
        inside("minute or second", value, 0, 59)
    difference = (np.asarray(ship_minute, dtype=float) - own_minute) * 60 + ship_second - own_second
    wrapped = np.mod(difference, 3600.0)
    return np.where(wrapped > 1800.0, wrapped - 3600.0, wrapped)[()]


def charlie_min(now_min, charlie):
    """Return the clock time to land for "Charlie" with a number: that many minutes from now."""
    inside("time now", now_min, 0, DAY_MIN)
    inside("number of the Charlie", charlie, 0, 60)
    require(np.asarray(charlie) == np.floor(charlie), "the number of a Charlie is whole minutes")
    return np.mod(np.asarray(now_min, dtype=float) + charlie, DAY_MIN)[()]
