"""What must hold for every quantity, whoever wrote it: one test, drawn inputs, every method."""

import math
from importlib import import_module
from pkgutil import iter_modules

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from trainer.engine import picture_text, quantities
from trainer.engine.quantities import QUANTITIES
from trainer.engine.tables import InterpolatedTable, StepTable
from trainer.engine.units import UNITS
from trainer.errors import DomainError

# Tables of the user's files, of both kinds; wide enough for weights and for distances.
BANDS = StepTable(low=0, upto=(30_000, 43_000, 60_000), values=(4, 6, 7.5), name="bands")
POINTS = InterpolatedTable(at=(0, 40_000, 60_000), values=(10, 14, 19), name="points")

# Turning every direction by one angle turns the directions of the answer with it and changes nothing else,
# except where a direction is tied to the earth.
TIED_TO_THE_EARTH = {
    "geodesic_destination": "the bearing is from a pole, not from a ship",
    "pigeons": "the bearing is from a pole, not from a ship",
}

# Multiplying every speed by a number multiplies speeds, divides times and leaves all else alone.
SPEEDS_SCALE = {
    "wind_over_deck", "wind_down_the_bow", "angle_crosswind", "true_wind", "runway_wind", "wanted_wind",
    "recovery_course", "heading_for_course", "track_made_good", "airspeed_for_schedule", "wind_found", "crab",
    "time_to_go", "arc_time", "closest_approach", "target_motion", "intercept", "closing",
    "section_after_turn",
}  # fmt: skip
TIMES, SPEEDS = {"s", "min", "h"}, {"kn"}
SMALL = 1e-6


def numbers(spec):
    """Draw a value of the input ``spec``: its ends, whole numbers, and numbers between."""
    if spec.words:
        return st.sampled_from(sorted(float(value) for value in spec.words))
    if UNITS[spec.unit].cycle == 360:
        # Eighths of a degree are exact in floating point, so turning them adds no rounding.
        return st.integers(math.ceil(spec.low * 8), math.floor(spec.high * 8)).map(lambda count: count / 8)
    whole = st.integers(math.ceil(spec.low), math.floor(spec.high)).map(float)
    between = st.floats(spec.low, spec.high).map(lambda value: min(max(round(value, 3), spec.low), spec.high))
    ends = st.sampled_from([spec.low, spec.high])
    return st.one_of(whole, whole, between, ends) if math.ceil(spec.low) <= spec.high else between


def inputs_of(quantity):
    drawn = {spec.name: numbers(spec) for spec in quantity.inputs if spec.unit != "table"}
    return st.fixed_dictionaries(drawn)


def with_tables(quantity, inputs):
    table = BANDS if quantity.name.endswith("_step") else POINTS
    return {**{spec.name: table for spec in quantity.inputs if spec.unit == "table"}, **inputs}


def computed(quantity, inputs, method):
    """Return the results, or None where the engine refuses."""
    try:
        return quantity.compute(with_tables(quantity, inputs), method=method)
    except DomainError:
        return None


def refuses(quantity, inputs, method):
    return computed(quantity, inputs, method) is None


def check_array_equals_scalars(quantity, several, method):
    one_by_one = [computed(quantity, inputs, method) for inputs in several]
    stacked = {name: np.array([inputs[name] for inputs in several]) for name in several[0]}
    together = computed(quantity, stacked, method)
    if any(values is None for values in one_by_one):
        assert together is None, "an array with a refused element is refused"
        return
    for name in one_by_one[0]:
        scalars = [float(values[name]) for values in one_by_one]
        array = np.broadcast_to(together[name], len(several))
        np.testing.assert_allclose(array, scalars, rtol=1e-9, atol=1e-9, err_msg=f"{quantity.name} {name}")


def check_finite(results):
    for name, value in results.items():
        assert np.isfinite(float(value)), name


def check_nan_and_outside_refused(quantity, inputs, method):
    for spec in quantity.inputs:
        if spec.unit == "table":
            continue
        outside = [99.5] if spec.words else [np.nextafter(spec.low, -np.inf), np.nextafter(spec.high, np.inf)]
        for bad in (np.nan, *outside):
            assert refuses(quantity, {**inputs, spec.name: bad}, method), f"{spec.name} = {bad!r} is accepted"
        for function in quantity.methods.values():  # a deck's formula may call it without the entry's check
            with pytest.raises(DomainError):
                function(**with_tables(quantity, {**inputs, spec.name: np.nan}))


def check_slips(quantity, inputs):
    for slip in quantity.slips:
        quantity.result(slip.result)  # the slip names a result that is there
        try:
            wrong = slip.wrong(**with_tables(quantity, inputs))
        except DomainError:
            continue
        assert np.isfinite(float(wrong)), slip.name


def check_worked_lines(quantity, inputs):
    given_inputs = with_tables(quantity, inputs)
    for way in (quantity.mental, quantity.exact):
        for line in way(**given_inputs) if way else ():
            assert isinstance(line, str) and line.strip() == line and line, quantity.name
            assert not {"nan", "inf", "-inf"} & set(line.replace(",", " ").split()), line
    for ascii_only in (True, False) if quantity.picture else ():
        lines = picture_text.lines(quantity.picture(**given_inputs), ascii_only=ascii_only)
        assert all(len(line) <= 60 and "\n" not in line for line in lines), lines
        assert not ascii_only or all(line.isascii() for line in lines), lines


def off(result, value, expected):
    """Return the difference, the short way round for angles (-180 and 180 are one direction)."""
    difference = float(value) - float(expected)
    if UNITS[result.unit].dimension in ("direction", "angle"):
        return (difference + 180) % 360 - 180
    return difference


def check_turned(quantity, inputs, results, angle, method):
    directions = [spec.name for spec in quantity.inputs if UNITS[spec.unit].cycle == 360]
    if not directions or quantity.name in TIED_TO_THE_EARTH:
        return
    turned = {**inputs, **{name: (inputs[name] + angle - 1) % 360 + 1 for name in directions}}
    after = computed(quantity, turned, method)
    # A vector of no length has no direction, and rounding decides between two equal ways round.
    still = any(
        not result.words and UNITS[result.unit].cycle == 0 and abs(float(results[result.name])) < SMALL
        for result in quantity.results
    )
    if after is None or still:
        return
    for result in quantity.results:
        by = angle if UNITS[result.unit].cycle == 360 else 0
        assert abs(off(result, after[result.name], results[result.name] + by)) < 1e-5, result.name


def check_scaled(quantity, inputs, results, factor, method):
    if quantity.name not in SPEEDS_SCALE:
        return
    speeds = [spec.name for spec in quantity.inputs if spec.unit in SPEEDS]
    after = computed(quantity, {**inputs, **{name: inputs[name] * factor for name in speeds}}, method)
    still = any(result.unit in SPEEDS and abs(float(results[result.name])) < SMALL for result in quantity.results)
    if after is None or still:
        return
    for result in quantity.results:
        by = factor if result.unit in SPEEDS else 1 / factor if result.unit in TIMES else 1
        expected = float(results[result.name]) * by
        assert abs(off(result, after[result.name], expected)) <= 1e-6 * max(1.0, abs(expected)), result.name


@pytest.mark.parametrize("name", QUANTITIES)
def test_every_quantity_behaves(name):
    quantity = QUANTITIES[name]
    answered = []

    @settings(max_examples=15, deadline=None, database=None, derandomize=True,
              suppress_health_check=list(HealthCheck))  # fmt: skip
    @given(
        several=st.lists(inputs_of(quantity), min_size=3, max_size=3),
        angle=st.integers(1, 359),
        factor=st.sampled_from([0.5, 2.0]),
    )
    def behaves(several, angle, factor):
        for method in quantity.methods:
            check_array_equals_scalars(quantity, several, method)
            for inputs in several:
                results = computed(quantity, inputs, method)
                if results is None:
                    continue
                answered.append(method)
                check_finite(results)
                check_turned(quantity, inputs, results, angle, method)
                check_scaled(quantity, inputs, results, factor, method)
        if first := next((i for i in several if not refuses(quantity, i, "")), None):
            check_nan_and_outside_refused(quantity, first, "")
            check_slips(quantity, first)
            check_worked_lines(quantity, first)

    behaves()
    assert next(iter(quantity.methods)) in answered, "no drawn input was accepted: the test would prove nothing"


def test_every_quantity_names_its_slips_and_words():
    for quantity in QUANTITIES.values():
        assert len(quantity.slips) >= 2, quantity.name
        assert quantity.source.text and quantity.title
        names = [(slip.name, slip.result) for slip in quantity.slips]
        assert len(set(names)) == len(names), quantity.name


def test_the_lists_name_quantities_that_exist():
    assert SPEEDS_SCALE | set(TIED_TO_THE_EARTH) <= set(QUANTITIES)


def test_every_entry_is_in_the_table_under_a_name_of_its_own():
    """Two entries of one name would hide each other without a word."""
    modules = [import_module(f"{quantities.__name__}.{found.name}") for found in iter_modules(quantities.__path__)]
    entries = [entry.name for module in modules for entry in getattr(module, "QUANTITIES", ())]
    assert sorted(entries) == sorted(QUANTITIES)
