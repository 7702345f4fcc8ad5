"""Calibrated, equivalent and true airspeed, and Mach number: compressible, up to Mach 2.

Calibrated airspeed is what a perfect airspeed indicator shows; it is taken equal to indicated airspeed
where a rule speaks of that.  Source of the formulas: isentropic flow of air (gamma 1.4), as in FAA and
textbook tables; above Mach 1 a shock stands before the tube (Rayleigh's formula, as in NASA RP-1046).  Constants
as in ``atmosphere``.  Above Mach 2 nothing is checked against a page, so it is refused.
"""

import numpy as np

from trainer.engine import atmosphere
from trainer.engine.atmosphere import A0_KN, P0_HPA
from trainer.engine.domain import inside, require

TOO_FAST = "the formulas are checked up to Mach 2"
HIGHEST_MACH = 2.0
AT_SOUND = 1.2**3.5 - 1.0  # impact pressure over static pressure at Mach 1
MOST_ROUNDS = 60  # of the iteration above Mach 1; it gains a digit every two rounds at Mach 2


def _impact(mach):
    """Return impact pressure over static pressure at a Mach number: what the tube feels."""
    mach = np.asarray(mach, dtype=float)
    # expm1 and log1p keep the digits at low speed, where the impact pressure is tiny.
    below = np.expm1(3.5 * np.log1p(0.2 * mach**2))
    fast = np.maximum(mach, 1.0)
    above = (1.2 * fast**2) ** 3.5 * (6.0 / (7.0 * fast**2 - 1.0)) ** 2.5 - 1.0
    return np.where(mach <= 1.0, below, above)[()]


def _mach_of(impact):
    """Return the Mach number at which impact pressure over static pressure is ``impact``."""
    impact = np.asarray(impact, dtype=float)
    below = np.sqrt(5 * np.expm1(np.log1p(impact) / 3.5))
    fast = np.maximum(impact, AT_SOUND)
    above = np.ones_like(fast)
    for _ in range(MOST_ROUNDS):
        above = np.sqrt((fast + 1.0) / 1.2**3.5 * ((7.0 * above**2 - 1.0) / 6.0) ** 2.5 / above**5)
    return np.where(impact <= AT_SOUND, below, above)[()]


def _mach(cas_kn, pressure_ratio):
    """Return the Mach number at which a pitot tube shows ``cas_kn`` where the pressure is the given share."""
    inside("calibrated airspeed", cas_kn, 0, 2 * A0_KN, why=TOO_FAST)
    mach = _mach_of(_impact(np.asarray(cas_kn, dtype=float) / A0_KN) / pressure_ratio)
    require(mach <= HIGHEST_MACH, "that is faster than Mach 2", hint=TOO_FAST)
    return mach


def _cas_kn(mach, pressure_ratio):
    """Return the calibrated airspeed in knots at a Mach number where the pressure is the given share."""
    inside("Mach number", mach, 0, HIGHEST_MACH, why=TOO_FAST)
    return A0_KN * _mach_of(_impact(mach) * pressure_ratio)


def mach_from_cas(cas_kn, pressure_altitude_ft):
    """Return the Mach number from calibrated airspeed (kn) and pressure altitude (ft); floats or arrays.

    The temperature does not matter: both instruments feel pressures only.
    """
    return _mach(cas_kn, atmosphere.delta(pressure_altitude_ft))


def cas_from_mach_kn(mach, pressure_altitude_ft):
    """Return the calibrated airspeed in knots from Mach number and pressure altitude (ft)."""
    return _cas_kn(mach, atmosphere.delta(pressure_altitude_ft))


def tas_from_mach_kn(mach, oat_c):
    """Return the true airspeed in knots from Mach number and air temperature (C)."""
    inside("Mach number", mach, 0, HIGHEST_MACH, why=TOO_FAST)
    return np.asarray(mach, dtype=float) * atmosphere.speed_of_sound_kn(oat_c)


def tas_from_mach_rule_kn(mach, oat_c):
    """Return the same by the rule of the upper levels: six knots for each hundredth."""
    inside("Mach number", mach, 0, HIGHEST_MACH, why=TOO_FAST)
    inside("air temperature", oat_c, -100, 60)
    return np.asarray(mach, dtype=float) * 600 + 0 * np.asarray(oat_c, dtype=float)


def mach_from_tas(tas_kn, oat_c):
    """Return the Mach number from true airspeed (kn) and air temperature (C)."""
    inside("true airspeed", tas_kn, 0, 1_400)
    mach = np.asarray(tas_kn, dtype=float) / atmosphere.speed_of_sound_kn(oat_c)
    require(mach <= HIGHEST_MACH, "that is faster than Mach 2", hint=TOO_FAST)
    return mach


def true_airspeed(cas_kn, pressure_altitude_ft, oat_c):
    """Return (true airspeed in kn, Mach number) from calibrated airspeed, pressure altitude, temperature.

    >>> [round(float(value), 3) for value in true_airspeed(250, 10_000, -4.8)]
    [288.709, 0.452]
    """
    mach = mach_from_cas(cas_kn, pressure_altitude_ft)
    return tas_from_mach_kn(mach, oat_c), mach


def calibrated_airspeed(tas_kn, pressure_altitude_ft, oat_c):
    """Return (calibrated airspeed in kn, Mach number) from true airspeed, pressure altitude, temperature."""
    mach = mach_from_tas(tas_kn, oat_c)
    return cas_from_mach_kn(mach, pressure_altitude_ft), mach


def speeds_from_tas(tas_kn, speed_of_sound_kn, static_pressure_hpa):
    """Return (calibrated airspeed kn, equivalent airspeed kn, Mach) where the air itself is known."""
    ratio = _pressure_ratio(static_pressure_hpa)
    inside("speed of sound", speed_of_sound_kn, 500, 720)
    inside("true airspeed", tas_kn, 0, 1_400)
    mach = np.asarray(tas_kn, dtype=float) / speed_of_sound_kn
    return _cas_kn(mach, ratio), A0_KN * mach * np.sqrt(ratio), mach


def speeds_from_cas(cas_kn, speed_of_sound_kn, static_pressure_hpa):
    """Return (true airspeed kn, equivalent airspeed kn, Mach) where the air itself is known."""
    ratio = _pressure_ratio(static_pressure_hpa)
    inside("speed of sound", speed_of_sound_kn, 500, 720)
    mach = _mach(cas_kn, ratio)
    return mach * speed_of_sound_kn, A0_KN * mach * np.sqrt(ratio), mach


def standard_tas_kn(ias_kn, flight_level):
    """Return the true airspeed in knots of an indicated airspeed at a flight level on a standard day."""
    altitude_ft = np.asarray(flight_level, dtype=float) * 100
    return true_airspeed(ias_kn, altitude_ft, atmosphere.standard_temperature_c(altitude_ft))[0]


def half_flight_level_kn(ias_kn, flight_level):
    """Return the true airspeed by the rule: indicated airspeed plus half the flight level."""
    ias, level = _rule_inputs(ias_kn, flight_level)
    return ias + level / 2


def five_per_thousand_kn(ias_kn, flight_level):
    """Return the true airspeed by the rule: five knots for each thousand feet."""
    ias, level = _rule_inputs(ias_kn, flight_level)
    return ias + 5 * level / 10


def two_percent_kn(ias_kn, flight_level):
    """Return the true airspeed by the rule: two percent for each thousand feet."""
    ias, level = _rule_inputs(ias_kn, flight_level)
    return ias * (1 + 0.02 * level / 10)


def _rule_inputs(ias_kn, flight_level):
    inside("indicated airspeed", ias_kn, 0, A0_KN)
    inside("flight level", flight_level, 0, 450)
    mach_from_cas(ias_kn, np.asarray(flight_level, dtype=float) * 100)  # refuses what is too fast
    return np.asarray(ias_kn, dtype=float), np.asarray(flight_level, dtype=float)


def _pressure_ratio(static_pressure_hpa):
    inside("static pressure", static_pressure_hpa, 54, 1_100)
    return np.asarray(static_pressure_hpa, dtype=float) / P0_HPA
