"""The end of a session, to be read in ten seconds: right of asked, the stage, what to look at, when to come back."""

from collections.abc import Iterable, Sequence
from datetime import date, timedelta
from itertools import islice
from typing import Any

from trainer.drills.titles import title
from trainer.frozen import frozen
from trainer.model import OUT_OF_TIME
from trainer.practice.outcome import Outcome
from trainer.practice.standing import Standing

FADED = 0.8  # a drill that one would miss more than one time in five is worth coming back for
LATEST_RETURN_DAYS = 30
WORTH_A_RETURN = 3  # faded drills
LOOKED_AT = 3  # drills named


@frozen
class Summary:
    """``seconds`` is None where time is not measured; ``standing`` None where there is no stage.

    ``look_at`` are (title, cause) of what went wrong, the most telling first; ``more`` is how many others there are.
    ``away`` are the days without practice before this session, ``stubborn`` titles of what stays wrong.
    """

    asked: int = 0
    right: int = 0
    seconds: float | None = None
    standing: Standing | None = None
    look_at: tuple[tuple[str, str], ...] = ()
    more: int = 0
    again: date | None = None
    faded: int = 0
    today: date | None = None
    away: int = 0
    stubborn: tuple[str, ...] = ()


def of(outcomes: Sequence[Outcome], library: Any, *, seconds: float | None, standing: Standing | None, beliefs: Any,
       day: float, today: date, away: int = 0, stubborn: Iterable[str] = ()) -> Summary:  # fmt: skip
    """Return the ``Summary`` of ``outcomes`` on the local date ``today``, which is ``day`` of the beliefs."""
    missed = _missed(outcomes, library)
    ahead, faded = next_return(beliefs, day)
    return Summary(
        asked=len(outcomes),
        right=sum(outcome.right for outcome in outcomes),
        seconds=seconds,
        standing=standing,
        look_at=tuple(missed[:LOOKED_AT]),
        more=len(missed[LOOKED_AT:]),
        again=today + timedelta(days=ahead),
        faded=faded,
        today=today,
        away=away,
        stubborn=tuple(dict.fromkeys(title(library.drills[name]) for name in stubborn)),
    )


def away_days(store: Any, count: int) -> int:
    """Return the days between the first of the latest ``count`` answers and the one before it, 0 for a new pilot."""
    at = [review.at for review in islice(store.reviews(newest_first=True), count + 1)]
    return round((at[-2] - at[-1]) / timedelta(days=1)) if len(at) > count else 0


def _missed(outcomes: Iterable[Outcome], library: Any) -> list[tuple[str, str]]:
    """Return [(title, cause)], each title once: slips first, then other misses, then what was right but slow."""
    found = {}
    for outcome in outcomes:
        if outcome.clean:
            continue
        grade = outcome.grade
        slow = grade.verdict == OUT_OF_TIME
        cause = grade.slip.words if grade.slip else "right, but slow" if slow else f"it is {outcome.truth_text}"
        rank = 0 if grade.slip else 2 if slow else 1
        name = title(library.drills[outcome.question.drill_id])
        found[name] = min(found.get(name, (rank, cause)), (rank, cause))
    return [(name, cause) for name, (_, cause) in sorted(found.items(), key=lambda one: one[1][0])]


def next_return(beliefs: Any, day: float) -> tuple[int, int]:
    """Return (in how many days to come back, how many drills will have faded by then): on the first day it pays."""
    seen = [beliefs.seen(name) for name in beliefs.ids]
    for ahead in range(1, LATEST_RETURN_DAYS):
        chances = beliefs.chances(day + ahead)
        faded = sum(met and chance < FADED for chance, met in zip(chances, seen, strict=True))
        if faded >= min(WORTH_A_RETURN, sum(seen)):
            return ahead, faded
    return LATEST_RETURN_DAYS, 0
