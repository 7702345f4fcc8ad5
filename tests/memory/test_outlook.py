"""The forecast for a date."""

import numpy as np
import pytest

from tests.memory.practice import DAY, deck, practised
from trainer.memory import outlook as module
from trainer.memory.belief import Beliefs, ItemSpec
from trainer.memory.event_plan import EventPlan
from trainer.memory.outlook import AreaStandard, interval, meeting_chance, outlook, share_deviation, sigma

STANDARDS = [AreaStandard(area="launch"), AreaStandard(area="marshal")]


def two_areas(score_launch, score_marshal):
    """Return ``Beliefs`` in twelve items of two areas after three days of practice."""
    launch, marshal = (
        [ItemSpec(id=f"{area}-{n}", kind="recall", area=area) for n in range(6)] for area in ("launch", "marshal")
    )
    states, learner = {}, None
    for specs, score in ((launch, score_launch), (marshal, score_marshal)):
        part = practised(specs, (DAY, DAY + 1, DAY + 4), score)
        states |= {spec.id: part.rows[place].tobytes() for place, spec in enumerate(specs)}
        learner = part.learner.to_bytes()
    return Beliefs([*launch, *marshal], states, learner)


def test_the_weak_area_has_the_worse_outlook_and_gains_most_from_ten_minutes():
    forecast = outlook(two_areas(1.0, 0.0), day=DAY + 5, on=DAY + 7, standards=STANDARDS)
    launch, marshal = forecast.areas
    assert (launch.area, marshal.area) == ("launch", "marshal")
    assert launch.share > marshal.share and launch.chance > marshal.chance + 0.3
    assert launch.low < launch.share < launch.high
    assert forecast.ten_minutes[0].area == "marshal"
    assert forecast.ten_minutes[0].chance_gain > 0.02 and forecast.ten_minutes[0].ids
    assert forecast.overall.items == 12 and forecast.overall.seen == 12


def test_the_further_the_date_the_lower_the_share_and_the_wider_the_interval():
    beliefs = two_areas(1.0, 1.0)
    near, far = (outlook(beliefs, day=DAY + 5, on=DAY + on, standards=STANDARDS) for on in (6, 60))
    assert near.overall.share > far.overall.share
    width = [one.overall.high - one.overall.low for one in (near, far)]
    assert width[0] < width[1] or far.overall.high == 1.0
    assert near.beyond < 1 < far.beyond


def test_keeping_to_a_plan_raises_the_outlook():
    beliefs = two_areas(0.0, 0.0)
    plan = EventPlan(beliefs, day=DAY + 5, event_day=DAY + 9, budgets_s=300.0)
    bare = outlook(beliefs, day=DAY + 5, on=DAY + 9, standards=STANDARDS)
    kept = outlook(beliefs, day=DAY + 5, on=DAY + 9, standards=STANDARDS, chances=plan.chances)
    assert kept.overall.share > bare.overall.share + 0.1
    assert kept.overall.chance > bare.overall.chance


def test_what_is_still_to_be_gained_is_doubtful():
    certain = np.zeros(9)
    assert share_deviation(certain, 0.03) == pytest.approx(0.03)
    assert share_deviation(certain, 0.03, 0.1) == pytest.approx(0.05)
    assert share_deviation(np.full(9, 0.09), 0.0) == pytest.approx(0.1)


def test_a_stricter_standard_is_harder_to_meet():
    lenient, strict = (AreaStandard(area="launch", share=share, questions=10) for share in (0.6, 0.9))
    assert meeting_chance(0.8, 0.05, lenient) > meeting_chance(0.8, 0.05, strict) + 0.3


def test_without_doubt_the_chance_of_meeting_a_standard_is_the_binomial_one():
    """Eight of ten at p = .7 passes 38 times in a hundred, 17 of 20 at .9 87 (memory notes, section 7)."""
    assert meeting_chance(0.7, 0.0, AreaStandard(area="", share=0.8, questions=10)) == pytest.approx(0.3828, abs=1e-3)
    assert meeting_chance(0.9, 0.0, AreaStandard(area="", share=0.85, questions=20)) == pytest.approx(0.8670, abs=1e-3)


def test_doubt_draws_the_chance_towards_the_middle():
    standard = AreaStandard(area="")
    assert meeting_chance(0.95, 0.15, standard) < meeting_chance(0.95, 0.01, standard)
    assert meeting_chance(0.50, 0.15, standard) > meeting_chance(0.50, 0.01, standard)


def test_the_interval_is_that_of_a_normal_distribution():
    low, high = interval(0.5, 0.1, level=0.90)
    assert (float(low), float(high)) == pytest.approx((0.5 - 0.16449, 0.5 + 0.16449), abs=1e-4)
    assert interval(0.99, 0.1)[1] == 1.0


def test_the_shared_error_grows_with_the_horizon_and_shrinks_with_days_of_practice():
    assert sigma(1, 100, 10) < sigma(30, 100, 10) < sigma(30, 1, 10)
    assert sigma(30, 100, 60) < sigma(30, 100, 10)
    assert float(sigma(10_000, 0, 0)) == module.SIGMA_MOST
    assert np.allclose(sigma(np.array([1.0, 30.0]), 20, 10.0), [sigma(1.0, 20, 10.0), sigma(30.0, 20, 10.0)])


def test_an_area_without_items_is_left_out_and_nothing_breaks_without_any():
    forecast = outlook(Beliefs(deck(3, area="fuel")), day=DAY, on=DAY + 1, standards=[AreaStandard(area="comms")])
    assert forecast.areas == () and forecast.overall.items == 3 and forecast.overall.seen == 0
    empty = outlook(Beliefs([]), day=DAY, on=DAY + 1, standards=STANDARDS)
    assert empty.overall.items == 0 and empty.overall.share == 0.0
