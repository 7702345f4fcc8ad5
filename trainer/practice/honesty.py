"""Were past forecasts honest, and what that says about the next: predicted chances against answers given.

Debriefs are no test of a forecast, for nobody asked a question; nor are answers after a hint or after asking back, for
the chance was stated for an answer without help; nor first answers, for nothing was known to foretell them.  Every
screen and page counts so.
"""

from datetime import UTC, datetime, timedelta
from typing import NamedTuple

from trainer.memory import reliability
from trainer.practice import knowledge
from trainer.store import rows

# Answers older than this say nothing about how the belief errs now, and reading them takes time.
LATELY = timedelta(days=120)


class Past(NamedTuple):
    """How honest forecasts were: their ``Reliability`` for drills met before, and what came of first answers.

    ``first_right`` is the share of first answers that was right, None where there are none.
    """

    reliability: reliability.Reliability
    first_answers: int
    first_right: float | None


def past(store):
    """Return the ``Past`` of the forecasts made before every answer so far."""
    met, later, first = set(), [], []
    columns = ("predicted", "score", "mode", "hint_used", "asked_back", "drill_id")
    for predicted, score, mode, hinted, asked_back, drill in store.table(columns):
        if mode != "debrief" and not hinted and not asked_back:
            (later if drill in met else first).append((predicted, score))
        met.add(drill)
    found = reliability.reliability([one[0] for one in later], [one[1] for one in later])
    return Past(found, len(first), sum(one[1] for one in first) / len(first) if first else None)


def correction(store, now):
    """Return the ``Recalibration`` that the answers before ``now`` (aware) ask for: how far forecasts lean.

    Raises ``StorageError`` where damage has changed what is stored.
    """
    first = datetime.min.replace(tzinfo=UTC)
    since = now - LATELY if now - first > LATELY else first
    last, gaps, found = {}, [], []
    columns = ("predicted", "score", "mode", "hint_used", "asked_back", "drill_id", "at")
    for predicted, score, mode, hinted, asked_back, drill, at in store.table(columns, since=since):
        day = knowledge.day_of(rows.instant(at))
        gap_days, last[drill] = day - last.get(drill, float("nan")), day
        if mode != "debrief" and not hinted and not asked_back:
            found.append((predicted, score))
            gaps.append(gap_days)
    return reliability.recalibration([one[0] for one in found], [one[1] for one in found], gaps)
