"""What is known: a belief about every item, moved by each answer.

``update`` is the one step from one answer to the next state, pure and deterministic; ``Beliefs`` answers
questions about many items at once.  The model is in ``traces``, its first guess in ``prior``, the layout
of a state in ``states``.
"""

import hashlib
import math
from functools import cache

import numpy as np

from trainer.memory import costs, prior, states
from trainer.memory.items import KINDS, ItemSpec, ItemTable
from trainer.memory.learner import Learner, bytes_of, row_of

__all__ = ["KINDS", "Beliefs", "ItemSpec", "Learner", "fingerprint", "update"]

SAME_EVERYWHERE = 6  # decimals of a chance that are alike whichever vector instructions a processor has


def update(state, learner, spec, *, day, score, seconds=None, timed=True):
    """Return (state, learner) as bytes after one answer to the item ``spec``.

    ``state`` and ``learner`` are bytes of earlier calls, None before the first.  ``day`` is in days since
    1970 UTC, ``score`` 0 to 1, ``seconds`` the time to the answer (None, or ``timed`` False: not measured,
    so no evidence).  Raises ``ValueError`` for a score or day that makes no sense and for damaged bytes.
    """
    if not (0.0 <= score <= 1.0 and math.isfinite(day)):
        raise ValueError(f"score {score!r} on day {day!r} can't be an answer")
    row = states.empty(1) if state is None else row_of(state, states.WIDTH, "item")[None]
    known = Learner.from_bytes(learner).row[None]
    taken = seconds if timed and seconds is not None and math.isfinite(seconds) else np.nan
    after, noted = states.answered(
        row,
        ItemTable.of((spec,)),
        known,
        day=np.array([float(day)]),
        score=np.array([float(score)]),
        seconds=np.array([float(taken)]),
    )
    return bytes_of(after[0]), bytes_of(noted[0])


# (score, day, seconds): first answers and later ones, right, wrong and in between, timed and not, and what nobody
# would expect: a miss of what is known well, a right answer after years, a clock set back.
_PROBE = (
    (0.0, 20_000.1, 9.5), (1.0, 20_000.13, 4.25), (1.0, 20_001.7, None), (0.4, 20_009.3, 31.0), (1.0, 20_031.9, 2.2),
    (0.0, 20_180.6, 17.0), (0.9, 20_180.65, 6.1), *((1.0, 20_181.0 + day / 7, 5.0) for day in range(5)),
    (0.0, 20_182.0, 0.2), (1.0, 29_000.0, 400.0), (1.0, 28_999.0, 3.0),
)  # fmt: skip


@cache
def fingerprint():
    """Return a name of the model as it is here: the digest of the states that a fixed sequence of answers leads to.

    States of another fingerprint were made by other constants, another layout or other last digits; they have to
    be computed again from the answers.
    """
    said, each = [b""] * len(KINDS), np.ones(len(KINDS))  # an item of each kind, each of a learner of its own
    rows, table = states.empty(len(KINDS)), ItemTable.of([ItemSpec(id="", kind=kind) for kind in KINDS])
    learners = np.tile(Learner.from_bytes(None).row, (len(KINDS), 1))
    for score, day, seconds in _PROBE:
        measured = np.nan if seconds is None else seconds
        answer = {"day": day * each, "score": score * each, "seconds": measured * each}
        rows, learners = states.answered(rows, table, learners, **answer)
        said = [s + bytes_of(row) + bytes_of(learner) for s, row, learner in zip(said, rows, learners, strict=True)]
    return hashlib.sha256(b"".join(said)).hexdigest()[:32]


def check(states_by_id, learner):
    """Raise ``ValueError`` unless all bytes are those of states."""
    for data in states_by_id.values():
        row_of(data, states.WIDTH, "item")
    Learner.from_bytes(learner)


class Beliefs:
    """What is known of ``specs``, from the stored ``states`` (by id) and the ``learner``'s bytes.

    Arrays are in the order of ``specs``.  The prior of each kind is fitted to the learner once, here; it
    is never stored.  Raises ``ValueError`` for damaged bytes.
    """

    def __init__(self, specs, states_by_id=None, learner=None):
        self.specs = tuple(specs)
        self.ids = tuple(spec.id for spec in self.specs)
        self._index = {name: index for index, name in enumerate(self.ids)}
        self.table = ItemTable.of(self.specs)
        self.learner = Learner.from_bytes(learner)
        self.rows = states.empty(len(self.specs))
        for name, data in (states_by_id or {}).items():
            if name in self._index:
                self.rows[self._index[name]] = row_of(data, states.WIDTH, "item")
        general = prior.general(self.table.kind, self.table.steps)
        loglik = states.loglik_of(self.rows)
        self.prior = prior.personal(general, self.table.kind, loglik, self.rows[:, states.COUNT])
        self.weights = prior.weights(self.prior, loglik)

    def __len__(self):
        return len(self.specs)

    def index(self, name):
        """Return the place of the item ``name``; raises ``KeyError``."""
        return self._index[name]

    def spec(self, name):
        """Return the ``ItemSpec`` called ``name``; raises ``KeyError``."""
        return self.specs[self._index[name]]

    def has(self, name):
        """Return whether there is an item called ``name``."""
        return name in self._index

    def set(self, name, state, learner):
        """Take over what ``update`` returned for the item ``name``; None makes it an item never met."""
        place = self._index[name]
        self.rows[place] = states.empty(1)[0] if state is None else row_of(state, states.WIDTH, "item")
        self.learner = Learner.from_bytes(learner)
        one = slice(place, place + 1)
        self.weights[one] = prior.weights(self.prior[one], states.loglik_of(self.rows[one]))

    def chance(self, name, day):
        """Return the probability of a right answer to ``name`` on ``day``.

        Rounded: it is stored with the answer and chained, and its last bits differ between processors.
        """
        return round(float(self.chances(day, self._one(name))[0]), SAME_EVERYWHERE)

    def chances(self, day: float, rows: slice | np.ndarray = slice(None)) -> np.ndarray:
        """Return the probability of a right answer [items] on ``day``."""
        return costs.chance(self.rows[rows], self.table.rows(rows), self.weights[rows], day)

    def pass_chance(self, name, day):
        """Return the probability of a right answer to ``name`` within its time limit."""
        return float(self.pass_chances(day, self._one(name))[0])

    def pass_chances(self, day: float, rows: slice | np.ndarray = slice(None)) -> np.ndarray:
        """Return the probability of a right answer in time [items] on ``day``."""
        part = self.rows[rows]
        return costs.pass_chance(part, self.table.rows(rows), self.learner_rows(len(part)), self.weights[rows], day)

    def expected_seconds(self, name, day=None):
        """Return the seconds that asking ``name`` will take in all: answer, feedback after a miss, going on.

        ``day`` None: on the day of the learner's latest answer.
        """
        one = self._one(name)
        day = (self.learner.last_day or 0.0) if day is None else day
        table, learner_row = self.table.rows(one), self.learner_rows(1)
        right, wrong = costs.seconds(self.rows[one], table, learner_row)
        share = self.chances(day, one)
        return float((share * right + (1.0 - share) * wrong)[0])

    def seen(self, name):
        """Return whether ``name`` was ever answered."""
        return self.count(name) > 0

    def count(self, name):
        """Return how often ``name`` was answered."""
        return int(self.rows[self._index[name], states.COUNT])

    def last_day(self, name):
        """Return the day of the latest answer to ``name``, None if there is none."""
        row = self.rows[self._index[name]]
        return float(row[states.LAST_DAY]) if row[states.COUNT] else None

    def learner_rows(self, count):
        """Return the learner's row, ``count`` times over."""
        return np.broadcast_to(self.learner.row, (count, len(self.learner.row)))

    def _one(self, name):
        place = self._index[name]
        return slice(place, place + 1)
