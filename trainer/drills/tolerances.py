"""How far off an answer may be, and still be right."""

from trainer.drills.slips import deviation, hair_of
from trainer.model import Tolerance


def tolerance(drill):
    """Return the ``Tolerance`` that answers to ``drill`` are graded with, None where no number is asked."""
    if drill.kind == "computed":
        from trainer.drills.computed import result_of

        result = result_of(drill)
        return None if result.words else result.tolerance
    if drill.kind == "recall" and getattr(drill, "value", None) is not None:
        return drill.tolerance or Tolerance(on=0.0, inside=0.0)
    return None


def is_inside(value, question, drill):
    """Return whether the number ``value`` lies inside the limits of ``question``."""
    off = abs(deviation(value, question.truth, question.unit))
    limits = tolerance(drill)
    return limits is not None and off <= limits.inside + hair_of(question.truth)
