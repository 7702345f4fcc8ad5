"""`trainer brief` as a process: options, a file, asked one by one."""

import pytest

from tests.test_cli import run


def test_the_card_of_what_was_given(home, tmp_path):
    out = tmp_path / "card.html"
    done = run("brief", "--wind", "330/12", "--launch", "20:30", "--fuel", "11.5", "--out", out, home=home)
    assert (done.returncode, done.stderr) == (0, "")
    assert "BRC 349° at 13 kt" in done.stdout and "marshal radial" in done.stdout
    assert "Practice aid for simulation; not for real flight." in " ".join(done.stdout.split())
    assert "final bearing" in out.read_text(encoding="utf-8")


def test_values_are_asked_one_by_one_with_defaults(home):
    done = run("brief", home=home, typed="330\n12 kt\n\nforty\n14\n800\nq\n")
    assert done.returncode == 0
    assert "Wind from [360°]" in done.stdout and "BRC [349°]" in done.stdout, "the default follows from the wind"
    assert "ship-speed: I can't read" in done.stdout and done.stdout.count("Ship's speed [13 kt]") == 2
    assert "BRC 349° at 14 kt" in done.stdout and "800 ft" in done.stdout


def test_no_input_at_all_is_a_card_of_defaults(home):
    done = run("brief", home=home)
    assert (done.returncode, done.stderr) == (0, "") and "TONIGHT'S CARD" in done.stdout


def test_a_file_and_an_option_that_goes_first(home, tmp_path):
    path = tmp_path / "tonight.toml"
    path.write_text("wind-from = 330\nwind-speed = 12\ndivert-distance = 100\n", encoding="utf-8")
    assert "2,900 lb" in run("brief", "--file", path, home=home).stdout
    assert "2,200 lb" in run("brief", "--file", path, "--divert-distance", "50", home=home).stdout


def test_one_number_is_questioned(home):
    done = run("brief", "--wind", "330/12", "--why", "marshal_radial", home=home)
    assert done.returncode == 0
    assert "160°" in done.stdout and "source:" in done.stdout and "CATAPULT" not in done.stdout


@pytest.mark.parametrize(
    ("words", "code", "says"),
    [
        (["--wind", "330"], 2, "write it as 330/12"),
        (["--fuel", "plenty"], 2, "fuel: I can't read"),
        (["--case", "7"], 2, "out of range"),
        (["--fuel", "11", "--why", "bolter"], 2, "the card has no number 'bolter'"),
        (["--fuel", "11", "--angels", "3"], 2, "no level of a stack"),
        (["--file", "nowhere.toml"], 1, "no such file"),
        (["--fuel", "11", "--ship", "titan"], 2, "there is no ship 'titan'"),
    ],
)
def test_what_is_wrong_is_said_in_one_line(home, words, code, says):
    done = run("brief", *words, home=home)
    assert (done.returncode, len(done.stderr.splitlines())) == (code, 1), done.stderr
    assert says in done.stderr and "Traceback" not in done.stderr
