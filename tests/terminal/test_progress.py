"""The line that tells how far long work has come."""

import io
from datetime import timedelta

from trainer.terminal.progress import Progress


class Screen(io.StringIO):
    def isatty(self):
        return True


def work(clock, stream, *, seconds, total=100):
    with Progress("checked", clock, total=total, stream=stream) as progress:
        step = progress.counting(lambda: None)
        for _ in range(100):
            clock.instant += timedelta(seconds=seconds / 100)
            step()
        inside = stream.getvalue()
    return inside, stream.getvalue()


def test_long_work_is_told_with_an_estimate_and_the_line_is_taken_away(clock):
    inside, after = work(clock, Screen(), seconds=10)
    assert "\rchecked: 49 of 100, about 5 s left" in inside
    assert after.endswith(" \r")
    assert inside.count("\r") <= 50, "at most five times a second"


def test_short_work_is_not_told(clock):
    assert work(clock, Screen(), seconds=0.9) == ("", "")


def test_a_pipe_stays_silent(clock):
    assert work(clock, io.StringIO(), seconds=10) == ("", "")


def test_work_of_unknown_length_is_counted(clock):
    assert "\rchecked: 49" in work(clock, Screen(), seconds=10, total=None)[0]
