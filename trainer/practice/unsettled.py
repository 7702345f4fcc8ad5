"""When new drills wait: while many that were begun are not settled, or too many reviews go wrong.

A drill that was missed is settled when it was answered right on two later days in a row.  The rule looks at answers
alone, never at a belief: a model that is wrong can't spread a learner thin.  It is what is called successive
relearning: what was begun is finished before more is begun.
"""

from collections.abc import Iterable
from itertools import islice

from trainer.model import is_right
from trainer.practice import knowledge
from trainer.store.store import Store

NIGHT_DAYS = 0.25  # answers nearer to each other are of one sitting
LATELY = 40  # reviews that tell how well it goes
FEWEST_REVIEWS = 10  # with fewer of them nothing is told
ENOUGH_RIGHT = 0.8
MOSTLY_RIGHT, MORE_ROOM = 0.9, 2  # who is right so often may have so many times as much open
SETTLED_AFTER = 2  # right answers in a row, a night or more apart
UNSETTLED_PER_MINUTE, FEWEST_UNSETTLED = 1.6, 6  # how many may be open at a time, by the minutes of a session
LOOKED_AT = 250  # answers; a drill not asked since then is settled, or forgotten by its plan


def recent_answers(store: Store) -> list[tuple[str, float, float]]:
    """Return [(drill id, score, day)] of the latest answers, the oldest first."""
    found = islice(store.reviews(newest_first=True), LOOKED_AT)
    return [(one.drill_id, one.score, knowledge.day_of(one.at)) for one in found][::-1]


class Unsettled:
    """Which drills are open, judged from ``answers`` [(drill id, score, day)], and how many more may be begun.

    ``minutes`` is the length of a session.
    """

    def __init__(self, answers: Iterable[tuple[str, float, float]], *, minutes: float) -> None:
        self.limit = max(FEWEST_UNSETTLED, round(minutes * UNSETTLED_PER_MINUTE))
        self._last: dict[str, float] = {}
        self._open: dict[str, int] = {}  # how many more right answers it takes
        self._reviews: list[bool] = []
        for drill_id, score, day in answers:
            self.answered(drill_id, score, day)

    def answered(self, drill_id: str, score: float, day: float) -> None:
        """Take one more answer into account."""
        right, last = is_right(score), self._last.get(drill_id)
        reviewed = last is not None and day - last >= NIGHT_DAYS
        if reviewed:
            self._reviews.append(right)
        if not right:
            self._open[drill_id] = SETTLED_AFTER
        elif reviewed and drill_id in self._open:
            self._open[drill_id] -= 1
            if not self._open[drill_id]:
                del self._open[drill_id]
        self._last[drill_id] = day

    @property
    def open(self) -> frozenset[str]:
        """Return the drills that are begun and not settled."""
        return frozenset(self._open)

    def room(self, *, generous: bool = True) -> int:
        """Return how many new drills may be begun now; ``generous``: who is mostly right may have more open."""
        lately = self._reviews[-LATELY:]
        tells = len(lately) >= FEWEST_REVIEWS
        if tells and sum(lately) < ENOUGH_RIGHT * len(lately):
            return 0
        more = MORE_ROOM if generous and tells and sum(lately) >= MOSTLY_RIGHT * len(lately) else 1
        return max(0, more * self.limit - len(self._open))
