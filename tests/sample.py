"""Makes the sample report in exports/: six weeks of an invented pilot's practice, the same every time.

    python -m tests.sample

The pilot practises through the production session, on the shipped decks, some evenings a week; what they get right
follows from a simple memory of their own and from three habits that are hard to shake.
"""

import math
import random
import sys
import tempfile
from datetime import UTC, datetime, timedelta
from pathlib import Path

from trainer.clock import StillClock
from trainer.decks import library
from trainer.drills import computed
from trainer.errors import AnswerError
from trainer.practice.session import Session
from trainer.practice.wish import Wish
from trainer.store.records import Debrief, Event
from trainer.store.store import Store

EXPORTS = Path(__file__).resolve().parents[1] / "exports"
FORMATS = ("html", "json", "md")
NAME = "Wren (invented)"
FIRST_EVENING = datetime(2031, 3, 3, 19, 30, tzinfo=UTC)
WEEKS, EVENINGS_A_WEEK, MINUTES = 6, 5, 12.0
AREAS = ("launch", "departure", "marshal", "approach", "fuel")
FORGETTING_PER_DAY = 0.02
WEAK = {"marshal": 0.55, "fuel": 0.75}
KNOWN_BEFORE = {"launch": 0.6, "departure": 0.62, "approach": 0.5, "fuel": 0.4}
GUESS = 0.15


class EveningClock(StillClock):
    """A clock that is moved by hand and yet measures: the pilot's seconds are drawn, not waited for."""

    measures = True


class Pilot:
    """Knows a drill the better the more often it was asked, forgets from day to day, and has habits."""

    def __init__(self, seed):
        self.chance = random.Random(seed)
        self.practised = {}  # drill id -> (times, day of the last)

    def answer(self, question, drill, shelf, day):
        """Return (typed, seconds); typed is None where the solution is asked for."""
        knows = self._knows(drill, day)
        times, _ = self.practised.get(drill.id, (0, day))
        self.practised[drill.id] = (times + 1, day)
        usual = {"recall": 4.5, "computed": 13.0, "flow": 10.0}[drill.kind]
        seconds = round(usual * self.chance.lognormvariate(0.3 - 0.06 * min(times, 6), 0.3), 1)
        if self.chance.random() < knows:
            return right_answer(question, drill), seconds
        return self._wrong(question, drill, shelf), round(seconds * 1.4, 1)

    def _knows(self, drill, day):
        times, last = self.practised.get(drill.id, (0, day))
        weak = WEAK.get(drill.area, 1.0) if drill.kind == "computed" else 1.0
        before = 1.6 * KNOWN_BEFORE.get(drill.area, 0.3) > random.Random(f"{drill.id} before").random() + 0.1
        held = 1.0 - 0.42 ** (times + 3 * before)
        return min(0.985, max(GUESS, weak * held * math.exp(-FORGETTING_PER_DAY * (day - last) / (1 + times))))

    def _wrong(self, question, drill, shelf):
        if drill.kind == "computed":
            slips = computed.slip_values(drill, shelf, question.inputs)
            numeric = [value for _, value in slips if not isinstance(value, str)]
            if numeric and self.chance.random() < 0.75:
                # A habit: mostly the same slip of a drill again.
                value = numeric[0] if self.chance.random() < 0.8 else self.chance.choice(numeric)
                return f"{value:g}"
            if isinstance(question.truth, float):
                return f"{question.truth * (1 + self.chance.choice((-1, 1)) * self.chance.uniform(0.02, 0.15)):.0f}"
        if question.choices and question.form in ("recall", "next", "before"):
            return str(self.chance.randint(1, len(question.choices)))
        return None


def right_answer(question, drill):
    """Return the right answer as one would type it."""
    if question.form == "order":
        place = {text: number for number, text in enumerate(question.choices, start=1)}
        return " ".join(str(place[step.do]) for step in drill.steps if step.do in place)
    if question.form == "recite":
        return "; ".join(step.do for step in drill.steps)
    if drill.kind == "flow":
        return next(step.do for step in drill.steps if step.id == question.truth[0])
    return question.truth_text


def practise(home, *, weeks=WEEKS, evenings=EVENINGS_A_WEEK, minutes=MINUTES, seed="wren", kind=Pilot):
    """Let a pilot of this ``kind`` practise for ``weeks``; the data lie in ``home``.  Return the clock at the end."""
    shelf, pilot = library.load(), kind(seed)
    clock = EveningClock(FIRST_EVENING)
    for day in range(7 * weeks):
        if day % 7 >= evenings:
            continue
        clock.instant = FIRST_EVENING + timedelta(days=day)
        with Store.open(home, clock=clock) as store:
            if day == 0:
                at = FIRST_EVENING + timedelta(days=7 * weeks + 3)
                store.add_event(Event(name="First night", at=at, offset_min=0, minutes_per_day=12.0, areas=AREAS))
            _evening(store, clock, shelf, pilot, day, minutes)
            if day % 14 == 11:
                store.add_debrief(Debrief(flown=f"{clock.instant:%Y-%m-%d}", remarks=""))
    clock.instant += timedelta(minutes=10)
    return clock


def _evening(store, clock, shelf, pilot, day, minutes):
    session = Session(
        store=store,
        clock=clock,
        wish=Wish(minutes=minutes, areas=AREAS, seed=f"evening {day}"),
        load_library=lambda: shelf,
        signature="sample",
    )
    while (question := session.next()) is not None:
        drill = shelf.drills[question.drill_id]
        typed, seconds = pilot.answer(question, drill, shelf, day)
        clock.instant += timedelta(seconds=seconds + 4)
        try:
            session.give_up(seconds) if typed is None else session.submit(typed, seconds)
        except AnswerError:
            session.give_up(seconds)


def make(to):
    """Write the sample report and its exports into the folder ``to``; return the paths."""
    from trainer.commands import report

    with tempfile.TemporaryDirectory() as folder:
        clock = practise(Path(folder))
        return report.export(Path(folder), clock, to, formats=FORMATS, call_sign=NAME, stem="sample")


if __name__ == "__main__":
    for path in make(Path(sys.argv[1]) if len(sys.argv) > 1 else EXPORTS):
        print(path)
