"""`?` and `help` say what can be typed now, wherever something is asked."""

import io

import pytest

from trainer import cli
from trainer.terminal import loop, rehearsal_screens, screens


@pytest.fixture
def trainer(monkeypatch, capsys, tmp_path):
    """Return a function that runs the command line with ``typed`` in the pipe and returns what it said."""
    monkeypatch.setenv("TRAINER_NOW", "2030-03-01T19:00:00+00:00")

    def run(*words, typed=""):
        monkeypatch.setattr("sys.stdin", io.StringIO(typed))
        assert cli.main(list(words)) == 0
        return capsys.readouterr().out

    return run


@pytest.mark.parametrize("asked", ["?", "help", " HELP "])
@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("practice",), "s  the solution"), (("rehearse", "--seed", "7"), "s  I don't know"),
        (("brief",), "leaves what stands in [ ]; the card"), (("debrief",), "2m 4l  item 2 was missed"),
    ],
)  # fmt: skip
def test_help_lists_what_can_be_typed_now(trainer, words, says, asked):
    out = trainer(*words, typed=f"{asked}\nq\n")
    assert says in out and "q " in out.partition(says)[2]


def test_help_is_no_answer(trainer):
    assert "0 of 0 right" in " ".join(trainer("rehearse", "--seed", "7", typed="?\nhelp\nq\n").split())
    assert "Nothing was graded" in trainer("practice", typed="?\nhelp\nq\n")


def test_what_practice_takes_and_what_help_lists_are_the_same():
    assert {*loop.COMMANDS, "s"} - {"?", "help"} == screens.HELP.keys()
    assert {"?", "help", *screens.AFTERWARDS} == set(loop.AFTERWARDS) <= loop.COMMANDS.keys()
    assert set(rehearsal_screens.HELP) == {"s", "q", "y"}


def test_after_a_miss_help_lists_what_means_something_then(begin, drive):
    said = drive(begin(questions=2, seed="7", areas=("approach",)), "4000\r", "?\r", "\r")
    at = said.index("Enter goes on, or one of these:")
    assert [line.split()[0] for line in said[at + 1 : at + 6]] == ["w", "x", "f", "u", "q"]
