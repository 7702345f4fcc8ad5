"""Stages as a person sees, chooses and hands them over."""

import io
import shutil

import pytest

from trainer import cli, paths

TASK = 'format = 1\nname = "task"\ntitle = "Task of the week"\nstandard = "night-board"\ncore = ["ball-call"]\n'


@pytest.fixture
def trainer(monkeypatch, capsys, tmp_path):
    """Return a function that runs the command line and returns (exit code, output, error)."""
    monkeypatch.setenv("TRAINER_NOW", "2030-03-01T19:00:00+00:00")

    def run(*words, typed=""):
        monkeypatch.setattr("sys.stdin", io.StringIO(typed))
        code = cli.main(list(words))
        said = capsys.readouterr()
        return code, said.out, said.err

    return run


def test_the_stages_are_shown_with_the_chosen_one_and_what_comes_next(trainer):
    code, out, _ = trainer("stage")
    assert code == 0
    names = [line.split()[0] for line in out.splitlines() if " hold" in line and "–" not in line]
    assert names[0] == "▸" and "reference" in names[-1]
    assert "Next: take-off trim from the step table" in " ".join(out.split())
    assert "weight-and-trim" not in out, "no ids"
    assert max(map(len, out.splitlines())) <= 80


def test_a_stage_is_chosen_by_name_or_by_a_word_and_practice_follows(trainer):
    trainer("practice", "--questions", "1", typed="s\n")
    code, out, _ = trainer("stage", "night")
    assert code == 0 and "▸ night-recovery" in out
    assert "marshal ·" in trainer("practice", "--questions", "1", typed="s\n")[1], "the kept question is dropped"


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("stage", "day"), "'day' may be day-departure, day-recovery"),
        (("stage", "galley"), "there is no stage 'galley'"),
        (("stage", "nowhere.toml"), "nowhere.toml"),
    ],
)
def test_what_names_no_stage_gets_one_line(trainer, words, says):
    code, _, err = trainer(*words)
    assert code in (1, 2)
    assert says in err and err.count("\n") == 1


def test_a_task_handed_over_is_taken_in_and_chosen(trainer, tmp_path, home):
    path = tmp_path / "task.toml"
    path.write_text(TASK, encoding="utf-8")
    code, out, _ = trainer("stage", str(path))
    assert code == 0 and "Task of the week – 0 of 1 hold." in out
    path.unlink()
    assert "The ball call" in trainer("stage", "--list")[1]
    assert "The ball call" in trainer("practice", "--questions", "1", typed="s\n")[1]


def test_a_task_with_faults_or_the_name_of_a_shipped_stage_is_refused(trainer, tmp_path):
    path = tmp_path / "task.toml"
    path.write_text(TASK.replace("ball-call", "bal-call"), encoding="utf-8")
    code, _, err = trainer("stage", str(path))
    assert code == 1 and 'did you mean "ball-call"' in err
    shipped = tmp_path / "fuel.toml"
    shipped.write_text(TASK.replace('"task"', '"fuel"'), encoding="utf-8")
    assert "is a shipped stage" in trainer("stage", str(shipped))[2]


def test_the_drills_of_a_stage_are_listed_with_their_state(trainer):
    trainer("practice", "--questions", "1", typed="s\n")
    out = trainer("stage", "--list")[1]
    assert out.count("being learned") == 1 and out.count("not yet") > 50
    assert "{" not in out
    assert "Fuel" in trainer("stage", "--list", "fuel")[1]
    assert "▸ day-departure" in trainer("stage")[1], "a look at another stage does not choose it"


def test_finding_out_asks_each_thing_once_and_nothing_twice(trainer):
    out = trainer("stage", "--find-out", typed="s\n" * 40)[1]
    asked = [part.split("\n")[1] for part in out.split(" · limit ")[1:]]
    assert len(asked) > 8


@pytest.mark.parametrize("words", [(), ("--list",), ("day-departure",), ("day-departure", "--list"), ("--find-out",)])
def test_a_shelf_without_stages_is_told_in_one_line(trainer, tmp_path, monkeypatch, words):
    shelf = tmp_path / "shelf"
    shelf.mkdir()
    shutil.copyfile(paths.shipped_decks() / "signals.toml", shelf / "signals.toml")
    for folder in ("airframes", "ships", "standards"):
        shutil.copytree(paths.shipped_decks() / folder, shelf / folder)
    monkeypatch.setattr(paths, "shipped_decks", lambda: shelf)
    code, _, told = trainer("stage", *words)
    assert code == 2 and "no stage could be read" in told and "Traceback" not in told
    assert trainer("practice", "--questions", "1", typed="s\n")[0] == 0
