"""What is known of the learner as a whole: how fast by kind, how long the gaps, how many days.

One row of float64 of constant size, the same whatever the number of answers.  The functions take rows of
many learners at once; ``Learner`` is one of them with names.
"""

import numpy as np

from trainer.memory.items import KINDS
from trainer.model import is_right

# Layout of a row.  Per kind: answers, right, then count and mean of ln(seconds / design seconds) of right
# and of wrong answers.
PER_KIND = 6
ANSWERS, RIGHT, RIGHT_TIMES, RIGHT_LN, WRONG_TIMES, WRONG_LN = range(PER_KIND)
FIRST_DAY, LAST_DAY, DAYS, LONGEST_GAP = range(PER_KIND * len(KINDS), PER_KIND * len(KINDS) + 4)
WIDTH = LONGEST_GAP + 1
LARGEST = 1e9  # no day, count, strength or log-likelihood of a whole life comes near

PRIOR_TIMES = 4.0  # the design time of a drill counts as four answers
PRIOR_WRONG_LN = 0.2  # a wrong answer takes about a fifth longer than a right one, until seen otherwise
MOST_TIMES = 60.0  # a running mean over about the last sixty answers, for people get faster
SOONEST_S = 0.2  # nobody reads and answers sooner: that was typed ahead, pasted or sent through a pipe
WIDEST_LN = 2.5  # seconds beyond 12 times (or below a twelfth of) the design time are a pause, not an answer


def empty(count):
    """Return rows [count, WIDTH] of learners who have not answered yet."""
    rows = np.zeros((count, WIDTH))
    for kind in range(len(KINDS)):
        rows[:, kind * PER_KIND + WRONG_LN] = PRIOR_WRONG_LN
    return rows


def column(kind, what):
    """Return the column of ``what`` (ANSWERS, RIGHT, …) for ``kind`` (index or array)."""
    return np.asarray(kind) * PER_KIND + what


def ln_ratio(seconds, design_s):
    """Return ln(seconds / design_s), held within ``WIDEST_LN``; NaN where ``seconds`` says nothing."""
    seconds = np.where(np.asarray(seconds) < SOONEST_S, np.nan, seconds)
    return np.clip(np.log(seconds / design_s), -WIDEST_LN, WIDEST_LN)


def noted(rows, *, kind, day, gap_days, score, ln_time):
    """Return ``rows`` [n, WIDTH] after one answer each.

    ``kind``, ``day``, ``gap_days`` (since the item's last practice, NaN for the first), ``score`` and
    ``ln_time`` (NaN: not measured) are arrays [n].
    """
    rows, each = rows.copy(), np.arange(len(rows))
    fresh = rows[:, FIRST_DAY] == 0.0
    new_day = fresh | (np.floor(day) > np.floor(rows[:, LAST_DAY]))
    rows[:, FIRST_DAY] = np.where(fresh, day, rows[:, FIRST_DAY])
    rows[:, LAST_DAY] = np.maximum(rows[:, LAST_DAY], day)
    rows[:, DAYS] += new_day
    rows[:, LONGEST_GAP] = np.fmax(rows[:, LONGEST_GAP], gap_days)
    rows[each, column(kind, ANSWERS)] += 1.0
    rows[each, column(kind, RIGHT)] += score
    right, measured = is_right(score), ~np.isnan(ln_time)
    counts = column(kind, np.where(right, RIGHT_TIMES, WRONG_TIMES))
    means = column(kind, np.where(right, RIGHT_LN, WRONG_LN))
    seen = np.minimum(rows[each, counts], MOST_TIMES) + PRIOR_TIMES + 1.0
    step = np.where(measured, (np.nan_to_num(ln_time) - rows[each, means]) / seen, 0.0)
    rows[each, means] += step
    rows[each, counts] += measured
    return rows


class Learner:
    """One learner's row, with names."""

    def __init__(self, row=None):
        self.row = empty(1)[0] if row is None else row

    @classmethod
    def from_bytes(cls, data):
        """Return the learner of ``data`` (None: one who has not answered yet); ``ValueError`` if damaged."""
        return cls(None if data is None else row_of(data, WIDTH, "learner"))

    def to_bytes(self):
        """Return the row as little-endian float64."""
        return bytes_of(self.row)

    def answers(self, kind=None):
        """Return the number of answers, of one kind or of all."""
        kinds = KINDS if kind is None else (kind,)
        return int(sum(self.row[column(KINDS.index(name), ANSWERS)] for name in kinds))

    def speed(self, kind):
        """Return typical seconds of a right answer over the design seconds: 1 is as designed, 2 half as fast."""
        return float(np.exp(self.row[column(KINDS.index(kind), RIGHT_LN)]))

    @property
    def days_practised(self):
        """Days (UTC) with at least one answer."""
        return int(self.row[DAYS])

    @property
    def longest_gap_days(self):
        """The longest time between two answers to one item; forecasts beyond it are extrapolation."""
        return float(self.row[LONGEST_GAP])

    @property
    def first_day(self):
        """Day of the first answer, None before it."""
        return float(self.row[FIRST_DAY]) or None

    @property
    def last_day(self):
        """Day of the latest answer, None before the first."""
        return float(self.row[LAST_DAY]) or None


def bytes_of(row):
    """Return ``row`` as little-endian float64 bytes."""
    return np.ascontiguousarray(row, dtype="<f8").tobytes()


def row_of(data, width, what):
    """Return the row of ``width`` numbers in ``data``; raises ``ValueError`` for another length or not a number."""
    if len(data) != width * 8:
        raise ValueError(f"a state of the {what} has {len(data)} bytes, not {width * 8}")
    row = np.frombuffer(data, dtype="<f8").astype(float)
    if not (np.abs(row) <= LARGEST).all():  # not a number is not smaller either
        raise ValueError(f"a state of the {what} holds a value that it can't have")
    return row
