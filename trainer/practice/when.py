"""Dates and times as people type them."""

from datetime import date, datetime, time, timedelta

from trainer.clock import LAST_YEAR
from trainer.errors import UsageError

MOST_DIGITS = 6  # of a number of days
EVENING = time(20, 0)  # a date alone means its evening


def read(text, clock):
    """Return the aware local instant that ``text`` means.

    Read are "2026-12-04 20:00", "2026-12-04", "20:00" (today), "today", "tomorrow" and "in 10 days".
    Raises ``UsageError`` for anything else.
    """
    words = text.strip().lower()
    today = clock.local().date()
    named = {"today": 0, "tomorrow": 1}.get(words, _days(words))
    try:
        if named is not None:
            return _in_time(datetime.combine(today + timedelta(days=named), EVENING), clock)
        if len(words) == 10:
            return _in_time(datetime.combine(date.fromisoformat(words), EVENING), clock)
        if len(words) <= 5:
            return clock.at(datetime.combine(today, time.fromisoformat(words.zfill(5))))
        return _in_time(datetime.fromisoformat(words), clock)
    except (ValueError, OverflowError):
        raise UsageError(
            f"I can't read {text[:40]!r} as a date", hint='write it as "2026-12-04 20:00", or "in 10 days"'
        ) from None


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
