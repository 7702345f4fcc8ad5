"""Calibrated, equivalent and true airspeed, and Mach number."""

import numpy as np
import pytest

from trainer.engine import airspeed, atmosphere
from trainer.errors import DomainError

CAS_KN = np.array([60.0, 100, 150, 200, 250, 300, 350])


@pytest.mark.parametrize("altitude_ft", [-1_000, 0, 10_000, 25_000, 36_089, 45_000])
@pytest.mark.parametrize("warmer_c", [-20, 0, 20])
def test_there_and_back(altitude_ft, warmer_c):
    oat_c = atmosphere.standard_temperature_c(altitude_ft) + warmer_c
    cas_kn = CAS_KN[CAS_KN < 250]
    tas_kn, mach = airspeed.true_airspeed(cas_kn, altitude_ft, oat_c)
    back_kn, same_mach = airspeed.calibrated_airspeed(tas_kn, altitude_ft, oat_c)
    assert np.allclose(back_kn, cas_kn, rtol=1e-12)
    assert np.allclose(same_mach, mach, rtol=1e-12)
    assert np.allclose(airspeed.cas_from_mach_kn(mach, altitude_ft), cas_kn, rtol=1e-12)


def test_at_sea_level_on_a_standard_day_all_are_one():
    tas_kn, mach = airspeed.true_airspeed(CAS_KN, 0, 15)
    assert np.allclose(tas_kn, CAS_KN, rtol=1e-12)
    assert np.allclose(mach * atmosphere.A0_KN, CAS_KN, rtol=1e-12)


def test_slow_flight_has_no_compressibility():
    """At 40 knots calibrated and equivalent agree to a ten-thousandth, and both follow the root of sigma."""
    sound_kn, pressure_hpa = 638.3, 696.8  # 10,000 ft
    tas_kn, eas_kn, _ = airspeed.speeds_from_cas(40.0, sound_kn, pressure_hpa)
    sigma = pressure_hpa / 1013.25 * (661.4786 / sound_kn) ** 2
    assert eas_kn == pytest.approx(40.0, rel=1e-3)
    assert tas_kn == pytest.approx(eas_kn / sigma**0.5, rel=1e-6)


def test_calibrated_lies_above_equivalent_aloft():
    cas_kn, eas_kn, _ = airspeed.speeds_from_tas(450.0, 590.0, 300.0)
    assert cas_kn > eas_kn + 5


def test_tiny_speeds_keep_their_digits():
    cas_kn, _, _ = airspeed.speeds_from_tas(1e-3, 650.0, 900.0)
    assert cas_kn == pytest.approx(1e-3 / 650 * 661.4786 * (900 / 1013.25) ** 0.5, rel=1e-6)


@pytest.mark.parametrize("cas_kn, altitude_ft", [(700, 45_000), (1_300, 5_000)])
def test_faster_than_twice_the_speed_of_sound_is_refused(cas_kn, altitude_ft):
    with pytest.raises(DomainError, match="faster than Mach 2"):
        airspeed.true_airspeed(cas_kn, altitude_ft, -40)
    with pytest.raises(DomainError):
        airspeed.mach_from_tas(1_300, -40)


# NACA Report 1135 (1953), Table II: p2t/p1 of supersonic flow at the Mach number, from memory, printed to four digits.
RAYLEIGH = [(1.0, 1.8929), (1.5, 3.4133), (2.0, 5.6404)]


@pytest.mark.parametrize("mach, ratio", RAYLEIGH)
def test_the_pressure_behind_a_shock_is_that_of_the_table(mach, ratio):
    at_sea_level = airspeed.cas_from_mach_kn(mach, 0.0)
    assert at_sea_level == pytest.approx(mach * 661.4786, rel=1e-5)  # by definition of calibrated airspeed
    assert float(airspeed._impact(mach)) + 1.0 == pytest.approx(ratio, abs=5e-5)


def test_mach_one_is_no_edge():
    below, above = airspeed.mach_from_cas(388.0, 30_000), airspeed.mach_from_cas(390.0, 30_000)
    assert below < 1.0 < above < airspeed.mach_from_cas(400.0, 30_000) and 0 < above - below < 0.01
    for mach in (0.9, 0.999, 1.0, 1.001, 1.3, 1.9):
        assert airspeed.mach_from_cas(airspeed.cas_from_mach_kn(mach, 30_000), 30_000) == pytest.approx(mach, abs=1e-6)


def test_the_three_rules_for_a_jet():
    """240 kt at flight level 300; the standard day gives 379 (it is the reason why the rule is a rule)."""
    assert airspeed.half_flight_level_kn(240, 300) == 390
    assert airspeed.five_per_thousand_kn(240, 300) == 390
    assert airspeed.two_percent_kn(240, 300) == pytest.approx(384)
    assert airspeed.standard_tas_kn(240, 300) == pytest.approx(379, abs=0.5)


def test_rules_stay_within_thirty_knots_where_one_flies():
    for ias_kn in (200, 250, 300):
        for level in (50, 100, 150, 200):
            exact = airspeed.standard_tas_kn(ias_kn, level)
            assert abs(airspeed.half_flight_level_kn(ias_kn, level) - exact) < 30
