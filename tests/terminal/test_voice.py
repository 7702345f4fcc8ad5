"""A call is spoken where the system has a voice, and shown where it has none; nothing waits for either."""

import time

import pytest
from prompt_toolkit.data_structures import Size
from prompt_toolkit.input import create_pipe_input
from prompt_toolkit.output.vt100 import Vt100_Output

from trainer.terminal import look, voice

CALL = "two zero one, new final bearing three five zero"
SPEAKS = """
class Engine:
    def setProperty(self, name, value):
        pass
    def say(self, text):
        open({said!r}, "w", encoding="utf-8").write(text)
    def runAndWait(self):
        import time
        time.sleep({lasts})
def init():
    {begin}
    return Engine()
"""


@pytest.fixture
def library(tmp_path, monkeypatch):
    """Return a function that installs a voice that speaks into a file, for so many seconds, or fails at its start."""

    def install(lasts=0.0, fails=False):
        said = tmp_path / "said.txt"
        begin = "raise OSError('no voice')" if fails else "pass"
        folder = tmp_path / "library"
        folder.mkdir()
        (folder / "pyttsx3.py").write_text(SPEAKS.format(said=str(said), lasts=lasts, begin=begin), encoding="utf-8")
        monkeypatch.setenv("PYTHONPATH", str(folder))
        monkeypatch.syspath_prepend(str(folder))
        return said

    return install


class Screen:
    """A terminal's output that keeps what is written."""

    encoding = "utf-8"

    def __init__(self):
        self.text = ""

    def write(self, text):
        self.text += text

    def flush(self):
        pass

    def isatty(self):
        return True

    def fileno(self):
        raise OSError


def heard(clock, seconds):
    """Return what stands on the screen of a person who hears the call."""
    from trainer.terminal.repl import ReplPrompt

    screen = Screen()
    output = Vt100_Output(screen, lambda: Size(rows=24, columns=100), term="xterm")
    with create_pipe_input() as keys:
        prompt = ReplPrompt(look.Look(width=100), clock=clock, input=keys, output=output)
        prompt.hear(CALL, seconds)
    return screen.text


def ended(spoken, within_s=20.0):
    until = time.monotonic() + within_s
    while not spoken.over and time.monotonic() < until:
        time.sleep(0.02)
    return spoken.over


def test_a_call_is_spoken_and_nothing_waits_for_it(library):
    said = library(lasts=30.0)
    begun = time.monotonic()
    spoken = voice.speak(CALL)
    assert time.monotonic() - begun < 5.0 and not spoken.over
    until = time.monotonic() + 20.0
    while not said.exists() and time.monotonic() < until:
        time.sleep(0.02)
    assert said.exists()
    spoken.stop()
    assert spoken.over


@pytest.mark.parametrize("setting", ["off", "OFF", "no", "0"])
def test_the_voice_can_be_switched_off(library, monkeypatch, setting):
    library()
    monkeypatch.setenv("TRAINER_VOICE", setting)
    assert voice.speak(CALL) is None


def test_without_the_library_there_is_no_voice(monkeypatch):
    monkeypatch.setattr(voice, "LIBRARY", "no_such_library_of_voices")
    assert voice.speak(CALL) is None


def test_a_system_without_a_voice_is_told_apart_from_one_that_spoke(library):
    library(fails=True)
    spoken = voice.speak(CALL)
    assert ended(spoken) and spoken.failed
    spoken.stop()


def test_what_is_spoken_is_not_shown(library, clock):
    said = library()
    assert "bearing" not in heard(clock, seconds=0.1)
    assert said.read_text(encoding="utf-8") == CALL


def test_where_the_voice_fails_the_call_is_shown(library, clock):
    library(fails=True)
    assert "new final bearing three five zero" in heard(clock, seconds=0.1)


def test_a_voice_that_is_off_leaves_the_text_as_it_was(library, clock, monkeypatch):
    said = library()
    monkeypatch.setenv("TRAINER_VOICE", "off")
    assert "new final bearing three five zero" in heard(clock, seconds=0.1) and not said.exists()
