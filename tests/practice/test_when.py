"""Dates as people type them, in the person's own time zone."""

import os
import subprocess
import sys
from datetime import datetime, timedelta, timezone
from pathlib import Path

import pytest

import trainer
from trainer.clock import StillClock
from trainer.errors import UsageError
from trainer.practice import when

ROOT = Path(trainer.__file__).resolve().parents[1]
WEST = timezone(timedelta(hours=-5))


@pytest.fixture
def here():
    return StillClock(datetime(2030, 3, 1, 14, 30, tzinfo=WEST))


@pytest.mark.parametrize(
    ("text", "means"),
    [
        ("2030-03-04 20:15", "2030-03-04T20:15:00-05:00"),
        ("2030-03-04", "2030-03-04T20:00:00-05:00"),
        ("20:00", "2030-03-01T20:00:00-05:00"),
        ("8:05", "2030-03-01T08:05:00-05:00"),
        ("tomorrow", "2030-03-02T20:00:00-05:00"),
        ("In 10 days", "2030-03-11T20:00:00-05:00"),
        ("2030-03-04T20:15:00+02:00", "2030-03-04T20:15:00+02:00"),
        ("2032-02-29", "2032-02-29T20:00:00-05:00"),
        ("next saturday", "2030-03-02T20:00:00-05:00"),  # the first of March 2030 is a Friday
        ("Friday", "2030-03-08T20:00:00-05:00"),
        ("thu", "2030-03-07T20:00:00-05:00"),
        ("12 dec", "2030-12-12T20:00:00-05:00"),
        ("December 12", "2030-12-12T20:00:00-05:00"),
        ("1 mar", "2030-03-01T20:00:00-05:00"),
        ("28 Feb.", "2031-02-28T20:00:00-05:00"),
        ("saturday 19:30", "2030-03-02T19:30:00-05:00"),
        ("12 dec, 9:05", "2030-12-12T09:05:00-05:00"),
        ("tomorrow 21:00", "2030-03-02T21:00:00-05:00"),
        ("2030-03-04T20:15", "2030-03-04T20:15:00-05:00"),
    ],
)
def test_a_date_is_read(here, text, means):
    assert when.read(text, here).isoformat() == means


@pytest.mark.parametrize(
    "text",
    [
        "soon",
        "",
        "next",
        "31 feb",
        "12 galley",
        "2030-02-29",
        "25:00",
        "in ten days",
        "in 9999999999 days",
        "04.03.2030",
    ],
)
def test_what_is_no_date_says_how_to_write_one(here, text):
    with pytest.raises(UsageError, match="as a date"):
        when.read(text, here)


def test_the_day_begins_at_local_midnight(here):
    assert when.midnight(here).isoformat() == "2030-03-01T00:00:00-05:00"


def test_days_are_counted_by_the_calendar(here):
    assert when.days_between(here.local(), when.read("2030-03-02 00:10", here)) == 1


@pytest.mark.skipif(sys.platform == "win32", reason="TZ is not read on Windows")
def test_a_date_beyond_the_change_to_summer_time_gets_its_offset():
    code = (
        "from trainer.clock import SystemClock; from trainer.practice import when;"
        "print(when.read('2030-01-15 20:00', SystemClock()).utcoffset(),"
        " when.read('2030-07-15 20:00', SystemClock()).utcoffset())"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, cwd=ROOT, check=True,
        env={**os.environ, "TZ": "America/New_York"},
    )  # fmt: skip
    assert done.stdout.split() == ["-1", "day,", "19:00:00", "-1", "day,", "20:00:00"]
