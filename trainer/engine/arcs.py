"""Arcs about a station: turning onto them, along them and off them.

Convention: ``direction`` is 1 outbound (away from the station), -1 inbound; distances are DME miles.

The exact functions solve the geometry of a turning circle that touches both the radial and the arc; the
rules are the published lead of one per cent of groundspeed at half standard rate, with the two published
corrections for a close arc.  Sources: CNATRA P-1265 RIFP-02, P-1282 INav-05, P-1204 (4-01) p. 76, P-340.
"""

import numpy as np

from trainer.engine.angles import turn_deg
from trainer.engine.domain import require
from trainer.engine.limits import directions, within
from trainer.engine.turns import radius_at_rate_nm, radius_by_per_cent_nm

CLOSE_TO_ARC_NM = 12.0  # inside of this the half-mile correction applies from radial to arc
CLOSE_OFF_ARC_NM = 10.0  # and up to this the corrections from arc to radial
LEAD_ANGLES_DEG = (30.0, 45.0, 60.0, 90.0)
LEAD_SHARES = (0.0, 1 / 3, 2 / 3, 1.0)  # "very little" below 30 degrees


def arc_turn_point_nm(arc_nm, groundspeed_kn, direction, turn_rate_deg_s):
    """Return the DME at which the turn from a radial onto the arc begins, exact.

    Outbound the turning circle lies inside the arc and touches it: d^2 = R^2 - 2 R r.  Inbound it lies
    outside: d^2 = R^2 + 2 R r.  Floats or arrays; arc 5-60 nm, 40-1,000 kn, 0.5-6 deg/s.

    >>> round(float(arc_turn_point_nm(10, 300, 1, 1.5)), 2)
    6.03
    """
    _checked(arc_nm, direction)
    arc_nm = np.asarray(arc_nm, dtype=float)
    radius_nm = radius_at_rate_nm(groundspeed_kn, turn_rate_deg_s)
    square = arc_nm**2 - 2 * np.asarray(direction) * arc_nm * radius_nm
    require(square > 0, "the turn is too wide for the arc", hint="slower, or turn faster")
    return np.sqrt(square)


def arc_turn_point_by_rule(arc_nm, groundspeed_kn, direction, turn_rate_deg_s):
    """Return the DME by rule: arc less (outbound) or plus (inbound) 1 % of groundspeed."""
    _checked(arc_nm, direction)
    lead_nm = radius_by_per_cent_nm(groundspeed_kn, turn_rate_deg_s)
    return _ahead_of_the_station(np.asarray(arc_nm) - np.asarray(direction) * lead_nm)


def arc_turn_point_half_mile(arc_nm, groundspeed_kn, direction, turn_rate_deg_s):
    """Return the DME by rule with half a mile more lead outbound, less inbound, for arcs inside 12 DME."""
    close = np.where(np.asarray(arc_nm) < CLOSE_TO_ARC_NM, 0.5, 0.0)
    return _ahead_of_the_station(arc_turn_point_by_rule(arc_nm, groundspeed_kn, direction, turn_rate_deg_s) - close)


def lead_radials(arc_nm, groundspeed_kn, direction, turn_rate_deg_s):
    """Return the degrees of arc before a radial at which the turn onto it begins, exact.

    Outbound the turning circle has its centre at R + r from the station, inbound at R - r, and touches the
    radial: sin(lead) = r / (R +- r).  Floats or arrays; ranges of ``arc_turn_point_nm``.

    >>> [round(float(lead_radials(10, 250, way, 1.5)), 1) for way in (1, -1)]
    [12.1, 21.2]
    """
    _checked(arc_nm, direction)
    radius_nm = radius_at_rate_nm(groundspeed_kn, turn_rate_deg_s)
    centre_nm = np.asarray(arc_nm, dtype=float) + np.asarray(direction) * radius_nm
    require(centre_nm > radius_nm, "the turn is too wide for the arc", hint="slower, or turn faster")
    return np.degrees(np.arcsin(radius_nm / centre_nm))


def lead_radials_by_rule(arc_nm, groundspeed_kn, direction, turn_rate_deg_s):
    """Return 60 / arc x 1 % of groundspeed, for a turn of 90 degrees.  Source: CNATRA P-1282 p. 5-10."""
    _checked(arc_nm, direction)
    return 60 / np.asarray(arc_nm, dtype=float) * radius_by_per_cent_nm(groundspeed_kn, turn_rate_deg_s)


def lead_radials_by_thirds(arc_nm, groundspeed_kn, direction, turn_rate_deg_s):
    """Return the rule less a third outbound, plus a third inbound, for arcs up to 10 DME.  CNATRA P-1265."""
    lead = lead_radials_by_rule(arc_nm, groundspeed_kn, direction, turn_rate_deg_s)
    return lead - _close(arc_nm) * np.asarray(direction) * lead / 3


def lead_radials_by_turn(arc_nm, groundspeed_kn, direction, turn_rate_deg_s):
    """Return the rule less or plus (90 -+ lead) / 90 x turn radius, for arcs up to 10 DME.

    Source: CNATRA P-1204 (4-01) p. 76, as printed (it adds miles to radials); the two smallest arcs of its
    own table do not follow it.
    """
    lead = lead_radials_by_rule(arc_nm, groundspeed_kn, direction, turn_rate_deg_s)
    direction = np.asarray(direction)
    radius_nm = radius_by_per_cent_nm(groundspeed_kn, turn_rate_deg_s)
    corrected = lead - _close(arc_nm) * direction * (90 - direction * lead) / 90 * radius_nm
    require(corrected > 0, "the correction is larger than the lead", hint="it is for arcs near 10 DME")
    return corrected


def turn_lead_nm(groundspeed_kn, intercept_deg, turn_rate_deg_s):
    """Return the miles before a course at which the turn onto it begins, exact: r tan(angle / 2).

    Floats or arrays; turn 1-150 degrees, 40-1,000 kn, 0.5-6 deg/s.

    >>> round(float(turn_lead_nm(300, 90, 1.5)), 2)
    3.18
    """
    within(1, 150, intercept_deg=intercept_deg)
    return radius_at_rate_nm(groundspeed_kn, turn_rate_deg_s) * np.tan(np.radians(intercept_deg) / 2)


def turn_lead_by_rule(groundspeed_kn, intercept_deg, turn_rate_deg_s):
    """Return the lead by rule: 90 degrees 1 % of groundspeed, 60 two thirds, 45 a third, below 30 none.

    Between the printed angles it is interpolated.  Source: CNATRA P-1265 RIFP-02 p. 2-11.
    """
    within(1, 90, intercept_deg=intercept_deg)
    share = np.interp(intercept_deg, LEAD_ANGLES_DEG, LEAD_SHARES)
    return radius_by_per_cent_nm(groundspeed_kn, turn_rate_deg_s) * share


def arc_direction(from_radial_deg, to_radial_deg):
    """Return (degrees of arc, 1 right or -1 left) the short way from one radial to another.

    Right is clockwise, towards higher radials.  Raises ``DomainError`` for one radial twice and for
    opposite radials, where neither way is shorter.

    >>> [float(value) for value in arc_direction(350, 60)]
    [70.0, 1.0]
    """
    directions(from_radial_deg=from_radial_deg, to_radial_deg=to_radial_deg)
    turn = turn_deg(from_radial_deg, to_radial_deg)
    require(turn != 0, "both radials are the same: there is no arc to fly")
    require(np.abs(turn) < 180, "the radials are opposite: either way is as far")
    return np.abs(turn), np.sign(turn)


def arc_length_and_time(arc_deg, arc_nm, groundspeed_kn):
    """Return (miles, seconds) along ``arc_deg`` of an arc, exact; 1-360 degrees, 1-100 nm, 40-1,000 kn.

    >>> [round(float(value), 1) for value in arc_length_and_time(60, 10, 300)]
    [10.5, 125.7]
    """
    return _along(np.radians(arc_deg), arc_deg, arc_nm, groundspeed_kn)


def arc_length_and_time_by_rule(arc_deg, arc_nm, groundspeed_kn):
    """Return what ``arc_length_and_time`` returns by 60-to-1: degrees x arc / 60."""
    return _along(np.asarray(arc_deg, dtype=float) / 60, arc_deg, arc_nm, groundspeed_kn)


def _along(share_of_arc, arc_deg, arc_nm, groundspeed_kn):
    within(1, 360, arc_deg=arc_deg)
    within(1, 100, arc_nm=arc_nm)
    within(40, 1000, groundspeed_kn=groundspeed_kn)
    length_nm = share_of_arc * arc_nm
    return length_nm, length_nm / groundspeed_kn * 3600


def _close(arc_nm):
    return np.where(np.asarray(arc_nm) <= CLOSE_OFF_ARC_NM, 1.0, 0.0)


def _checked(arc_nm, direction):
    within(5, 60, arc_nm=arc_nm)
    require(np.isin(direction, (1, -1)), "direction is 1 outbound or -1 inbound")


def _ahead_of_the_station(turn_point_nm):
    require(turn_point_nm > 0, "the lead is longer than the arc's radius", hint="slower, or a wider arc")
    return turn_point_nm
