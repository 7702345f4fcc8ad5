"""Past forecasts correct the next ones: too modest a belief is believed more, and the plan itself stays."""

from datetime import timedelta

import pytest

from trainer.memory.reliability import FEWEST, Recalibration, Reliability
from trainer.practice import honesty


class Answers:
    """A store of answers: rows of (predicted, score, mode, drill, days from the start[, hint[, asked back]])."""

    def __init__(self, rows, start):
        self.rows, self.start, self.since = rows, start, None

    def table(self, columns, since=None):
        self.since = since
        named = [
            {"predicted": row[0], "score": row[1], "mode": row[2], "drill_id": row[3],
             "at": (self.start + timedelta(days=row[4])).isoformat(), "hint_used": row[5] if len(row) > 5 else 0,
             "asked_back": row[6] if len(row) > 6 else ""}
            for row in self.rows
        ]  # fmt: skip
        return [tuple(row[name] for name in columns) for row in named]


@pytest.fixture
def start(clock):
    return clock.now() - timedelta(days=30)


def rows(count, *, predicted=0.4, gap_days=1.0, mode="practice"):
    """Return answers to one drill after another and again after ``gap_days``: three of four right the second time."""
    first = [(predicted, 0.0, mode, f"drill-{number}", 0.0) for number in range(count)]
    return first + [(predicted, float(number % 4 > 0), mode, f"drill-{number}", gap_days) for number in range(count)]


def test_answers_better_than_predicted_raise_the_next_forecast(clock, start):
    found = honesty.correction(Answers(rows(100), start), clock.now())
    assert found.apply(0.4) > 0.55


def test_first_answers_and_repeats_in_one_sitting_and_debriefs_say_nothing(clock, start):
    same_sitting = Answers(rows(100, gap_days=0.1), start)
    flown = Answers(rows(100, mode="debrief"), start)
    few = Answers(rows(FEWEST - 1), start)
    for store in (same_sitting, flown, few):
        assert honesty.correction(store, clock.now()) == Recalibration()
    assert honesty.correction(Answers(rows(FEWEST), start), clock.now()) != Recalibration()


def test_answers_after_a_hint_are_no_test_of_what_was_said_of_an_answer_without_one(clock, start):
    hinted = Answers([(*row, 1) for row in rows(100)], start)
    taken = Answers([(*row, 0, "did you mean it?") for row in rows(100)], start)
    for helped in (hinted, taken):
        assert honesty.correction(helped, clock.now()) == Recalibration()
        assert honesty.past(helped) == honesty.Past(Reliability(count=0), 0, None)


def test_only_late_answers_are_read_for_a_correction_and_all_for_the_record(clock, start):
    store = Answers(rows(60), start)
    honesty.correction(store, clock.now())
    assert store.since == clock.now() - honesty.LATELY
    honesty.past(store)
    assert store.since is None


def test_first_answers_are_counted_apart_for_nothing_was_known_to_foretell_them(clock, start):
    store = Answers([*rows(60), (0.9, 1.0, "debrief", "flown", 3.0), (0.4, 1.0, "practice", "flown", 4.0)], start)
    found = honesty.past(store)
    assert found.reliability.count == 61
    assert found.reliability.bias == pytest.approx(0.4 - (45 + 1) / 61)
    assert (found.first_answers, found.first_right) == (60, 0.0)
    assert honesty.past(Answers([], start)) == honesty.Past(Reliability(count=0), 0, None)
