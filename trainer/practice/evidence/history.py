"""All reviews as columns: a long history is read once, and held in arrays.

Numbers not measured are NaN; ``days`` are local dates as days since 1970-01-01.
"""

from datetime import date, timedelta
from functools import cached_property

import numpy as np

from trainer.model import OUT_OF_TIME, is_right

EPOCH = date(1970, 1, 1)
_COLUMNS = (
    "id", "at", "offset_min", "drill_id", "mode", "verdict", "score", "slip", "deviation", "seconds", "hint_used",
    "asked_back",
)  # fmt: skip
_MINUTES_PER_DAY = 1440


class Codes:
    """A column of few different texts: ``names`` and, per row, the place of its name."""

    def __init__(self, texts):
        places = {}
        self.rows = np.fromiter((places.setdefault(text, len(places)) for text in texts), dtype=np.int32)
        self.names = tuple(places)

    def is_(self, name):
        """Return a mask of the rows that hold ``name``."""
        return self.rows == self.names.index(name) if name in self.names else np.zeros(len(self.rows), dtype=bool)


class History:
    """The reviews that count, from the aware instant ``since`` on, oldest first."""

    def __init__(self, store, since=None):
        columns = list(zip(*store.table(_COLUMNS, since=since), strict=True)) or [()] * len(_COLUMNS)
        ids, at, offsets, drills, modes, verdicts, scores, slips, deviations, seconds, hints, backs = columns
        self.ids = np.array(ids, dtype=np.int64)
        self.minutes = np.array([text[:-1] for text in at], dtype="datetime64[m]").astype(np.int64)  # UTC, since 1970
        self.days = (self.minutes + np.array(offsets, dtype=np.int64)) // _MINUTES_PER_DAY
        self.drills, self.modes, self.slips = Codes(drills), Codes(modes), Codes(slips)
        self.score = _numbers(scores)
        self.deviation, self.seconds = _numbers(deviations), _numbers(seconds)
        self.late = Codes(verdicts).is_(OUT_OF_TIME)
        self.right = is_right(self.score)
        self.hinted, self.asked_back = np.array(hints, dtype=bool), np.array([bool(one) for one in backs], dtype=bool)

    @cached_property
    def right_before(self):
        """Return a mask of the reviews of drills that were right in an earlier review."""
        first = np.full(len(self.drills.names), len(self), dtype=np.int64)
        places = np.flatnonzero(self.right)
        np.minimum.at(first, self.drills.rows[places], places)
        return np.arange(len(self)) > first[self.drills.rows] if len(self) else np.zeros(0, dtype=bool)

    def __len__(self):
        return len(self.ids)

    def of(self, drill_id):
        """Return a mask of the reviews of one drill."""
        return self.drills.is_(drill_id)

    def area_rows(self, area_of):
        """Return, per review, what ``area_of`` (drill id to area) gives, as ``Codes``."""
        areas = Codes([area_of(name) for name in self.drills.names])
        codes = Codes(())
        codes.names, codes.rows = areas.names, areas.rows[self.drills.rows]
        return codes

    def recent(self, days):
        """Return a mask of the reviews of the last ``days`` days of practice up to the newest review."""
        return self.days > (self.days.max() - days) if len(self) else np.zeros(0, dtype=bool)


def _numbers(values):
    return np.array(values, dtype=float)  # None becomes NaN


def as_date(day):
    """Return the date that is ``day`` days after 1970-01-01."""
    return EPOCH + timedelta(days=int(day))
