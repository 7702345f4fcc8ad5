"""Ctrl-Z: the shell comes back, the session goes on where it was, and the clock has stood meanwhile."""

import os
import shlex
import shutil
import signal
from datetime import timedelta

import pytest
from prompt_toolkit.input import create_pipe_input
from prompt_toolkit.output import DummyOutput

from tests.faults import driving, killing
from trainer.clock import SystemClock
from trainer.terminal import repl
from trainer.terminal.look import Look

CTRL_Z = "\x1a"


class UnderAShell(driving.OnTerminal):
    """``trainer`` started by a shell that knows jobs, which takes it up again as soon as it is suspended."""

    def command(self, words):
        return ["bash", "-c", f"set -m; {shlex.join(words)}; echo suspended; fg >/dev/null; echo left $?"]


@pytest.mark.skipif(os.name != "posix" or not shutil.which("bash"), reason="only a shell with jobs can suspend")
def test_ctrl_z_suspends_and_the_session_goes_on(home):
    driven = UnderAShell("practice", "--questions", "2", "--seed", "7", home=home)
    driven.until(driving.OnTerminal.waiting)
    driven.write(CTRL_Z.encode())
    driven.until(lambda driven: "▸" in driven.text().partition("\nsuspended")[2])
    driven.write(b"s\r")
    driven.until("Enter goes on")
    driven.write(b"q\r")
    driven.until("left 0")
    driven.rest()
    assert len(killing.stored(home).reviews) == 1 and "Traceback" not in driven.text()


def typed(clock, keys):
    """Return (line, seconds) of one prompt at which ``keys`` are pressed."""
    with create_pipe_input() as pipe:
        prompt = repl.ReplPrompt(Look(), clock=clock, input=pipe, output=DummyOutput())
        prompt.when_live(lambda: pipe.send_text(keys))
        return prompt.ask(lambda spent: "")


@pytest.mark.skipif(not hasattr(signal, "SIGTSTP"), reason="Windows knows no such thing")
def test_the_clock_stands_while_the_session_is_suspended(monkeypatch):
    clock = SystemClock()
    away = []

    def an_hour():
        away.append(True)
        clock._left_out -= 3600.0  # as if an hour had gone by

    monkeypatch.setattr(repl, "stop", an_hour)
    line, seconds = typed(clock, f"12{CTRL_Z}3\r")
    assert (line, away) == ("123", [True])
    assert seconds < 60.0


def test_where_nothing_can_be_suspended_ctrl_z_does_nothing(monkeypatch, clock):
    monkeypatch.delattr(signal, "SIGTSTP", raising=False)
    monkeypatch.setattr(repl, "stop", lambda: pytest.fail("there is no such signal"))
    assert typed(clock, f"12{CTRL_Z}3\r")[0] == "123"


def test_what_is_left_out_of_a_clock_is_not_measured():
    clock = SystemClock()
    before = clock.seconds()
    clock.leave_out(timedelta(minutes=5).total_seconds())
    assert -301.0 < clock.seconds() - before < -290.0
