"""Bearing and distance over the earth.

Source: C. F. F. Karney, Algorithms for geodesics (2013), on the WGS 84 ellipsoid, by his library; the
way done in the head is middle-latitude sailing (Bowditch, The Sailings).  Latitude north and longitude
east are positive degrees; bearings are true.
"""

import numpy as np

from trainer.engine.angles import direction_and_size, turn_deg, wrap_360
from trainer.engine.domain import inside, require

M_PER_NM = 1852.0
LONGEST_NM = 10_850.0  # a little more than half round the earth
RULE_LONGEST_NM = 600.0
RULE_LATITUDE_DEG = 70.0


def inverse(from_latitude_deg, from_longitude_deg, to_latitude_deg, to_longitude_deg):
    """Return (distance nm, bearing there deg, bearing on arrival deg, distance m) of the shortest way.

    Floats or arrays; the two bearings differ because the meridians converge.
    """
    _check(from_latitude_deg, from_longitude_deg)
    _check(to_latitude_deg, to_longitude_deg)
    metres, first, last = np.vectorize(_inverse, otypes=[float] * 3)(
        from_latitude_deg, from_longitude_deg, to_latitude_deg, to_longitude_deg
    )
    return metres / M_PER_NM, wrap_360(first), wrap_360(last), metres[()]


def _inverse(from_latitude_deg, from_longitude_deg, to_latitude_deg, to_longitude_deg):
    from geographiclib.geodesic import Geodesic

    line = Geodesic.WGS84.Inverse(
        float(from_latitude_deg), float(from_longitude_deg), float(to_latitude_deg), float(to_longitude_deg)
    )
    return line["s12"], line["azi1"], line["azi2"]


def middle_latitude(from_latitude_deg, from_longitude_deg, to_latitude_deg, to_longitude_deg):
    """Return what ``inverse`` does, by middle-latitude sailing: a minute of latitude is a mile.

    For up to 600 nm and below 70 degrees of latitude; the bearing is the same all the way.
    """
    _check(from_latitude_deg, from_longitude_deg)
    _check(to_latitude_deg, to_longitude_deg)
    for latitude in (from_latitude_deg, to_latitude_deg):
        inside("latitude", latitude, -RULE_LATITUDE_DEG, RULE_LATITUDE_DEG, why="the rule holds no further")
    north = 60 * (np.asarray(to_latitude_deg, dtype=float) - from_latitude_deg)
    middle = (np.asarray(to_latitude_deg, dtype=float) + from_latitude_deg) / 2
    east = 60 * turn_deg(from_longitude_deg, to_longitude_deg) * np.cos(np.radians(middle))
    bearing, distance = direction_and_size(east, north)
    require(distance <= RULE_LONGEST_NM, "that is too far for the rule", hint="take the exact method")
    return distance, bearing, bearing, distance * M_PER_NM


def direct(from_latitude_deg, from_longitude_deg, bearing_deg, distance_nm):
    """Return (latitude deg, longitude deg, bearing on arrival deg) after ``distance_nm`` along a geodesic."""
    _check(from_latitude_deg, from_longitude_deg)
    inside("bearing", bearing_deg, -360, 360)
    inside("distance", distance_nm, 0, LONGEST_NM)
    latitude, longitude, last = np.vectorize(_direct, otypes=[float] * 3)(
        from_latitude_deg, from_longitude_deg, bearing_deg, distance_nm
    )
    return latitude[()], longitude[()], wrap_360(last)


def _direct(from_latitude_deg, from_longitude_deg, bearing_deg, distance_nm):
    from geographiclib.geodesic import Geodesic

    point = Geodesic.WGS84.Direct(
        float(from_latitude_deg), float(from_longitude_deg), float(bearing_deg), float(distance_nm) * M_PER_NM
    )
    return point["lat2"], point["lon2"], point["azi2"]


def pigeons(from_latitude_deg, from_longitude_deg, to_latitude_deg, to_longitude_deg, variation_deg):
    """Return (magnetic bearing deg, distance nm) to the field named; variation east is positive."""
    inside("variation", variation_deg, -180, 180)
    distance, bearing, _, _ = inverse(from_latitude_deg, from_longitude_deg, to_latitude_deg, to_longitude_deg)
    return wrap_360(bearing - variation_deg), distance


def pigeons_in_the_head(from_latitude_deg, from_longitude_deg, to_latitude_deg, to_longitude_deg, variation_deg):
    """Return what ``pigeons`` does, by middle-latitude sailing."""
    inside("variation", variation_deg, -180, 180)
    distance, bearing, _, _ = middle_latitude(from_latitude_deg, from_longitude_deg, to_latitude_deg, to_longitude_deg)
    return wrap_360(bearing - variation_deg), distance


def _check(latitude_deg, longitude_deg):
    inside("latitude", latitude_deg, -90, 90)
    inside("longitude", longitude_deg, -360, 360)
