"""The command line as a process: exit codes, one-line errors, what is loaded when, piped practice."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

import trainer
from trainer import cli

ROOT = Path(trainer.__file__).resolve().parents[1]
SMALL = Path(__file__).parent / "practice" / "small.toml"
NOW = "2030-03-01T19:00:00+00:00"


def run(*words, home, typed="", **environ):
    """Return the finished process of ``trainer WORDS``."""
    return subprocess.run(
        [sys.executable, "-m", "trainer", *map(str, words)],
        input=typed,
        capture_output=True,
        text=True,
        encoding="utf-8",
        cwd=ROOT,
        env={**os.environ, "TRAINER_HOME": str(home), "TRAINER_NOW": NOW, "PYTHONWARNINGS": "error", **environ},
        timeout=60,
    )


def loaded_after(code):
    """Return the names of the heavy modules that a fresh process has loaded after ``code``."""
    heavy = {
        "numpy", "prompt_toolkit", "jinja2", "sqlite_utils", "click", "argparse", "dataclasses", "tomllib",
        "importlib.metadata",
    }  # fmt: skip
    code += f"\nimport sys; print(sorted({heavy} & set(sys.modules)))"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, cwd=ROOT, check=True)
    return done.stdout.strip().splitlines()[-1]


@pytest.mark.parametrize("words", (["--version"], ["--help"], ["practice", "--help"]))
def test_the_version_and_help_load_nothing_heavy(words):
    assert loaded_after(f"from trainer.cli import main; main({words})") in ("[]", "['argparse']")


def test_the_kept_question_is_on_the_screen_before_anything_heavy_is_loaded(home):
    assert run("practice", "--questions", "1", home=home, typed="s\n").returncode == 0
    code = f"""
import os, sys
os.environ["TRAINER_HOME"] = {str(home)!r}
from trainer import cli
from trainer.commands import early
from trainer.terminal import look
look.interactive = lambda **_: True
def before_the_editor(screen, world):
    raise SystemExit
early.editor = before_the_editor
try:
    cli.main([])
except SystemExit:
    pass
"""
    assert loaded_after(code) == "[]"


@pytest.mark.parametrize(
    ("words", "code", "says"),
    [
        (["fly"], 2, "there is no command 'fly'"),
        (["practise"], 2, "did you mean practice?"),
        (["practice", "--minutes", "soon"], 2, "'soon' is not a number of minutes"),
        (["practice", "--questions", "-1"], 2, "--questions"),
        (["practice", "--area", "galley"], 2, "areas are deck, launch"),
        (["practice", "--deck", "nowhere.toml"], 1, "nowhere.toml"),
        (["practice", "--colour"], 2, "'--colour' is not understood here"),
        (["compute", "finl_bearing"], 2, "did you mean final_bearing?"),
        (["compute", "marshal_fix_distance", "--angels", "many"], 2, "--angels"),
        (["compute", "marshal_fix_distance", "--angels", "3"], 1, "it must be 6 to 40"),
        (["compute", "marshal_fix_distance", "--weight", "9"], 2, "has no input 'weight'"),
        (["compute", "marshal_fix_distance", "--angels"], 2, "--angels has no value"),
        (["deck", "show", "nothing-like-it"], 2, "there is no drill 'nothing-like-it'"),
        (["deck", "check", "nowhere.toml"], 1, ""),
        (["data", "restore", "nowhere.db"], 3, "nowhere.db"),
        (["data", "shred"], 2, "shred"),
    ],
)
def test_wrong_input_gets_one_line_that_says_what_to_do(home, words, code, says):
    done = run(*words, home=home)
    assert done.returncode == code, done.stderr
    assert "Traceback" not in done.stderr
    said = (done.stderr + done.stdout).strip()
    assert says in said
    assert len(done.stderr.splitlines()) <= 1


def test_a_time_that_cannot_be_read_is_refused(home):
    done = run("practice", home=home, TRAINER_NOW="tonight")
    assert (done.returncode, done.stderr.count("\n")) == (2, 1)
    assert "TRAINER_NOW is 'tonight'" in done.stderr


def test_piped_practice_is_the_same_in_two_homes(tmp_path):
    typed = "16\n191\n7\ns\n247\n" * 3
    words = ("practice", "--questions", "5", "--seed", "7")
    one = run(*words, "--home", tmp_path / "one", home=tmp_path, typed=typed)
    two = run(*words, "--home", tmp_path / "two", home=tmp_path, typed=typed)
    assert one.stdout == two.stdout
    assert one.stdout.count("limit ") >= 4  # the very first question has none
    assert one.stderr == two.stderr == ""


def test_piped_practice_stores_five_reviews(home):
    run("practice", "--questions", "5", "--seed", "7", home=home, typed="s\n" * 5)
    assert "5 reviews" in run("data", "where", home=home).stdout
    assert run("data", "verify", home=home).stdout.startswith("Sound")


def test_compute_speaks_json(home):
    done = run("compute", "marshal_fix_distance", "--angels", "12", "--json", home=home)
    record = json.loads(done.stdout)
    assert record["results"]["fix_distance_nm"]["value"] == 27
    assert record["source"]["status"] == "published"


@pytest.mark.parametrize("encoding", ["cp437", "cp1252", "ascii"])
def test_output_to_a_pipe_does_not_depend_on_the_console_encoding(home, encoding):
    done = run("compute", home=home, PYTHONIOENCODING=encoding)
    assert (done.returncode, done.stderr) == (0, "")


def test_a_reader_that_leaves_early_is_no_error(home):
    process = subprocess.Popen(
        [sys.executable, "-m", "trainer", "compute"],
        stdout=subprocess.PIPE, stderr=subprocess.PIPE, cwd=ROOT,
        env={**os.environ, "TRAINER_HOME": str(home)},
    )  # fmt: skip
    process.stdout.close()
    assert process.wait(30) in (0, 141)
    assert process.stderr.read() == b""
    process.stderr.close()


def test_practice_over_one_deck_file(home):
    done = run("practice", "--deck", SMALL, "--questions", "2", "--seed", "1", home=home, typed="s\ns\n")
    assert done.returncode == 0
    assert "2 questions" in done.stdout


@pytest.mark.parametrize("name", cli.COMMANDS)
def test_every_command_shows_an_example_and_the_caution(home, name):
    done = run(name, "--help", home=home)
    assert done.returncode == 0
    assert f"example: trainer {name}" in done.stdout
    assert "not for real flight" in " ".join(done.stdout.split())


def test_help_tells_of_one_command_or_of_all(home):
    one, other = run("help", "cram", home=home), run("cram", "--help", home=home)
    assert one.stdout == other.stdout and "--minutes-per-day" in one.stdout
    assert run("help", home=home).stdout == run("--help", home=home).stdout
    wrong = run("help", "crma", home=home)
    assert (wrong.returncode, wrong.stderr.count("\n")) == (2, 1) and "did you mean cram?" in wrong.stderr
