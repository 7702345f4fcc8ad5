"""Were past forecasts honest, and what that says about the next: predicted chances against answers given."""

from datetime import UTC, datetime, timedelta

from trainer.memory import reliability
from trainer.practice import knowledge
from trainer.store import rows

# Answers older than this say nothing about how the belief errs now, and reading them takes time.
LATELY = timedelta(days=120)


def past(store):
    """Return the ``Reliability`` of the forecasts made before every answer so far."""
    found = [row for row in store.table(("predicted", "score", "mode")) if row[2] != "debrief"]
    return reliability.reliability([row[0] for row in found], [row[1] for row in found])


def correction(store, now):
    """Return the ``Recalibration`` that the answers before ``now`` (aware) ask for: how far forecasts lean.

    Raises ``StorageError`` where damage has changed what is stored.
    """
    first = datetime.min.replace(tzinfo=UTC)
    since = now - LATELY if now - first > LATELY else first
    last, gaps, found = {}, [], []
    for predicted, score, mode, drill, at in store.table(("predicted", "score", "mode", "drill_id", "at"), since=since):
        day = knowledge.day_of(rows.instant(at))
        gap_days, last[drill] = day - last.get(drill, float("nan")), day
        if mode != "debrief":
            found.append((predicted, score))
            gaps.append(gap_days)
    return reliability.recalibration([one[0] for one in found], [one[1] for one in found], gaps)
