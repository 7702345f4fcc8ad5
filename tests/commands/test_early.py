"""The first question is on the screen before anything heavy is loaded, and in a new home before there is a store."""

import os
import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest

from tests.faults.driving import OnTerminal, run
from trainer import paths
from trainer.clock import SystemClock
from trainer.commands import early
from trainer.commands.world import World
from trainer.practice import stage

ROOT = Path(__file__).resolve().parents[2]
pseudo_terminal = pytest.mark.skipif(os.name != "posix", reason="only POSIX has pseudo-terminals")


def test_a_kept_question_is_shown_without_what_it_does_not_need(home):
    assert run("practice", "--questions", "1", home=home, typed="1\n").returncode == 0
    code = """
import sys
from trainer import paths
from trainer.clock import clock_from_environment
from trainer.commands import early
from trainer.commands.world import World
from trainer.terminal import look
class Live(Exception): pass
def live(*_): raise Live
look.interactive, early.editor = lambda plain: True, live
world = World(home=paths.default_home(), clock=clock_from_environment(), plain=False)
try:
    early.prompt_with_question(world, 5, None)
except Live:
    heavy = {"numpy", "tomllib", "hashlib", "typing", "dataclasses", "argparse", "difflib", "trainer.model"}
    print("loaded:", sorted(heavy & set(sys.modules)))
"""
    environ = {**os.environ, "TRAINER_HOME": str(home)}
    done = subprocess.run(
        [sys.executable, "-c", code], env=environ, cwd=ROOT, capture_output=True, text=True, encoding="utf-8"
    )
    assert done.stdout.splitlines()[-1] == "loaded: []", done.stderr
    assert " · limit " in done.stdout


def test_a_new_home_begins_with_the_first_drill_of_the_first_stage(home):
    world = World(home=home, clock=SystemClock(), plain=False)
    assert early.is_new(home) and paths.own_decks(home).is_dir() and not paths.database(home).exists()
    shelf, record = early.first_record(world)
    assert record["question"]["drill_id"] == stage.Syllabus(shelf, home).order()[0]
    assert record["signature"] == world.signature()


@pseudo_terminal
def test_the_first_answer_in_a_new_home_is_stored(home):
    driven = OnTerminal(home=home).until(lambda driven: driven.waiting())
    assert "Welcome" in driven.text()
    driven.send("1")
    driven.until("rule:")
    driven.settle()
    driven.write(b"\x04")
    assert driven.rest() == 0
    assert "1 question in" in driven.text()
    with closing(sqlite3.connect(paths.database(home))) as connection:
        assert connection.execute("SELECT count(*) FROM review").fetchone() == (1,)


@pseudo_terminal
def test_a_person_who_leaves_at_the_first_question_hears_that_nothing_was_graded(home):
    driven = OnTerminal(home=home).until(lambda driven: driven.waiting())
    driven.write(b"\x04")
    assert driven.rest() == 0
    assert "Nothing was graded." in driven.text()


def test_where_a_home_can_not_be_made_the_store_says_so(tmp_path):
    (tmp_path / "file").write_text("no folder", encoding="utf-8")
    assert not early.is_new(tmp_path / "file" / "home")
