"""One sortie, flown and judged: next, submit, finish.  Prints nothing and reads no keys.

There are no hints and nothing is asked twice.  What was answered wrongly is told, and the sortie goes on with
the true number, so that one error is not counted five times.
"""

from dataclasses import replace

from trainer.frozen import frozen
from trainer.model import OUT_OF_TIME, OUTSIDE_LIMITS, Grade, Question
from trainer.practice import asked_first, knowledge
from trainer.practice.answering import HINT_SCORE, Recorder
from trainer.practice.night import left_sortie
from trainer.practice.night.left_sortie import Given, LeftSortie
from trainer.practice.night.result import Result, judge
from trainer.practice.night.sortie.log import Event

MODE = "rehearsal"


@frozen
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
    asked_back: str = ""

    @property
    def clean(self):
        """Return whether it was right, in time, and without being asked back."""
        return self.grade.verdict not in (OUTSIDE_LIMITS, OUT_OF_TIME) and not self.gave_up and not self.asked_back


@frozen
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
    """Flies ``flown`` over ``library``; every answer is stored in ``store`` as a review.

    ``left`` is where it was left before: its answers count, and are not stored again.
    """

    def __init__(self, *, flown, library, store, clock, left=None):
        self._flown, self._library, self._store, self._clock = flown, library, store, clock
        self._events, self._standard = list(flown.events), flown.standard
        self._recorder = Recorder(
            store=store, clock=clock, library=library, mode=MODE,
            beliefs=knowledge.beliefs(library.outlines.values(), store),
        )  # fmt: skip
        self._at = -1
        self._answers = []
        self._begun, self._before_s, self._taken_up = None, 0.0, left is not None
        if left is not None:
            self._take_up(left)

    def _take_up(self, left):
        """Go to the question at which it was left."""
        from trainer.drills import grading

        self._before_s = left.seconds
        for given in left.answers:
            while self._events[self._at + 1].question is None:
                self._at += 1
            self._at += 1
            _, question = self._asked
            drill = self._library.drills[question.drill_id]
            if given.typed is None:
                grade = replace(grading.grade_shown_solution(question, drill), said=())
            else:
                grade = grading.grade(question, drill, self._library, given.typed, given.seconds)
            self._note(
                grade, given.typed or "", given.seconds, gave_up=given.typed is None, asked_back=given.asked_back
            )

    @property
    def answered(self):
        """Return how many questions were answered."""
        return len(self._answers)

    @property
    def event(self):
        """Return the event on screen, None before the first and after the last."""
        return self._events[self._at] if 0 <= self._at < len(self._events) else None

    @property
    def _asked(self) -> tuple[Event, Question]:
        event = self.event
        assert event is not None and event.question is not None, "there is no question on the screen"
        return event, event.question

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

    def submit(self, typed, seconds, *, asked_back=""):
        """Grade ``typed``, store the review, and return the ``Answer``; ``asked_back`` is what was offered and taken.

        Raises ``AnswerError`` for what can't be read: the question stays, nothing is stored.
        """
        from trainer.drills import grading

        _, question = self._asked
        measured = seconds if self._clock.measures else None
        grade = grading.grade(
            question, self._library.drills[question.drill_id], self._library, asked_back or typed, measured
        )
        return self._record(grade, typed, measured, asked_back=asked_back)

    def give_up(self, seconds):
        """Record the question on screen as not known; return the ``Answer``."""
        from trainer.drills import grading

        _, question = self._asked
        grade = grading.grade_shown_solution(question, self._library.drills[question.drill_id])
        grade = replace(grade, said=())
        return self._record(grade, "", seconds if self._clock.measures else None, gave_up=True)

    def _record(self, grade, typed, seconds, *, gave_up=False, asked_back=""):
        self._recorder.answered(self._asked[1], grade, typed=typed, seconds=seconds, asked_back=asked_back)
        return self._note(grade, typed, seconds, gave_up=gave_up, asked_back=asked_back)

    def _note(self, grade, typed, seconds, *, gave_up=False, asked_back=""):
        event, question = self._asked
        wrong = grade.verdict == OUTSIDE_LIMITS or gave_up
        answer = Answer(
            drill_id=question.drill_id, kind=question.kind, area=question.area,
            score=min(grade.score, HINT_SCORE) if asked_back else grade.score, seconds=seconds,
            limit_s=question.limit_s, event=event, grade=grade, typed=typed,
            gave_up=gave_up, carried=wrong and bool(event.number), asked_back=asked_back,
        )  # fmt: skip
        self._answers.append(answer)
        return answer

    def finish(self):
        """Return the ``Sheet`` of what was flown; one that was left is kept, and what was missed is asked first."""
        asked = self._flown.questions
        measured = self._clock.measures and self._begun is not None
        seconds = self._before_s + (self._clock.seconds() - self._begun if measured else 0.0)
        self._keep(seconds, complete=len(self._answers) == asked)
        return Sheet(
            answers=tuple(self._answers),
            result=judge(self._answers, self._standard),
            complete=len(self._answers) == asked,
            unanswered=asked - len(self._answers),
            seconds=seconds if measured else None,
        )

    def _keep(self, seconds, *, complete):
        on = f"{self._clock.local():%Y-%m-%d}"
        missed = {answer.drill_id: f"missed in the rehearsal of {on}" for answer in self._answers if not answer.clean}
        with self._store.together():
            asked_first.add(self._store, missed)
            if complete and self._taken_up:
                left_sortie.forget(self._store)
            elif self._answers and not complete:  # another one that was left before stays until then
                left_sortie.keep(self._store, self._left(seconds))

    def _left(self, seconds):
        given = (
            Given(typed=None if answer.gave_up else answer.typed, seconds=answer.seconds, asked_back=answer.asked_back)
            for answer in self._answers
        )
        return LeftSortie(
            order=self._flown.order, standard=self._standard.kept_as, answers=tuple(given), seconds=seconds,
            questions=self._flown.questions, digest=left_sortie.digest_of(self._flown.events),
        )  # fmt: skip
