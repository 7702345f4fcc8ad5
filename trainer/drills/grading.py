"""An answer compared with the truth: a verdict, a score, the slip it matched, the steps it got right."""

import math
from dataclasses import replace

from trainer.drills import answers, recitation, slips, step_order
from trainer.drills.slips import deviation, hair_of
from trainer.drills.tolerances import tolerance
from trainer.engine import display
from trainer.engine.units import UNITS
from trainer.model import INSIDE_LIMITS, ON_THE_NUMBER, OUT_OF_TIME, OUTSIDE_LIMITS, Grade


def grade(question, drill, library, typed, seconds):
    """Return the ``Grade`` of what was ``typed`` after ``seconds`` (None where time was not measured).

    Right but later than the limit is *out of time* with its full score: the time itself is the evidence.
    Raises ``AnswerError`` for what can't be read; nothing is graded then.
    """
    value = answers.read(typed, question, drill, library)
    graded = _GRADERS[question.form](value, question, drill, library)
    right = graded.verdict in (ON_THE_NUMBER, INSIDE_LIMITS)
    if right and seconds is not None and seconds > question.limit_s:
        said = (f"{math.ceil(seconds)} s, the limit is {question.limit_s:.0f} s", *graded.said)
        return replace(graded, verdict=OUT_OF_TIME, said=said)
    return graded


def grade_shown_solution(question, drill):
    """Return the ``Grade`` of a question whose solution was shown instead of an answer: not known."""
    parts = {}
    if question.kind == "flow":
        asked = question.truth if question.form in ("order", "recite") else question.truth[:1]
        parts = dict.fromkeys(asked, 0.0)
    return Grade(verdict=OUTSIDE_LIMITS, score=0.0, parts=parts, said=("the solution was shown",))


def _grade_number(value, question, drill, limits, *, others=()):
    """Return the grade of a number before slips are looked for."""
    off = deviation(value, question.truth, question.unit)
    hair = hair_of(question.truth)
    if abs(off) <= limits.on + hair:
        return Grade(verdict=ON_THE_NUMBER, score=1.0, value=value, deviation=off)
    near = (off, *(deviation(value, other, question.unit) for other in others))
    if min(abs(one) for one in near) <= limits.inside + hair:
        return Grade(verdict=INSIDE_LIMITS, score=1.0, value=value, deviation=off)
    return Grade(verdict=OUTSIDE_LIMITS, score=0.0, value=value, deviation=off, said=(how_far(off, question.unit),))


# What a deviation is called where "high" and "low" mean nothing.
OFF = {
    "heading": ("too far right", "too far left"),
    "minute": ("too late", "too early"),
    "clock": ("too late", "too early"),
}


# The difference of two directions is an angle, of two clock times a number of minutes, of two altitudes feet.
DIFFERENCE_UNITS = {"heading": "deg", "minute": "min", "clock": "min", "angels": "ft", "trim": "deg",
    "deg nose down": "deg", "units nose up": "trim units", "units nose down": "trim units",
}  # fmt: skip
RECIPROCAL_WITHIN_DEG = 2.0


def difference(off, unit):
    """Return (``off``, its unit) of a signed error in ``unit`` as a person says it: 2 angels are 2,000 ft."""
    return off * (1000.0 if unit == "angels" else 1.0), DIFFERENCE_UNITS.get(unit, unit)


def how_far(off, unit):
    """Return a signed error in ``unit`` in words: "3° too far right", "5 min too early", "the reciprocal"."""
    if UNITS[unit].form == "heading" and abs(abs(off) - 180.0) <= RECIPROCAL_WITHIN_DEG:
        return "the reciprocal" if abs(off) == 180.0 else f"about the reciprocal, {abs(off):.0f}° off"
    size, of = difference(abs(off), unit)
    amount = display.value(size, of, 10.0 ** -min(3, UNITS[of].decimals)) if size >= 1 else display.exact(size, of)
    above, below = OFF.get(UNITS[unit].form, ("too high", "too low"))
    return f"{amount} {above if off > 0 else below}"


def _grade_computed(value, question, drill, library):
    from trainer.drills import computed
    from trainer.drills.computed import other_values, result_of, slip_values

    result = result_of(drill)
    wrongs = slip_values(drill, library, question.inputs)
    if result.words:
        graded = _grade_code(value, question)
        led_here = [slip for slip, wrong in wrongs if wrong == value]
        slip = slips.together(led_here) if led_here else None
    else:
        others = other_values(drill, library, question.inputs)
        graded = _grade_number(value, question, drill, result.tolerance, others=others)
        slip = slips.matching(value, wrongs, (question.truth, *others), question.unit, result.tolerance)
    if graded.verdict != OUTSIDE_LIMITS or slip is None:
        return graded
    words = computed.filled(slip.words, drill, question.inputs, question.truth_text)
    return replace(graded, slip=replace(slip, words=words), said=(words, *graded.said))


def _grade_code(value, question):
    right = value == question.truth
    return Grade(verdict=ON_THE_NUMBER if right else OUTSIDE_LIMITS, score=float(right), value=value)


def _grade_recall(value, question, drill, library):
    if drill.value is not None:
        return _grade_number(value, question, drill, tolerance(drill))
    right = value == question.truth
    return Grade(verdict=ON_THE_NUMBER if right else OUTSIDE_LIMITS, score=float(right), value=value)


def _grade_step(value, question, drill, library):
    """Return the grade of one step named: any that the dependencies allow is right."""
    if value in question.truth:
        return Grade(verdict=ON_THE_NUMBER, score=1.0, value=value, parts={value: 1.0})
    return Grade(
        verdict=OUTSIDE_LIMITS, score=0.0, value=value, parts={question.truth[0]: 0.0},
        said=_why_not(value, question, drill),
    )  # fmt: skip


def _why_not(value, question, drill):
    """Return what is wrong with a step that is not the one asked for."""
    steps = {step.id: step for step in drill.steps}
    if value.startswith("opposite of "):
        return (f'that turns "{steps[value.removeprefix("opposite of ")].do}" round, or gets a part of it wrong',)
    if value not in steps:
        return ("that is not in this flow",)
    if question.form == "missing":
        return ("that step is there",) if value in question.inputs["shown"] else ("that step is not in this part",)
    if question.form == "next" and value in question.inputs["done"]:
        return ("that is done already",)
    if question.form == "next":
        waits = step_order.needs_of(drill.steps)[value] - set(question.inputs["done"])
        first = next((step for step in drill.steps if step.id in waits), None)
        return (f'"{first.do}" comes before it',) if first else ()
    return ()


def _grade_order(value, question, drill, library):
    needs = step_order.needs_of(drill.steps)
    found = step_order.faults(value, needs, all_steps=question.truth)
    blamed = {fault.blame for fault in found}
    parts = {step: 0.0 if step in blamed else 1.0 for step in question.truth}
    score = max(0.0, 1.0 - len(found) / len(question.truth))
    return Grade(
        verdict=OUTSIDE_LIMITS if found else ON_THE_NUMBER, score=score, value=list(value), parts=parts,
        said=tuple(recitation.fault_line(fault, drill) for fault in found),
    )  # fmt: skip


def _grade_call(value, question, drill, library):
    from trainer.drills import calls

    grader = calls.grade_heard if question.form == "listen" else calls.grade_call
    return grader(value, question, drill, library)


_GRADERS = {
    "call": _grade_call,
    "listen": _grade_call,
    "compute": _grade_computed, "recall": _grade_recall, "next": _grade_step, "before": _grade_step,
    "missing": _grade_step, "misplaced": _grade_step, "order": _grade_order, "recite": _grade_order,
}  # fmt: skip
