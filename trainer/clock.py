"""The one place that reads the time.

Everything else is handed a clock.  ``TRAINER_NOW`` holds the clock still (ISO 8601, with an offset), so
that a scripted session is the same every time; such a clock does not measure how long an answer took.
"""

import os
import time
from datetime import UTC, datetime

from trainer.errors import UsageError

TYPE_CHECKING = False
if TYPE_CHECKING:  # `typing` alone would cost a cold start as much as the database does
    from typing import Protocol
else:
    Protocol = object

FIRST_YEAR, LAST_YEAR = 1970, 2200  # of a date that is typed or stored; nobody flies in other times


def offset_min(local: datetime) -> int:
    """Return by how many minutes ``local`` (aware) is ahead of UTC."""
    offset = local.utcoffset()
    return int(offset.total_seconds() // 60) if offset is not None else 0


class SystemClock:
    """The computer's clock."""

    measures = True
    _left_out = 0.0

    def leave_out(self, seconds):
        """Count the last ``seconds`` as if they had not passed: the person was away."""
        self._left_out += seconds

    def now(self):
        """Return the current instant, aware, in UTC."""
        return datetime.now(UTC)

    def local(self):
        """Return the current instant, aware, in the computer's own time zone."""
        try:
            return self.now().astimezone()
        except (ValueError, OverflowError):  # TZ names an offset of more than a day: there is no such place
            return self.now()

    def at(self, naive):
        """Return the instant at which clocks here show ``naive`` (daylight saving included)."""
        try:
            return naive.astimezone()
        except ValueError:
            return naive.replace(tzinfo=UTC)

    def seconds(self):
        """Return a count of seconds for measuring how long something took; what was left out is not in it."""
        return time.perf_counter() - self._left_out


class StillClock:
    """A clock that stands at ``instant`` until it is moved; it measures no durations."""

    measures = False

    def __init__(self, instant):
        self.instant = instant

    def now(self):
        """Return the instant in UTC."""
        return self.instant.astimezone(UTC)

    def local(self):
        """Return the instant with the offset that it was given in."""
        return self.instant

    def at(self, naive):
        """Return the instant at which clocks here show ``naive``: the offset never changes."""
        return naive.replace(tzinfo=self.instant.tzinfo)

    def leave_out(self, seconds):
        """Leave nothing out: this clock is moved by hand."""

    def seconds(self):
        """Return seconds since the epoch: they move only when ``instant`` is moved."""
        return self.instant.timestamp()


Clock = SystemClock | StillClock  # (a Protocol would load typing at every start)


def clock_from_environment(environ=os.environ):
    """Return a ``StillClock`` if ``TRAINER_NOW`` is set, else the ``SystemClock``.

    Raises ``UsageError`` when the variable is not an ISO 8601 date and time.
    """
    text = environ.get("TRAINER_NOW", "").strip()
    if not text:
        return SystemClock()
    try:
        instant = datetime.fromisoformat(text)
        instant.astimezone(UTC)  # the first day of the calendar has no neighbour
        if not FIRST_YEAR <= instant.year <= LAST_YEAR:
            raise ValueError(instant)
    except (ValueError, OverflowError):
        raise UsageError(f"TRAINER_NOW is {text!r}", hint="write it as 2026-12-04T20:00:00+00:00") from None
    return StillClock(instant if instant.tzinfo else instant.replace(tzinfo=UTC))
