"""A stored review told again: its question, what was typed, the slip in words, the worked solution.

The deck may have been edited or removed since; then what can't be told any more is left out.
"""

import re

from trainer.drills import drawing, grading, questions, worked_solution
from trainer.engine import display
from trainer.engine.picture import as_record
from trainer.engine.units import UNITS
from trainer.errors import TrainerError
from trainer.model import Question

MANY_DRAWS = 10
EXAMPLE_SEED = "example of a report"
# What comes of a review whose drill is another now.
_CHANGED = (TrainerError, KeyError, ValueError, TypeError, AttributeError, IndexError)
_COMMON = {"instead", "answer", "taken", "whatever", "where", "which", "there", "their", "every", "other", "added"}


def title_of(drill):
    """Return what a drill (or its outline) is about, in a few words; of one known by heart, what it asks."""
    if getattr(drill, "quantity", ""):
        from trainer.engine.quantities import QUANTITIES

        quantity = QUANTITIES[drill.quantity]
        result = quantity.result(getattr(drill, "result", ""))
        return quantity.title if result.name == quantity.results[0].name else f"{quantity.title}: {result.title}"
    first = drill.label.split("\n")[0]
    return first if "{" not in first else ""


def truth_text(review, drill):
    """Return the right answer of ``review`` as it was shown."""
    if drill.kind == "flow":
        from trainer.drills.flow import truth_lines

        joiner = ", then " if review.form in ("order", "recite") else " or "
        return joiner.join(truth_lines(drill, review.truth))
    if drill.kind == "computed":
        from trainer.drills import computed

        result = computed.result_of(drill)
        if result.words:
            return display.coded(review.truth, result.words)
        return display.value(float(review.truth), review.unit, result.round_to or None)
    return _plain(review.truth, review.unit)


def _plain(truth, unit):
    if isinstance(truth, (int, float)):
        return display.exact(float(truth), unit) if unit else f"{truth:g}"
    return truth if isinstance(truth, str) else "; ".join(map(str, truth))


def answer_text(review, drill):
    """Return what was typed; of a line that was chosen by its number, the line."""
    chosen = review.value if isinstance(review.value, tuple) else (review.value,)
    if not review.typed.replace(" ", "").isdigit() or not all(isinstance(one, str) for one in chosen):
        return review.typed
    steps = {step.id: step.do for step in getattr(drill, "steps", ())} if drill.kind == "flow" else {}
    return ", then ".join(steps.get(one, one) for one in chosen)


def deviation_text(deviation, unit):
    """Return a signed error in words, as the screen said it: "3° too far right"; "" where there is none."""
    return grading.how_far(deviation, unit) if deviation and unit in UNITS else ""


def in_flight(review):
    """Return what a debrief told of one thing of the flight: "In the air: gross weight, off by 400 lb"."""
    what = review.question.removeprefix("in flight: ")
    if not review.deviation:
        return f"In the air: {what}, {review.value}"
    size, unit = grading.difference(abs(review.deviation), review.unit)
    return f"In the air: {what}, off by {display.exact(size, unit) if unit in UNITS else f'{size:g}'}"


def told_wrong(review, drill):
    """Return a wrong answer as one sentence: what was asked, what was answered, what is right."""
    if review.mode == "debrief":
        return f"{in_flight(review)}."
    truth, off = truth_text(review, drill), deviation_text(review.deviation, review.unit)
    if not review.typed:
        # The worked solution beneath tells a flow whole.
        return f"{review.question} – asked for the solution" + ("." if drill.kind == "flow" else f"; right is {truth}.")
    typed = f"answered {answer_text(review, drill)}"
    if review.asked_back:
        typed += f", asked back: {review.asked_back}"
    return f"{review.question} – {typed}; right is {truth}{f' ({off})' if off else ''}."


def question_of(review, drill):
    """Return the ``Question`` that ``review`` answered."""
    return Question(
        drill_id=review.drill_id, kind=review.kind, form=review.form, seed=review.seed, text=review.question,
        inputs=review.inputs, truth=review.truth, truth_text=truth_text(review, drill), unit=review.unit,
        limit_s=review.limit_s, area=review.area,
    )  # fmt: skip


def example(review, drill, library, *, answers=True):
    """Return the ``Question`` that shows how ``drill`` is done: what ``review`` answered, None where nobody can tell.

    Without ``answers`` it is one that nobody was asked: from the pilot's own numbers and a slip their answer follows.
    """
    try:
        if not answers and drill.kind == "computed":
            return questions.make(drill, library, EXAMPLE_SEED)
        return None if review.mode == "debrief" else question_of(review, drill)  # in the air nobody drew numbers
    except _CHANGED:
        return None


def varies(drill, library):
    """Return whether ``drill`` asks in so many ways that a slip alone does not tell what was typed."""
    return drill.kind != "computed" or drawing.chances(drill, library) >= MANY_DRAWS


def worked(question, drill, library):
    """Return the lines of the worked solution without its picture, [] where the deck has changed too much."""
    try:
        return worked_solution.worked(question, drill, library, drawn=False) if question else []
    except _CHANGED:
        return []


def picture(question, drill, library):
    """Return the record of the picture that belongs to the worked solution, None where there is none."""
    try:
        found = worked_solution.picture(question, drill, library) if question else None
    except _CHANGED:
        return None
    return as_record(found) if found else None


def slipped_line(lines, words):
    """Return the place of the one of ``lines`` that the ``words`` of a slip speak of, None where none stands out.

    It is the line that shares most telling words with them.

    >>> slipped_line(["given: angels 12", "one mile for each thousand feet, plus fifteen"], "you left the fifteen out")
    1
    """
    told = _telling(words)
    shared = [
        0 if line.startswith(("given", "answer", "source", "invented")) else len(told & _telling(line))
        for line in lines
    ]
    most = max(shared, default=0)
    return shared.index(most) if most and shared.count(most) == 1 else None


def _telling(text):
    return {word for word in re.findall(r"[a-z]{5,}|\d+", text.lower()) if word not in _COMMON}


def slip_words(name, question, drill):
    """Return the slip called ``name`` in words, the numbers of ``question`` (None: no number) in them."""
    from trainer.engine.quantities import QUANTITIES

    quantity = QUANTITIES.get(getattr(drill, "quantity", ""))
    slips = (*(quantity.slips if quantity else ()), *getattr(drill, "slips", ()))
    words = next((slip.words for slip in slips if slip.name == name), "")
    if not words or drill.kind != "computed" or question is None:
        return name
    from trainer.drills import computed

    try:
        return computed.filled(words, drill, question.inputs, question.truth_text)
    except (TrainerError, KeyError, ValueError, TypeError):
        return name
