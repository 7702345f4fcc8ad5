"""Magnetic variation, and true against magnetic directions."""

import warnings

import numpy as np
import pytest

from trainer.engine import magnetic
from trainer.errors import DomainError

PLACE = {"latitude_deg": 24.5, "longitude_deg": -41.0, "height_km": 0}


def test_loading_and_computing_warn_of_nothing():
    magnetic._model.cache_clear()
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        for year in (2012.0, 2017.5, 2022.0, 2027.0):
            magnetic.field(year=year, **PLACE, model=12)
        magnetic.field(year=2026.0, **PLACE, model=133)


@pytest.mark.parametrize("year", [2015.0, 2020.0, 2025.0])
def test_neighbouring_models_agree_where_they_meet(year):
    """A year drawn from the wrong model would be off by its whole drift; at the seam they differ by little."""
    before = magnetic.field(year=year - 1e-6, **PLACE, model=12)[0]
    after = magnetic.field(year=year, **PLACE, model=12)[0]
    assert before == pytest.approx(after, abs=0.15)
    assert before != after


def test_the_last_year_is_inside_and_the_next_is_not():
    magnetic.field(year=2030.0, **PLACE, model=12)
    for year in (2009.9, 2030.1, float("nan")):
        with pytest.raises(DomainError):
            magnetic.field(year=year, **PLACE, model=12)


def test_high_resolution_begins_in_2025():
    with pytest.raises(DomainError, match="2025"):
        magnetic.field(year=2024.0, **PLACE, model=133)
    with pytest.raises(DomainError):
        magnetic.field(year=2026.0, **PLACE, model=13)


def test_longitude_may_count_to_360():
    west = magnetic.field(2025.0, -80, -120, 0, 12)
    assert magnetic.field(2025.0, -80, 240, 0, 12) == pytest.approx(west, rel=1e-12)


def test_asking_again_gives_the_same_though_the_model_is_kept():
    first = magnetic.field(year=2026.0, **PLACE, model=12)
    magnetic.field(2027.0, 60, 100, 20, 12)
    assert magnetic.field(year=2026.0, **PLACE, model=12) == first


def test_the_four_results_fit_together():
    _, dip, total, horizontal = magnetic.field(year=2026.0, **PLACE, model=12)
    assert horizontal == pytest.approx(total * np.cos(np.radians(dip)))


def test_there_and_back_keeps_the_direction():
    for variation_deg in (-170, -15, 0, 12.5, 180):
        true_deg = np.arange(1.0, 361.0)
        magnetic_deg = magnetic.magnetic_from_true_deg(true_deg, variation_deg)
        assert np.all((magnetic_deg > 0) & (magnetic_deg <= 360))
        assert np.allclose(magnetic.true_from_magnetic_deg(magnetic_deg, variation_deg), true_deg)


def test_west_goes_on_and_east_comes_off():
    assert magnetic.magnetic_from_true_deg(355, -15) == 10
    assert magnetic.magnetic_from_true_deg(5, 15) == 350
