"""Dates and times as people type them."""

import re
from datetime import date, datetime, time, timedelta

from trainer.clock import LAST_YEAR
from trainer.errors import UsageError

MOST_DIGITS = 6  # of a number of days
WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
MONTHS = (
    "january", "february", "march", "april", "may", "june",
    "july", "august", "september", "october", "november", "december",
)  # fmt: skip
_TIME = re.compile(r"(?:^|[ t])([01]?\d|2[0-3]):([0-5]\d)$")
EVENING = time(20, 0)  # a date alone means its evening


def read(text, clock):
    """Return the aware local instant that ``text`` means.

    Read are "2026-12-04 20:00", "2026-12-04", "20:00" (today), "today", "tomorrow", "in 10 days", "saturday" and
    "next saturday" (the first one after today), "12 dec" and "december 12" (the next one), each with a time behind it
    or without ("saturday 19:30").
    Raises ``UsageError`` for anything else.
    """
    words, hour = _hour(text.strip().lower())
    today = clock.local().date()
    named = {"today": 0, "tomorrow": 1}.get(words, _days(words))
    try:
        spoken = _weekday(words, today) or _day_of_month(words, today)
        if spoken is not None:
            return _in_time(datetime.combine(spoken, hour), clock)
        if named is not None:
            return _in_time(datetime.combine(today + timedelta(days=named), hour), clock)
        if len(words) == 10:
            return _in_time(datetime.combine(date.fromisoformat(words), hour), clock)
        if not words and text.strip():
            return clock.at(datetime.combine(today, hour))
        return _in_time(datetime.fromisoformat(words), clock)
    except (ValueError, OverflowError):
        raise UsageError(
            f"I can't read {text[:40]!r} as a date", hint='write it as "2026-12-04 20:00", or "in 10 days"'
        ) from None


def _hour(words):
    """Return (``words`` without the time at their end, that time, else the evening's)."""
    found = _TIME.search(words)
    if found is None:
        return words, EVENING
    return words[: found.start()].rstrip(" ,t"), time(int(found[1]), int(found[2]))


def _weekday(words, today):
    """Return the first day after ``today`` that ``words`` name, None where they name none."""
    name = words.removeprefix("next ").removeprefix("on ")
    found = [number for number, day in enumerate(WEEKDAYS) if len(name) >= 3 and day.startswith(name)]
    return today + timedelta(days=(found[0] - today.weekday() - 1) % 7 + 1) if found else None


def _day_of_month(words, today):
    """Return the next day with the number and month in ``words``, from today on, None where there is none."""
    parts = sorted(words.replace(".", " ").replace(",", " ").split())  # the number first, whichever way it is said
    if len(parts) != 2 or not parts[0].isdecimal() or len(parts[0]) > 2 or len(parts[1]) < 3:
        return None
    month = next((number for number, name in enumerate(MONTHS, start=1) if name.startswith(parts[1])), None)
    if month is None:
        return None
    this_year = date(today.year, month, int(parts[0]))
    return this_year if this_year >= today else date(today.year + 1, month, int(parts[0]))


def _in_time(instant, clock):
    if instant.year > LAST_YEAR:
        raise ValueError(instant)
    return instant if instant.tzinfo else clock.at(instant)


def _days(words):
    parts = words.split()
    if (
        len(parts) == 3
        and parts[0] == "in"
        and parts[2] in ("day", "days")
        and parts[1].isdecimal()
        and len(parts[1]) <= MOST_DIGITS
    ):
        return int(parts[1])
    return None


def midnight(clock):
    """Return the instant at which the local day began."""
    return clock.at(datetime.combine(clock.local().date(), time(0)))


def days_between(first, second):
    """Return the whole local days from the date of ``first`` to that of ``second``."""
    return (second.date() - first.date()).days
