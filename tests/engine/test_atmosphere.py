"""The standard atmosphere and the altitudes read from it."""

import numpy as np
import pytest

from trainer.engine import atmosphere as air
from trainer.errors import DomainError

# ICAO Doc 7488 and U.S. Standard Atmosphere, 1976, in geopotential feet.
TABLE_HPA = [(0, 1013.25), (5_000, 843.07), (18_000, 506.00), (36_089.24, 226.32)]
LAST_DIGIT_HPA = 0.005


@pytest.mark.parametrize("altitude_ft, expected_hpa", TABLE_HPA)
def test_pressure_matches_the_printed_table(altitude_ft, expected_hpa):
    assert abs(air.standard(altitude_ft)[1] - expected_hpa) <= LAST_DIGIT_HPA


def test_the_two_layers_meet_at_the_tropopause():
    below, above = (np.array(air.standard(11_000 / 0.3048 + hair)) for hair in (-1e-6, 1e-6))
    assert np.allclose(below, above, rtol=1e-9)


def test_temperature_stays_where_the_isothermal_layer_begins():
    assert air.standard_temperature_c(40_000) == air.standard_temperature_c(60_000) == pytest.approx(-56.5)


@pytest.mark.parametrize("outside", [-16_500, 65_620, float("nan"), float("inf")])
def test_outside_the_two_layers_is_refused(outside):
    for function in (air.theta, air.delta, air.standard):
        with pytest.raises(DomainError):
            function(outside)


def test_the_top_of_the_table_is_inside():
    assert air.standard(20_000 / 0.3048)[1] == pytest.approx(54.7489, abs=2e-4)


def test_altitude_from_ratio_turns_the_ratios_round():
    altitude_ft = np.linspace(air.LOWEST_FT, air.HIGHEST_FT, 101)
    sigma = air.standard(altitude_ft)[6]
    assert np.allclose(air.altitude_of_delta_ft(air.delta(altitude_ft)), altitude_ft, atol=1e-6)
    assert np.allclose(air.altitude_of_sigma_ft(sigma), altitude_ft, atol=1e-6)


def test_pressure_altitude_is_where_the_standard_atmosphere_has_that_pressure():
    """At sea level the altimeter setting is the pressure itself."""
    setting_inhg = np.array([28.0, 29.0, 29.92, 30.10, 31.0])
    altitude_ft = air.pressure_altitude_ft(0, setting_inhg)
    assert np.allclose(air.standard(altitude_ft)[1], setting_inhg * air.INHG_HPA, rtol=1e-12)


def test_density_altitude_is_where_the_standard_atmosphere_has_that_density():
    """The tight check beside the chart: gas law for the air, table for the altitude."""
    for pressure_altitude_ft, oat_c in [(5_718, 21.1), (0, 40), (25_000, -60), (36_000, -40), (-1_000, -30)]:
        pressure_pa = air.standard(pressure_altitude_ft)[1] * 100
        density = pressure_pa / (287.05287 * (oat_c + 273.15))
        found = air.standard(air.density_altitude_ft(pressure_altitude_ft, oat_c))[2]
        assert found == pytest.approx(density, rel=1e-12)


def test_on_a_standard_day_the_three_altitudes_agree():
    for altitude_ft in (0, 5_000, 20_000, 36_000):
        oat_c = air.standard_temperature_c(altitude_ft)
        assert air.density_altitude_ft(altitude_ft, oat_c) == pytest.approx(altitude_ft, abs=1e-6)
        assert air.isa_deviation_c(altitude_ft, oat_c) == pytest.approx(0, abs=1e-12)


def test_warm_air_is_high_and_a_high_setting_is_low():
    assert air.density_altitude_ft(2_000, 30) > air.density_altitude_ft(2_000, 10)
    assert air.pressure_altitude_ft(2_000, 30.2) < 2_000 < air.pressure_altitude_ft(2_000, 29.6)


def test_the_rules_stay_near_the_truth_where_one_flies():
    altitude_ft = np.linspace(0, 8_000, 9)
    for oat_c in (-10, 15, 40):
        exact = air.density_altitude_ft(altitude_ft, oat_c)
        assert np.max(np.abs(air.density_altitude_rule_ft(altitude_ft, oat_c) - exact)) < 500
    for setting_inhg in (29.2, 29.92, 30.6):
        exact = air.pressure_altitude_ft(altitude_ft, setting_inhg)
        assert np.max(np.abs(air.pressure_altitude_rule_ft(altitude_ft, setting_inhg) - exact)) < 60


def test_geometric_height_is_above_geopotential_except_at_the_sea():
    height_m = np.array([-2_000.0, 0.0, 2_000.0, 20_000.0])
    assert np.allclose(air.geopotential_ft(height_m) * 0.3048, [-2_000.63, 0, 1_999.37, 19_937.27], atol=0.01)
