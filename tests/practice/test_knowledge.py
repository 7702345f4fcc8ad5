"""The name of the memory: the same on every start, another one for every other memory."""

from datetime import UTC, datetime
from types import SimpleNamespace

import numpy as np
import pytest

from trainer.errors import StorageError
from trainer.memory import belief, states, traces
from trainer.practice import knowledge


@pytest.mark.parametrize(
    "damage",
    [{"kind": "flux"}, {"score": 9.5}, {"state": b"short"}, {"learner": b"short"}, {"item": "another"}],
    ids=str,
)
def test_what_makes_no_sense_is_damage_and_no_traceback(damage):
    review = SimpleNamespace(
        drill_id="platform", kind="recall", guess=None, limit_s=10.0, at=datetime(2030, 3, 1, tzinfo=UTC), score=1.0,
        seconds=4.0,
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
    assert name() == name() == knowledge.model()
    assert len(name()) >= 16 and name().isascii()


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
