"""The weakest drills, each with its typical slip, real wrong answers and a worked solution; and the slow ones."""

from collections import Counter
from itertools import islice

import numpy as np

from trainer.model import is_right
from trainer.practice.evidence import retold
from trainer.practice.evidence.history import as_date

MOST_WEAK, MOST_SLOW, MOST_WRONG = 10, 6, 3
FEWEST_ANSWERS = FEWEST_ALIKE = 2
LOOKED_BACK = 60  # newest answers to a drill from which slips and wrong answers are taken
FEWEST_LATE = 2
FADED = 0.9  # a drill more surely known than this on the day is not weak


def weakest(history, forecast, store, library, *, answers=True):
    """Return records of the drills that cost most on the day: worth times the chance to miss, most first."""
    beliefs = forecast.beliefs
    counts = np.bincount(history.drills.rows, minlength=len(history.drills.names)) if len(history) else []
    asked = dict(zip(history.drills.names, counts, strict=True))
    chances = forecast.right
    worth = np.array([spec.worth for spec in beliefs.specs])
    order = np.argsort(-worth * (1 - chances), kind="stable")
    chosen = [row for row in order if asked.get(beliefs.ids[row], 0) >= FEWEST_ANSWERS and chances[row] < FADED]
    now = forecast.chances(forecast.today)
    drills = [library.drills[beliefs.ids[row]] for row in chosen[:MOST_WEAK]]
    then = [(float(now[row]), float(chances[row])) for row in chosen[:MOST_WEAK]]
    return told_apart([
        _weak(drill, *both, history, store, library, answers) for drill, both in zip(drills, then, strict=True)
    ])  # fmt: skip


def told_apart(records):
    """Return ``records`` with the drill's id behind a title that several share, as drills of one quantity do."""
    count = Counter(one["title"] for one in records)
    return [one | {"title": f"{one['title']} ({one['id']})"} if count[one["title"]] > 1 else one for one in records]


def _weak(drill, now, chance, history, store, library, answers):
    mine = history.of(drill.id)
    reviews = list(islice(store.reviews(drill=drill.id, newest_first=True), LOOKED_BACK))
    asked = [review for review in reviews if review.mode != "debrief"]
    helped = [review for review in reviews if review.hint_used or review.asked_back]
    wrong = [review for review in reviews if not is_right(review.score) and review not in helped]
    pattern = _typical(wrong, drill, library, answers)
    # The answers that show the typical slip come first: they are what there is to talk about.
    telling = sorted(wrong, key=lambda one: (not pattern or one.slip != pattern["name"], not one.typed))[:MOST_WRONG]
    example = next((one for one in (*telling, *asked) if one.mode != "debrief"), reviews[0])
    question = retold.example(example, drill, library, answers=answers)
    lines = retold.worked(question, drill, library)
    return {
        "id": drill.id,
        "title": retold.title_of(drill) or (question.text if question else drill.id),
        "area": drill.area,
        "kind": drill.kind,
        "now": now,
        "at_event": chance,
        "asked": int(mine.sum()),
        "right": int((mine & history.right).sum()),
        "late": int((mine & history.late).sum()),
        "last": as_date(history.days[mine][-1]).isoformat(),
        "slip": pattern,
        "asked_back": sum(bool(review.asked_back) for review in reviews),
        "wrong": [_wrong(review, drill) for review in telling] if answers else [],
        "example": question.text if question else "",
        "worked": lines,
        "picture": retold.picture(question, drill, library),
        "slipped_at": retold.slipped_line(lines, pattern["words"]) if pattern and drill.kind == "computed" else None,
    }


def _typical(wrong, drill, library, answers):
    """Return the ``typical`` fault of the ``wrong`` reviews, None also where it would tell what was typed."""
    if not answers and not retold.varies(drill, library):
        return None
    asked = [review for review in wrong if review.mode != "debrief"]
    return typical(asked, drill, lambda review: retold.example(review, drill, library, answers=answers))


def typical(wrong, drill, example_of=lambda review: None):
    """Return the fault that most of the ``wrong`` reviews share as a record, None where no two do.

    ``example_of`` returns the question whose numbers stand in its words.
    """
    if not wrong:
        return None
    if drill.kind == "flow":
        return _typical_step(wrong, drill)
    named = Counter(review.slip for review in wrong if review.slip)
    if named:
        name, count = named.most_common(1)[0]
        if count < FEWEST_ALIKE:
            return None
        example = next(review for review in wrong if review.slip == name)
        return {
            "name": name,
            "words": retold.slip_words(name, example_of(example), drill),
            "count": count,
            "of": len(wrong),
        }
    return _common_answer(wrong)


def _typical_step(wrong, drill):
    missed = Counter(step for review in wrong for step, score in review.parts.items() if score < 0.5)
    steps = {step.id: step for step in drill.steps}
    known = [(step, count) for step, count in missed.most_common() if step in steps]
    if not known or known[0][1] < FEWEST_ALIKE:
        return None
    step, count = known[0]
    words = f"misses the step “{steps[step].do}”"
    skipped = f"; skipped: {steps[step].skipped}" if steps[step].skipped else ""
    return {"name": f"step {step}", "words": words + skipped, "count": count, "of": len(wrong)}


def _common_answer(wrong):
    """Return the side on which most wrong answers lie; of directions, how many are near the reciprocal."""
    off = [review for review in wrong if review.deviation]
    ways = Counter(retold.deviation_text(review.deviation, review.unit).partition(" too ")[2] for review in off)
    across = sum("reciprocal" in retold.deviation_text(review.deviation, review.unit) for review in off)
    if across >= 2:
        return {"name": "reciprocal", "words": "answers with the reciprocal", "count": across, "of": len(wrong)}
    way, count = max(((way, count) for way, count in ways.items() if way), key=lambda one: one[1], default=("", 0))
    if count >= 2:
        return {"name": f"too {way}", "words": f"answers are too {way}", "count": count, "of": len(wrong)}
    unknown = sum(not review.typed for review in wrong)
    if unknown >= 2:
        return {"name": "not known", "words": "asked for the solution", "count": unknown, "of": len(wrong)}
    return None


def _wrong(review, drill):
    local, flown = as_date((review.at.timestamp() / 60 + review.offset_min) // 1440), review.mode == "debrief"
    return {
        "day": local.isoformat(),
        "question": review.question,
        "typed": "" if flown else retold.answer_text(review, drill),
        "asked_back": review.asked_back,
        "truth": "" if flown else _told(review, drill),
        "off": "" if flown else retold.deviation_text(review.deviation, review.unit),
        "slip": review.slip,
        "in_flight": flown,
        "words": _sentence(review, drill),
    }


def _sentence(review, drill):
    try:
        return retold.told_wrong(review, drill)
    except (KeyError, ValueError, TypeError, AttributeError):
        return review.question


def _told(review, drill):
    try:
        return retold.truth_text(review, drill)
    except (KeyError, ValueError, TypeError, AttributeError):
        return ""


def slow(history, forecast, library):
    """Return records of drills that are answered right but late, the slowest for its limit first."""
    found = []
    for place, name in enumerate(history.drills.names):
        mine = (history.drills.rows == place) & history.right & history.recent(28)
        late = int((mine & history.late).sum())
        if name not in forecast.drills or late < FEWEST_LATE:
            continue
        drill, times = library.drills[name], history.seconds[mine & ~np.isnan(history.seconds)]
        limit_s = forecast.beliefs.spec(name).limit_s
        found.append({
            "id": name, "title": retold.title_of(drill) or getattr(drill, "ask", name), "area": drill.area,
            "median_s": float(np.median(times)), "limit_s": float(limit_s), "late": late, "right": int(mine.sum()),
        })  # fmt: skip
    return sorted(found, key=lambda one: (-one["late"] / one["right"], -one["median_s"] / one["limit_s"]))[:MOST_SLOW]
