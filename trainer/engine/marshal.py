"""The marshal stack: where the fix is, which way it lies, when to push.

Sources: NAVEDTRA 14342A, Air Traffic Controller, p. 11-33 and Table 11-11 (standard CV-1 marshal pattern);
the approach interval and the angle of the deck differ from ship to ship and are inputs.
"""

import numpy as np

from trainer.engine.angles import reciprocal, wrap_360
from trainer.engine.domain import inside, require

MARSHAL_OFFSET_NM = 15.0  # one mile for each thousand feet, plus fifteen
LOWEST_ANGELS = 6.0
LOWEST_CASE_2_ANGELS = 7.0
HIGHEST_CASE_2_ANGELS = 19.0  # the last row of Table 11-11


def fix_distance_nm(angels):
    """Return the distance of the marshal fix in nautical miles for an altitude of ``angels`` (thousand feet).

    ``angels`` is a float or an array, 6 or more.  Source: NAVEDTRA 14342A p. 11-33.

    >>> float(fix_distance_nm(12))
    27.0
    """
    inside("angels", angels, LOWEST_ANGELS, 40)
    return np.asarray(angels, dtype=float)[()] + MARSHAL_OFFSET_NM


def fix_angels(fix_distance_nm):
    """Return the altitude in thousands of feet of the stack position whose fix is at ``fix_distance_nm``."""
    inside("marshal fix", fix_distance_nm, LOWEST_ANGELS + MARSHAL_OFFSET_NM, 55)
    return np.asarray(fix_distance_nm, dtype=float)[()] - MARSHAL_OFFSET_NM


def final_bearing_deg(brc_deg, deck_angle_deg):
    """Return the final bearing: the BRC less the angle of the landing area, which points to the left.

    Magnetic, 1-360.  Source: NAVEDTRA 14342A, aircraft recovery information.

    >>> float(final_bearing_deg(5, 9))
    356.0
    """
    inside("BRC", brc_deg, 0, 360)
    inside("angle of the deck", deck_angle_deg, 0, 15)
    return wrap_360(np.asarray(brc_deg, dtype=float) - deck_angle_deg)


def radial_deg(final_bearing_deg):
    """Return the marshal radial in degrees: the reciprocal of the expected final bearing.

    Both are magnetic, 1-360; float or array.  Source: NAVEDTRA 14342A p. 11-33.
    """
    inside("final bearing", final_bearing_deg, 0, 360)
    return reciprocal(final_bearing_deg)


def inbound_course_deg(marshal_radial_deg):
    """Return the course from the marshal fix to the ship: the reciprocal of the marshal radial."""
    inside("marshal radial", marshal_radial_deg, 0, 360)
    return reciprocal(marshal_radial_deg)


def push_minute(first_push_minute, position, interval_min):
    """Return the minute of the hour at which the aircraft in ``position`` pushes.

    ``first_push_minute`` (0-59) is that of the lowest aircraft, which has position 1; ``interval_min`` is
    the minutes between pushes.  Floats or arrays; the result wraps on the hour.
    Source: NAVEDTRA 14342A (expected approach time); the interval is common practice.
    """
    inside("first push", first_push_minute, 0, 59)
    inside("position in the stack", position, 1, 30)
    inside("interval", interval_min, 0.5, 5)
    require(np.asarray(position) == np.floor(position), "a position in the stack is a whole number")
    return np.mod(first_push_minute + (np.asarray(position, dtype=float) - 1) * interval_min, 60.0)


def case_2_legal(altitude_ft):
    """Return 1 where ``altitude_ft`` is a Case II marshal altitude: an odd thousand, 7,000 to 19,000; else 0.

    Source: NAVEDTRA 14342A Table 11-11 and text: the block between is left vacant so that a section can split.
    """
    inside("altitude", altitude_ft, 0, 60_000)
    angels = np.asarray(altitude_ft, dtype=float) / 1000.0
    odd = np.mod(angels, 2.0) == 1.0
    return np.where(odd & (angels >= LOWEST_CASE_2_ANGELS) & (angels <= HIGHEST_CASE_2_ANGELS), 1.0, 0.0)[()]


def time_to_lose_s(now_minute, now_second, push_minute, push_second):
    """Return the seconds from now (minute, second of the hour) to the push, less than one hour."""
    for name, value in (("minute", now_minute), ("second", now_second),
                        ("minute of the push", push_minute), ("second of the push", push_second)):  # fmt: skip
        inside(name, value, 0, 59)
    now_s = np.asarray(now_minute, dtype=float) * 60 + now_second
    return np.mod(np.asarray(push_minute, dtype=float) * 60 + push_second - now_s, 3600.0)[()]
