"""What the store hands out and takes beside reviews."""

from collections.abc import Mapping
from dataclasses import field
from typing import Any

from trainer.frozen import frozen
from trainer.model import Review


@frozen
class Recorded:
    """A review as it is stored, and the states it led to.

    It is known by its ``digest``: the number may be another answer's after a copy was put back.
    """

    id: int
    digest: bytes
    review: Review
    states: Mapping[str, bytes]
    learner: bytes


@frozen
class Rebuilt:
    """States of items and of the learner.  A state of None: the item counts as never seen."""

    states: Mapping[str, bytes | None]
    learner: bytes | None


class Unwatched:
    """Stands where nobody is told how far a long piece of work has come; ``terminal.progress`` has one who tells."""

    def __init__(self, what, clock, *, total=None):
        pass

    def __enter__(self):
        return self

    def __exit__(self, *_):
        pass

    def step(self):
        """Count one step."""

    def counting(self, function):
        """Return ``function`` with every call counted as a step."""
        return function


@frozen
class Event:
    """A dated qualification: ``at`` aware, ``offset_min`` the local offset there.

    ``created`` and ``id`` are given by the store.
    """

    name: str
    at: Any
    offset_min: int
    minutes_per_day: float
    areas: tuple[str, ...] = ()
    standard: str = ""
    created: Any = None
    id: int | None = None


@frozen
class Flag:
    """A question that was marked as faulty: ``question`` is its record, ``review_id`` the answer to it, if any."""

    id: int
    drill_id: str
    deck: str
    deck_hash: str
    question: Mapping[str, Any]
    review_id: int | None
    at: Any
    note: str


@frozen
class Debrief:
    """Remarks after a flight on the day ``flown`` (YYYY-MM-DD, local); ``phases`` is what was said of each.

    ``created`` and ``id`` are given by the store.
    """

    flown: str
    remarks: str
    phases: Mapping[str, Any] = field(default_factory=dict)
    created: Any = None
    id: int | None = None
