"""An invented pilot's answers, and a way to count them that any change of order or content upsets."""

import hashlib
from datetime import UTC, datetime, timedelta

from trainer.clock import StillClock
from trainer.model import Review

FIRST = datetime(2026, 12, 4, 20, 0, 0, 123456, tzinfo=UTC)


def clock(instant=FIRST):
    return StillClock(instant)


def review(number=0, **changes):
    """Return answer ``number`` of an invented pilot who answers one of five drills each minute."""
    standard = dict(
        drill_id=f"fix-{number % 5}",
        deck="invented",
        deck_hash="a" * 64,
        kind="computed",
        area="marshal",
        form="compute",
        quantity="marshal_fix_distance",
        inputs={"angels": 6 + number % 14, "side": "bow"},
        seed=f"s{number}",
        question="Marshal gives you angels 12. How far from the ship is your fix?",
        typed="27 nm",
        value=27.0,
        truth=27,
        unit="nm",
        tolerance_on=0.1,
        tolerance_inside=0.5,
        deviation=0.0,
        verdict="on the number",
        score=number % 3 / 2,
        slip="",
        parts={},
        seconds=5.25,
        limit_s=20.0,
        hint_used=False,
        mode="practice",
        predicted=0.8,
        guess=None,
        at=FIRST + timedelta(minutes=number),
        offset_min=60,
        engine_version="0.1.0",
    )
    return Review(**standard | changes)


def update(states, learner, review):
    """Mix every field of ``review`` into the states, so that none can be lost unnoticed."""
    mark = repr(review).encode()

    def mixed(state):
        return hashlib.sha256((state or b"new") + mark).digest()

    return {item: mixed(state) for item, state in states.items()}, mixed(learner)


def fill(store, count, start=0):
    """Record ``count`` reviews and return what ``record`` gave for each."""
    return [store.record(review(number), update) for number in range(start, start + count)]


def standing(store):
    """Return all that is believed."""
    return store.states(), store.learner()
