"""Weight, board, trim and hand signals beyond the published rows."""

import numpy as np
import pytest

from trainer.engine import loading
from trainer.engine.quantities import QUANTITIES
from trainer.engine.quantity import stated
from trainer.engine.tables import InterpolatedTable, StepTable
from trainer.errors import DomainError

STEPS = StepTable(low=30_000, upto=(41_000, 46_000, 50_000), values=(6.5, 8, 9))
POINTS = InterpolatedTable(at=(36_000, 42_000, 48_000), values=(6.5, 8, 9.5))


@pytest.mark.parametrize(
    "weight_lb, trim_deg",
    [(30_000, 6.5), (41_000, 6.5), (41_001, 8), (41_500, 8), (42_000, 8), (46_000, 8), (46_001, 9)],
)
def test_weight_between_two_printed_bands_takes_the_heavier_one(weight_lb, trim_deg):
    assert loading.trim_deg(weight_lb, STEPS) == trim_deg


@pytest.mark.parametrize("weight_lb", [29_999, 50_001, float("nan")])
def test_trim_outside_the_table_is_refused(weight_lb):
    with pytest.raises(DomainError):
        loading.trim_deg(weight_lb, STEPS)


def test_neighbouring_band_stops_at_the_ends_of_the_table():
    assert loading.neighbouring_step(45_000, STEPS, -1) == 6.5
    assert loading.neighbouring_step(45_000, STEPS, 1) == 9
    assert loading.neighbouring_step(40_000, STEPS, -1) == 6.5
    assert loading.neighbouring_step(50_000, STEPS, 1) == 9


def test_interpolated_trim_is_stated_to_the_nearest_half():
    quantity = QUANTITIES["takeoff_trim_interpolated"]
    values = quantity.compute({"gross_weight_lb": np.array([36_000.0, 40_500.0, 44_000.0]), "trim_table": POINTS})
    assert stated(quantity.result(), values["trim_deg"]).tolist() == [6.5, 7.5, 8.5]


def test_backwards_interpolation_is_a_slip_that_differs_from_the_answer():
    quantity = QUANTITIES["takeoff_trim_interpolated"]
    slip = next(slip for slip in quantity.slips if slip.name == "interpolated backwards")
    assert slip.wrong(gross_weight_lb=44_000, trim_table=POINTS) == pytest.approx(9.0)


@pytest.mark.parametrize("own, board, signal", [(48_000, 47_500, 0), (48_001, 47_500, 1), (46_999, 47_500, -1)])
def test_board_is_accepted_up_to_and_including_its_limit(own, board, signal):
    assert loading.board_signal(own, board, 500)[0] == signal


def test_board_in_an_array_equals_one_at_a_time():
    own = np.array([47_000.0, 48_000.0, 49_000.0])
    signals, differences = loading.board_signal(own, 48_000, 500)
    assert signals.tolist() == [-1, 0, 1]
    assert differences.tolist() == [-1_000, 0, 1_000]


def test_negative_weight_is_refused():
    with pytest.raises(DomainError):
        loading.gross_weight_lb(27_600, 400, -1, 0)


def test_every_digit_shown_is_read_back():
    for digit in range(10):
        fingers, way = loading.fingers_for(digit)
        assert loading.signalled_fuel_lb(fingers, way, fingers, way) == digit * 1_100


@pytest.mark.parametrize("signal", [(5, -1, 1, 1), (1, 1, 6, 1), (1.5, 1, 1, 1), (1, 0, 1, 1)])
def test_fingers_that_no_hand_shows_are_refused(signal):
    with pytest.raises(DomainError):
        loading.signalled_fuel_lb(*signal)
