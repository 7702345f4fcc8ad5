"""The one way in which an answer is taken down: it becomes a review, is stored, and changes what is believed.

Practice, rehearsal and debrief all go through here, so that an answer means the same wherever it was given.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from trainer.clock import Clock, offset_min
from trainer.drills import grading
from trainer.engine.quantities import ENGINE_VERSION
from trainer.model import Drill, Grade, Question, Review
from trainer.practice import knowledge

if TYPE_CHECKING:
    from trainer.decks.library import Library
    from trainer.memory.belief import Beliefs
    from trainer.store.records import Recorded
    from trainer.store.store import Store

CHOOSING = ("recall", "next", "before", "misplaced")  # forms in which one of the lines offered is the answer
HINT_SCORE = 0.5  # a hint shows the way, so what follows it is only half an answer


class Recorder:
    """Takes answers over ``library`` down in ``store`` as reviews of one ``mode``.

    ``beliefs`` give the chance that was predicted before the answer.  ``believe(drill_id, state, learner)`` takes
    over what the store holds after it, by default into ``beliefs``.
    """

    def __init__(
        self,
        *,
        store: Store,
        clock: Clock,
        library: Library,
        beliefs: Beliefs,
        mode: str,
        believe: Callable[[str, bytes | None, bytes | None], None] | None = None,
    ):
        self._store, self._clock, self._library = store, clock, library
        self._beliefs, self._mode = beliefs, mode
        self._believe = believe or self._set

    def answered(
        self,
        question: Question,
        grade: Grade,
        *,
        typed: str,
        seconds: float | None,
        hint_used: bool = False,
        asked_back: str = "",
    ) -> Recorded:
        """Store the graded answer to ``question``; it is on the disk when this returns.

        ``seconds`` is None where time was not measured.  ``asked_back`` is what was offered and taken ("did you
        mean …"); like a hint it makes half an answer of the rest.
        """
        drill = self._library.drills[question.drill_id]
        helped = hint_used or asked_back
        review = Review(
            **self.circumstances(drill),
            **_asked(question, drill),
            typed=typed,
            value=grade.value,
            deviation=grade.deviation,
            verdict=grade.verdict,
            score=min(grade.score, HINT_SCORE) if helped else grade.score,
            slip=grade.slip.name if grade.slip else "",
            parts=grade.parts,
            seconds=seconds,
            hint_used=hint_used,
            asked_back=asked_back,
        )
        return self.keep([review])[0]

    def circumstances(self, drill: Drill) -> dict:
        """Return the fields of a ``Review`` that hang on the drill, the hour and the belief alone."""
        now = self._clock.now()
        return {
            "drill_id": drill.id,
            "deck": drill.deck,
            "deck_hash": self._library.decks[drill.deck].hash,
            "kind": drill.kind,
            "area": drill.area,
            "quantity": getattr(drill, "quantity", ""),
            "mode": self._mode,
            "predicted": self._beliefs.chance(drill.id, knowledge.day_of(now)),
            "at": now,
            "offset_min": offset_min(self._clock.local()),
            "engine_version": ENGINE_VERSION,
        }

    def keep(self, reviews: Sequence[Review]) -> list[Recorded]:
        """Store all of the ``reviews`` or, where that fails, none of them."""
        model = knowledge.model()
        with self._store.together():
            kept = [self._store.record(review, knowledge.after_review, model=model) for review in reviews]
        for one in kept:
            self._take_over(one.states, one.learner)
        return kept

    def take_back(self, kept: Sequence[Recorded]) -> None:
        """Withdraw all of ``kept``, which stay stored but no longer count."""
        with self._store.together():
            changed = [
                self._store.withdraw(one.id, knowledge.after_review, knowledge.model(), digest=one.digest)
                for one in reversed(kept)
            ]
        for one in changed:
            self._take_over(one.states, one.learner)

    def _take_over(self, states, learner):
        for drill_id, state in states.items():
            self._believe(drill_id, state, learner)

    def _set(self, drill_id, state, learner):
        if self._beliefs.has(drill_id):  # an older answer may be to a drill that is no longer there
            self._beliefs.set(drill_id, state, learner)


def _asked(question: Question, drill: Drill) -> dict:
    """Return the fields of a ``Review`` that hang on the question alone."""
    tolerance = grading.tolerance(drill)
    offered = question.choices if question.form in CHOOSING else ()
    return {
        "form": question.form,
        "inputs": question.inputs,
        "seed": question.seed,
        "question": question.text,
        "truth": question.truth,
        "unit": question.unit,
        "tolerance_on": tolerance.on if tolerance else None,
        "tolerance_inside": tolerance.inside if tolerance else None,
        "limit_s": question.limit_s,
        "guess": knowledge.guess(offered),
    }
