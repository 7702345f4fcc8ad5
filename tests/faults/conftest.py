"""The trainer inside this process, over the small deck, with what it read and said."""

import io
import os
import shutil
import sys
from dataclasses import dataclass
from pathlib import Path

import pytest

from tests.faults import killing
from trainer import cli, paths

LONG = os.environ.get("TRAINER_FAULTS") == "long"  # as `python -m tests.bench.faults` runs them
SMALL = Path(__file__).parents[1] / "practice" / "small.toml"


@dataclass(frozen=True)
class Done:
    """What a run of the trainer said and with which code it ended."""

    code: int
    out: str
    err: str

    @property
    def judged(self):
        """The questions that a verdict was shown for."""
        return killing.judged(self.out)


@pytest.fixture
def small_shelf(tmp_path, monkeypatch):
    """Let the shipped decks be the small one alone."""
    shelf = tmp_path / "shelf"
    shelf.mkdir()
    (shelf / "small.toml").write_bytes(SMALL.read_bytes())
    shutil.copytree(paths.shipped_decks() / "standards", shelf / "standards")
    monkeypatch.setattr(paths, "shipped_decks", lambda: shelf)
    return shelf


@pytest.fixture
def trainer(small_shelf, home, tmp_path, monkeypatch):
    """Return a function that runs ``trainer WORDS`` in this process with ``typed`` in the pipe."""

    def run(*words, typed="", home=home):
        out, err = _stream(), _stream()
        with monkeypatch.context() as patched:
            patched.chdir(tmp_path)  # where reports and copies go that are not told where
            patched.setenv("TRAINER_HOME", str(home))
            patched.setattr(sys, "stdin", io.StringIO(typed))
            patched.setattr(sys, "stdout", out)
            patched.setattr(sys, "stderr", err)
            code = cli.main([str(word) for word in words])
        return Done(code, _said(out), _said(err))

    return run


def _stream():
    return io.TextIOWrapper(io.BytesIO(), encoding="utf-8", newline="\n")


def _said(stream):
    stream.flush()
    return stream.buffer.getvalue().decode("utf-8")


@pytest.fixture
def refused():
    """Return a function that asserts that a run ended in one line that names ``says`` and what to do next."""

    def check(done, *says, code=3):
        lines = done.err.splitlines()
        assert len(lines) == 1, done.err
        assert done.code == code, done.err
        assert "Traceback" not in done.out + done.err and " – " in lines[0], "what is wrong, and what to do next"
        for words in says:
            assert words in lines[0]

    return check
