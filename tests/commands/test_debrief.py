"""`trainer debrief` as a process: one line a phase, undone, kept, exported."""

import json

from tests.test_cli import run

WALK = "\n5o20\nwhat\n5m\n-\n3m\n\nLate on the ball.\n"


def test_a_flight_is_told_through_a_pipe(home):
    done = run("debrief", "--flown", "2030-02-28", home=home, typed=WALK)
    assert (done.returncode, done.stderr) == (0, "")
    assert "I can't read 'what'" in done.stdout
    assert "join-up on its side: off by 20°" in done.stdout and "push on time: missed" in done.stdout
    assert "Kept: " in done.stdout and "push-easy" not in done.stdout  # a person reads titles, no ids
    assert run("data", "verify", home=home).stdout.startswith("Sound")


def test_a_debrief_keeps_the_copy_of_the_day(home):
    run("debrief", home=home, typed=WALK)
    (copy,) = (home / "backups").iterdir()
    assert copy.name.startswith("reviews-")


def test_remarks_are_exported_only_on_request(home, tmp_path):
    told = run("debrief", home=home, typed=WALK)
    assert told.stdout.count("Late on the ball.") == 1, "only what was typed"
    out = tmp_path / "debriefs.json"
    done = run("debrief", "--export", out, home=home)
    assert "1 debrief" in done.stdout
    (record,) = json.loads(out.read_text(encoding="utf-8"))["debriefs"]
    assert record["remarks"] == "Late on the ball." and record["flown"] == "2030-03-01"


def test_a_phase_is_taken_back(home):
    done = run("debrief", home=home, typed="\nu\n1m\nq\n")
    assert "taken back: deck" in done.stdout and "Kept: 5 of 6 right" in done.stdout


def test_nothing_told_keeps_nothing(home):
    assert "Nothing was told" in run("debrief", home=home).stdout


def test_wrong_usage_is_one_line(home):
    for words, says in ((["--flown", "yesterday"], "is no date"), (["--case", "5"], "--case")):
        done = run("debrief", *words, home=home)
        assert (done.returncode, len(done.stderr.splitlines())) == (2, 1) and says in done.stderr
