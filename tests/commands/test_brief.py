"""`trainer brief` as a process: options, a file, a few questions, and the card that is kept."""

import json

import pytest

from tests.test_cli import run

GIVEN = ("--wind", "330/12", "--launch", "20:30", "--push", "21:48", "--fuel", "9.5")


def test_the_card_of_what_was_given(home, tmp_path):
    out = tmp_path / "card.html"
    done = run("brief", *GIVEN, "--note", "tanker overhead", "--out", out, home=home)
    assert (done.returncode, done.stderr) == (0, "")
    assert "BRC 349° at 13 kt" in done.stdout and "marshal radial" in done.stdout
    assert "Practice aid for simulation; not for real flight." in " ".join(done.stdout.split())
    html = out.read_text(encoding="utf-8")
    assert "issued 20" in done.stdout and "aircraft Tallowick" in " ".join(done.stdout.split())
    assert run("report", "--check", out, home=home).stdout.strip().endswith("unchanged")
    assert "final bearing" in html and "tanker overhead" in html and "trainer-seal:" in html


def test_at_most_eight_questions_with_pairs_and_defaults(home):
    done = run("brief", home=home, typed="315/15\n\nforty\n20:30\n21:48\n\n9.5\n\n120/80\n")
    assert done.returncode == 0
    assert done.stdout.count("\n> ") + done.stdout.startswith("> ") <= 9
    assert "Wind, from/knots [360°/12 kt]" in done.stdout and done.stdout.count("Launch [20:00]") == 2
    assert 'launch: I can\'t read "forty"' in done.stdout and "wind 315°/15" in done.stdout
    assert "120° for 80 nm" in done.stdout and "divert assumed" not in done.stdout
    assert "ceiling 3,000 ft*" in " ".join(done.stdout.split())


def test_what_is_left_is_taken_and_marked(home):
    done = run("brief", home=home, typed="315/15\nq\n")
    assert done.returncode == 0 and "Launch [20:00]" not in done.stdout.split("Ceiling")[1].split("[")[0]
    assert "divert assumed" in done.stdout and "launch 20:00" in " ".join(done.stdout.split())


def test_no_input_at_all_is_a_card_of_what_is_usual(home):
    done = run("brief", home=home)
    assert (done.returncode, done.stderr) == (0, "") and "TONIGHT'S CARD" in done.stdout


def test_a_file_and_an_option_that_goes_first(home, tmp_path):
    path = tmp_path / "tonight.toml"
    path.write_text("wind-from = 330\nwind-speed = 12\ndivert-distance = 100\n", encoding="utf-8")
    assert "2,300 lb" in run("brief", "--file", path, home=home).stdout
    assert "1,700 lb" in run("brief", "--file", path, "--divert-distance", "50", home=home).stdout


def test_the_file_to_fill_in_can_be_filled_in(home, tmp_path):
    path = tmp_path / "tonight.toml"
    done = run("brief", "--template", path, home=home)
    assert done.returncode == 0 and "written:" in done.stdout and "CATAPULT" not in done.stdout
    path.write_text(path.read_text(encoding="utf-8").replace("# fuel = ", "fuel = 9400 # "), encoding="utf-8")
    assert "in the chocks" in run("brief", "--file", path, home=home).stdout


def test_one_number_is_questioned(home):
    done = run("brief", "--wind", "330/12", "--why", "marshal_radial", home=home)
    assert done.returncode == 0
    assert "160°" in done.stdout and "source:" in done.stdout and "CATAPULT" not in done.stdout


def test_the_last_card_is_kept_and_can_be_questioned_and_flown(home):
    run("brief", *GIVEN, "--divert", "120/100", home=home)
    done = run("brief", "--why", "bingo", home=home)
    assert done.returncode == 0 and "2,300 lb" in done.stdout and "assumed" not in done.stdout
    flown = run("rehearse", "--card", "--phase", "brief", home=home, typed="q\n")
    assert flown.returncode == 0 and "BRC 349°" in flown.stdout and "Launch 20:30" in flown.stdout
    assert "Assumed, nobody gave it: wind aloft from 330°" in " ".join(flown.stdout.split())
    assert run("rehearse", "--card", home=home.parent / "other").stderr.startswith("trainer: there is no card yet")


def test_the_record(home):
    record = json.loads(run("brief", *GIVEN, "--json", home=home).stdout)
    assert record["values"]["fuel"] == {"value": 9500.0, "unit": "lb", "from": "given", "assumed": []}
    assert record["values"]["divert-distance"]["from"] == "assumed"


@pytest.mark.parametrize(
    ("words", "code", "says"),
    [
        (["--wind", "330"], 2, "write it as 315/15"),
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


@pytest.mark.parametrize("command", ["brief", "rehearse"])
def test_a_page_that_cannot_be_written_is_said_before_anything_is_asked(home, tmp_path, command):
    done = run(command, "--out", tmp_path, home=home, typed="315/15\n")
    assert (done.returncode, len(done.stderr.splitlines())) == (3, 1) and "can't be written" in done.stderr
    assert done.stdout == ""
