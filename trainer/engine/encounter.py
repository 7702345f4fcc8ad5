"""Two moving bodies: closest approach, a target's true motion, intercept and closing.

Conventions: bearings are from own position; times count from now, negative is past; straight tracks at
constant speed, flat earth, no wind (speeds are over the ground).

Sources: NGA Pub. 1310, Radar Navigation and Maneuvering Board Manual, ch. 6; IMO performance standard for
automatic radar plotting aids (tracking scenarios); the intercept is geometry.
"""

import numpy as np

from trainer.engine.angles import components, direction_and_size
from trainer.engine.domain import require
from trainer.engine.limits import directions, within
from trainer.engine.wind import direction_and_speed

COLLISION_NM = 1e-6  # closer than this the bearing at closest approach is rounding error
STILL_KN = 1e-6


def closest_approach(
    own_course_deg, own_speed_kn, target_bearing_deg, target_range_nm, target_course_deg, target_speed_kn
):
    """Return (miles, bearing, minutes) of the closest point of approach.

    Negative minutes: it is past already.  On a collision course the bearing is the one now, which does not
    change.  Floats or arrays; speeds 0-1,000 kn, range 0.01-300 nm.  Refuses two bodies with one motion.

    >>> [round(float(value), 1) for value in closest_approach(360, 10, 45, 4, 270, 10)]
    [0.0, 45.0, 17.0]
    """
    directions(own_course_deg=own_course_deg, target_course_deg=target_course_deg)
    within(0, 1000, own_speed_kn=own_speed_kn, target_speed_kn=target_speed_kn)
    own_east, own_north = components(own_course_deg, own_speed_kn)
    target_east, target_north = components(target_course_deg, target_speed_kn)
    return _approach(target_bearing_deg, target_range_nm, target_east - own_east, target_north - own_north)


def plotted_approach(bearing_1_deg, range_1_nm, bearing_2_deg, range_2_nm, interval_min):
    """Return (miles, bearing, minutes after plot 2, direction, knots of relative motion) from two plots.

    Floats or arrays; ranges 0.01-300 nm, plots 0.1-120 min apart.  Source: NGA Pub. 1310 ch. 6, example 1.
    """
    directions(bearing_1_deg=bearing_1_deg, bearing_2_deg=bearing_2_deg)
    within(0.01, 300, range_1_nm=range_1_nm, range_2_nm=range_2_nm)
    within(0.1, 120, interval_min=interval_min)
    hours = np.asarray(interval_min, dtype=float) / 60
    east_1, north_1 = components(bearing_1_deg, range_1_nm)
    east_2, north_2 = components(bearing_2_deg, range_2_nm)
    east_kn, north_kn = (east_2 - east_1) / hours, (north_2 - north_1) / hours
    approach = _approach(bearing_2_deg, range_2_nm, east_kn, north_kn)
    return (*approach, *direction_and_speed(east_kn, north_kn))


def target_motion(own_course_deg, own_speed_kn, relative_course_deg, relative_speed_kn):
    """Return (course, knots) of a target over the ground from its motion relative to own ship.

    Floats or arrays; speeds 0-1,000 kn.  A target that lies still is (360, 0).

    >>> [round(float(value), 2) for value in target_motion(0, 10, 90, 10)]
    [45.0, 14.14]
    """
    directions(own_course_deg=own_course_deg, relative_course_deg=relative_course_deg)
    within(0, 1000, own_speed_kn=own_speed_kn, relative_speed_kn=relative_speed_kn)
    own_east, own_north = components(own_course_deg, own_speed_kn)
    relative_east, relative_north = components(relative_course_deg, relative_speed_kn)
    return direction_and_speed(own_east + relative_east, own_north + relative_north)


def intercept(ship_bearing_deg, ship_range_nm, ship_course_deg, ship_speed_kn, groundspeed_kn):
    """Return (course to fly, minutes, miles) to meet a ship that steams on; the earliest meeting.

    Floats or arrays; range 0.1-1,000 nm, ship 0-1,000 kn, own 1-1,000 kn.  Refuses a ship that can't be
    caught.  The time solves |P + V t| = s t; written so that equal speeds are no special case.

    >>> [round(float(value), 1) for value in intercept(100, 5, 332, 7.4, 7)]
    [43.6, 35.6, 4.2]
    """
    directions(ship_bearing_deg=ship_bearing_deg, ship_course_deg=ship_course_deg)
    within(0.1, 1000, ship_range_nm=ship_range_nm)
    within(0, 1000, ship_speed_kn=ship_speed_kn)
    within(1, 1000, groundspeed_kn=groundspeed_kn)
    east_nm, north_nm = components(ship_bearing_deg, ship_range_nm)
    east_kn, north_kn = components(ship_course_deg, ship_speed_kn)
    hours = _hours_to_meet(east_nm, north_nm, east_kn, north_kn, groundspeed_kn)
    course_deg, distance_nm = direction_and_size(east_nm + east_kn * hours, north_nm + north_kn * hours)
    return course_deg, hours * 60, distance_nm


def closing(distance_nm, own_speed_kn, target_speed_kn, geometry):
    """Return (closing speed, minutes to meet): ``geometry`` 1 head-on (add), -1 from astern (subtract).

    Floats or arrays; 0-1,000 nm, 1-1,000 kn, target 0-1,000 kn.  Refuses a chase that does not close.
    """
    within(0, 1000, distance_nm=distance_nm, target_speed_kn=target_speed_kn)
    within(1, 1000, own_speed_kn=own_speed_kn)
    require(np.isin(geometry, (1, -1)), "geometry is 1 head-on or -1 from astern")
    closing_kn = np.asarray(own_speed_kn, dtype=float) + np.asarray(geometry) * target_speed_kn
    require(closing_kn > 0, "you are not faster than the target: the chase never ends")
    return closing_kn, distance_nm / closing_kn * 60


def _approach(bearing_deg, range_nm, east_kn, north_kn):
    directions(target_bearing_deg=bearing_deg)
    within(0.01, 300, target_range_nm=range_nm)
    east_nm, north_nm = components(bearing_deg, range_nm)
    square_kn2 = east_kn**2 + north_kn**2
    require(square_kn2 > STILL_KN**2, "there is no relative motion: range and bearing stay as they are")
    hours = -(east_nm * east_kn + north_nm * north_kn) / square_kn2
    closest_deg, closest_nm = direction_and_size(east_nm + east_kn * hours, north_nm + north_kn * hours)
    collision = closest_nm < COLLISION_NM
    now_deg = direction_and_size(east_nm, north_nm)[0]
    return closest_nm, np.where(collision, now_deg, closest_deg)[()], hours * 60


def _hours_to_meet(east_nm, north_nm, east_kn, north_kn, groundspeed_kn):
    opening = east_nm * east_kn + north_nm * north_kn
    square_nm2 = east_nm**2 + north_nm**2
    spare = np.asarray(groundspeed_kn, dtype=float) ** 2 - east_kn**2 - north_kn**2
    under_root = opening**2 + spare * square_nm2
    root = np.sqrt(np.maximum(under_root, 0.0))
    caught = (under_root >= 0) & (root - opening > 1e-9 * square_nm2)
    require(caught, "the ship can't be caught at that speed", hint="fly faster")
    return square_nm2 / (root - opening)
