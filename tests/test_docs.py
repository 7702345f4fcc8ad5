"""What README.md and DEVELOPERS.md tell people to type is run."""

import io
import re
import shlex
from pathlib import Path

import pytest

from trainer import cli

ROOT = Path(__file__).resolve().parents[1]
DOCS = ("README.md", "DEVELOPERS.md")


def command_lines(name):
    """Return the lines of the ``sh`` blocks of a page that run the trainer, in order."""
    text = (ROOT / name).read_text(encoding="utf-8")
    blocks = re.findall(r"```sh\n(.*?)```", text, re.DOTALL)
    lines = [line.split("  #")[0].strip() for block in blocks for line in block.splitlines()]
    return [line.removeprefix(".venv/bin/") for line in lines if re.match(r"(\.venv/bin/)?trainer\b", line)]


def test_the_pages_tell_commands():
    assert len(command_lines("README.md")) >= 15
    assert command_lines("DEVELOPERS.md")


@pytest.mark.parametrize("name", DOCS)
def test_every_command_line_runs(name, tmp_path, monkeypatch, capsys):
    # What a user types may write files; what a developer types reads those of the checkout.
    monkeypatch.chdir(ROOT if name == "DEVELOPERS.md" else tmp_path)
    monkeypatch.setenv("TRAINER_NOW", "2030-03-01T19:00:00+00:00")
    for line in command_lines(name):
        monkeypatch.setattr("sys.stdin", io.StringIO("s\n" * 3))
        code = cli.main(shlex.split(line)[1:])
        said = capsys.readouterr()
        assert code == 0, f"{line}: {said.err}"
        assert said.err == "", line


def test_modules_that_the_pages_tell_to_run_exist():
    for name in DOCS:
        text = (ROOT / name).read_text(encoding="utf-8")
        for module in re.findall(r"-m (tests\.[a-z_.]+)", text):
            path = ROOT / module.replace(".", "/")
            assert path.with_suffix(".py").is_file() or (path / "__main__.py").is_file(), module


def test_folders_that_the_map_names_exist():
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    floors = text.split("## How to add")[0]
    for name in re.findall(r"`((?:trainer/|tests/)?[a-z_]+(?:/[a-z_]+)*/)`", floors):
        assert any((root / name).is_dir() for root in (ROOT, ROOT / "trainer", ROOT / "trainer/practice")), name
