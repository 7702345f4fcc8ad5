"""A stored review told again: its question, what was typed, the slip in words, the worked solution.

The deck may have been edited or removed since; then what can't be told any more is left out.
"""

from trainer.drills import worked_solution
from trainer.engine import display
from trainer.errors import TrainerError
from trainer.model import Question

# The difference of two directions is an angle, of two clock times a number of minutes, of two altitudes feet.
DIFFERENCE_UNITS = {"heading": "deg", "minute": "min", "clock": "min"}


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
    """Return a signed error in words: "3° high"."""
    if not deviation:
        return ""
    size = display.value(abs(deviation), DIFFERENCE_UNITS.get(unit, unit))
    return f"{size} {'high' if deviation > 0 else 'low'}"


def question_of(review, drill):
    """Return the ``Question`` that ``review`` answered."""
    return Question(
        drill_id=review.drill_id, kind=review.kind, form=review.form, seed=review.seed, text=review.question,
        inputs=review.inputs, truth=review.truth, truth_text=truth_text(review, drill), unit=review.unit,
        limit_s=review.limit_s, area=review.area,
    )  # fmt: skip


def worked(review, drill, library):
    """Return the lines of the worked solution, [] where the deck has changed so that there is none."""
    try:
        return worked_solution.worked(question_of(review, drill), drill, library)
    except (TrainerError, KeyError, ValueError, TypeError, AttributeError, IndexError):
        return []


def slip_words(name, review, drill):
    """Return the slip called ``name`` in words, the numbers of ``review`` in them."""
    from trainer.engine.quantities import QUANTITIES

    quantity = QUANTITIES.get(getattr(drill, "quantity", ""))
    slips = (*(quantity.slips if quantity else ()), *getattr(drill, "slips", ()))
    words = next((slip.words for slip in slips if slip.name == name), "")
    if not words or drill.kind != "computed":
        return name
    from trainer.drills import computed

    try:
        return computed.filled(words, drill, review.inputs, truth_text(review, drill))
    except (TrainerError, KeyError, ValueError, TypeError):
        return name
