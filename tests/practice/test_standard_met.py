"""What it means to meet a standard, case by case; and that a night's answers and a forecast are judged alike."""

from types import SimpleNamespace

import pytest

from trainer.decks.standards import Demand, Standard
from trainer.model import AREAS
from trainer.practice.forecast import AreaForecast, Forecast
from trainer.practice.night.result import judge
from trainer.practice.standard_met import CLOSE, READY, SHORT, UNKNOWN, RequiredFlow, is_whole, overall, verdict

DEMAND = Demand(share=0.8, in_time=0.75, met=0.25)


def area(*, flow=None, **changed):
    usual = {"area": "fuel", "met": 10, "of": 20, "demand": DEMAND, "right": 0.9, "low": 0.8, "high": 1.0,
             "in_time": 0.9, "chance_right": 0.9, "chance_in_time": 0.95}  # fmt: skip
    flows = () if flow is None else (RequiredFlow(id="bingo", title="Bingo", answers=3, whole=flow),)
    return AreaForecast(**usual | changed, flows=flows)


@pytest.mark.parametrize(
    ("one", "expected", "why"),
    [
        (area(), READY, "90% likely to reach 80% right"),
        (area(chance_right=0.75), READY, "75% likely"),
        (area(chance_right=0.74), CLOSE, "74% likely"),
        (area(chance_right=0.26), CLOSE, "26% likely"),
        (area(chance_right=0.25), SHORT, "25% likely"),
        (area(in_time=0.7, chance_in_time=0.4), CLOSE, "70% in time, 75% demanded"),
        (area(in_time=0.44, chance_in_time=0.01), SHORT, "44% in time, 75% demanded"),
        (area(in_time=0.7, chance_in_time=0.4, chance_right=0.1), SHORT, "10% likely"),
        (area(met=4), SHORT, "4 of 20 drills asked; 5 are demanded"),
        (area(met=5), READY, ""),
        (area(met=2), UNKNOWN, "only 2 of 20"),
        (area(met=1, of=1), READY, ""),
        (area(met=1, of=2), UNKNOWN, "only 1 of 2"),
        (area(right=None), UNKNOWN, "only 10 of 20"),
        (area(flow=False), SHORT, "flow not right yet: Bingo"),
        (area(flow=True), READY, ""),
    ],
)
def test_the_verdict_and_its_reason(one, expected, why):
    found, reason = verdict(one)
    assert found == expected and why in reason


def test_the_worst_area_decides_and_all_are_named():
    judged = [("deck", READY), ("fuel", CLOSE), ("marshal", SHORT), ("comms", UNKNOWN)]
    assert overall(judged) == (SHORT, "short in marshal; close in fuel; not known in comms; ready in deck")
    assert overall(judged[:2])[0] == CLOSE and overall(judged[:1])[0] == READY
    assert overall([judged[0], judged[3]])[0] == UNKNOWN and overall([])[0] == UNKNOWN


def test_a_flow_that_was_flown_as_it_should_be_is_whole_although_hindsight_weighs_less():
    assert is_whole(1.0) and is_whole(0.9, "debrief")
    assert not is_whole(0.9) and not is_whole(0.5, "debrief")


@pytest.mark.parametrize("right", range(0, 21, 2))
@pytest.mark.parametrize("in_time", [0.0, 0.5, 0.74, 0.75, 1.0])
def test_a_nights_answers_pass_where_a_forecast_of_the_same_shares_is_ready(right, in_time):
    standard = Standard(name="s", title="s", path="s", demands=dict.fromkeys(AREAS, DEMAND))
    soon = round(in_time * right)
    answers = [
        SimpleNamespace(area="fuel", kind="recall", drill_id=str(at), score=float(at < right), limit_s=10.0,
                        seconds=5.0 if at < soon else 15.0)
        for at in range(20)
    ]  # fmt: skip
    shares = {"right": right / 20, "in_time": soon / right if right else 1.0}
    sure = Forecast._judged(area(**shares | {"low": right / 20, "high": right / 20}), 1e-6)
    (found,) = judge(answers, standard).areas
    met = right / 20 >= 0.8 and shares["in_time"] >= 0.75
    assert found.passed is met
    assert (sure.verdict != SHORT) is met
