"""Position and time by radial, DME and clock.

Convention: a radial is the bearing FROM the station; the earth is flat over these distances.

Sources: CNATRA P-801 Instrument Navigation; CNATRA P-1265, P-1282; FAA-H-8083-25; AFMAN 11-217 vol. 1.
"""

import numpy as np

from trainer.engine.angles import components, direction_and_size, turn_deg
from trainer.engine.domain import require
from trainer.engine.limits import directions, within


def fix_to_fix(radial_1_deg, dme_1_nm, radial_2_deg, dme_2_nm):
    """Return (course, miles) from the fix on radial 1 to the fix on radial 2 of one station, no wind.

    Floats or arrays; DME 0.1-200 nm.  Source: CNATRA P-801 (point to point).

    >>> [round(float(value), 1) for value in fix_to_fix(180, 25, 90, 50)]
    [63.4, 55.9]
    """
    directions(radial_1_deg=radial_1_deg, radial_2_deg=radial_2_deg)
    within(0.1, 200, dme_1_nm=dme_1_nm, dme_2_nm=dme_2_nm)
    east_1, north_1 = components(radial_1_deg, dme_1_nm)
    east_2, north_2 = components(radial_2_deg, dme_2_nm)
    course_deg, distance_nm = direction_and_size(east_2 - east_1, north_2 - north_1)
    require(distance_nm > 1e-6, "both fixes are the same point: there is no course")
    return course_deg, distance_nm


def time_to_go_min(distance_nm, groundspeed_kn):
    """Return the minutes to fly ``distance_nm`` (0-6,000) at ``groundspeed_kn`` (1-1,500)."""
    within(0, 6000, distance_nm=distance_nm)
    within(1, 1500, groundspeed_kn=groundspeed_kn)
    return np.asarray(distance_nm, dtype=float) / groundspeed_kn * 60


def distance_covered_nm(groundspeed_kn, time_min):
    """Return the miles flown in ``time_min`` (0-1,440) at ``groundspeed_kn`` (1-1,500)."""
    within(1, 1500, groundspeed_kn=groundspeed_kn)
    within(0, 1440, time_min=time_min)
    return np.asarray(groundspeed_kn, dtype=float) * time_min / 60


def groundspeed_needed_kn(distance_nm, time_min):
    """Return the groundspeed in knots that covers ``distance_nm`` (0-6,000) in ``time_min`` (0.1-1,440)."""
    within(0, 6000, distance_nm=distance_nm)
    within(0.1, 1440, time_min=time_min)
    return np.asarray(distance_nm, dtype=float) / time_min * 60


def groundspeed_check_kn(dme_1_nm, dme_2_nm, time_min, altitude_ft):
    """Return the groundspeed in knots from the change of DME over ``time_min`` minutes, straight in or out.

    Floats or arrays; DME 0-300 nm, 0.5-10 min, 0-60,000 ft.  Refuses a DME smaller than the altitude in
    thousands of feet, where slant range spoils the check.  Sources: CNATRA P-1265, P-801, P-1282.

    >>> float(groundspeed_check_kn(38, 54, 3, 20_000))
    320.0
    """
    within(0, 300, dme_1_nm=dme_1_nm, dme_2_nm=dme_2_nm)
    within(0.5, 10, time_min=time_min)
    within(0, 60_000, altitude_ft=altitude_ft)
    least_nm = np.asarray(altitude_ft, dtype=float) / 1000
    require(np.minimum(dme_1_nm, dme_2_nm) >= least_nm,
            "too close to the station for a ground-speed check",
            hint="the DME must be at least the altitude in thousands of feet")  # fmt: skip
    return np.abs(np.asarray(dme_2_nm, dtype=float) - dme_1_nm) / time_min * 60


def time_to_station(seconds, bearing_change_deg, groundspeed_kn):
    """Return (minutes, miles) to the station, from the seconds a wing-tip bearing takes to change, by rule.

    Minutes are seconds / degrees.  Floats or arrays; 1-1,800 s, 1-30 degrees, 40-1,000 kn.
    Source: AFMAN 11-217 vol. 1 par. 7.7; FAA-H-8083-15.

    >>> [float(value) for value in time_to_station(75, 10, 120)]
    [7.5, 15.0]
    """
    _wing_tip(seconds, bearing_change_deg, groundspeed_kn)
    minutes = np.asarray(seconds, dtype=float) / bearing_change_deg
    return minutes, minutes * groundspeed_kn / 60


def time_to_station_exact(seconds, bearing_change_deg, groundspeed_kn):
    """Return what ``time_to_station`` returns for a bearing that starts on the wing tip, exact.

    The distance then is the one flown divided by tan(change), along the first bearing.
    """
    _wing_tip(seconds, bearing_change_deg, groundspeed_kn)
    minutes = np.asarray(seconds, dtype=float) / 60 / np.tan(np.radians(bearing_change_deg))
    return minutes, minutes * groundspeed_kn / 60


def off_course_nm(error_deg, dme_nm):
    """Return the miles off a radial for ``error_deg`` (0-60) at ``dme_nm`` (0.5-250), exact.

    >>> round(float(off_course_nm(6, 20)), 2)
    2.09
    """
    _off(error_deg, dme_nm)
    return np.asarray(dme_nm, dtype=float) * np.sin(np.radians(error_deg))


def off_course_by_rule(error_deg, dme_nm):
    """Return the miles off a radial by 60-to-1: degrees x DME / 60.  Source: USAF 60-to-1 rules."""
    _off(error_deg, dme_nm)
    return np.asarray(dme_nm, dtype=float) * error_deg / 60


def radial_spacing(radial_1_deg, radial_2_deg, dme_nm):
    """Return (miles straight across, degrees) between two radials at one DME (0.5-250), exact.

    >>> round(float(radial_spacing(350, 10, 10)[0]), 1)
    3.5
    """
    apart_deg = _apart(radial_1_deg, radial_2_deg, dme_nm)
    return 2 * np.asarray(dme_nm, dtype=float) * np.sin(np.radians(apart_deg) / 2), apart_deg


def radial_spacing_by_rule(radial_1_deg, radial_2_deg, dme_nm):
    """Return what ``radial_spacing`` returns by 60-to-1: degrees x DME / 60.  Source: CNATRA P-801."""
    apart_deg = _apart(radial_1_deg, radial_2_deg, dme_nm)
    return np.asarray(dme_nm, dtype=float) * apart_deg / 60, apart_deg


def _wing_tip(seconds, bearing_change_deg, groundspeed_kn):
    within(1, 1800, seconds=seconds)
    within(1, 30, bearing_change_deg=bearing_change_deg)
    within(40, 1000, groundspeed_kn=groundspeed_kn)


def _off(error_deg, dme_nm):
    within(0, 60, error_deg=error_deg)
    within(0.5, 250, dme_nm=dme_nm)


def _apart(radial_1_deg, radial_2_deg, dme_nm):
    directions(radial_1_deg=radial_1_deg, radial_2_deg=radial_2_deg)
    within(0.5, 250, dme_nm=dme_nm)
    return np.abs(turn_deg(radial_1_deg, radial_2_deg))
