"""Command lines and surroundings that nobody types on purpose: each is answered in one line, or does what it says."""

import os
import subprocess
import sys

import pytest

from tests.faults import driving

LONG, DIGITS, DEEP = "a" * 300, "9" * 5_000, "a/" * 1_500 + "b"


@pytest.fixture
def practised(trainer):
    assert trainer("practice", "--questions", "1", typed="s\n").code == 0
    return trainer


@pytest.mark.parametrize(
    "words",
    [
        ("data", "restore", "."), ("data", "salvage", "."), ("data", "restore", LONG), ("data", "backup", LONG),
        ("data", "salvage", LONG), ("deck", "check", LONG), ("report", "--out", LONG), ("report", "--standard", LONG),
        ("report", "--check", LONG), ("roster", LONG), ("rehearse", "--file", LONG),
        ("cram", "--on", f"in {DIGITS} days"),
        ("cram", "--on", "9999-12-31"), ("outlook", "--on", "9999-12-30 20:00"), ("report", "--on", "2201-01-01"),
        ("outlook", "--on", "in 999999 days"), ("--home", "~nobody-of-that-name/x", "data", "where"),
        ("practice", "--seed", "\udcff"), ("compute", "\udcff"),
        ("--home", LONG, "data", "where"), ("--home", LONG, "practice"), ("--home", DEEP, "practice"),
        ("data", "backup", DEEP), ("report", "--out", DEEP), ("brief", "--out", DEEP), ("data", "restore", DEEP),
        ("deck", "check", DEEP), ("rehearse", "--sheet", "--out", DEEP), ("\udcff",), ("data", "where", "--nonsense"),
    ],
    ids=lambda words: " ".join(words)[:40].encode("ascii", "replace").decode(),
)  # fmt: skip
def test_it_is_refused_in_one_line(practised, words):
    done = practised(*words)
    assert done.code in (1, 2, 3), done.out + done.err
    complaints = done.err.splitlines() + [line for line in done.out.splitlines() if "name too long" in line]
    assert complaints and all("Traceback" not in line for line in complaints)
    assert "a mistake of this program" not in done.err


@pytest.mark.skipif(os.name != "posix", reason="names and devices of POSIX")
@pytest.mark.parametrize("words", [("roster",), ("report", "--check"), ("deck", "check"), ("data", "restore"),
                                   ("data", "salvage"), ("rehearse", "--file"), ("brief", "--file")])  # fmt: skip
def test_a_pipe_or_a_device_is_refused_before_it_is_opened(practised, tmp_path, words):
    pipe = tmp_path / "pipe.json"
    os.mkfifo(pipe)
    for place in (pipe, "/dev/zero"):
        done = practised(*words, place)
        assert done.code in (1, 2, 3) and "a mistake of this program" not in done.err


ASCII = {"LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONIOENCODING": "ascii"}
SURROUNDINGS = {
    "an offset of four days": (["outlook"], {"TZ": "UTC+99"}),
    "no user": (["data", "where"], {"HOME": "~", "TRAINER_HOME": "~nobody-of-that-name/x"}),
    "the year 9999": (["practice", "--questions", "1"], {"TRAINER_NOW": "9999-12-31T23:00:00+00:00"}),
    "the year 1": (["data", "where"], {"TRAINER_NOW": "0001-01-01T00:00:00+14:00"}),
    "a home of bytes": (["practice", "--questions", "1"], {"TRAINER_HOME": "{tmp}/\udcff\udcfe"}),
    "a file for a home": (["practice", "--questions", "1"], {"TRAINER_HOME": "{tmp}/file"}),
    "an ASCII locale": (["practice", "--questions", "1"], ASCII),
    "no docstrings": (["data", "--help"], {"PYTHONOPTIMIZE": "2"}),
}  # fmt: skip


@pytest.mark.skipif(os.name != "posix", reason="environments of POSIX")
@pytest.mark.parametrize("name", SURROUNDINGS)
def test_odd_surroundings_end_in_no_traceback(tmp_path, name):
    (tmp_path / "file").write_text("", encoding="utf-8")
    words, environ = SURROUNDINGS[name]
    environ = {key: value.replace("{tmp}", str(tmp_path)) for key, value in environ.items()}
    done = driving.run(*words, typed="s\n", **{"home": tmp_path / "home", **environ})
    assert done.returncode in (0, 1, 2, 3) and "Traceback" not in done.stderr + done.stdout, done.stderr
    assert "a mistake of this program" not in done.stderr


@pytest.mark.skipif(os.name != "posix", reason="a shell closes streams")
@pytest.mark.parametrize("stream", ["1>&-", "2>&-", "0<&-", "0<&- 1>&- 2>&-"])
@pytest.mark.parametrize("words", ["data verify", "practice --questions 1"])
def test_a_stream_that_is_closed_costs_what_it_would_have_said_and_nothing_else(home, tmp_path, stream, words):
    driving.run("practice", "--questions", "1", home=home, typed="s\n")
    program = f'"{sys.executable}" -m trainer {words} {stream}'
    done = subprocess.run(
        program, shell=True, input="s\n", capture_output=True, text=True, encoding="utf-8", timeout=60,
        env=driving.environment(home),
    )  # fmt: skip
    assert done.returncode == 0 and "Traceback" not in done.stderr
    if "practice" in words:
        assert list((home / "backups").glob("reviews-*.db")), "the daily copy is made"
    elif "1>" not in stream:
        assert "Sound" in done.stdout
