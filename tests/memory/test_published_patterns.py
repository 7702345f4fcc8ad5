"""The model against published forgetting and spacing: where it fits, and, said as plainly, where it does not.

The model was not fitted to any of these figures.  Sources and their standing: ``published_patterns.py``.
"""

import numpy as np
import pytest

from tests.memory.practice import DAY, answered, chance
from tests.memory.published_patterns import (
    BAHRICK,
    CEPEDA,
    EBBINGHAUS_SAVINGS,
    PROCEDURE_LOSS,
    RESUSCITATION,
    SKILL_HALF_LOST,
)
from trainer.memory import traces
from trainer.memory.belief import Beliefs, ItemSpec

FACT = ItemSpec(id="fact", kind="recall")
FLOW = ItemSpec(id="flow", kind="flow", steps=10)
AT_ONCE_DAYS = 0.003  # about four minutes later, in the same sitting
DAYS_PER_MONTH = 30.4


def recall_after(gap_days, delay_days):
    """Return recall ``delay_days`` after a second session that came ``gap_days`` after the first.

    Each session ends with a right answer; the first question of the second goes as well as is to be expected.
    """
    first = [(DAY, 0), (DAY + AT_ONCE_DAYS, 1)]
    second = DAY + AT_ONCE_DAYS + max(gap_days, AT_ONCE_DAYS)
    answers = [*first, (second, chance(FACT, first, second)), (second + AT_ONCE_DAYS, 1)]
    return chance(FACT, answers, second + delay_days)


def retained(sessions, gap_days, test_days):
    """Return recall after so many sessions, each going as well as is to be expected."""
    answers = [(DAY, 0)]
    for session in range(1, sessions + 1):
        day = DAY + session * gap_days
        answers.append((day, chance(FACT, answers, day)))
    return chance(FACT, answers, answers[-1][0] + test_days)


def one_trace(slope):
    """Return the strength at Ebbinghaus's delays after one practice, relative to the first delay."""
    dynamics = int(np.flatnonzero(traces.SLOPE_OF == slope)[0])
    trace = traces.practise(np.zeros((traces.DYNAMICS, traces.SCALES)), np.ones(traces.DYNAMICS))
    days = np.array(EBBINGHAUS_SAVINGS["days"])
    strengths = np.array([traces.strength(traces.fade(trace, day))[dynamics] for day in days])
    return strengths / strengths[0]


def test_the_slowest_trace_falls_as_ebbinghauss_savings_do_to_within_a_sixth():
    """Fits: savings relative to those at 19 minutes.  Only the hypothesis of slowest forgetting does so."""
    observed = np.array(EBBINGHAUS_SAVINGS["percent"])
    observed = observed / observed[0]
    away = {slope: np.abs(one_trace(slope) - observed).max() for slope in traces.SLOPES}
    assert away[max(traces.SLOPES)] < 0.16
    assert min(away, key=away.get) == max(traces.SLOPES)


def test_forgetting_slows_down_nearly_as_a_power_of_time_does():
    """Fits: over 2.5 powers of ten the slope in log-log grows at most to double; an exponential's grows 316-fold."""
    days = 10.0 ** np.array((0.0, 0.5, 2.0, 2.5))
    trace = traces.practise(np.zeros((traces.DYNAMICS, traces.SCALES)), np.ones(traces.DYNAMICS))
    strengths = np.log([traces.strength(traces.fade(trace, day)) for day in days])
    early, late = strengths[0] - strengths[1], strengths[2] - strengths[3]
    assert (early > 0).all()
    assert (late / early < 2.1).all() and (late / early > 1.0).all()


@pytest.mark.parametrize("cell", range(len(CEPEDA["delay_days"])))
def test_the_best_gap_lies_near_cepedas(cell):
    """Fits roughly: the model's best gap is at most two of the tested ones away (2, 4, 7, 1 for 1, 11, 21, 21 days).

    Its curve is flat around the best gap: the published one reaches at least 95 % of the model's best.
    """
    delay, gaps, best = (CEPEDA[name][cell] for name in ("delay_days", "gaps_days", "best_gap_days"))
    recall = [recall_after(gap, delay) for gap in gaps]
    assert abs(int(np.argmax(recall)) - gaps.index(best)) <= 2
    assert recall[gaps.index(best)] > 0.95 * max(recall)


def test_the_best_gap_grows_with_the_delay_but_less_than_published_and_not_to_a_year():
    """Fits roughly from a week to ten weeks: it grows with the delay, to a tenth of it (published: 20-40 % of a week).

    The curve is flat there: at a week's delay any gap from two days to seven is within a hundredth of the best, at
    ten weeks the published three weeks are within a fiftieth.  Does not fit at a year: there every gap from a day to
    fifteen weeks is within a tenth of the best; published are 5 to 10 % of the delay.
    """
    delays, gaps = CEPEDA["delay_days"], CEPEDA["gaps_days"]
    recall = [{gap: recall_after(gap, delay) for gap in tested} for delay, tested in zip(delays, gaps, strict=True)]
    week, five_weeks, ten_weeks, year = recall
    best = [max(each, key=each.get) for each in recall]
    assert best[0] < best[1] < best[2]
    assert 0.08 < best[2] / 70 <= best[1] / 35 < 0.15
    assert [gap for gap, chance in week.items() if chance > 0.99 * max(week.values())] == [2, 7]
    assert five_weeks[11] > 0.98 * max(five_weeks.values()) and ten_weeks[21] > 0.98 * max(ten_weeks.values())
    assert min(chance for gap, chance in year.items() if gap) > 0.9 * max(year.values())


def test_what_the_best_gap_gains_is_understated():
    """Does not fit: published gains over no gap are up to 111 %; the model expects about a quarter."""
    gains = [
        max(recall_after(gap, delay) for gap in gaps) / recall_after(0, delay) - 1.0
        for delay, gaps in zip(CEPEDA["delay_days"], CEPEDA["gaps_days"], strict=True)
    ]
    assert all(0.05 < gain < 0.40 for gain in gains)
    assert max(gains) * 100 < max(CEPEDA["gain_percent"]) / 2


@pytest.mark.parametrize("test_days", BAHRICK["test_days"])
def test_thirteen_sessions_far_apart_are_worth_nearly_twenty_six_closer_ones(test_days):
    """Fits Bahrick et al. to within 4 points of recall."""
    few, many = (retained(*sessions, test_days) for sessions in (BAHRICK["few"], BAHRICK["many"]))
    assert few == pytest.approx(many, abs=0.04)


def resuscitation(gap_days):
    """Return the expected score at the start of each of four sessions ``gap_days`` apart."""
    start, answers, expected = 0.55, [], []
    for session in range(4):
        day = DAY + session * gap_days
        score = chance(FLOW, answers, day) if session else start
        expected.append(score)
        answers += [(day, score), (day + AT_ONCE_DAYS, 1)]
    return expected


def test_shorter_gaps_give_quicker_acquisition_as_in_resuscitation_training():
    """Fits the order of daily, weekly, monthly, quarterly after four sessions, and that every session helps.

    Does not fit the size: the model forgets a procedure faster between sessions than these nurses did, by
    thirty points at a quarter of a year; theirs were people who had the skill before.
    """
    last = [resuscitation(gap)[-1] for gap in RESUSCITATION["gap_days"]]
    observed = [score[-1] / 100 for score in RESUSCITATION["score"]]
    assert last == sorted(last, reverse=True) and observed == sorted(observed, reverse=True)
    assert resuscitation(1.0)[1:] == sorted(resuscitation(1.0)[1:])
    assert 0.25 < observed[-1] - last[-1] < 0.35


def procedure_loss(days):
    """Return the share of a well-trained procedure's chance that is lost after ``days``."""
    answers = [(DAY + 3 * session, min(1.0, 0.4 + 0.15 * session)) for session in range(8)]
    state, learner = answered(FLOW, answers)
    beliefs = Beliefs([FLOW], {FLOW.id: state}, learner)
    last = answers[-1][0]
    return 1.0 - beliefs.chance(FLOW.id, last + days) / beliefs.chance(FLOW.id, last + 0.01)


def test_a_trained_procedure_loses_more_in_four_months_than_published():
    """Does not fit quite: 26 %, where Mengelkoch et al. found 16.5 and 20.1 %; the planner errs towards practice."""
    loss = 100 * procedure_loss(PROCEDURE_LOSS["days"])
    assert max(PROCEDURE_LOSS["percent"]) < loss < max(PROCEDURE_LOSS["percent"]) + 12


def test_half_a_skill_is_lost_later_than_published():
    """Does not fit quite: half of an accuracy skill's gain was gone after 6.5 months, 34 % of this one's."""
    assert 0.25 < procedure_loss(SKILL_HALF_LOST["months"] * DAYS_PER_MONTH) < 0.45
