"""Reviews as statements of the Experience API, for a training organisation's record store.

Source: IEEE 9274.1.1-2023 (xAPI 2.0), and xAPI 1.0.3 part two (github.com/adlnet/xAPI-Spec, xAPI-Data.md); what is
written is valid under both.  The pilot is an account with an opaque name at a home page that can belong to nobody
(RFC 2606 reserves .invalid); ids follow from the digest of the review, so that sending twice stores once.
"""

import json
import uuid
from collections import Counter

from trainer.model import is_right
from trainer.pages import seal
from trainer.pages.text import clean

HOME = "https://trainer.invalid"
ANSWERED = {"id": "http://adlnet.gov/expapi/verbs/answered", "display": {"en": "answered"}}
INTERACTION = "http://adlnet.gov/expapi/activities/cmi.interaction"
EXTENSION = f"{HOME}/extensions"
_NAMESPACE = uuid.uuid5(uuid.NAMESPACE_URL, HOME)
COLUMNS = (
    "digest", "at", "drill_id", "deck", "kind", "area", "form", "question", "typed", "score", "seconds", "verdict",
    "slip",
    "deviation", "unit", "mode", "predicted", "hint_used", "asked_back",
)  # fmt: skip


def statements(rows, pilot, *, answers=True):
    """Return the JSON text of the statements for ``rows`` (values of ``COLUMNS``); the first bears the open seal.

    ``pilot`` is the record of a report; ``answers`` False leaves out what was typed and what it follows from.  Without
    rows: "[]".
    """
    actor = {
        "objectType": "Agent",
        "name": clean(pilot["name"], 80),
        "account": {"homePage": HOME, "name": pilot["id"] or "unknown"},
    }
    lines, times = [], Counter()
    for row in rows:
        review = dict(zip(COLUMNS, row, strict=True))
        moment = f"{review['at']} {review['drill_id']}"
        times[moment] += 1
        # The same in every export, before and after two homes are merged; nothing of the answer is in it.
        name = uuid.uuid5(_NAMESPACE, f"{actor['account']['name']} {moment} {times[moment]}")
        statement = _statement(review, str(name), actor, answers)
        if not lines:
            statement["context"]["extensions"][f"{EXTENSION}/seal"] = seal.OPEN
        lines.append(json.dumps(statement, ensure_ascii=False, allow_nan=False))
    return "[\n" + ",\n".join(lines) + "\n]\n"


def _statement(review, name, actor, answers):
    return {
        "id": name,
        "actor": actor,
        "verb": ANSWERED,
        "object": _activity(review),
        "result": _result(review, answers),
        "context": {
            "platform": "trainer",
            "contextActivities": {
                "parent": [{"objectType": "Activity", "id": f"{HOME}/decks/{review['deck']}"}],
                "grouping": [{"objectType": "Activity", "id": f"{HOME}/areas/{review['area']}"}],
            },
            "extensions": {
                f"{EXTENSION}/mode": review["mode"],
                f"{EXTENSION}/form": review["form"],
                **({f"{EXTENSION}/question": clean(review["question"], 600)} if answers else {}),
                f"{EXTENSION}/hint-used": bool(review["hint_used"]),
                f"{EXTENSION}/predicted": review["predicted"],
                f"{EXTENSION}/asked-back": bool(review["asked_back"]),
                **({f"{EXTENSION}/review-digest": review["digest"].hex()} if answers else {}),
            },
        },
        "timestamp": review["at"],
    }


def _activity(review):
    """Return the activity: a drill.  Its definition is the same whatever was asked, for one id has one definition."""
    return {
        "objectType": "Activity",
        "id": f"{HOME}/drills/{review['drill_id']}",
        "definition": {
            "type": INTERACTION,
            "interactionType": "other",
            "name": {"en": review["drill_id"]},
            "extensions": {f"{EXTENSION}/kind": review["kind"]},
        },
    }


def _result(review, answers):
    result = {
        "score": {"scaled": review["score"]},
        "success": is_right(review["score"]),
        "completion": True,
        "extensions": {f"{EXTENSION}/verdict": review["verdict"]},
    }
    if answers and review["slip"]:
        result["extensions"][f"{EXTENSION}/slip"] = clean(review["slip"])
    if answers and review["deviation"] is not None:
        result["extensions"][f"{EXTENSION}/deviation"] = {"value": review["deviation"], "unit": review["unit"]}
    if review["seconds"] is not None:
        result["duration"] = f"PT{review['seconds']:.2f}S"
    if answers and review["typed"]:
        result["response"] = clean(review["typed"], 200)
    if answers and review["asked_back"]:
        result["extensions"][f"{EXTENSION}/taken-as"] = clean(review["asked_back"], 200)
    return result
