"""One sortie, flown and judged: next, submit, finish.  Prints nothing and reads no keys.

There are no hints and nothing is asked twice.  What was answered wrongly is told, and the sortie goes on with
the true number, so that one error is not counted five times.
"""

from dataclasses import dataclass, replace

from trainer.model import OUT_OF_TIME, OUTSIDE_LIMITS, Grade
from trainer.practice import knowledge
from trainer.practice.answering import Recorder
from trainer.practice.night.result import Result, judge
from trainer.practice.night.sortie.log import Event

MODE = "rehearsal"


@dataclass(frozen=True, kw_only=True)
class Answer:
    """What became of one question; the fields of the first block are those that are judged."""

    drill_id: str
    kind: str
    area: str
    score: float
    seconds: float | None
    limit_s: float

    event: Event
    grade: Grade
    typed: str
    gave_up: bool
    carried: bool

    @property
    def clean(self):
        """Return whether it was right and in time."""
        return self.grade.verdict not in (OUTSIDE_LIMITS, OUT_OF_TIME) and not self.gave_up


@dataclass(frozen=True, kw_only=True)
class Sheet:
    """The result sheet: the answers in order, the ``result``, and whether the sortie was flown to its end."""

    answers: tuple[Answer, ...]
    result: Result
    complete: bool
    unanswered: int
    seconds: float | None

    @property
    def passed(self):
        """Return whether the rehearsal is passed; a sortie broken off never is."""
        return self.complete and self.result.passed


class Rehearsal:
    """Flies ``events`` over ``library``; every answer is stored in ``store`` as a review."""

    def __init__(self, *, events, library, store, clock, standard):
        self._events, self._library, self._store = list(events), library, store
        self._clock, self._standard = clock, standard
        self._recorder = Recorder(
            store=store, clock=clock, library=library, mode=MODE,
            beliefs=knowledge.beliefs(library.outlines.values(), store),
        )  # fmt: skip
        self._at = -1
        self._answers = []
        self._begun = None

    @property
    def event(self):
        """Return the event on screen, None before the first and after the last."""
        return self._events[self._at] if 0 <= self._at < len(self._events) else None

    def next(self):
        """Return the next ``Event``, or None when the sortie is over."""
        if self._begun is None:
            self._begun = self._clock.seconds()
        self._at += 1
        return self.event

    def progress(self):
        """Return (number of this question, how many there are)."""
        asked = [event for event in self._events if event.question]
        return sum(event.question is not None for event in self._events[: self._at + 1]), len(asked)

    def submit(self, typed, seconds):
        """Grade ``typed``, store the review, and return the ``Answer``.

        Raises ``AnswerError`` for what can't be read: the question stays, nothing is stored.
        """
        from trainer.drills import grading

        question = self.event.question
        measured = seconds if self._clock.measures else None
        grade = grading.grade(question, self._library.drills[question.drill_id], self._library, typed, measured)
        return self._record(grade, typed, measured)

    def give_up(self, seconds):
        """Record the question on screen as not known; return the ``Answer``."""
        from trainer.drills import grading

        question = self.event.question
        grade = grading.grade_shown_solution(question, self._library.drills[question.drill_id])
        grade = replace(grade, said=())
        return self._record(grade, "", seconds if self._clock.measures else None, gave_up=True)

    def _record(self, grade, typed, seconds, *, gave_up=False):
        event, question = self.event, self.event.question
        self._recorder.answered(question, grade, typed=typed, seconds=seconds)
        wrong = grade.verdict == OUTSIDE_LIMITS or gave_up
        answer = Answer(
            drill_id=question.drill_id, kind=question.kind, area=question.area, score=grade.score, seconds=seconds,
            limit_s=question.limit_s, event=event, grade=grade, typed=typed,
            gave_up=gave_up, carried=wrong and bool(event.number),
        )  # fmt: skip
        self._answers.append(answer)
        return answer

    def finish(self):
        """Return the ``Sheet`` of what was flown."""
        asked = sum(event.question is not None for event in self._events)
        measured = self._clock.measures and self._begun is not None
        return Sheet(
            answers=tuple(self._answers),
            result=judge(self._answers, self._standard),
            complete=len(self._answers) == asked,
            unanswered=asked - len(self._answers),
            seconds=self._clock.seconds() - self._begun if measured else None,
        )
