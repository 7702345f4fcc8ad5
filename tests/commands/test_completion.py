"""What the shell is offered, and that bash takes the script."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

import trainer
from trainer.cli import COMMANDS, World
from trainer.commands.completion import SCRIPTS, offered

ROOT = Path(trainer.__file__).resolve().parents[1]


@pytest.fixture
def world(home, clock):
    return World(home=home, clock=clock, plain=True)


@pytest.mark.parametrize(
    ("typed", "among"),
    [
        ([""], "practice"),
        (["comp"], "compute"),
        (["compute", "marsh"], "marshal_fix_distance"),
        (["compute", "marshal_fix_distance", ""], "--angels"),
        (["compute", "marshal_fix_distance", "--"], "--angels"),
        (["compute", "clearing_turn", "--side", ""], "bow"),
        (["compute", "clearing_turn", "--brc", "005", "--si"], "--side"),
        (["deck", ""], "check"),
        (["deck", "list", "fu"], "fuel"),
        (["deck", "show", "fix-fr"], "fix-from-angels"),
        (["practice", "--area", "ma"], "marshal"),
        (["practice", "--q"], "--questions"),
    ],
)
def test_what_may_come_next_is_offered(world, typed, among):
    found = offered(typed, world)
    assert among in found
    assert all(word.startswith(typed[-1]) for word in found)


@pytest.mark.parametrize("typed", [["fly", ""], ["compute", "no_such_thing", "--x"], ["deck", "list", "zzz"]])
def test_a_line_that_leads_nowhere_offers_nothing_and_fails_nothing(world, typed):
    assert [word for word in offered(typed, world) if not word.startswith("--")] == [] or typed[0] == "compute"


def test_options_come_after_names(world):
    found = offered([""], world)
    assert found.index("practice") < found.index("--help")
    assert set(COMMANDS) <= set(found)


@pytest.mark.parametrize(("shell", "check"), [("bash", ["-n"]), ("zsh", ["-n"]), ("fish", ["--no-execute"])])
def test_the_script_is_sound(shell, check, tmp_path):
    if shutil.which(shell) is None:
        pytest.skip(f"{shell} is not installed here")
    script = tmp_path / "completion"
    script.write_text(SCRIPTS[shell], encoding="utf-8")
    assert subprocess.run([shell, *check, script], capture_output=True, check=False).returncode == 0


@pytest.mark.skipif(shutil.which("bash") is None, reason="bash is not installed here")
def test_bash_completes_a_quantity(home):
    code = f"""
{SCRIPTS["bash"]}
trainer() {{ "{sys.executable}" -m trainer "$@"; }}
COMP_WORDS=(trainer compute marshal_f); COMP_CWORD=2; _trainer; echo "${{COMPREPLY[@]}}"
"""
    done = subprocess.run(
        ["bash", "-c", code], capture_output=True, text=True, cwd=ROOT,
        env={**os.environ, "TRAINER_HOME": str(home)}, check=True,
    )  # fmt: skip
    assert done.stdout.strip() == "marshal_fix_distance"
