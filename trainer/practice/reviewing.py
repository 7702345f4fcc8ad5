"""A graded answer becomes the review that is stored."""

from trainer.drills import grading
from trainer.engine.quantities import ENGINE_VERSION
from trainer.model import Review
from trainer.practice import knowledge

CHOOSING = ("recall", "next", "before", "misplaced")  # forms in which one of the lines offered is the answer
HINT_SCORE = 0.5  # a hint shows the way, so what follows it is only half an answer


def review(question, grade, library, *, typed, seconds, hint_used, mode, predicted, now, local):
    """Return the ``Review`` of ``grade``; ``seconds`` is None where time was not measured."""
    drill = library.drills[question.drill_id]
    tolerance = grading.tolerance(drill)
    offered = question.choices if question.form in CHOOSING else ()
    return Review(
        drill_id=drill.id,
        deck=drill.deck,
        deck_hash=library.decks[drill.deck].hash,
        kind=drill.kind,
        area=drill.area,
        form=question.form,
        quantity=getattr(drill, "quantity", ""),
        inputs=question.inputs,
        seed=question.seed,
        question=question.text,
        typed=typed,
        value=grade.value,
        truth=question.truth,
        unit=question.unit,
        tolerance_on=tolerance.on if tolerance else None,
        tolerance_inside=tolerance.inside if tolerance else None,
        deviation=grade.deviation,
        verdict=grade.verdict,
        score=min(grade.score, HINT_SCORE) if hint_used else grade.score,
        slip=grade.slip.name if grade.slip else "",
        parts=grade.parts,
        seconds=seconds,
        limit_s=question.limit_s,
        hint_used=hint_used,
        mode=mode,
        predicted=predicted,
        guess=knowledge.guess(offered),
        at=now,
        offset_min=int(local.utcoffset().total_seconds() // 60),
        engine_version=ENGINE_VERSION,
    )
