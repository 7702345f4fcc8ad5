"""What an answer does to the belief, and that it does the same every time."""

import math

import numpy as np
import pytest

from tests.memory.practice import DAY, answered, chance, deck, practised
from trainer.memory import states, traces
from trainer.memory.belief import KINDS, SAME_EVERYWHERE, Beliefs, ItemSpec, Learner, update

RECALL = ItemSpec(id="platform", kind="recall")
FLOW = ItemSpec(id="tension", kind="flow", steps=7)
LIMIT_BYTES_AT_2000 = 50e6  # the goal for the whole belief


@pytest.mark.parametrize("kind", KINDS)
def test_what_is_not_practised_is_forgotten(kind):
    spec = ItemSpec(id="x", kind=kind)
    answers = [(DAY, 0), (DAY + 1, 1)]
    later = [chance(spec, answers, DAY + 1 + gone) for gone in (0.01, 0.1, 1, 7, 30, 200, 1000)]
    assert later == sorted(later, reverse=True)
    assert later[0] - later[-1] > 0.3


@pytest.mark.parametrize("kind", KINDS)
def test_right_is_better_news_than_wrong_and_half_right_lies_between(kind):
    spec = ItemSpec(id="x", kind=kind)
    wrong, half, right = (chance(spec, [(DAY, 0), (DAY + 2, score)], DAY + 9) for score in (0, 0.5, 1))
    assert wrong < half < right


def test_even_a_wrong_answer_teaches_when_the_solution_is_shown():
    assert chance(FLOW, [(DAY, 0)], DAY + 1) > chance(FLOW, [], DAY + 1) + 0.1


def test_practice_apart_outlasts_practice_in_one_sitting():
    """The spacing effect: three practices, a week apart or five minutes apart, tested 60 days later."""
    apart = [(DAY - 14, 0), (DAY - 7, 1), (DAY, 1)]
    massed = [(DAY - 0.008, 0), (DAY - 0.004, 1), (DAY, 1)]
    assert chance(RECALL, apart, DAY + 60) > chance(RECALL, massed, DAY + 60) + 0.1


def test_a_scale_gains_only_what_it_has_lost():
    """The gate behind the spacing effect, without the evidence: the same two practices, at once or a week apart."""
    once = traces.practise(np.zeros((traces.DYNAMICS, traces.SCALES)), np.ones(traces.DYNAMICS))
    later = [
        traces.strength(traces.fade(traces.practise(traces.fade(once, gap), np.ones(traces.DYNAMICS)), np.array(60.0)))
        for gap in (np.array(0.003), np.array(7.0))
    ]
    alone = traces.strength(traces.fade(once, np.array(67.0)))
    assert (later[1] > later[0]).all()
    assert (later[1] - alone > 1.2 * (later[0] - alone)).all()


def test_a_quick_right_answer_is_better_news_than_a_slow_one():
    before = [(DAY + n, 1, 5.0) for n in range(4)]
    quick, slow = (chance(RECALL, [*before, (DAY + 8, 1, s)], DAY + 30) for s in (2.5, 9.5))
    assert quick > slow + 0.005


def test_time_that_was_not_measured_says_nothing():
    told = answered(RECALL, [(DAY, 1, 4.0), (DAY + 1, 1, 4.0)])
    typed_ahead = 0.05, True  # pasted, or sent through a pipe: nobody reads and answers so soon
    for seconds, timed in ((None, True), (25.0, False), (math.nan, True), typed_ahead):
        silent = update(*told, RECALL, day=DAY + 3, score=1, seconds=seconds, timed=timed)
        assert silent == update(*told, RECALL, day=DAY + 3, score=1)
    assert silent != update(*told, RECALL, day=DAY + 3, score=1, seconds=25.0)


def test_right_but_slow_is_not_ready():
    """Right every time, at 3 or at 18 seconds, where ten are allowed."""
    ready = {}
    for seconds in (3.0, 18.0):
        state, learner = answered(RECALL, [(DAY + n, 1, seconds) for n in range(6)])
        belief = Beliefs([RECALL], {RECALL.id: state}, learner)
        ready[seconds] = belief.pass_chance(RECALL.id, DAY + 6), belief.chance(RECALL.id, DAY + 6)
    assert ready[3.0][0] > 0.8 and ready[18.0][0] < 0.4
    assert ready[18.0][1] > 0.8


def test_the_learners_own_seconds_replace_the_design_time_and_the_items_own_the_kinds():
    specs = [ItemSpec(id=f"r{n}", kind="recall") for n in range(3)]
    states_by_id, learner = {}, None
    for day in range(8):
        for spec, seconds in zip(specs[:2], (3.0, 12.0), strict=True):
            states_by_id[spec.id], learner = update(
                states_by_id.get(spec.id), learner, spec, day=DAY + day, score=1, seconds=seconds
            )
    beliefs = Beliefs(specs, states_by_id, learner)
    quick, slow, untried = (beliefs.expected_seconds(spec.id) for spec in specs)
    design = Beliefs(specs).expected_seconds("r2", DAY)
    assert quick < 7 < 11 < slow
    assert untried > design


def test_the_same_answers_give_the_same_bytes_and_the_order_matters():
    answers = [(DAY, 0, 9.0), (DAY + 1, 1, 5.0), (DAY + 4, 0.5, 7.0), (DAY + 4, 1, None)]
    once, again = answered(FLOW, answers), answered(FLOW, answers)
    assert once == again
    other = answered(FLOW, [(DAY, 1, 5.0), (DAY + 1, 0, 9.0), *answers[2:]])
    assert other[0] != once[0]


def test_state_and_learner_survive_as_bytes_of_constant_size():
    state, learner = answered(FLOW, [(DAY, 0.4, 30.0)])
    longer, later = answered(FLOW, [(DAY + n, 1, 25.0) for n in range(40)], state=state, learner=learner)
    assert len(state) == len(longer) == 8 * states.WIDTH
    assert len(learner) == len(later)
    assert Learner.from_bytes(later).to_bytes() == later
    assert 2000 * (len(state) + 3 * 8 * states.HYPOTHESES) < LIMIT_BYTES_AT_2000


def test_a_damaged_state_is_refused():
    state, learner = answered(FLOW, [(DAY, 1)])
    for damaged in (state[:-8], state + b"\0" * 8, b"\xff" * len(state)):
        with pytest.raises(ValueError, match="state of the item"):
            Beliefs([FLOW], {FLOW.id: damaged}, learner)
    with pytest.raises(ValueError, match="state of the learner"):
        update(state, learner[:-1], FLOW, day=DAY, score=1)


@pytest.mark.parametrize("day, score", [(math.nan, 1), (math.inf, 1), (DAY, -0.1), (DAY, 1.1), (DAY, math.nan)])
def test_what_cannot_be_an_answer_is_refused(day, score):
    with pytest.raises(ValueError, match="can't be an answer"):
        update(None, None, RECALL, day=day, score=score)


def test_a_clock_that_was_set_back_loses_nothing():
    state, learner = answered(RECALL, [(DAY, 1), (DAY - 300, 1)])
    belief = Beliefs([RECALL], {RECALL.id: state}, learner)
    assert belief.last_day(RECALL.id) == DAY and belief.count(RECALL.id) == 2
    assert belief.chance(RECALL.id, DAY) > chance(RECALL, [(DAY, 1)], DAY) - 0.02


def test_many_items_at_once_are_the_items_one_at_a_time():
    specs = deck(9)
    beliefs = practised(specs, (DAY, DAY + 3))
    together, passed = beliefs.chances(DAY + 10), beliefs.pass_chances(DAY + 10)
    for place, spec in enumerate(specs):
        assert beliefs.chance(spec.id, DAY + 10) == round(float(together[place]), SAME_EVERYWHERE)
        assert beliefs.pass_chance(spec.id, DAY + 10) == pytest.approx(passed[place], abs=1e-12)
        assert passed[place] <= together[place]


def test_set_is_the_same_as_starting_from_the_new_state():
    """Within the session's prior, which only a new session renews."""
    specs = deck(3)
    beliefs = Beliefs(specs)
    state, learner = update(None, None, specs[1], day=DAY, score=1, seconds=4.0)
    beliefs.set(specs[1].id, state, learner)
    fresh = Beliefs(specs, {specs[1].id: state}, learner)
    assert beliefs.chance(specs[1].id, DAY + 2) == pytest.approx(fresh.chance(specs[1].id, DAY + 2), abs=1e-12)
    assert beliefs.seen(specs[1].id) and not beliefs.seen(specs[0].id)


def test_what_the_learner_finds_hard_is_expected_to_be_hard_in_items_not_yet_asked():
    specs = [ItemSpec(id=f"r{n}", kind="recall") for n in range(30)]
    good, bad = (practised(specs[:29], (DAY, DAY + 3, DAY + 9), score) for score in (1, 0))

    def states_of(beliefs):
        return {spec.id: beliefs.rows[beliefs.index(spec.id)].tobytes() for spec in specs[:29]}

    chances = [
        Beliefs(specs, states_of(beliefs), beliefs.learner.to_bytes()).chance("r29", DAY + 9) for beliefs in (good, bad)
    ]
    assert chances[0] > chances[1] + 0.05


def test_a_long_procedure_is_expected_to_be_harder_than_a_short_one():
    short, long = (ItemSpec(id="f", kind="flow", steps=steps) for steps in (8, 30))
    answers = [(DAY, 0), (DAY + 1, 1)]  # right at once would say that it was known before
    assert chance(long, answers, DAY + 8) < chance(short, answers, DAY + 8) - 0.03


def test_a_question_with_few_choices_is_right_by_luck():
    four, two = (ItemSpec(id="c", kind="recall", guess=1 / n) for n in (4, 2))
    assert chance(two, [], DAY) > chance(four, [], DAY) + 0.15
    assert chance(two, [(DAY, 1)], DAY + 9) < chance(RECALL, [(DAY, 1)], DAY + 9) + 0.5


def test_the_learner_knows_days_gaps_and_speed():
    _, learner = answered(RECALL, [(DAY, 1, 4.0), (DAY + 0.1, 1, 4.0), (DAY + 12.1, 0, 4.0)])
    known = Learner.from_bytes(learner)
    assert known.answers() == known.answers("recall") == 3 and known.answers("flow") == 0
    assert known.days_practised == 2
    assert known.longest_gap_days == pytest.approx(12.0)
    assert known.first_day == DAY and known.last_day == pytest.approx(DAY + 12.1)
    assert known.speed("recall") == pytest.approx(1.0)
    assert Learner().first_day is None


def test_an_unknown_kind_is_refused():
    with pytest.raises(ValueError, match="kind 'song'"):
        ItemSpec(id="x", kind="song")
