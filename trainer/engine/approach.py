"""From the push to the ball: penetration, gate, correction to the final bearing, glide slope, minima.

Sources: NAVEDTRA 14342A Table 11-1 (platform 5,000 ft, gate 1,200 ft), Table 11-12 (minima) and its text on the
correction to the final bearing; gate, rates and angles differ between ships and are inputs.  Distances
are nautical miles on the beacon, the ship taken at rest during the descent; slopes are plane trigonometry.
"""

import numpy as np

from trainer.engine.angles import reciprocal, turn_deg
from trainer.engine.domain import inside, require
from trainer.engine.marshal import fix_distance_nm
from trainer.engine.units import FT_PER_NM

PLATFORM_FT = 5_000.0
GRADUAL_WITHIN_DEG = 10.0
FT_MIN_PER_KN = FT_PER_NM / 60.0  # a knot is this many feet a minute

# (aircraft, approach): (ceiling in feet, visibility in nautical miles).  NAVEDTRA 14342A Table 11-12.
JET, TURBOPROP, HELICOPTER = 1, 2, 3
NONPRECISION, ICLS, ICLS_MONITORED, MODE_2, MODE_3 = 1, 2, 3, 4, 5
MINIMA = {
    (JET, NONPRECISION): (600, 1.25),
    (JET, ICLS): (300, 0.75),
    (JET, ICLS_MONITORED): (200, 0.5),
    (JET, MODE_2): (200, 0.5),
    (JET, MODE_3): (200, 0.5),
    (TURBOPROP, NONPRECISION): (400, 1.0),
    (TURBOPROP, ICLS): (300, 0.75),
    (TURBOPROP, ICLS_MONITORED): (200, 0.5),
    (TURBOPROP, MODE_2): (200, 0.5),
    (TURBOPROP, MODE_3): (200, 0.5),
    (HELICOPTER, NONPRECISION): (300, 0.75),
    (HELICOPTER, MODE_3): (200, 0.5),
}


def platform_distance_nm(angels, groundspeed_kn, penetration_rate_ft_min):
    """Return the beacon distance at which 5,000 ft is passed after a push on the marshal fix."""
    _check_descent(groundspeed_kn, penetration_rate_ft_min)
    minutes = (np.asarray(angels, dtype=float) * 1000 - PLATFORM_FT) / penetration_rate_ft_min
    distance = fix_distance_nm(angels) - minutes * groundspeed_kn / 60.0
    require(distance > 0, "the ship is reached before platform", hint="slow down or descend faster")
    return distance


def level_off_distance_nm(platform_distance_nm, groundspeed_kn, platform_rate_ft_min, gate_altitude_ft):
    """Return the beacon distance at which ``gate_altitude_ft`` is reached from 5,000 ft at platform."""
    _check_descent(groundspeed_kn, platform_rate_ft_min)
    inside("platform", platform_distance_nm, 1, 60)
    inside("altitude of the gate", gate_altitude_ft, 500, 4_900)
    minutes = (PLATFORM_FT - np.asarray(gate_altitude_ft, dtype=float)) / platform_rate_ft_min
    distance = platform_distance_nm - minutes * groundspeed_kn / 60.0
    require(distance > 0, "the ship is reached before the level-off", hint="slow down or descend faster")
    return distance[()]


def penetration_altitude_ft(
    distance_nm, angels, groundspeed_kn, penetration_rate_ft_min, platform_rate_ft_min, gate_altitude_ft
):
    """Return the altitude on the penetration at ``distance_nm`` for an aircraft that pushed on its fix.

    Level to the fix, ``penetration_rate_ft_min`` down to 5,000 ft, ``platform_rate_ft_min`` down to
    ``gate_altitude_ft``, level again; no allowance for easing into and out of the descent.
    """
    _check_descent(groundspeed_kn, penetration_rate_ft_min)
    _check_descent(groundspeed_kn, platform_rate_ft_min)
    inside("distance", distance_nm, 0, 60)
    inside("altitude of the gate", gate_altitude_ft, 500, 4_900)
    platform_distance_nm(angels, groundspeed_kn, penetration_rate_ft_min)  # refuses where the ship comes first
    top_ft = np.asarray(angels, dtype=float) * 1000.0
    minutes = np.maximum((fix_distance_nm(angels) - distance_nm) * 60.0 / groundspeed_kn, 0.0)
    to_platform = (top_ft - PLATFORM_FT) / penetration_rate_ft_min
    above = top_ft - minutes * penetration_rate_ft_min
    below = PLATFORM_FT - (minutes - to_platform) * platform_rate_ft_min
    return np.maximum(np.where(minutes <= to_platform, above, below), gate_altitude_ft)[()]


def level_off_lead_ft(rate_ft_min):
    """Return the feet before an altitude at which the level-off starts: a tenth of the rate."""
    inside("rate of descent", rate_ft_min, 100, 10_000)
    return np.asarray(rate_ft_min, dtype=float)[()] / 10.0


def final_bearing_correction(marshal_radial_deg, final_bearing_deg):
    """Return (correction, degrees): 0 gradual, 1 turn 30 degrees; final bearing minus inbound course, right positive.

    The correction starts at 20 nm; within 10 degrees it is gradual.  Source: NAVEDTRA 14342A.
    """
    inside("marshal radial", marshal_radial_deg, 0, 360)
    inside("final bearing", final_bearing_deg, 0, 360)
    difference = turn_deg(reciprocal(marshal_radial_deg), final_bearing_deg)
    return np.where(np.abs(difference) > GRADUAL_WITHIN_DEG, 1.0, 0.0)[()], difference


def slope_ft_nm(glide_slope_deg):
    """Return the feet of height that a slope of ``glide_slope_deg`` has in a nautical mile."""
    inside("glide slope", glide_slope_deg, 0.1, 20)
    return FT_PER_NM * np.tan(np.radians(glide_slope_deg))


def gradient(glide_slope_deg):
    """Return (feet per nautical mile, percent) of a slope of ``glide_slope_deg``."""
    feet = slope_ft_nm(glide_slope_deg)
    return feet, feet / FT_PER_NM * 100.0


def gradient_rule(glide_slope_deg):
    """Return (feet per nautical mile, percent) by 60-to-1: a degree is 100 ft a mile, one in sixty."""
    inside("glide slope", glide_slope_deg, 0.1, 20)
    angle = np.asarray(glide_slope_deg, dtype=float)[()]
    return angle * 100.0, angle / 0.6


def slope_height_ft(distance_nm, glide_slope_deg):
    """Return the height in feet above the touchdown point at ``distance_nm`` from it."""
    inside("distance", distance_nm, 0, 60)
    return np.asarray(distance_nm, dtype=float)[()] * slope_ft_nm(glide_slope_deg)


def slope_height_rule_ft(distance_nm, glide_slope_deg):
    """Return the height by 60-to-1: 100 ft for each degree and mile."""
    inside("distance", distance_nm, 0, 60)
    return np.asarray(distance_nm, dtype=float)[()] * gradient_rule(glide_slope_deg)[0]


def intercept_nm(altitude_ft, glide_slope_deg):
    """Return the distance in nautical miles at which a level aircraft meets the glide slope."""
    inside("altitude", altitude_ft, 0, 20_000)
    return np.asarray(altitude_ft, dtype=float)[()] / slope_ft_nm(glide_slope_deg)


def intercept_rule_nm(altitude_ft, glide_slope_deg):
    """Return that distance by 60-to-1."""
    inside("altitude", altitude_ft, 0, 20_000)
    return np.asarray(altitude_ft, dtype=float)[()] / gradient_rule(glide_slope_deg)[0]


def gradient_rate_ft_min(gradient_ft_nm, groundspeed_kn):
    """Return the feet per minute that hold a gradient of ``gradient_ft_nm`` at ``groundspeed_kn``."""
    inside("gradient", gradient_ft_nm, 0, 5_000)
    inside("ground speed", groundspeed_kn, 1, 700)
    return (np.asarray(gradient_ft_nm, dtype=float) * groundspeed_kn / 60.0)[()]


def slope_rate_ft_min(groundspeed_kn, glide_slope_deg):
    """Return the descent in feet per minute that holds a slope at ``groundspeed_kn``."""
    return gradient_rate_ft_min(slope_ft_nm(glide_slope_deg), groundspeed_kn)


def slope_rate_rule_ft_min(groundspeed_kn, glide_slope_deg):
    """Return that descent by 60-to-1: ground speed times the angle, times ten over six."""
    return gradient_rate_ft_min(gradient_rule(glide_slope_deg)[0], groundspeed_kn)


def closure_kn(airspeed_kn, wind_down_angle_kn):
    """Return the closure on the landing area: airspeed less the wind down the angle."""
    inside("airspeed", airspeed_kn, 60, 250)
    inside("wind down the angle", wind_down_angle_kn, 0, 60)
    return (np.asarray(airspeed_kn, dtype=float) - wind_down_angle_kn)[()]


def sink_rate_ft_min(closure_kn, glide_slope_deg):
    """Return the sink rate on the ball: closure, not airspeed, along the slope."""
    inside("closure", closure_kn, 30, 250)
    inside("glide slope", glide_slope_deg, 2, 6)
    return np.asarray(closure_kn, dtype=float)[()] * FT_MIN_PER_KN * np.tan(np.radians(glide_slope_deg))


def sink_rate_rule_ft_min(closure_kn, glide_slope_deg):
    """Return the sink rate in the head: closure times 5 at 3 degrees, 6 at 3.5, 7 at 4."""
    inside("closure", closure_kn, 30, 250)
    inside("glide slope", glide_slope_deg, 2, 6)
    return (np.asarray(closure_kn, dtype=float) * (2.0 * np.asarray(glide_slope_deg) - 1.0))[()]


def off_slope_ft(distance_nm, off_deg):
    """Return how far in feet the eye is above or below the slope for ``off_deg`` at ``distance_nm``."""
    inside("distance", distance_nm, 0, 10)
    inside("angle off the slope", off_deg, 0, 5)
    return np.asarray(distance_nm, dtype=float)[()] * FT_PER_NM * np.tan(np.radians(off_deg))


def off_slope_rule_ft(distance_nm, off_deg):
    """Return that height by 60-to-1."""
    inside("distance", distance_nm, 0, 10)
    inside("angle off the slope", off_deg, 0, 5)
    return (np.asarray(distance_nm, dtype=float) * off_deg * 100.0)[()]


def ramp_interval_s(interval_min, groundspeed_kn):
    """Return the seconds between aircraft at the ramp for pushes ``interval_min`` apart, one thousand feet apart.

    Every level holds one mile further out, so the next aircraft has one mile more to fly.
    """
    inside("interval", interval_min, 0.5, 5)
    inside("ground speed", groundspeed_kn, 100, 400)
    return (np.asarray(interval_min, dtype=float) * 60.0 + 3600.0 / np.asarray(groundspeed_kn, dtype=float))[()]


def minima(aircraft, approach):
    """Return (ceiling in feet, visibility in nautical miles) of Table 11-12 for coded ``aircraft``, ``approach``."""
    aircraft, approach = np.broadcast_arrays(np.asarray(aircraft, dtype=float), np.asarray(approach, dtype=float))
    ceiling, visibility = np.full(aircraft.shape, np.nan), np.full(aircraft.shape, np.nan)
    for (kind, way), (feet, miles) in MINIMA.items():
        here = (aircraft == kind) & (approach == way)
        ceiling[here], visibility[here] = feet, miles
    require(~np.isnan(ceiling), "the table has no such approach for this aircraft",
            hint="helicopters fly nonprecision or Mode III")  # fmt: skip
    return ceiling[()], visibility[()]


def _check_descent(groundspeed_kn, rate_ft_min):
    inside("ground speed", groundspeed_kn, 100, 400)
    inside("rate of descent", rate_ft_min, 500, 8_000)
