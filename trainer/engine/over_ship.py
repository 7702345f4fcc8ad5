"""Turns and arcs as they are flown about the beacon of a ship that moves, in the wind.

In the ship's frame the ship lies still and the wind is the one felt aboard: the true wind and her own way, added
as vectors (``wind.wind_over_deck``).  What the rules of thumb for arcs leave out, drift and the ship's way, is in
here.  Floats only; directions magnetic, winds named by where they come from; distances are beacon miles.

Source: plane kinematics; the wind triangle is that of ``triangle`` (TM 1-900).
"""

import numpy as np

from trainer.engine.angles import components, turn_deg, wrap_360
from trainer.engine.domain import require
from trainer.engine.limits import directions, within
from trainer.engine.triangle import heading_and_groundspeed

STEPS = 721  # points along a half circle of turn: a quarter of a degree apart
HALVINGS = 40  # of an interval of a hundred miles or degrees
GAUSS_X, GAUSS_W = np.polynomial.legendre.leggauss(12)


def arc_seconds(from_radial_deg, arc_deg, way, arc_nm, tas_kn, felt_from_deg, felt_kn):
    """Return the seconds along ``arc_deg`` of an arc from a radial, ``way`` 1 right or -1 left.

    Arc 1-100 nm, 1-180 degrees, true airspeed 60-700 kn, wind felt 0-120 kn.
    """
    _checked(from_radial_deg, tas_kn, felt_from_deg, felt_kn)
    within(1, 100, arc_nm=arc_nm)
    within(1, 180, arc_deg=arc_deg)
    radials = from_radial_deg + way * (GAUSS_X + 1) / 2 * arc_deg
    speeds = heading_and_groundspeed(wrap_360(radials + way * 90.0), tas_kn, felt_from_deg, felt_kn)[1]
    return float(np.radians(arc_deg) * arc_nm * 3600 * np.sum(GAUSS_W / speeds) / 2)


def turn_onto_arc_nm(radial_deg, way, arc_nm, tas_kn, turn_rate_deg_s, felt_from_deg, felt_kn):
    """Return the distance outbound on ``radial_deg`` at which the turn begins that just touches the arc."""
    _checked(radial_deg, tas_kn, felt_from_deg, felt_kn)
    within(5, 60, arc_nm=arc_nm)
    heading = heading_and_groundspeed(radial_deg, tas_kn, felt_from_deg, felt_kn)[0]
    east, north = _turned(heading, way * turn_rate_deg_s, 180.0, tas_kn, felt_from_deg, felt_kn)
    out_east, out_north = components(radial_deg, 1.0)

    def beyond(begin_nm):
        return np.max(np.hypot(begin_nm * out_east + east, begin_nm * out_north + north)) - arc_nm

    require(beyond(0.0) < 0, "the turn is too wide for the arc", hint="slower, or turn faster")
    return _root(beyond, 0.0, arc_nm)


def lead_off_arc_deg(radial_deg, way, arc_nm, tas_kn, turn_rate_deg_s, felt_from_deg, felt_kn):
    """Return the degrees of arc before ``radial_deg`` at which the turn outbound begins that ends on it."""
    _checked(radial_deg, tas_kn, felt_from_deg, felt_kn)
    within(5, 60, arc_nm=arc_nm)
    outbound = heading_and_groundspeed(radial_deg, tas_kn, felt_from_deg, felt_kn)[0]

    def short(lead_deg):
        begin = wrap_360(radial_deg - way * lead_deg)
        along = heading_and_groundspeed(wrap_360(begin + way * 90.0), tas_kn, felt_from_deg, felt_kn)[0]
        size = abs(float(turn_deg(along, outbound)))
        east, north = _turned(along, -way * turn_rate_deg_s, size, tas_kn, felt_from_deg, felt_kn)
        begin_east, begin_north = components(begin, arc_nm)
        right_east, right_north = components(radial_deg + 90.0, 1.0)
        return way * ((begin_east + east[-1]) * right_east + (begin_north + north[-1]) * right_north)

    require(short(0.0) > 0 and short(80.0) < 0, "no lead of up to 80 degrees ends on the radial")
    return _root(lambda lead_deg: -short(lead_deg), 0.0, 80.0)


def _turned(heading_deg, rate_deg_s, size_deg, tas_kn, felt_from_deg, felt_kn):
    """Return (east, north) in miles from where a turn began, along its ``size_deg``."""
    seconds = np.linspace(0.0, size_deg / abs(rate_deg_s), STEPS)
    start, rate = np.radians(heading_deg), np.radians(rate_deg_s)
    now, per_second = start + rate * seconds, tas_kn / 3600.0
    wind_east, wind_north = components(felt_from_deg, felt_kn / 3600.0)
    east = per_second * (np.cos(start) - np.cos(now)) / rate - wind_east * seconds
    north = per_second * (np.sin(now) - np.sin(start)) / rate - wind_north * seconds
    return east, north


def _root(function, low, high):
    """Return where the rising ``function`` is 0 between ``low`` and ``high``."""
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        low, high = (middle, high) if function(middle) < 0 else (low, middle)
    return float((low + high) / 2)


def _checked(direction_deg, tas_kn, felt_from_deg, felt_kn):
    directions(direction_deg=direction_deg, felt_from_deg=felt_from_deg)
    within(60, 700, tas_kn=tas_kn)
    within(0, 120, felt_kn=felt_kn)
