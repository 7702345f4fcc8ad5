"""Whether past forecasts were honest."""

import numpy as np
import pytest

from trainer.memory.reliability import FEWEST, RECENT, Recalibration, fitted, recalibration, reliability

SEED = 11


def forecasts(count, *, shift=0.0, stretch=1.0):
    """Return (predicted, observed) where the truth has log-odds ``shift`` + ``stretch`` times those predicted."""
    rng = np.random.default_rng(SEED)
    predicted = rng.uniform(0.05, 0.95, count)
    truth = Recalibration(shift=shift, stretch=stretch).apply(predicted)
    return predicted, (rng.random(count) < truth).astype(float)


def test_honest_forecasts_have_a_small_error_and_boasting_ones_a_large_one():
    honest, boasting = reliability(*forecasts(4000)), reliability(*forecasts(4000, shift=-1.0))
    assert honest.calibration_error < 0.03 < 0.12 < boasting.calibration_error
    assert boasting.bias > 0.12 > abs(honest.bias)
    assert honest.brier < honest.brier_constant
    assert honest.log_loss < boasting.log_loss


def test_the_figures_are_those_worked_out_by_hand():
    """Half the forecasts say .8 and 90 % of them are right, half say .2 and 30 % are right."""
    predicted = [0.8] * 50 + [0.2] * 50
    observed = [1] * 45 + [0] * 5 + [1] * 15 + [0] * 35
    found = reliability(predicted, observed)
    assert found.brier == pytest.approx((45 * 0.04 + 5 * 0.64 + 15 * 0.64 + 35 * 0.04) / 100)
    assert found.brier_constant == pytest.approx(0.24)
    assert found.bias == pytest.approx(-0.1)
    assert sum(one.count for one in found.bins) == found.count == 100
    assert all(one.predicted in (pytest.approx(0.8), pytest.approx(0.2)) for one in found.bins)


def test_too_few_answers_say_nothing():
    early = reliability(*forecasts(FEWEST - 1))
    assert early.too_early and early.brier is None and early.bins == ()
    assert not reliability(*forecasts(FEWEST)).too_early
    assert reliability([], []).too_early


def test_a_recalibration_is_found_in_the_latest_answers():
    gap_days = np.full(2000, 3.0)
    predicted, observed = forecasts(2000, shift=-0.8)
    correction = recalibration(predicted, observed, gap_days)
    assert correction.shift == pytest.approx(-0.8, abs=0.25)
    assert correction == recalibration(predicted[-RECENT:], observed[-RECENT:], gap_days[-RECENT:])
    assert reliability(correction.apply(predicted), observed).calibration_error < 0.05


def test_honest_forecasts_stay_nearly_as_they_are():
    predicted, observed = forecasts(2000)
    correction = recalibration(predicted, observed, np.full(2000, 3.0))
    assert np.abs(correction.apply(predicted) - predicted).max() < 0.07


def test_forecasts_stay_as_they_are_where_it_is_too_early():
    as_they_are = Recalibration()
    predicted, observed = forecasts(2000, shift=-0.8)
    few = FEWEST - 1
    assert recalibration(predicted[:few], observed[:few], np.full(few, 3.0)) == as_they_are
    assert recalibration(predicted[: few + 1], observed[: few + 1], np.full(few + 1, 3.0)) != as_they_are
    assert recalibration(predicted, observed, np.full(2000, 0.1)) == as_they_are
    assert recalibration(predicted, observed, np.full(2000, np.nan)) == as_they_are


def test_few_answers_move_a_recalibration_little():
    predicted, observed = np.full(3, 0.5), np.zeros(3)
    assert -0.5 < fitted(predicted, observed).shift < 0.0
    assert Recalibration().apply(0.3) == pytest.approx(0.3)
