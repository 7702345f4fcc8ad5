"""The commands that look ahead, as a person reads them."""

import re

import pytest

from trainer import cli, paths

NOW = "2030-03-01T19:00:00+00:00"


@pytest.fixture
def trainer(monkeypatch, capsys, tmp_path):
    """Return a function that runs the command line and returns (exit code, output, error)."""
    monkeypatch.setenv("TRAINER_NOW", NOW)

    def run(*words):
        code = cli.main(list(words))
        said = capsys.readouterr()
        return code, said.out, said.err

    return run


def test_an_event_is_set_and_its_plan_shown(trainer):
    code, out, _ = trainer("cram", "--on", "2030-03-06 20:00", "--minutes-per-day", "10", "--area", "pattern")
    assert code == 0
    assert "Wednesday 06 March 2030 20:00, in 5 days, 10 minutes a day" in " ".join(out.split())
    assert re.search(r"^today\s+\d+ min  ", out, re.MULTILINE)
    assert len(re.findall(r"^(?:today|[A-Z][a-z]{2} \d\d \w+) .* min  ", out, re.MULTILINE)) == 5
    assert "and 1 more day, 10 min in all" in out, "at most five lines of anything"
    assert "Kept to, on the day:" in out and "To meet the standard takes about" in " ".join(out.split())
    assert "because the minutes buy more elsewhere" in " ".join(out.split())


def test_the_plan_is_shown_again_without_options(trainer):
    trainer("cram", "--on", "in 5 days", "--area", "fuel")
    assert trainer("cram")[1] == trainer("cram")[1] != ""


def test_events_are_listed_and_cancelled(trainer):
    trainer("cram", "--on", "in 5 days", "--area", "fuel", "--name", "night traps")
    assert "ahead  night traps: 20 min a day, fuel" in trainer("cram", "--list")[1]
    assert trainer("cram", "--cancel", "1")[1].strip() == "no event is set"
    assert trainer("cram", "--cancel", "1")[0] == 2


def test_todays_share_can_be_run_through_a_pipe(trainer, monkeypatch):
    import io

    trainer("cram", "--on", "in 5 days", "--area", "fuel", "--minutes-per-day", "2")
    monkeypatch.setattr("sys.stdin", io.StringIO("s\ns\ns\n"))
    code, out, _ = trainer("cram", "--start")
    assert code == 0
    assert out.count("Not known.") == 3
    assert "2 minutes" in out


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["--on", "soon"], "can't read 'soon' as a date"),
        (["--on", "2030-02-01"], "is past"),
        (["--on", "in 5 days", "--area", "galley"], "areas are deck"),
        (["--on", "in 5 days", "--standard", "no-such"], "there is no standard"),
        (["--on", "in 5 days", "--minutes-per-day", "0"], "minutes"),
        ([], "no event is set"),
    ],
)
def test_what_cannot_be_planned_gets_one_line(trainer, words, says):
    code, _, err = trainer("cram", *words)
    assert code == 2
    assert says in err and err.count("\n") == 1


def test_the_calendar_is_written_where_it_was_asked_for(trainer, tmp_path):
    trainer("cram", "--on", "in 5 days", "--area", "fuel")
    path = tmp_path / "plan.ics"
    assert trainer("cram", "--calendar", str(path))[0] == 0
    assert path.read_bytes().startswith(b"BEGIN:VCALENDAR")
    assert trainer("cram", "--calendar", str(tmp_path / "new" / "plan.ics"))[0] == 0, "a folder is made where it lacks"
    code, _, err = trainer("cram", "--calendar", str(path / "plan.ics"))
    assert (code, err.count("\n")) == (3, 1)


def test_the_outlook_says_what_it_stands_on(trainer, monkeypatch):
    import io

    assert "Nothing has been answered yet" in trainer("outlook")[1]
    monkeypatch.setattr("sys.stdin", io.StringIO("s\n" * 8))
    trainer("practice", "--questions", "8", "--seed", "1")
    code, out, _ = trainer("outlook", "--on", "in 10 days", "--standard", "night-board")
    text = " ".join(out.split())
    assert code == 0
    assert "times further off than the longest gap seen" in text
    assert "Too early to say (0 answers to drills met before; 50 are needed)" in text
    assert "drills asked so far" in text or "are demanded" in text
    assert max(map(len, out.splitlines())) <= 80


def test_a_standard_given_by_file_holds_from_every_folder(trainer, tmp_path, monkeypatch):
    text = (paths.shipped_decks() / "standards" / "day-board.toml").read_text(encoding="utf-8")
    ours = tmp_path / "ours"
    ours.mkdir()
    file = ours / "squadron.toml"
    file.write_text(text.replace("day-board", "squadron").replace("Day departure", "Our own"), encoding="utf-8")
    monkeypatch.chdir(ours)
    assert trainer("cram", "--on", "in 9 days", "--standard", "squadron.toml")[0] == 0
    monkeypatch.chdir(tmp_path)
    code, out, told = trainer("report", "--dry-run")
    assert code == 0 and "Our own board" in " ".join(out.split()) and not told
    file.unlink()
    code, out, told = trainer("outlook")
    assert code == 0 and "squadron.toml" in told and "stands in" in told and len(told.splitlines()) == 1


def test_the_minutes_set_before_stay_until_others_are_named(trainer, monkeypatch):
    """Setting the date anew made twenty minutes a day of five."""
    trainer("cram", "--on", "in 5 days", "--area", "fuel", "--minutes-per-day", "5")
    assert "5 minutes a day" in trainer("cram", "--on", "in 6 days", "--area", "fuel")[1]
    monkeypatch.setenv("TRAINER_NOW", "2030-03-12T19:00:00+00:00")
    assert "5 minutes a day" in trainer("cram", "--on", "in 5 days", "--area", "fuel")[1], (
        "a past event tells them, too"
    )
    assert "12 minutes a day" in trainer("cram", "--on", "in 5 days", "--area", "fuel", "--minutes-per-day", "12")[1]
    assert "12 minutes a day" in trainer("cram", "--on", "in 4 days", "--area", "fuel")[1]
