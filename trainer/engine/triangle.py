"""The wind triangle: air vector plus wind is ground vector.

Conventions: the wind is named by where it comes FROM; correction and drift are right positive, so a wind
from the right asks for a correction to the right.  The rules of thumb are the one-in-sixty rule and the
remembered shares of ``trainer.engine.wind``.

Sources: War Department TM 1-900, Mathematics for Air Crew Trainees (1943); CNATRA P-203 (ten per cent of
the true airspeed across is six degrees).
"""

import numpy as np

from trainer.engine.angles import components, turn_deg, wrap_360
from trainer.engine.domain import require
from trainer.engine.limits import directions, within
from trainer.engine.wind import ahead_and_across, ahead_and_across_by_share, direction_and_speed


def heading_and_groundspeed(course_deg, tas_kn, wind_from_deg, wind_speed_kn):
    """Return (heading, groundspeed, correction right positive) to make good a course, exact.

    Floats or arrays; airspeed 20-1,000 kn, wind 0-250 kn.  Raises ``DomainError`` where the wind is too
    strong to hold the course or to make headway.  Source: TM 1-900.

    >>> [round(float(value), 2) for value in heading_and_groundspeed(0, 160, 310, 45)]
    [347.56, 127.32, -12.44]
    """
    ahead_kn, across_kn = _wind(ahead_and_across, course_deg, tas_kn, wind_from_deg, wind_speed_kn)
    tas_kn = np.asarray(tas_kn, dtype=float)
    require(np.abs(across_kn) < tas_kn, "the wind across is stronger than the airspeed")
    correction = np.arcsin(across_kn / tas_kn)
    return _made_good(course_deg, np.degrees(correction), tas_kn * np.cos(correction) - ahead_kn)


def heading_and_groundspeed_by_rule(course_deg, tas_kn, wind_from_deg, wind_speed_kn):
    """Return what ``heading_and_groundspeed`` returns by one in sixty: correction 60 x across / airspeed."""
    ahead_kn, across_kn = _wind(ahead_and_across_by_share, course_deg, tas_kn, wind_from_deg, wind_speed_kn)
    correction_deg = 60.0 * across_kn / tas_kn
    require(np.abs(correction_deg) <= 30, "one in sixty does not hold for a correction above 30 degrees")
    return _made_good(course_deg, correction_deg, tas_kn - ahead_kn)


def track_and_groundspeed(heading_deg, tas_kn, wind_from_deg, wind_speed_kn):
    """Return (track, groundspeed, drift right positive) of an aircraft that holds a heading.

    Floats or arrays; airspeed 20-1,000 kn, wind 0-250 kn.  Source: TM 1-900 par. 45.

    >>> [round(float(value)) for value in track_and_groundspeed(315, 150, 45, 30)]
    [304, 153, -11]
    """
    _checked(heading_deg, wind_from_deg, wind_speed_kn)
    within(20, 1000, tas_kn=tas_kn)
    air_east, air_north = components(heading_deg, tas_kn)
    wind_east, wind_north = components(wind_from_deg, wind_speed_kn)
    track_deg, groundspeed_kn = direction_and_speed(air_east - wind_east, air_north - wind_north)
    require(groundspeed_kn > 0, "the wind holds the aircraft still: it has no track")
    return track_deg, groundspeed_kn, turn_deg(heading_deg, track_deg)


def heading_and_airspeed(course_deg, groundspeed_kn, wind_from_deg, wind_speed_kn):
    """Return (heading, true airspeed, correction right positive) that keep a course and a groundspeed.

    Floats or arrays; groundspeed 20-1,000 kn, wind 0-250 kn.  Source: War Department mathematics manual.

    >>> [round(float(value)) for value in heading_and_airspeed(351, 232, 33, 47)]
    [358, 269, 7]
    """
    _checked(course_deg, wind_from_deg, wind_speed_kn)
    within(20, 1000, groundspeed_kn=groundspeed_kn)
    ground_east, ground_north = components(course_deg, groundspeed_kn)
    wind_east, wind_north = components(wind_from_deg, wind_speed_kn)
    heading_deg, tas_kn = direction_and_speed(ground_east + wind_east, ground_north + wind_north)
    require(tas_kn > 0, "the wind alone carries the aircraft along: there is no heading to hold")
    return heading_deg, tas_kn, turn_deg(course_deg, heading_deg)


def wind_found(course_deg, heading_deg, tas_kn, groundspeed_kn):
    """Return (direction it comes from, knots) of the wind, from course made good, heading and both speeds.

    Floats or arrays; speeds 20-1,000 kn.  A calm is (360, 0).

    >>> [round(float(value)) for value in wind_found(94, 104, 165, 146)]
    [154, 33]
    """
    directions(course_deg=course_deg, heading_deg=heading_deg)
    within(20, 1000, tas_kn=tas_kn, groundspeed_kn=groundspeed_kn)
    air_east, air_north = components(heading_deg, tas_kn)
    ground_east, ground_north = components(course_deg, groundspeed_kn)
    return direction_and_speed(air_east - ground_east, air_north - ground_north)


def crab(course_deg, crosswind_kn, side, tas_kn):
    """Return (crab in degrees, heading) for a wind across from ``side`` (1 right, -1 left).

    Floats or arrays; crosswind 0-150 kn, airspeed 60-1,000 kn.  Source: CNATRA P-203.

    >>> [round(float(value)) for value in crab(90, 35, 1, 325)]
    [6, 96]
    """
    _across(course_deg, crosswind_kn, side, tas_kn)
    crab_deg = np.degrees(np.arcsin(crosswind_kn / np.asarray(tas_kn, dtype=float)))
    return crab_deg, wrap_360(course_deg + side * crab_deg)


def crab_by_rule(course_deg, crosswind_kn, side, tas_kn):
    """Return what ``crab`` returns by one in sixty: ten per cent of the airspeed is six degrees."""
    _across(course_deg, crosswind_kn, side, tas_kn)
    crab_deg = 60.0 * crosswind_kn / np.asarray(tas_kn, dtype=float)
    return crab_deg, wrap_360(course_deg + side * crab_deg)


def _checked(direction_deg, wind_from_deg, wind_speed_kn):
    directions(direction_deg=direction_deg, wind_from_deg=wind_from_deg)
    within(0, 250, wind_speed_kn=wind_speed_kn)


def _wind(split, course_deg, tas_kn, wind_from_deg, wind_speed_kn):
    _checked(course_deg, wind_from_deg, wind_speed_kn)
    within(20, 1000, tas_kn=tas_kn)
    return split(wind_speed_kn, turn_deg(course_deg, wind_from_deg))


def _made_good(course_deg, correction_deg, groundspeed_kn):
    require(groundspeed_kn > 0, "the headwind is stronger than the airspeed: there is no headway")
    return wrap_360(course_deg + correction_deg), groundspeed_kn, correction_deg


def _across(course_deg, crosswind_kn, side, tas_kn):
    directions(course_deg=course_deg)
    require(np.isin(side, (1, -1)), "side is 1 for right or -1 for left")
    within(0, 150, crosswind_kn=crosswind_kn)
    within(60, 1000, tas_kn=tas_kn)
    require(np.asarray(crosswind_kn) <= 0.5 * np.asarray(tas_kn), "the wind across is over half the airspeed")
