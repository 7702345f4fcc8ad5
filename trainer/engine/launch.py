"""The launch: weather Case, legal pairs of Cases, catapult end speed, side of the clearing turn.

Sources: NAVEDTRA 14342A Tables 11-4 (weather; the "and" of Case III is read as "or") and 11-5 (pairs).
Clock times are minutes since midnight, all in one time zone.
"""

import numpy as np

from trainer.engine.domain import inside, require

CASE_1, CASE_2, CASE_3 = 1, 2, 3
TWILIGHT_MIN = 30.0  # night from 30 min after sunset to 30 min before sunrise
DAY_MIN = 1_440.0


def weather_case(ceiling_ft, visibility_nm, night):
    """Return the Case (1, 2, 3) of the weather; ``night`` is 1 or 0.  A limit belongs to the better Case."""
    inside("ceiling", ceiling_ft, 0, 60_000)
    inside("visibility", visibility_nm, 0, 100)
    require(np.isin(night, (0, 1)), "night is yes (1) or no (0)")
    ceiling, day = np.asarray(ceiling_ft, dtype=float), np.asarray(night) == 0
    clear = np.asarray(visibility_nm, dtype=float) >= 5
    by_weather = np.where((ceiling >= 3000) & clear, 1.0, np.where((ceiling >= 1000) & clear, 2.0, 3.0))
    return np.where(day, by_weather, 3.0)[()]


def is_night(clock_min, sunrise_min, sunset_min):
    """Return 1 from 30 minutes after sunset until 30 minutes before sunrise, else 0; clock times in minutes."""
    for name, value in (("clock", clock_min), ("sunrise", sunrise_min), ("sunset", sunset_min)):
        inside(name, value, 0, DAY_MIN)
    dark = np.mod(np.asarray(sunrise_min, dtype=float) - sunset_min, DAY_MIN)
    require(dark >= 2 * TWILIGHT_MIN, "sunset and sunrise are less than an hour apart",
            hint="there is no night between them")  # fmt: skip
    since = np.mod(np.asarray(clock_min, dtype=float) - sunset_min - TWILIGHT_MIN, DAY_MIN)
    return np.where(since < dark - 2 * TWILIGHT_MIN, 1.0, 0.0)[()]


def clock_case(ceiling_ft, visibility_nm, clock_min, sunrise_min, sunset_min):
    """Return (Case, night) of the weather at a clock time."""
    night = is_night(clock_min, sunrise_min, sunset_min)
    return weather_case(ceiling_ft, visibility_nm, night), night


def pair_legal(departure_case, recovery_case):
    """Return 1 where Table 11-5 allows the Cases together, else 0: a departure III needs a recovery III."""
    for case in (departure_case, recovery_case):
        require(np.isin(case, (1, 2, 3)), "a Case is 1, 2 or 3")
    wrong = (np.asarray(departure_case) == CASE_3) & (np.asarray(recovery_case) != CASE_3)
    return np.where(wrong, 0.0, 1.0)[()]


def needed_endspeed_kn(min_end_airspeed_kn, excess_kn, wod_kn):
    """Return the end speed that the catapult must give: minimum end airspeed plus excess less wind over deck."""
    _check_speeds(min_end_airspeed_kn, wod_kn)
    inside("excess", excess_kn, 0, 50)
    needed = np.asarray(min_end_airspeed_kn, dtype=float) + excess_kn - wod_kn
    require(needed > 0, "the wind alone exceeds the airspeed needed")
    return needed[()]


def airspeed_off_bow_kn(catapult_endspeed_kn, wod_kn):
    """Return the airspeed off the bow: catapult end speed plus wind over deck down the catapult."""
    _check_speeds(catapult_endspeed_kn, wod_kn)
    return (np.asarray(catapult_endspeed_kn, dtype=float) + wod_kn)[()]


def excess_airspeed_kn(catapult_endspeed_kn, wod_kn, min_end_airspeed_kn):
    """Return the excess over the minimum end airspeed; negative means that the launch is not legal."""
    inside("minimum end airspeed", min_end_airspeed_kn, 50, 250)
    return (airspeed_off_bow_kn(catapult_endspeed_kn, wod_kn) - min_end_airspeed_kn)[()]


def clearing_side(catapult):
    """Return 1 (right) for the bow catapults 1 and 2, -1 (left) for the waist catapults 3 and 4."""
    require(np.isin(catapult, (1, 2, 3, 4)), "catapults are numbered 1 to 4")
    return np.where(np.asarray(catapult) <= 2, 1.0, -1.0)[()]


def _check_speeds(airspeed_kn, wod_kn):
    inside("airspeed", airspeed_kn, 50, 250)
    inside("wind over deck", wod_kn, 0, 60)
