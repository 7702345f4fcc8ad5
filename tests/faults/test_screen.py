"""Nothing that comes from a file, a name or a keyboard steers the terminal; what can't be printed is told."""

import io
import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.faults import driving
from trainer.decks.words import refused_characters
from trainer.terminal.look import Look
from trainer.terminal.plain import PlainPrompt

EVIL = "\x1b]0;title\x07\x1b[2J\x9b31m\u202egpj"
on_posix = pytest.mark.skipif(os.name != "posix", reason="Windows refuses such names by itself")


def clean(done):
    """Assert that only line ends steer the terminal, and that nobody saw a traceback."""
    for text in (done.out, done.err):
        assert not refused_characters(text.replace("\n", "")), repr(text)
        assert "Traceback" not in text
    assert len(done.err.splitlines()) <= 1


@on_posix
@pytest.mark.parametrize("kind", ["", "airframes", "ships"])
def test_names_of_files_that_hold_escapes(trainer, home, kind):
    folder = home / "decks" / kind
    folder.mkdir(parents=True)
    (folder / f"{EVIL}.toml").write_text('[deck]\nformat = 1\nname = "x"\n', encoding="utf-8")
    clean(trainer("deck", "check", home / "decks"))
    clean(trainer("deck", "check", folder / f"{EVIL}.toml"))
    clean(trainer("deck", "list"))
    clean(trainer("practice", "--questions", "1", typed="s\n"))
    clean(trainer("practice", "--deck", folder / f"{EVIL}.toml", "--questions", "1"))


@on_posix
def test_a_home_whose_name_holds_escapes(trainer, tmp_path):
    home = tmp_path / EVIL
    for words in (
        ("practice", "--questions", "1"),
        ("data", "where"),
        ("data", "verify"),
        ("data", "backup", tmp_path / f"{EVIL}.db"),
    ):
        done = trainer(*words, typed="s\n", home=home)
        clean(done)
        assert done.code == 0
    (home / "reviews.db").write_bytes(b"x" * 900)
    clean(trainer("data", "where", home=home))
    clean(trainer("practice", home=home))


@pytest.mark.parametrize(
    "words",
    [
        (EVIL,),
        ("practice", "--area", EVIL),
        ("practice", "--deck", EVIL),
        ("practice", "--minutes", EVIL),
        ("practice", "--seed", EVIL, "--questions", "1"),
        (f"--{EVIL}",),
        ("deck", "show", EVIL),
        ("deck", "list", EVIL),
        ("deck", "new", EVIL, EVIL),
        ("deck", "new", "flow", EVIL),
        ("compute", EVIL),
        ("data", EVIL),
        ("compute", "final_bearing", f"--{EVIL}", "1"),
        ("compute", "final_bearing", "--brc", EVIL),
        ("data", "restore", EVIL),
        ("data", "salvage", EVIL),
        ("completion", EVIL),
        ("--home", f"/nowhere/{EVIL}", "data", "where"),
        ("cram", "--on", EVIL),
        ("cram", "--on", "in 9 days", "--name", EVIL),
        ("cram", "--standard", EVIL, "--on", "in 9 days"),
        ("outlook", "--on", EVIL),
    ],
)
def test_words_of_the_command_line_that_hold_escapes(trainer, monkeypatch, tmp_path, words):
    monkeypatch.chdir(tmp_path)
    clean(trainer(*words, typed="s\n"))


def test_answers_that_hold_escapes(trainer):
    clean(trainer("practice", "--questions", "2", "--seed", "7", typed=f"{EVIL}\ns{EVIL}\n{EVIL}s\n\0\ns\n"))


def test_a_line_holds_no_control_characters_but_the_colours_of_the_screen():
    assert Look().line(f"a{EVIL}b\x85\u2028c") == "a]0;title[2J31mgpjb  c"
    assert Look(colour=True).line("a\x1b[9mb", "good") == "\x1b[32ma[9mb\x1b[0m"
    assert Look().line("3,500\u00a0lb\u2009x\tz") == "3,500 lb x z", "odd spaces are spaces"


def test_only_colours_that_every_theme_and_sixteen_colours_can_show():
    from trainer.terminal.look import TONES

    # ECMA-48: 1 bold, 2 faint, 31 red, 32 green, 33 yellow; no background, no black, no white, nothing of 256.
    assert set(TONES.values()) <= {"1", "2", "31", "32", "33"}


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="only Linux has a device that is always full")
@pytest.mark.parametrize("words", [("compute",), ("--help",), ("deck", "list"), ("practice", "--questions", "1")])
def test_output_that_cannot_be_written_is_told_in_one_line(home, words):
    with open("/dev/full", "wb") as full:
        done = subprocess.run(
            [*driving.TRAINER, *words],
            stdout=full,
            stderr=subprocess.PIPE,
            input="s\n",
            text=True,
            timeout=60,
            encoding="utf-8",
            env=driving.environment(home),
        )
    assert done.returncode == 3 and len(done.stderr.splitlines()) == 1, done.stderr
    assert "what it says can't be written" in done.stderr and " – " in done.stderr


def test_input_that_is_closed_is_the_end_of_the_session(home):
    code = "import os, sys; os.close(0); sys.stdin = None; from trainer.cli import main; sys.exit(main())"
    done = subprocess.run(
        [sys.executable, "-c", code, "practice", "--questions", "1"],
        capture_output=True,
        text=True,
        encoding="utf-8",
        env=driving.environment(home),
        timeout=60,
    )
    assert (done.returncode, done.stderr) == (0, ""), done.stderr


class Endless(io.StringIO):
    """A pipe whose first line is ``pieces`` reads long and ends in ``last``."""

    def __init__(self, pieces, last):
        super().__init__(last)
        self.pieces = pieces

    def readline(self, size=-1):
        if not self.pieces:
            return super().readline(size)
        assert 0 < size <= 100_000, "a line without an end must not be read into memory as far as it goes"
        self.pieces -= 1
        return "9" * size


def test_a_line_without_an_end_is_read_in_bounded_memory(clock):
    """A pipe without line ends was read into memory as far as it went."""
    out = io.StringIO()
    prompt = PlainPrompt(Look(), clock=clock, stream=Endless(50_000, "9\n27\n"), out=out)
    line, _ = prompt.ask(lambda spent: "")
    assert len(line) <= 100_000
    assert prompt.ask(lambda spent: "")[0] == "27", "what is beyond is no answer to the next question"
    assert len(out.getvalue()) < 1_000
