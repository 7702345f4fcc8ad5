"""One session of practice: next, submit, undo, flag, finish.  Prints nothing and reads no keys.

The terminal, the pipe and the tests drive the same object.  Decks, engine and memory are loaded when they
are first needed: the first question of an ordinary day was drawn when the last session ended (``opening``)
and is on the screen before they are.
"""

from dataclasses import replace
from functools import cached_property

from trainer.errors import DisplacedError, DomainError, StorageError
from trainer.model import OUT_OF_TIME, OUTSIDE_LIMITS, Question
from trainer.practice import asked_first, opening, summary, wish
from trainer.practice.outcome import Outcome

KNOWN_ALREADY = "you said that you know it"


class Session:
    """Today's practice over ``library`` with the reviews of ``store``.

    ``load_library`` returns the ``Library`` (it is called when it is first needed), ``signature`` is that of
    the deck files it will read, ``shown`` the opening record whose question is on the screen already
    and ``begun`` the clock's seconds at which it was put there.  Raises ``UsageError`` when nothing matches the wish.
    """

    def __init__(self, *, store, clock, wish, load_library, signature, shown=None, begun=None):
        self._store, self._clock, self._wish = store, clock, wish
        self._load_library, self._signature = load_library, signature
        self._home = store.path.parent
        self._shown = shown
        self._seed = wish.seed or clock.now().isoformat()
        self._begun = begun
        self._spent_s = 0.0  # counted only where the clock does not measure
        self._drawn = 0
        self._question: Question | None = None
        self._last: Outcome | None = None
        self._again = []
        self._done = []

    # -- what is asked --------------------------------------------------------------------------------

    def next(self):
        """Return the next ``Question``, or None when the session is over."""
        self._begun = self._clock.seconds() if self._begun is None else self._begun
        self._question = self._kept() if not self._drawn else None
        if self._question is not None:
            self._drawn += 1
        elif not self._over():
            self._question = self._draw()
        return self._question

    def _kept(self):
        """Return the question kept for an ordinary day, None where there is none; loads nothing."""
        if not self._wish.plain:
            return None
        return opening.from_record(self._shown or self._store.opening(), signature=self._signature)

    def on_screen(self):
        """Return whether the question that ``next`` returned is on the screen already."""
        return self._shown is not None and self._drawn == 1

    def _over(self):
        if self._again:
            return False
        if self._wish.questions is not None:
            return len(self._done) >= self._wish.questions
        return (left_s := self.remaining_s()) is not None and left_s <= 0

    def remaining_s(self) -> float | None:
        """Return the seconds left, None when the session is counted in questions."""
        if self._wish.questions is not None:
            return None
        spent = self._spent_s
        if self._clock.measures and self._begun is not None:
            spent = self._clock.seconds() - self._begun
        return self._wish.minutes * 60.0 - spent

    def _draw(self):
        while (drill_id := self._again.pop() if self._again else self._choosing.pick()) is not None:
            try:
                return self._make(drill_id, f"{self._seed}/{self._drawn}")
            except DomainError:
                # A deck whose draws can't be met shows it only here; `trainer deck check` tells its author.
                self._choosing.flagged(drill_id)
        return None

    def _make(self, drill_id, seed):
        from trainer.drills import questions, shown_table
        from trainer.practice import flow_steps, stubborn

        self._drawn += 1
        drill, stays_wrong = self._library.drills[drill_id], self._choosing.is_stubborn(drill_id)
        lately = flow_steps.lately(drill.id, self._store) if drill.kind == "flow" else {}
        question = questions.make(
            drill,
            self._library,
            f"{seed}/{drill_id}",
            avoid=self._store.last_inputs(drill_id),
            weak=lately.get("weak", ()),
            known=lately.get("known", ()),
            **(stubborn.form_of(drill) if stays_wrong else {}),
        )
        if stays_wrong:
            return replace(question, text=stubborn.helped(question, drill))
        table = shown_table.once(drill, self._library, self._choosing.met)
        return replace(question, text=f"{question.text}\n{table}") if table else question

    @cached_property
    def _reasons(self):
        return asked_first.listed(self._store)

    @property
    def _on_screen(self) -> Question:
        assert self._question is not None, "there is no question on the screen"
        return self._question

    def reason(self):
        """Return why the question on screen is asked before others ("missed in the air …"), "" for no such reason."""
        asked_already = any(outcome.question.drill_id == self._on_screen.drill_id for outcome in self._done)
        return "" if asked_already else self._reasons.get(self._on_screen.drill_id, "")

    def number(self):
        """Return the number of the question on screen, from 1."""
        return len(self._done) + 1

    def timed(self):
        """Return whether the question on screen has a clock: all but the very first of a pilot, read with the rest."""
        return not self._first_ever or bool(self._done)

    @cached_property
    def _first_ever(self):
        return self._store.count() == 0

    # -- what is loaded when it is needed ---------------------------------------------------------------

    @cached_property
    def _library(self):
        return self._load_library()

    @cached_property
    def _drills(self):
        """Return the outlines of the drills that the wish allows, by id."""
        from trainer.practice import left_out

        gone = left_out.ids(self._store, self._library)
        return wish.wanted(self._wish, {name: one for name, one in self._library.outlines.items() if name not in gone})

    @cached_property
    def syllabus(self):
        """Return the stages over the library, with the one that is chosen."""
        from trainer.practice import stage

        return stage.chosen(self._store, self._library, self._home)

    @cached_property
    def _choosing(self):
        from trainer.practice import chooser

        return chooser.of(
            self._wish,
            store=self._store,
            clock=self._clock,
            library=self._library,
            home=self._home,
            syllabus=self.syllabus,
            drills=self._drills,
            first=list(self._reasons),
            asked=[self._question.drill_id] if self._question else (),
        )

    def _day(self):
        from trainer.practice import knowledge

        return knowledge.day_of(self._clock.now())

    # -- what is answered ---------------------------------------------------------------------------------

    def submit(self, typed, seconds, *, hint_used=False, asked_back=""):
        """Grade ``typed``, or the wording ``asked_back`` that was offered for it and taken; return the ``Outcome``.

        The review is on disk when this returns.  Raises ``AnswerError`` for what can't be read: the question
        stays, nothing is stored.
        """
        from trainer.drills import grading

        question = self._on_screen
        hint_used = hint_used or self._choosing.is_stubborn(question.drill_id)
        measured = self._measured(seconds)
        grade = grading.grade(question, self._drill(question), self._library, asked_back or typed, measured)
        return self._record(question, grade, typed, measured, hint_used=hint_used, asked_back=asked_back)

    def get_ready(self):
        """Read what judging the question will need; for a thread of its own while the person reads and types."""
        from trainer.drills import recitation

        if self._on_screen.kind == "flow":
            recitation.get_ready(self._drill(self._on_screen))

    def is_an_answer(self, word):
        """Return whether a ``word`` of command can itself be an answer to the question on screen."""
        if self._on_screen.form == "listen" and word == "?":
            return True  # of a call that was heard: not copied
        if len(word) > 1 or self._on_screen.form != "recall":
            return False
        drill = self._drill(self._on_screen)
        return any(word == text.strip().lower() for text in (*drill.accept, *drill.refuse, *drill.choices))

    def read_line(self, text):
        """Read one line of a recitation; raises ``AnswerError`` for one that can't be told from another."""
        from trainer.drills import recitation

        recitation.read_line(text, self._drill(self._on_screen))

    def give_up(self, seconds):
        """Record that the solution was asked for, which counts as not known; return the ``Outcome``."""
        from trainer.drills import grading

        question = self._on_screen
        grade = grading.grade_shown_solution(question, self._drill(question))
        return self._record(question, grade, "", self._measured(seconds), gave_up=True)

    def _measured(self, seconds):
        return seconds if self._clock.measures and self.timed() else None

    def _drill(self, question):
        return self._library.drills[question.drill_id]

    @property
    def _recorder(self):
        from trainer.practice.answering import Recorder

        return Recorder(
            store=self._store,
            clock=self._clock,
            library=self._library,
            beliefs=self._choosing.beliefs,
            mode=self._wish.mode,
            believe=self._choosing.believe,
        )

    def _record(self, question, grade, typed, seconds, *, gave_up=False, **helped):
        if not self.timed():
            self._begun = self._clock.seconds()  # the minutes begin when the welcome is read
        recorded = self._recorder.answered(question, grade, typed=typed, seconds=seconds, **helped)
        usual_s = self._choosing.beliefs.expected_seconds(question.drill_id)
        self._spent_s += seconds if seconds is not None else usual_s
        outcome = Outcome(
            question=question,
            grade=grade,
            truth_text=question.truth_text,
            clean=grade.verdict not in (OUTSIDE_LIMITS, OUT_OF_TIME) and not gave_up,
            gave_up=gave_up,
            recorded=recorded,
        )
        self._choosing.answered(question.drill_id, right=outcome.clean)
        if question.drill_id in self._reasons:
            asked_first.asked(self._store, [question.drill_id])
        self._done.append(outcome)
        self._last = outcome
        return outcome

    # -- what is taken back -------------------------------------------------------------------------------

    def undo(self):
        """Withdraw the last answer of this session; the same drill is asked again.  Return False if none."""
        if not self._done:
            return False
        outcome = self._done[-1]
        self._take_back(outcome)
        self._again.append(outcome.question.drill_id)
        return True

    def flag(self, question=None):
        """Mark ``question`` (None: the last one answered) as faulty; an answer given to it does not count."""
        outcome = None if question is not None else self._last
        asked = question or (outcome.question if outcome else None)
        if asked is None:
            return False
        drill = self._drill(asked)
        self._store.flag(
            opening.to_record(asked, signature="")["question"],
            drill_id=drill.id,
            deck=drill.deck,
            deck_hash=self._library.decks[drill.deck].hash,
            answer=outcome.recorded if outcome else None,
            at=self._clock.now(),
        )
        self._store.set_opening(None)  # it may be of the same drill
        if outcome in self._done:
            self._take_back(outcome)
        self._choosing.flagged(asked.drill_id)
        return True

    def know_it(self):
        """Leave the question on screen: the person knows it, and is asked once in the next session to prove it."""
        asked_first.add(self._store, {self._on_screen.drill_id: KNOWN_ALREADY})
        self._choosing.flagged(self._on_screen.drill_id)

    def not_for_me(self, question=None):
        """Ask the drill of ``question`` (None: the one answered last) no more; return False if there is none."""
        from trainer.practice import left_out

        asked = question or (self._last.question if self._last else None)
        if asked is None:
            return False
        left_out.switch_off(self._store, [asked.drill_id])
        self._choosing.flagged(asked.drill_id)
        return True

    def _take_back(self, outcome):
        self._recorder.take_back([outcome.recorded])
        self._done.remove(outcome)  # only now: the store may refuse
        self._choosing.taken_back(outcome.question.drill_id)
        self._last = self._done[-1] if self._done else None

    def worked(self, *, ascii_only=False, whole=True):
        """Return the worked solution of the last answer, [] when there is none.

        It ends with all that it rests on; where it need not be ``whole``, with one line of where its rule stands.
        """
        if self._last is None:
            return []
        from trainer.drills import worked_solution

        question, tell = self._last.question, worked_solution.worked if whole else worked_solution.beside_a_verdict
        return tell(question, self._drill(question), self._library, ascii_only=ascii_only)

    def missed(self):
        """Return the ids of the drills whose latest answer in this session was not right and in time, in order."""
        latest = {outcome.question.drill_id: outcome.clean for outcome in self._done}
        return [drill_id for drill_id, clean in latest.items() if not clean]

    def once_more(self):
        """Ask what was missed once more, whatever time is left."""
        self._again = self.missed()[::-1]

    # -- how it ends ----------------------------------------------------------------------------------------

    def finish(self, show=None):
        """Keep the first question of the next session and return the ``summary.Summary``.

        ``show`` is handed the summary before anything is written: a disk that is full must not take it away.
        """
        done = self._summary()
        if show is not None:
            show(done)
        from trainer.practice import standing

        try:
            if done.standing is not None:
                standing.keep(self._store, done.standing, self._clock.local().date())
            self._keep_opening()
        except DisplacedError:
            raise
        except StorageError as error:
            told = f"your answers are saved, but not what comes next time: {error.message}"
            raise StorageError(told, hint=error.hint) from error
        return done

    def _summary(self):
        if not self._done:
            return summary.Summary()
        measured = self._clock.measures and self._begun is not None
        return summary.of(
            self._done,
            self._library,
            seconds=self._clock.seconds() - self._begun if measured else None,
            standing=self._standing(),
            beliefs=self._choosing.beliefs,
            day=self._day(),
            today=self._clock.local().date(),
            away=summary.away_days(self._store, len(self._done)),
            stubborn=[one.question.drill_id for one in self._done if self._choosing.is_stubborn(one.question.drill_id)],
        )

    def _standing(self):
        """Return how far the chosen stage is; None where other decks stand instead of all."""
        from trainer.practice import knowledge, standing

        stage = self.syllabus.chosen
        if stage is None or self._wish.decks:
            return None
        core = (members := self.syllabus.members()).core or members.all
        beliefs, today = self._choosing.beliefs, self._clock.local().date()
        if self._wish.narrowed or self._wish.mode != "practice":
            beliefs = knowledge.beliefs([self._library.drills[name] for name in core], self._store)
        return standing.standing(self._store, stage, core, beliefs, day=self._day() + 1.0, today=today)

    def _keep_opening(self):
        if not (self._wish.plain and self._done):
            return
        self._choosing.keep_prices()
        # What is asked first is asked with its reason, which a question kept for a cold start has not.
        drill_id = None if asked_first.listed(self._store) else self._choosing.pick()
        if drill_id is not None and not self._choosing.is_stubborn(drill_id):
            question = self._make(drill_id, f"{self._seed}/opening")
            # A call that is heard can't be put on the screen before the line editor is there to take it off.
            kept = opening.to_record(question, signature=self._signature) if question.form != "listen" else None
            self._store.set_opening(kept)
