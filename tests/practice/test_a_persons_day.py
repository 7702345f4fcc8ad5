"""What five minutes are for people of all sorts, through the real session over the shipped decks."""

from datetime import UTC, datetime, timedelta

import numpy as np
import pytest

from tests.bench.months import Ticking
from tests.practice.conftest import SMALL
from trainer.decks import library
from trainer.model import ON_THE_NUMBER, OUTSIDE_LIMITS, Grade
from trainer.practice import standing, stubborn
from trainer.practice.session import Session
from trainer.practice.wish import Wish
from trainer.store.store import Store
from trainer.terminal import screens
from trainer.terminal.look import Look

START = datetime(2030, 3, 1, 19, tzinfo=UTC)
MINUTES = 5


@pytest.fixture(scope="module")
def shelf():
    return library.load()


class Pilot:
    """One who practises; ``answer(question)`` returns (right, seconds)."""

    def __init__(self, home, shelf, answer):
        self.home, self.shelf, self.answer, self.clock = home, shelf, answer, Ticking(START)

    def practise(self, day, **wanted):
        """Practise on ``day`` (from 0); return (questions with whether each was right, seconds, summary)."""
        self.clock.instant = began = START + timedelta(days=day)
        asked = []
        with Store.open(self.home, clock=self.clock) as store:
            session = Session(store=store, clock=self.clock, wish=Wish(**{"minutes": MINUTES, **wanted}),
                              load_library=lambda: self.shelf, signature="here")  # fmt: skip
            while (question := session.next()) is not None:
                right, seconds = self.answer(question)
                self.clock.instant += timedelta(seconds=seconds)
                self.give(session, question, right, seconds)
                asked.append((question, right))
            summary = session.finish()
        return asked, (self.clock.instant - began).total_seconds(), summary

    @staticmethod
    def give(session, question, right, seconds):
        verdict = ON_THE_NUMBER if right else OUTSIDE_LIMITS
        grade = Grade(verdict=verdict, score=float(right), value=question.truth_text)
        helped = {"hint_used": True} if session._choosing.is_stubborn(question.drill_id) else {}
        session._record(question, grade, "", seconds, **helped)


@pytest.fixture
def pilot(tmp_path, shelf):
    return lambda answer: Pilot(tmp_path / "home", shelf, answer)


def test_five_minutes_are_five_minutes(pilot):
    rng = np.random.default_rng(1)
    novice = pilot(lambda question: (rng.random() < 0.6, float(rng.uniform(4, 30))))
    spent = [novice.practise(day)[1] for day in range(5)]
    assert np.mean(spent) == pytest.approx(60 * MINUTES, rel=0.1)
    # The very first question has no clock: it is read with the welcome.
    assert max(spent[1:]) < 60 * MINUTES + 30


def test_after_three_weeks_the_first_day_is_no_flood_and_says_so(pilot):
    rng = np.random.default_rng(2)
    novice = pilot(lambda question: (rng.random() < 0.7, 10.0))
    met = set()
    for day in range(4):
        asked, _, before = novice.practise(day)
        met |= {question.drill_id for question, _ in asked}
    asked, spent, summary = novice.practise(3 + 22)
    assert spent < 60 * MINUTES + 30
    assert sum(question.drill_id in met for question, _ in asked) > 0.7 * len(asked), "what was known comes first"
    assert before.away == 1 and summary.away == 22
    told = " ".join(text for text, _ in screens.summary(summary, Look(width=80)))
    assert "22 days away: nothing to catch up" in told


def test_a_drill_that_stays_wrong_is_broken_down_and_named(tmp_path):
    hard, days, summary = "small-fix", [], None
    novice = Pilot(tmp_path / "home", library.load(files=(SMALL,)), lambda question: (question.drill_id != hard, 8.0))
    for day in range(12):
        before, (asked, _, summary) = summary, novice.practise(day, decks=(SMALL,), questions=5)
        mine = [question.text for question, _ in asked if question.drill_id == hard]
        days += [day] * bool(mine)
        if any("stays wrong" in text for text in mine):
            break
    assert len(days) == stubborn.WRONG_DAYS + 1, "five days it was an ordinary question"
    assert len(mine) == 1 and mine[0].startswith("This one stays wrong, so its rule comes first: "), "once a session"
    assert summary.stubborn == ("distance of the marshal fix",) and not before.stubborn
    assert "Stays wrong" in " ".join(text for text, _ in screens.summary(summary, Look(width=80)))


def test_who_guesses_fast_is_not_believed(pilot):
    """A guesser is right on one choice in four; what he never knew must not hold."""
    rng = np.random.default_rng(3)
    guesser = pilot(lambda question: (rng.random() < (1 / len(question.choices) if question.choices else 0.0), 1.5))
    for day in range(4):
        summary = guesser.practise(day, questions=30)[2]
    assert summary.standing.holds <= 0.05 * summary.standing.of
    assert summary.standing.holds + summary.standing.learning > 10


def test_who_knows_it_all_is_soon_done_and_told_so(pilot, shelf):
    expert = pilot(lambda question: (True, 5.0))
    for day in range(6):
        summary = expert.practise(day)[2]
        if summary.standing.holds == summary.standing.of:
            break
    assert summary.standing.holds == summary.standing.of, summary.standing
    assert "all of it holds" in " ".join(text for text, _ in screens.summary(summary, Look(width=80)))
    assert standing.HOLDS >= 0.8


def test_stubborn_is_told_by_days_and_ends_with_half_an_answer():
    missed = [("a", 0.0, float(day)) for day in range(stubborn.WRONG_DAYS)]
    assert stubborn.among(missed) == {"a": stubborn.WRONG_DAYS}
    assert stubborn.among([("a", 0.0, 1.0 + n / 100) for n in range(9)]) == {"a": 1}, "one evening is one miss"
    assert stubborn.among([*missed, ("a", 0.5, 9.0)]) == {}
