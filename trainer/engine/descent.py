"""Coming down and what the altimeter shows: top of descent, crossing restriction, cloud base, cold air, QFE.

Sources: USAF 60-to-1 handout (three miles a thousand feet), FAA-H-8083-25B p. 12-13 (cloud base), FAA AIM table
7-2-3 (cold air), ICAO standard atmosphere (QFE).
"""

import numpy as np

from trainer.engine import atmosphere
from trainer.engine.domain import inside, require
from trainer.engine.units import FT_PER_NM

MILES_PER_THOUSAND_FT = 3.0
CLOUD_BASE_FT_PER_C = 400.0
LAPSE_C_PER_FT = 0.00198
HPA_PER_INHG = 33.86389
COLDEST_C, WARMEST_C = -60.0, 15.0


def altitude_to_lose_ft(from_altitude_ft, to_altitude_ft):
    """Return the feet from the higher to the lower altitude (floats or arrays, 0 to 60,000 ft)."""
    inside("altitude", from_altitude_ft, 0, 60_000)
    inside("altitude below", to_altitude_ft, 0, 60_000)
    lose = np.asarray(from_altitude_ft, dtype=float) - to_altitude_ft
    require(lose >= 0, "that is a climb", hint="the first altitude is the one you leave")
    return lose[()]


def top_of_descent_nm(from_altitude_ft, to_altitude_ft, glide_slope_deg=3.0):
    """Return the nautical miles over which an angle of ``glide_slope_deg`` (1-10) loses the altitude."""
    inside("angle", glide_slope_deg, 1, 10)
    lose = altitude_to_lose_ft(from_altitude_ft, to_altitude_ft)
    return (lose / (FT_PER_NM * np.tan(np.radians(glide_slope_deg))))[()]


def top_of_descent_by_rule_nm(from_altitude_ft, to_altitude_ft, glide_slope_deg=3.0):
    """Return three miles for each thousand feet; the rule is for three degrees."""
    require(np.asarray(glide_slope_deg, dtype=float) == 3.0, "three miles a thousand feet is the rule for 3°")
    return (altitude_to_lose_ft(from_altitude_ft, to_altitude_ft) / 1_000 * MILES_PER_THOUSAND_FT)[()]


def crossing_rate_ft_min(from_altitude_ft, to_altitude_ft, distance_nm, groundspeed_kn):
    """Return the rate of descent that loses the altitude within ``distance_nm`` (0.5-300) at ``groundspeed_kn``."""
    inside("distance", distance_nm, 0.5, 300)
    inside("groundspeed", groundspeed_kn, 40, 1_000)
    minutes = np.asarray(distance_nm, dtype=float) * 60 / groundspeed_kn
    return (altitude_to_lose_ft(from_altitude_ft, to_altitude_ft) / minutes)[()]


def cloud_base_ft(temperature_c, dew_point_c):
    """Return the height above the ground of convective cloud: 400 ft for each degree Celsius of spread."""
    inside("temperature", temperature_c, -40, 55)
    inside("dew point", dew_point_c, -60, 40)
    spread = np.asarray(temperature_c, dtype=float) - dew_point_c
    require(spread >= 0, "the dew point is never above the temperature")
    return (spread * CLOUD_BASE_FT_PER_C)[()]


def cold_error_ft(height_ft, temperature_c, elevation_ft=0.0):
    """Return how far the aircraft may be below what the altimeter shows, in feet.

    ``height_ft`` (0-10,000) is above the station that gave the setting, ``temperature_c`` (-60 to 15) is reported
    there, ``elevation_ft`` (0-10,000) is its own.  The column of air is taken colder throughout by the difference.
    """
    inside("height", height_ft, 0, 10_000)
    inside("temperature", temperature_c, COLDEST_C, WARMEST_C)
    inside("elevation", elevation_ft, 0, 10_000)
    height = np.asarray(height_ft, dtype=float)
    at_sea_level = np.asarray(temperature_c, dtype=float) + LAPSE_C_PER_FT * np.asarray(elevation_ft, dtype=float)
    mean = 273.15 + at_sea_level - 0.5 * LAPSE_C_PER_FT * (height + elevation_ft)
    return np.maximum(0.0, height * (15.0 - at_sea_level) / mean)[()]


def cold_error_by_rule_ft(height_ft, temperature_c, elevation_ft=0.0):
    """Return four feet for each thousand feet of height and each degree below standard."""
    inside("height", height_ft, 0, 10_000)
    inside("temperature", temperature_c, COLDEST_C, WARMEST_C)
    inside("elevation", elevation_ft, 0, 10_000)
    below = np.maximum(0.0, 15.0 - 2.0 * np.asarray(elevation_ft, dtype=float) / 1_000 - temperature_c)
    return (np.asarray(height_ft, dtype=float) / 1_000 * 4 * below)[()]


def qfe_hpa(qnh_hpa, elevation_ft):
    """Return the pressure at the field: an altimeter set to it shows 0 there.  QNH 900-1,080 hPa, 0-10,000 ft."""
    inside("QNH", qnh_hpa, 900, 1_080)
    inside("elevation", elevation_ft, -1_000, 10_000)
    # The altimeter's own law: QNH is the sea-level pressure of a standard atmosphere that has QFE at the field.
    exponent = 1.0 / 5.25588
    base = np.power(np.asarray(qnh_hpa, dtype=float), exponent)
    return np.power(base - np.power(atmosphere.P0_HPA, exponent) * 6.8756e-6 * np.asarray(elevation_ft), 5.25588)[()]


def qfe_by_rule_hpa(qnh_hpa, elevation_ft):
    """Return QNH less a hectopascal for each 28 feet, as the standard atmosphere has it near the sea."""
    inside("QNH", qnh_hpa, 900, 1_080)
    inside("elevation", elevation_ft, -1_000, 10_000)
    return (np.asarray(qnh_hpa, dtype=float) - np.asarray(elevation_ft, dtype=float) / 28)[()]
