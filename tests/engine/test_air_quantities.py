"""What holds for every quantity of atmosphere, airspeed, sun, earth, beacon, balance and units alike."""

import random

import numpy as np
import pytest

from trainer.engine.quantities import QUANTITIES, airspeed, atmosphere, balance, beacon, conversion, earth, sun
from trainer.errors import DomainError
from trainer.model import AREAS, STATUSES

MODULES = (atmosphere, airspeed, sun, earth, beacon, balance, conversion)
MINE = {quantity.name: quantity for module in MODULES for quantity in module.QUANTITIES}
POINTS = 7
# Where the whole range of single inputs does not fit together (a Mach number beyond 1, a polar night).
SENSIBLE = {
    "altitude_ft": (0, 36_000), "pressure_altitude_ft": (0, 25_000), "oat_c": (-40, 40), "cas_kn": (100, 300),
    "tas_kn": (100, 400), "ias_kn": (150, 350), "flight_level": (0, 300), "mach": (0.2, 0.6),
    "static_pressure_hpa": (500, 1_050), "latitude_deg": (-40, 40), "longitude_deg": (-90, 90),
    "from_latitude_deg": (20, 22), "from_longitude_deg": (-41, -39), "to_latitude_deg": (23, 25),
    "to_longitude_deg": (-42, -40), "utc_offset_h": (-1, 1), "empty_weight_lb": (20_000, 30_000),
    "elevation_ft": (0, 8_000), "altimeter_inhg": (28.5, 31), "distance_nm": (1, 500),
}  # fmt: skip
WHOLE = {"year", "month", "day", "channel", "height_km"}


def one(spec, rng):
    """Return a value of ``spec`` that goes with the others."""
    if spec.words:
        return float(rng.choice(list(spec.words)))
    if spec.name == "frequency_mhz":
        return rng.randrange(108 * 20, 118 * 20) / 20
    if spec.name == "year" and spec.unit == "year":
        return float(rng.randint(2025, 2029))
    if spec.name == "day":
        return float(rng.randint(1, 28))
    if spec.name.startswith("station_"):
        return rng.uniform(0, 1_000)
    low, high = SENSIBLE.get(spec.name, (spec.low, spec.high))
    return float(rng.randint(int(low), int(high))) if spec.name in WHOLE else rng.uniform(low, high)


def draws(quantity):
    """Return {input name: array} of ``POINTS`` sets of inputs."""
    rng = random.Random(quantity.name)
    return {spec.name: np.array([one(spec, rng) for _ in range(POINTS)]) for spec in quantity.inputs}


CASES = [(quantity, method) for quantity in MINE.values() for method in quantity.methods]
cases = pytest.mark.parametrize("quantity, method", CASES, ids=[f"{q.name}-{m}" for q, m in CASES])
quantities = pytest.mark.parametrize("quantity", MINE.values(), ids=list(MINE))


def test_the_table_holds_them_all_under_their_own_names():
    assert len(MINE) == sum(len(module.QUANTITIES) for module in MODULES)
    assert all(QUANTITIES[name] is quantity for name, quantity in MINE.items())


@cases
def test_an_array_gives_what_its_elements_give_one_by_one(quantity, method):
    inputs = draws(quantity)
    together = quantity.compute(inputs, method=method)
    for index in range(POINTS):
        alone = quantity.compute({name: float(values[index]) for name, values in inputs.items()}, method=method)
        for name, value in alone.items():
            assert np.ndim(value) == 0
            # numpy's vector instructions may differ from its scalar ones in the last bits of exp and log.
            assert abs(np.asarray(together[name])[index] - value) <= 8 * np.spacing(abs(value)), name


@cases
def test_not_a_number_is_refused_in_every_input(quantity, method):
    inputs = {name: float(values[0]) for name, values in draws(quantity).items()}
    for name in inputs:
        with pytest.raises(DomainError):
            quantity.compute({**inputs, name: float("nan")}, method=method)
        with pytest.raises(DomainError):
            quantity.compute({**inputs, name: np.array([inputs[name], np.nan])}, method=method)


@cases
def test_the_function_itself_refuses_what_is_out_of_range(quantity, method):
    """A formula of a deck calls the function without the check of the entry."""
    inputs = {name: float(values[0]) for name, values in draws(quantity).items()}
    for spec in quantity.inputs:
        for value in (float("nan"), float("inf"), -1e12):
            with pytest.raises(DomainError):
                quantity.methods[method](**{**inputs, spec.name: value})


@quantities
def test_worked_lines_are_plain_sentences_with_numbers(quantity):
    inputs = draws(quantity)
    for index in range(POINTS):
        given = {name: float(values[index]) for name, values in inputs.items()}
        for work in filter(None, (quantity.mental, quantity.exact)):
            lines = work(**given)
            assert isinstance(lines, tuple) and lines
            assert any(character.isdigit() for character in " ".join(lines))
            for line in lines:
                assert isinstance(line, str) and line.strip() == line and "nan" not in line and "{" not in line
                assert "array" not in line and "np." not in line


@quantities
def test_slips_lead_to_wrong_answers(quantity):
    """Each slip gives, for most draws, something else than the truth by any method."""
    inputs = draws(quantity)
    assert len(quantity.slips) >= 2
    assert len({slip.name for slip in quantity.slips}) == len(quantity.slips)
    for slip in quantity.slips:
        result = quantity.result(slip.result)
        wrong = np.broadcast_to(np.asarray(slip.wrong(**inputs), dtype=float), (POINTS,))
        assert np.all(np.isfinite(wrong))
        for method in quantity.methods:
            truth = np.asarray(quantity.compute(inputs, method=method)[result.name], dtype=float)
            off = np.abs(wrong - truth) > result.tolerance.on
            assert np.any(off), f"{slip.name} is no mistake by {method}"


@quantities
def test_entries_are_complete(quantity):
    assert quantity.area in AREAS
    assert quantity.source.status in STATUSES and quantity.source.text
    assert quantity.words
    assert all(spec.low < spec.high or spec.words for spec in quantity.inputs)
    assert all(result.tolerance.on <= result.tolerance.inside for result in quantity.results)
