"""`trainer rehearse` as a process: piped, the same for a squadron, with its sheets."""

import pytest

from tests.test_cli import run


def _transcript(home, *words, lines=200):
    return run("rehearse", "--seed", "7", *words, home=home, typed="s\n" * lines)


def test_a_full_rehearsal_is_flown_through_a_pipe(home):
    done = _transcript(home, "--case", "3")
    assert (done.returncode, done.stderr) == (0, "")
    for phase in ("BRIEF", "MAN-UP", "CATAPULT", "DEPARTURE", "CHECK-IN", "MARSHAL", "APPROACH", "RECOVERY"):
        assert f"  {phase}\n" in done.stdout
    assert "RESULT SHEET  seed 7, Case III" in done.stdout and "NOT PASSED" in done.stdout
    assert "not for real flight" in done.stdout
    assert run("data", "verify", home=home).stdout.startswith("Sound")


def test_a_rehearsal_keeps_the_copy_of_the_day(home, tmp_path):
    _transcript(home, "--from", "marshal", "--to", "marshal", "--out", tmp_path / "sheet.html")
    (copy,) = (home / "backups").iterdir()
    assert copy.name.startswith("reviews-") and (tmp_path / "sheet.html").exists()


def test_what_was_left_is_offered_and_taken_up(home):
    first = run("rehearse", "--seed", "7", "--phase", "marshal", home=home, typed="s\ns\nq\n").stdout
    assert "Left after 2 of" in first and "takes it up again" in first
    offered = run("rehearse", home=home, typed="\ns\nq\n").stdout
    assert "A sortie was left after 2 of" in offered and "Taken up again: seed 7" in offered
    assert "  3 of" in offered and "  2 of" not in offered and "Left after 3 of" in offered
    rest = run("rehearse", "--resume", home=home, typed="s\n" * 60).stdout
    assert "Left after" not in rest and "NOT PASSED" in rest and "not flown to its end" not in rest
    done = run("rehearse", "--resume", home=home)
    assert (done.returncode, done.stderr.splitlines()) == (
        2, ["trainer: no sortie was left – `trainer rehearse` begins one"]
    )  # fmt: skip


def test_a_new_sortie_may_be_begun_instead(home):
    run("rehearse", "--seed", "7", "--phase", "marshal", home=home, typed="s\nq\n")
    done = run("rehearse", home=home, typed="n\nq\n")
    assert "A sortie was left" in done.stdout and "Rehearsal: seed " in done.stdout and "Taken up" not in done.stdout


def test_the_same_seed_is_the_same_sortie_in_two_homes(tmp_path):
    one = _transcript(tmp_path / "one", "--from", "marshal")
    two = _transcript(tmp_path / "two", "--from", "marshal")
    assert one.stdout == two.stdout and one.stdout.count("limit ") > 20


def test_without_a_seed_one_is_drawn_and_said(home):
    done = run("rehearse", "--case", "1", home=home, typed="q\n")
    (seed,) = {line.split("seed ")[1][:4] for line in done.stdout.splitlines() if "Rehearsal: seed " in line}
    assert " questions, about " in " ".join(done.stdout.split())
    again = run("rehearse", "--case", "1", "--seed", seed, home=home, typed="q\n")
    assert again.stdout == done.stdout


def test_the_answer_sheet_stores_nothing(home, tmp_path):
    done = run("rehearse", "--seed", "7", "--case", "3", "--sheet", "--out", tmp_path / "sheet.html", home=home)
    assert done.returncode == 0
    assert done.stdout.count("     = ") > 60 and "not for real flight" in " ".join(done.stdout.split())
    assert (tmp_path / "sheet.html").read_text(encoding="utf-8").count('class="answer"') > 60
    assert "RESULT SHEET" not in done.stdout
    assert "0 reviews" in run("data", "where", home=home).stdout


def test_the_sheet_answers_the_rehearsal(home):
    sheet = run("rehearse", "--seed", "7", "--from", "marshal", "--to", "marshal", "--sheet", home=home).stdout
    answers = [line.strip().removeprefix("= ") for line in sheet.splitlines() if line.startswith("     = ")]
    flown = run("rehearse", "--seed", "7", "--from", "marshal", "--to", "marshal", home=home, typed="s\n" * 40).stdout
    told = [
        line.split("It is ")[1].split(";")[0].rstrip(".") for line in flown.splitlines() if "Not known. It is" in line
    ]
    assert [answer for answer in answers if answer in told][:4] == told[:4]


def test_the_result_is_written_as_a_page(home, tmp_path):
    out = tmp_path / "new" / "result.html"
    _transcript(home, "--from", "marshal", "--to", "marshal", "--out", out)
    assert "NOT PASSED" in out.read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("words", "code", "says"),
    [
        (["--case", "4"], 2, "is no Case"),
        (["--from", "lunch"], 2, "phases are brief, man-up"),
        (["--from", "approach", "--to", "brief"], 2, "comes before"),
        (["--standard", "strict"], 2, "there is no standard 'strict'"),
        (["--standard", "nowhere.toml"], 1, "no such file"),
        (["--hints"], 2, "'--hints' is not understood"),
        (["--phase", "brief", "--to", "marshal"], 2, "is a phase alone"),
    ],
)
def test_what_is_wrong_is_said_in_one_line(home, words, code, says):
    done = run("rehearse", *words, home=home)
    assert (done.returncode, len(done.stderr.splitlines())) == (code, 1)
    assert says in done.stderr and "Traceback" not in done.stderr


def test_a_page_that_cannot_be_written_is_one_line(home, tmp_path):
    done = run("rehearse", "--seed", "7", "--sheet", "--out", tmp_path, home=home)
    assert (done.returncode, len(done.stderr.splitlines())) == (3, 1)
    assert "can't be written" in done.stderr


def test_tonights_own_values_are_flown(home, tmp_path):
    path = tmp_path / "tonight.toml"
    path.write_text('wind-from = 330\nwind-speed = 12\nlaunch = "20:30"\n', encoding="utf-8")
    done = run("rehearse", "--file", path, "--seed", "1", "--to", "brief", home=home, typed="q\n")
    assert done.returncode == 0 and "BRC 349°" in done.stdout and "Launch 20:30" in done.stdout
    path.write_text("fuel = 7\n", encoding="utf-8")
    done = run("rehearse", "--file", path, home=home)
    assert (done.returncode, len(done.stderr.splitlines())) == (2, 1)
    assert "tonight can't be flown: the fuel on the ball" in done.stderr
