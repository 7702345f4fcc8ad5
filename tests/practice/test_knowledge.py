"""The name of the memory: the same on every start, another one for every other memory."""

import hashlib
from datetime import UTC, datetime
from types import SimpleNamespace

import numpy as np
import pytest

from trainer.drills import flow
from trainer.errors import StorageError
from trainer.memory import belief, states, traces
from trainer.model import Outline
from trainer.practice import answering, knowledge


@pytest.mark.parametrize(
    "damage",
    [{"kind": "flux"}, {"score": 9.5}, {"state": b"short"}, {"learner": b"short"}, {"item": "another"}],
    ids=str,
)
def test_what_makes_no_sense_is_damage_and_no_traceback(damage):
    review = SimpleNamespace(
        drill_id="platform", kind="recall", form="recall", guess=None, limit_s=10.0,
        at=datetime(2030, 3, 1, tzinfo=UTC), score=1.0, seconds=4.0,
    )  # fmt: skip
    states, learner = knowledge.after_review({"platform": None}, None, review)
    review.__dict__.update({name: value for name, value in damage.items() if hasattr(review, name)})
    states = {damage.get("item", "platform"): damage.get("state", states["platform"])}
    with pytest.raises(StorageError, match="'platform' is damaged.*salvage"):
        knowledge.after_review(states, damage.get("learner", learner), review)


@pytest.fixture
def name():
    """Return a function that names the memory as it is at the moment."""
    return belief.fingerprint.__wrapped__


def test_the_same_memory_has_the_same_name(name):
    assert name() == name() and knowledge.model() == knowledge.model()
    assert len(name()) >= 16 and name().isascii()


def test_the_name_is_that_of_answers_one_after_another(name):
    """Items of all kinds are answered at once for it, which changes no digit of what one answer after another gives."""
    said = hashlib.sha256()
    for kind in belief.KINDS:
        state = learner = None
        for score, day, seconds in belief._PROBE:
            spec = belief.ItemSpec(id="", kind=kind)
            state, learner = belief.update(state, learner, spec, day=day, score=score, seconds=seconds)
            said.update(state + learner)
    assert name() == said.hexdigest()[:32]


@pytest.mark.parametrize("constant", ["TIME_WEIGHT", "TIME_DEVIATION", "ITEM_TIMES"])
def test_another_constant_is_another_memory(name, monkeypatch, constant):
    before = name()
    monkeypatch.setattr(states, constant, getattr(states, constant) * 1.001)
    assert name() != before


def test_other_last_digits_are_another_memory(name, monkeypatch):
    """Two computers whose libraries round differently do not agree on a state byte for byte."""
    before, strength = name(), traces.strength
    monkeypatch.setattr(traces, "strength", lambda *given: np.nextafter(strength(*given), np.inf))
    assert name() != before


def answered(form, seconds, *, truth=("one",), times=6):
    """Return what a plan expects of a flow after ``times`` right answers in ``form``: (seconds in all, in 30 days)."""
    states, learner = {"flow": None}, None
    for number in range(times):
        review = SimpleNamespace(
            drill_id="flow", kind="flow", form=form, truth=truth, guess=None, limit_s=45.0,
            at=datetime(2030, 3, 1 + 3 * number, tzinfo=UTC), score=1.0, seconds=seconds,
        )  # fmt: skip
        changed, learner = knowledge.after_review(states, learner, review)
        states.update(changed)
    beliefs = belief.Beliefs(knowledge.specs([FLOW]), states, learner)
    day = knowledge.day_of(review.at)
    return beliefs.expected_seconds("flow", day), beliefs.chance("flow", day + 30.0), beliefs.pass_chance("flow", day)


FLOW = Outline(
    id="flow", deck="", kind="flow", area="deck", worth=4.0, limit_s=45.0, after=(), group="", level=1, phase="",
    line=1, label="Flow", step_count=9, choice_count=0, quantity="",
)  # fmt: skip


def test_a_plan_expects_a_flow_to_take_what_its_answers_took():
    """Answers of 20 s were believed against 28 s and planned from 12 s: a plan thought that a flow costs 12 s."""
    as_usual, slowly = answered("", 12.0)[0], answered("", 24.0)[0]
    assert as_usual == pytest.approx(12.0 + 1.5, rel=0.25)
    assert slowly == pytest.approx(24.0 + 1.5, rel=0.25)


def test_the_form_in_which_a_flow_was_asked_is_not_taken_for_memory():
    """Right in 20 s as an order told of worse memory than right in 8 s as a next step, and neither was slow."""
    step, order = answered("next", 8.0), answered("order", 18.0)
    recited = answered("recite", 36.0, truth=tuple("abcdefghi"))
    assert step == order == recited
    assert answered("next", 18.0)[1:] != step[1:]


def test_what_a_plan_takes_a_flow_for_is_the_mean_of_its_forms():
    flow_forms, share = flow.FORMS, {**dict.fromkeys(flow.FORMS, 1.0), **flow.SHARES}
    usual = {**knowledge.FORM_S, "recite": knowledge.RECITED_STEP_S * 9}
    offered = dict.fromkeys(answering.CHOOSING, 1 / flow.OFFERED)
    whole = sum(flow_forms.values())

    def mean(values):
        return sum(weight * values.get(form, 0.0) for form, weight in flow_forms.items()) / whole

    assert usual.keys() == flow_forms.keys()
    assert mean(usual) == pytest.approx(knowledge.FLOW_S, rel=0.1)
    assert mean(share) == pytest.approx(knowledge.FLOW_LIMIT_SHARE, abs=0.02)
    assert mean(offered) == pytest.approx(knowledge.FLOW_GUESS, abs=0.01)


def test_other_seconds_of_a_form_are_another_memory(monkeypatch):
    before = knowledge.model.__wrapped__()
    monkeypatch.setitem(knowledge.FORM_S, "order", 19.0)
    assert knowledge.model.__wrapped__() != before
