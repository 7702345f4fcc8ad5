"""When new drills wait: while keeping alive what was begun takes more minutes than there are for it.

What a drill takes is told by its answers alone, never by a belief, so that a model that is wrong can't spread a learner
thin: after a miss it is due every few days, and after right answers on later days ever more seldom.  It is
what is called successive relearning: what was begun is finished before more is begun.
"""

from collections.abc import Callable, Iterable
from itertools import islice

from trainer.model import is_right
from trainer.practice import knowledge
from trainer.store.store import Store

NIGHT_DAYS = 0.25  # answers nearer to each other are of one sitting
# Days between two answers, by the right answers in a row.  On the bench (tuning seeds) one day after a miss let too few
# be begun: .64 of the worth was kept instead of .70 (DASH-like), .55 for .63 (all-or-none), .73 for .82 (skill).
EVERY_DAYS = (4.0, 4.0, 7.0, 16.0, 35.0)
LOOKED_AT = 600  # answers; a drill not asked since then takes next to nothing


def recent_answers(store: Store) -> list[tuple[str, float, float]]:
    """Return [(drill id, score, day)] of the latest answers, the oldest first."""
    found = islice(store.reviews(newest_first=True), LOOKED_AT)
    return [(one.drill_id, one.score, knowledge.day_of(one.at)) for one in found][::-1]


class Upkeep:
    """How often each drill is due, judged from ``answers`` [(drill id, score, day)], the oldest first."""

    def __init__(self, answers: Iterable[tuple[str, float, float]]) -> None:
        self._last: dict[str, float] = {}
        self._row: dict[str, int] = {}  # right answers in a row, a night or more apart
        self._seconds: dict[str, float] = {}
        for drill_id, score, day in answers:
            self.answered(drill_id, score, day)

    def answered(self, drill_id: str, score: float, day: float) -> None:
        """Take one more answer into account."""
        last = self._last.get(drill_id)
        if not is_right(score):
            self._row[drill_id] = 0
        elif last is None or day - last >= NIGHT_DAYS:
            self._row[drill_id] = self._row.get(drill_id, 0) + 1
        self._last[drill_id] = day

    def seconds_a_day(self, seconds: Callable[[str], float]) -> float:
        """Return the seconds a day that keeping all of them alive takes; ``seconds`` tells those of one question."""
        for name in self._row.keys() - self._seconds.keys():
            self._seconds[name] = seconds(name)
        longest = len(EVERY_DAYS) - 1
        return sum(self._seconds[name] / EVERY_DAYS[min(row, longest)] for name, row in self._row.items())
