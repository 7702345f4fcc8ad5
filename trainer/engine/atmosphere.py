"""The standard atmosphere, and the altitudes that are read from it.

Sources: ICAO Doc 7488 (3rd ed., 1993) and U.S. Standard Atmosphere, 1976; both have the same two lowest
layers.  Altitudes are geopotential feet, which is what a pressure altimeter shows on a standard day;
published tables that step in geometric metres need ``geopotential_ft`` first.  The air is dry.
"""

import numpy as np

from trainer.engine.domain import inside, require

T0_K = 288.15  # sea-level temperature, by definition
P0_HPA = 1013.25  # sea-level pressure, by definition
LAPSE_K_PER_M = 0.0065  # by definition, up to the tropopause
G0_M_S2 = 9.80665  # by definition
R_J_KG_K = 287.05287  # gas constant of dry air, ICAO Doc 7488 table A
GAMMA = 1.4  # ratio of specific heats, by definition
EARTH_RADIUS_M = 6_356_766.0  # for the geopotential, by definition
TROPOPAUSE_M = 11_000.0
LOWEST_M, HIGHEST_M = -5_000.0, 20_000.0  # the tables begin there; the isothermal layer ends there
M_PER_FT = 0.3048
LOWEST_FT, HIGHEST_FT = LOWEST_M / M_PER_FT, HIGHEST_M / M_PER_FT
EXPONENT = G0_M_S2 / (R_J_KG_K * LAPSE_K_PER_M)  # 5.2559, pressure against temperature
TROPOPAUSE_THETA = 1 - LAPSE_K_PER_M * TROPOPAUSE_M / T0_K
RHO0_KG_M3 = P0_HPA * 100 / (R_J_KG_K * T0_K)
A0_KN = np.sqrt(GAMMA * R_J_KG_K * T0_K) * 3600 / 1852  # 661.479 kn
INHG_HPA = 33.86389  # NIST SP 811, Appendix B.8
WHY = "the two layers of the standard atmosphere coded here end there"


def theta(altitude_ft):
    """Return the temperature ratio at ``altitude_ft`` (geopotential feet, -16,404 to 65,616)."""
    inside("altitude", altitude_ft, LOWEST_FT, HIGHEST_FT + 1e-9, why=WHY)
    height_m = np.minimum(np.asarray(altitude_ft, dtype=float) * M_PER_FT, TROPOPAUSE_M)
    return 1 - LAPSE_K_PER_M * height_m / T0_K


def delta(altitude_ft):
    """Return the pressure ratio at ``altitude_ft`` (geopotential feet; float or array).

    >>> round(float(delta(18_000)), 4)
    0.4994
    """
    above_m = np.maximum(np.asarray(altitude_ft, dtype=float) * M_PER_FT - TROPOPAUSE_M, 0.0)
    scale_m = R_J_KG_K * T0_K * TROPOPAUSE_THETA / G0_M_S2
    return theta(altitude_ft) ** EXPONENT * np.exp(-above_m / scale_m)


def speed_of_sound_kn(temperature_c):
    """Return the speed of sound in knots at an air temperature in degrees Celsius (float or array).

    >>> round(float(speed_of_sound_kn(15.0)), 2)
    661.48
    """
    inside("air temperature", temperature_c, -100, 60)
    return A0_KN * np.sqrt((np.asarray(temperature_c, dtype=float) + 273.15) / T0_K)


def standard_temperature_c(altitude_ft):
    """Return the standard temperature in degrees Celsius at ``altitude_ft``."""
    return T0_K * theta(altitude_ft) - 273.15


def standard(altitude_ft):
    """Return the standard atmosphere at ``altitude_ft`` as a tuple.

    Temperature (degrees Celsius), pressure (hPa), density (kg/m3), speed of sound (kn), theta, delta,
    sigma, root of sigma.  ``altitude_ft`` is geopotential, -16,404 to 65,616, a float or an array.
    """
    temperature_ratio, pressure_ratio = theta(altitude_ft), delta(altitude_ft)
    density_ratio = pressure_ratio / temperature_ratio
    return (
        T0_K * temperature_ratio - 273.15,
        P0_HPA * pressure_ratio,
        RHO0_KG_M3 * density_ratio,
        A0_KN * np.sqrt(temperature_ratio),
        temperature_ratio,
        pressure_ratio,
        density_ratio,
        np.sqrt(density_ratio),
    )


def geopotential_ft(geometric_altitude_m):
    """Return the geopotential feet of a height in geometric metres (float or array, -5,000 to 20,063).

    Source: U.S. Standard Atmosphere, 1976, equation 18.

    >>> round(float(geopotential_ft(12_000)) * 0.3048, 1)
    11977.4
    """
    inside("geometric altitude", geometric_altitude_m, -4_996, 20_063, why=WHY)
    height_m = np.asarray(geometric_altitude_m, dtype=float)
    return EARTH_RADIUS_M * height_m / (EARTH_RADIUS_M + height_m) / M_PER_FT


def standard_geometric(geometric_altitude_m):
    """Return what ``standard`` does, for a height in geometric metres."""
    return standard(geopotential_ft(geometric_altitude_m))


def altitude_of_delta_ft(pressure_ratio):
    """Return the altitude in geopotential feet at which the standard pressure ratio is ``pressure_ratio``."""
    inside("pressure ratio", pressure_ratio, 0.054, 1.78, why=WHY)
    return _altitude_ft(np.asarray(pressure_ratio, dtype=float), EXPONENT)


def altitude_of_sigma_ft(density_ratio):
    """Return the altitude in geopotential feet at which the standard density ratio is ``density_ratio``."""
    inside("density ratio", density_ratio, 0.0718, 1.598, why=WHY)
    return _altitude_ft(np.asarray(density_ratio, dtype=float), EXPONENT - 1)


def _altitude_ft(ratio, exponent):
    """Invert ``theta ** exponent`` and the isothermal layer above it."""
    at_tropopause = TROPOPAUSE_THETA**exponent
    low_m = T0_K / LAPSE_K_PER_M * (1 - ratio ** (1 / exponent))
    scale_m = R_J_KG_K * T0_K * TROPOPAUSE_THETA / G0_M_S2
    high_m = TROPOPAUSE_M - scale_m * np.log(ratio / at_tropopause)
    return np.where(ratio >= at_tropopause, low_m, high_m)[()] / M_PER_FT


def pressure_altitude_ft(elevation_ft, altimeter_inhg):
    """Return the pressure altitude in feet of a place, from its elevation and the altimeter setting.

    The setting (inches of mercury) is defined so that the difference does not depend on the elevation.
    Source: ICAO Doc 7488; FAA-H-8083-25, Aircraft Performance.

    >>> round(float(pressure_altitude_ft(5_883, 30.10)))
    5718
    """
    inside("elevation", elevation_ft, -2_000, 30_000)
    inside("altimeter setting", altimeter_inhg, 26, 32)
    setting = np.asarray(altimeter_inhg, dtype=float) * INHG_HPA / P0_HPA
    return np.asarray(elevation_ft, dtype=float) + altitude_of_delta_ft(setting)


def pressure_altitude_rule_ft(elevation_ft, altimeter_inhg):
    """Return the same by the rule: a thousand feet for each inch below 29.92."""
    inside("elevation", elevation_ft, -2_000, 30_000)
    inside("altimeter setting", altimeter_inhg, 26, 32)
    return np.asarray(elevation_ft, dtype=float) + 1000 * (29.92 - np.asarray(altimeter_inhg, dtype=float))


def density_altitude_ft(pressure_altitude_ft, oat_c):
    """Return the density altitude in feet of dry air at a pressure altitude (ft) and temperature (C)."""
    inside("pressure altitude", pressure_altitude_ft, LOWEST_FT, 60_000)
    inside("air temperature", oat_c, -100, 60)
    sigma = delta(pressure_altitude_ft) * T0_K / (np.asarray(oat_c, dtype=float) + 273.15)
    require(
        (sigma > 0.0719) & (sigma < 1.597),
        "this air is thinner or thicker than the standard atmosphere gives anywhere",
        hint="check the temperature and the pressure altitude",
    )
    return altitude_of_sigma_ft(sigma)


def density_altitude_rule_ft(pressure_altitude_ft, oat_c):
    """Return the same by the rule: 120 feet for each degree above standard, which falls 2 per 1,000 ft."""
    inside("pressure altitude", pressure_altitude_ft, LOWEST_FT, 36_000)
    inside("air temperature", oat_c, -100, 60)
    altitude = np.asarray(pressure_altitude_ft, dtype=float)
    return altitude + 120 * (np.asarray(oat_c, dtype=float) - standard_temperature_rule_c(altitude))


def standard_temperature_rule_c(altitude_ft):
    """Return the standard temperature by the rule: 15 degrees less 2 for each thousand feet."""
    inside("altitude", altitude_ft, LOWEST_FT, 36_089, why="above the tropopause it stays at -56.5")
    return 15 - 2 * np.asarray(altitude_ft, dtype=float) / 1000


def field_density_altitude_ft(elevation_ft, altimeter_inhg, oat_c):
    """Return the density altitude in feet of a place, from elevation, altimeter setting and temperature."""
    return density_altitude_ft(pressure_altitude_ft(elevation_ft, altimeter_inhg), oat_c)


def field_density_altitude_rule_ft(elevation_ft, altimeter_inhg, oat_c):
    """Return the same by the two rules, an inch a thousand feet and a degree 120 feet."""
    return density_altitude_rule_ft(pressure_altitude_rule_ft(elevation_ft, altimeter_inhg), oat_c)


def isa_deviation_c(altitude_ft, oat_c):
    """Return how many degrees warmer than standard the air at ``altitude_ft`` is (colder is negative)."""
    inside("air temperature", oat_c, -100, 60)
    return np.asarray(oat_c, dtype=float) - standard_temperature_c(altitude_ft)


def isa_deviation_rule_c(altitude_ft, oat_c):
    """Return the same by the rule of 2 degrees for each thousand feet."""
    inside("air temperature", oat_c, -100, 60)
    return np.asarray(oat_c, dtype=float) - standard_temperature_rule_c(altitude_ft)
