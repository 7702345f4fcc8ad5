"""Ways to drive a session: by keys through a real line editor, and by lines."""

import io

import pytest
from prompt_toolkit.input import create_pipe_input
from prompt_toolkit.output import DummyOutput

from tests.practice.conftest import SMALL, begin, store  # noqa: F401 - fixtures
from trainer.terminal import loop
from trainer.terminal.look import Look
from trainer.terminal.plain import PlainPrompt
from trainer.terminal.repl import ReplPrompt

CTRL_D = "\x04"


class Heard(ReplPrompt):
    """A line editor that keeps what was said, and types the next of ``typed`` when it is asked.

    Keys typed before the prompt is there are thrown away (see the test of it), so they come one by one.
    """

    def __init__(self, look, *, clock, keys, typed):
        super().__init__(look, clock=clock, input=keys, output=DummyOutput())
        self.said, self.keys, self.typed = [], keys, list(typed)

    def say(self, text="", tone=""):
        self.said.append(text)

    def hear(self, text, seconds):
        self.said.append(f"({text})")

    def _prompt(self, message, *, refresh):
        self.keys.send_text(self.typed.pop(0) if self.typed else CTRL_D)
        return super()._prompt(message, refresh=refresh)


@pytest.fixture
def drive(clock):
    """Return a function that runs a session with the keys typed and returns what was said."""

    def run(session, *typed):
        with create_pipe_input() as keys:
            prompt = Heard(Look(width=80), clock=clock, keys=keys, typed=typed)
            loop.run(session, prompt)
            return prompt.said

    return run


@pytest.fixture
def lines(clock):
    """Return a function that runs a session with lines from a pipe and returns the transcript."""

    def run(session, typed, look=None):
        out = io.StringIO()
        prompt = PlainPrompt(look or Look(width=80), clock=clock, stream=io.StringIO(typed), out=out)
        loop.run(session, prompt)
        return out.getvalue()

    return run
