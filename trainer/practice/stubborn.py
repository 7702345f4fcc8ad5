"""Drills that stay wrong however often they are asked: broken down, once a session, instead of asked more often.

A drill is stubborn while its latest answers, on so many different days, were all wrong.  It is then asked with its hint
(its rule where it has none) in front, a flow by its weakest step alone, a computed drill after an easier one of the
same quantity; as after any hint, a right answer counts half, and the next question is an ordinary one again.
"""

from collections.abc import Iterable, Mapping
from typing import Any

from trainer.model import Drill, Outline, Question
from trainer.practice.answering import HINT_SCORE
from trainer.practice.upkeep import NIGHT_DAYS

WRONG_DAYS = 5  # misses in a row, on different days


def among(answers: Iterable[tuple[str, float, float]]) -> dict[str, int]:
    """Return {drill id: misses in a row on different days} from ``answers`` [(drill id, score, day)], oldest first."""
    row: dict[str, int] = {}
    last: dict[str, float] = {}
    for drill_id, score, day in answers:
        if score >= HINT_SCORE:
            row.pop(drill_id, None)
        elif drill_id not in row or day - last[drill_id] >= NIGHT_DAYS:
            row[drill_id] = row.get(drill_id, 0) + 1
        last[drill_id] = day
    return row


def easier(drill: Outline, drills: Mapping[str, Outline], not_now: Iterable[str]) -> str | None:
    """Return the id of the hardest drill of the same quantity that is easier than ``drill``, None if there is none."""
    gone = set(not_now)
    found = [
        one for one in drills.values()
        if drill.quantity and one.quantity == drill.quantity and one.level < drill.level and one.id not in gone
    ]  # fmt: skip
    return max(found, key=lambda one: one.level).id if found else None


def form_of(drill: Drill) -> dict[str, Any]:
    """Return what ``questions.make`` is told: of a flow one step alone is asked."""
    return {"form": "next"} if drill.kind == "flow" else {}


def helped(question: Question, drill: Drill) -> str:
    """Return the text of ``question`` with the rule of its ``drill`` in front, or the hint."""
    rule, text = drill.hint or drill.why or question.hint, question.text
    return f"This one stays wrong, so its rule comes first: {rule}\n{text}" if rule else text
