"""Clocks that are set back, zones and summer time that change, a leap day, the ends of the calendar."""

import os
import sys
from datetime import UTC, datetime, timedelta

import pytest

from tests.faults import driving, killing

SESSION = ("practice", "--questions", "2")
TYPED = "s\n" * 4


def practise(trainer, monkeypatch, home, now):
    """Run a session at ``now`` (ISO 8601) and return what is stored after it."""
    before = killing.stored(home)
    monkeypatch.setenv("TRAINER_NOW", now)
    done = trainer(*SESSION, typed=TYPED)
    assert (done.code, done.err) == (0, ""), done.err
    after = killing.stored(home)
    assert len(done.judged) == 2 == len(after.reviews) - len(before.reviews)
    assert after.problems == []
    assert trainer("outlook").code == 0
    return after


def test_a_clock_that_is_set_back_a_day(trainer, monkeypatch, home):
    for now in (
        "2030-03-05T19:00:00+00:00",
        "2030-03-04T19:00:00+00:00",
        "2020-01-01T00:00:00+00:00",
        "2030-03-06T19:00:00+00:00",
    ):
        after = practise(trainer, monkeypatch, home, now)
    days = [review.at.date().isoformat() for review in after.reviews[::2]]
    assert days == ["2030-03-05", "2030-03-04", "2020-01-01", "2030-03-06"], "kept in the order they were given"
    assert all(0.0 <= review.predicted <= 1.0 for review in after.reviews)
    assert len(list((home / "backups").iterdir())) == 4


def test_another_time_zone_on_the_same_evening(trainer, monkeypatch, home):
    """Cross the date line: the local day comes twice, then a day is left out."""
    for now in ("2030-03-05T23:30:00+12:00", "2030-03-05T00:30:00-11:00", "2030-03-06T12:30:00+13:00"):
        after = practise(trainer, monkeypatch, home, now)
    assert [review.offset_min for review in after.reviews[::2]] == [720, -660, 780]
    ats = [review.at for review in after.reviews]
    assert ats == sorted(ats) and ats[-1] - ats[0] < timedelta(hours=13)


def test_summer_time_begins_and_ends(trainer, monkeypatch, home):
    # Central Europe: 2030-03-31 01:00 UTC and 2030-10-27 01:00 UTC (Directive 2000/84/EC: last Sundays).
    for now in (
        "2030-03-31T01:59:59+01:00",
        "2030-03-31T03:00:01+02:00",
        "2030-10-27T02:59:59+02:00",
        "2030-10-27T02:00:01+01:00",
    ):
        after = practise(trainer, monkeypatch, home, now)
    ats = [review.at for review in after.reviews[::2]]
    assert ats[1] - ats[0] == ats[3] - ats[2] == timedelta(seconds=2)


def test_a_leap_day_and_the_end_of_a_year(trainer, monkeypatch, home):
    for now in (
        "2028-02-28T23:59:59+00:00",
        "2028-02-29T12:00:00+00:00",
        "2028-03-01T00:00:00+00:00",
        "2028-12-31T23:59:59-05:00",
        "2029-01-01T00:00:01+00:00",
    ):
        after = practise(trainer, monkeypatch, home, now)
    assert after.reviews[2].at == datetime(2028, 2, 29, 12, tzinfo=UTC)
    monkeypatch.setenv("TRAINER_NOW", "2028-02-29T12:00:00+00:00")
    assert trainer("cram", "--on", "2028-02-30 20:00").code == 2
    assert trainer("cram", "--on", "2028-02-29 20:00").code == 0


@pytest.mark.parametrize(
    "now",
    [
        "0001-01-01T00:00:00+14:00",
        "9999-12-31T23:59:59-11:00",
        "0001-01-01T00:00:00+00:00",
        "9999-12-31T23:59:59+00:00",
        "1969-12-31T23:59:59+00:00",
        "2030-03-01T00:00:00+23:59",
        "2030-02-30T00:00:00",
        "now",
        "2030-03-01",
        "١٩٩٩-٠١-٠١",
    ],
)
def test_any_time_is_worked_with_or_refused_in_one_line(trainer, monkeypatch, now):
    """The first and the last day of the calendar ended in a traceback."""
    monkeypatch.setenv("TRAINER_NOW", now)
    for words in (SESSION, ("outlook",), ("cram", "--on", "in 10 days"), ("data", "backup"), ("report",)):
        done = trainer(*words, typed=TYPED)
        assert "Traceback" not in done.err and len(done.err.splitlines()) <= 1
        assert done.code in (0, 2), (words, done.err)


@pytest.mark.skipif(os.name != "posix", reason="TZ sets the zone of a process on POSIX only")
@pytest.mark.parametrize("zone", ["UTC0", "AAA-14", "BBB+12", "CCC-5:45", "DDD0EEE,J1/0,J365/23"])
def test_the_zone_of_the_computer_is_stored_beside_the_instant(home, zone):
    done = driving.run("practice", "--questions", "1", home=home, typed="s\n", TZ=zone)
    assert (done.returncode, done.stderr) == (0, "")
    (review,) = killing.stored(home).reviews
    assert review.offset_min == {"UTC0": 0, "AAA-14": 840, "BBB+12": -720, "CCC-5:45": 345}.get(zone, 60)
    assert abs(review.at - datetime.now(UTC)) < timedelta(minutes=2)


def test_the_seconds_of_an_answer_do_not_follow_the_clock(home):
    """A clock that is set while a question is on screen changes neither the time of the answer nor the session."""
    code = """
import sys
from datetime import UTC, datetime, timedelta
import trainer.clock
class Jumping(trainer.clock.SystemClock):
    calls = 0
    def now(self):
        Jumping.calls += 1
        return datetime.now(UTC) + timedelta(days=(-1) ** Jumping.calls)
trainer.clock.SystemClock = Jumping
from trainer.cli import main
sys.exit(main(["practice", "--questions", "3"]))
"""
    import subprocess

    done = subprocess.run(
        [sys.executable, "-c", code],
        input="s\ns\ns\n",
        capture_output=True,
        text=True,
        encoding="utf-8",
        timeout=60,
        env=driving.environment(home),
    )
    assert (done.returncode, done.stderr) == (0, "")
    after = killing.stored(home)
    assert len(after.reviews) == 3 and after.problems == []
    first, *later = after.reviews  # the first question of all has no clock
    assert first.seconds is None and all(0.0 <= review.seconds < 30.0 for review in later)
