"""Fuel and bingo beyond the published rows."""

import numpy as np
import pytest

from trainer.engine import fuel
from trainer.engine.quantities import QUANTITIES
from trainer.engine.quantity import stated
from trainer.errors import DomainError

PATTERN, HOME = 1, 2


def test_ladder_and_fuel_on_the_ball_undo_each_other():
    at_fix, _ = fuel.ladder_lb(4_700, 900, 3_600, 12)
    assert fuel.ball_fuel_lb(at_fix, 3_600, 12, 900) == 4_700


@pytest.mark.parametrize(
    "name, inputs, result, expected",
    [
        ("fuel_burn", {"flow_lb_h": 2_500, "time_min": 7}, "burn_lb", 300),
        ("fuel_burn", {"flow_lb_h": 3_000, "time_min": 10}, "burn_lb", 500),
        ("fuel_ladder", {"ball_fuel_lb": 4_700, "approach_burn_lb": 900, "hold_flow_lb_h": 3_600, "hold_min": 12},
         "fix_fuel_lb", 6_400),
        ("ball_fuel", {"fuel_at_fix_lb": 6_390, "hold_flow_lb_h": 3_600, "hold_min": 12, "approach_burn_lb": 900},
         "ball_fuel_lb", 4_700),
        ("max_trap_fuel", {"max_trap_weight_lb": 34_000, "basic_weight_lb": 27_600, "crew_lb": 400, "stores_lb": 1_550},
         "max_trap_fuel_lb", 4_400),
        ("minutes_to_bingo", {"state_lb": 5_000, "bingo_lb": 3_400, "flow_lb_h": 3_700}, "minutes", 25.5),
        ("state_spoken", {"fuel_lb": 5_480}, "state_klb", 5.4),
    ],
)  # fmt: skip
def test_needed_is_stated_up_and_left_is_stated_down(name, inputs, result, expected):
    quantity = QUANTITIES[name]
    value = quantity.compute(inputs)[result]
    assert stated(quantity.result(result), value) == pytest.approx(expected)


def test_rounding_up_leaves_a_round_number_alone():
    assert fuel.rounded_up_lb(np.array([200.0, 200.5, 0.0]), 10).tolist() == [200, 210, 0]


@pytest.mark.parametrize(
    "ball, passes, spare", [(3_400, 0, 0), (3_999, 0, 0), (4_000, 1, 0), (4_001, 1, 1), (5_200, 3, 2)]
)
def test_a_pattern_that_ends_at_bingo_leaves_nothing_to_spare(ball, passes, spare):
    assert fuel.passes_left(ball, 3_400, 600) == (passes, spare)


def test_floating_point_does_not_lose_a_pass():
    ball_lb = 3_400 + 3 * 333.3
    assert (ball_lb - 3_400) / 333.3 < 3
    assert fuel.passes_left(ball_lb, 3_400, 333.3) == (3, 2)


def test_fuel_for_passes_pays_for_exactly_those():
    assert fuel.passes_left(fuel.fuel_for_passes_lb(3_400, 650, 3), 3_400, 650)[0] == 3


@pytest.mark.parametrize("function, more", [(fuel.minutes_to_bingo, 3_600), (fuel.passes_left, 600)])
def test_below_bingo_there_is_nothing_to_work_out(function, more):
    with pytest.raises(DomainError, match="divert now"):
        function(3_300, 3_400, more)


def test_bingo_is_left_at_the_number_unless_in_the_groove():
    states = np.array([3_500, 3_400, 3_300, 3_300])
    assert fuel.bingo_decision(states, 3_400, np.array([0, 0, 0, 1])).tolist() == [0, 1, 1, 0]


def test_bingo_lines_say_the_action_before_the_arithmetic():
    first = QUANTITIES["bingo_decision"].mental(state_lb=3_300, bingo_lb=3_400, in_groove=0)[0]
    assert "divert at once" in first and not any(sign.isdigit() for sign in first.replace("7700", ""))


@pytest.mark.parametrize(
    "state, task, launch", [(1_700, PATTERN, 1), (1_699, PATTERN, 0), (1_999, HOME, 0), (2_000, HOME, 1)]
)
def test_launch_fuel_includes_its_limit(state, task, launch):
    assert fuel.cq_launch(state, 1_400, task)[1] == launch


def test_dump_leaves_the_target():
    minutes = fuel.dump_min(9_800, 6_400, 4_200, 20, 1_000)
    assert 9_800 - 4_200 / 3 - minutes * 1_000 == pytest.approx(6_400)


@pytest.mark.parametrize("fuel_lb, time_min", [(7_000, 20), (30_000, 5)])
def test_nothing_to_dump_and_no_time_to_dump_are_refused(fuel_lb, time_min):
    with pytest.raises(DomainError):
        fuel.dump_min(fuel_lb, 6_400, 4_200, time_min, 1_000)


def test_too_heavy_to_trap_is_refused():
    with pytest.raises(DomainError, match="too heavy"):
        fuel.max_trap_fuel_lb(30_000, 27_600, 400, 2_500)


def test_the_larger_reserve_counts():
    assert fuel.reserve_lb(np.array([8_000.0, 12_000.0]), 3_000).tolist() == [1_000, 1_200]
