"""Units, against an independent library of units."""

import numpy as np
import pint
import pytest

from trainer.engine.quantities import QUANTITIES
from trainer.engine.quantities.conversion import QUANTITIES as PAIRS
from trainer.engine.quantity import EXACT, RULE
from trainer.engine.units import UNITS, convert

REGISTRY = pint.UnitRegistry()
NAMES = {
    "nm": "nautical_mile", "ft": "foot", "yd": "yard", "km": "kilometer", "sm": "mile", "m": "meter",
    "kn": "knot", "mph": "mile/hour", "km/h": "kilometer/hour", "ft/s": "foot/second",
    "m/s": "meter/second",
    "nm/min": "nautical_mile/minute", "lb": "pound", "kg": "kilogram", "inhg": "inch_Hg", "hpa": "hectopascal",
    "c": "degC", "f": "degF",
}  # fmt: skip
# How far the way done in the head may be off, as a share of the answer; temperatures and pressures in degrees, hPa, in.
RULE_SHARE = 0.035
RULE_OFF = {"inhg_to_hpa": 1.0, "hpa_to_inhg": 0.05, "c_to_f": 1e-9, "f_to_c": 1.0}
USUAL = {
    "pressure_inhg": (28.5, 29.92, 31.0), "pressure_hpa": (965.0, 1013.25, 1050.0), "temperature_f": (-20, 32, 100),
}  # fmt: skip


@pytest.mark.parametrize("quantity", PAIRS, ids=[quantity.name for quantity in PAIRS])
def test_equals_the_independent_library(quantity):
    given, result = quantity.inputs[0], quantity.results[0]
    for value in USUAL.get(given.name, (0.0, 1.0, 35.0, 12_345.6)):
        if value > given.high:
            continue
        expected = REGISTRY.Quantity(value, NAMES[given.unit]).to(NAMES[result.unit]).magnitude
        found = quantity.compute({given.name: value}, method=EXACT)[result.name]
        # The library builds its inch of mercury from a density of 13,595.1 kg/m3: 1.1e-7 less than the NIST factor.
        assert found == pytest.approx(expected, rel=1.2e-7 if "inhg" in quantity.name else 1e-12, abs=1e-12)


@pytest.mark.parametrize("quantity", PAIRS, ids=[quantity.name for quantity in PAIRS])
def test_there_and_back(quantity):
    there, back = quantity.name.split("_to_")
    other = QUANTITIES[f"{back}_to_{there}"]
    values = np.array([1.0, 17.5, 960.0])
    middle = quantity.compute({quantity.inputs[0].name: values}, method=EXACT)
    assert np.allclose(other.compute(middle, method=EXACT)[quantity.inputs[0].name], values, rtol=1e-12)


@pytest.mark.parametrize("quantity", PAIRS, ids=[quantity.name for quantity in PAIRS])
def test_the_way_in_the_head_stays_near(quantity):
    given, result = quantity.inputs[0], quantity.results[0]
    for value in USUAL.get(given.name, (1.0, 40.0)):
        exact = quantity.compute({given.name: value}, method=EXACT)[result.name]
        rule = quantity.compute({given.name: value}, method=RULE)[result.name]
        assert abs(rule - exact) <= RULE_OFF.get(quantity.name, RULE_SHARE * exact)


FUEL = {
    "lb": "pound", "klb": "1000 * pound", "kg": "kilogram", "lb/h": "pound/hour", "lb/min": "pound/minute",
    "kg/h": "kilogram/hour", "kg/min": "kilogram/minute", "gal": "gallon", "l": "liter", "imp gal": "imperial_gallon",
    "lb/gal": "pound/gallon", "kg/l": "kilogram/liter",
}  # fmt: skip
DIMENSIONS = ("mass", "fuel flow", "volume", "fuel density")


def test_every_unit_of_fuel_is_that_of_the_independent_library():
    units = [unit for unit in UNITS.values() if unit.dimension in DIMENSIONS]
    assert {unit.name for unit in units} == FUEL.keys()
    for one in units:
        for other in units:
            if one.dimension == other.dimension:
                expected = 1234.5 * REGISTRY(FUEL[one.name]) / REGISTRY(FUEL[other.name])
                assert convert(1234.5, one.name, other.name) == pytest.approx(expected.to("").magnitude, rel=1e-9)
