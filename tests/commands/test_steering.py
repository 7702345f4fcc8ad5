"""Practice that can be steered: words, decks, areas, Cases, what is known and what does not apply."""

import io

import pytest

from trainer import cli


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


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("trim",), "trim"), (("clearing", "turn"), "learing turn"), (("marshal", "radial"), "radial"),
        (("--deck", "Launch-Numbers"), "deck ·"), (("--area", "Fuel"), "fuel ·"), (("ball", "call"), "ball"),
    ],
)  # fmt: skip
def test_one_thing_is_practised_as_a_person_types_it(trainer, words, says):
    code, out, err = trainer("practice", *words, "--questions", "1", typed="s\n")
    assert (code, err) == (0, "")
    assert says in out.split(" · q stop")[1]


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("practice", "galley"), "no drill speaks of 'galley'"),
        (("practice", "--deck", "lunch"), "there is no deck 'lunch' – did you mean launch?"),
        (("trim",), "`trainer practice trim`"),
        (("deck", "find", "galley"), "no drill speaks of"),
        (("deck", "off", "trim"), "may be"),
    ],
)
def test_what_finds_nothing_gets_one_line(trainer, words, says):
    code, _, err = trainer(*words)
    assert code == 2
    assert says in err and err.count("\n") == 1


def test_known_already_is_asked_once_in_the_next_session_with_the_reason(trainer):
    out = trainer("practice", "--questions", "2", typed="k\ns\ns\n")[1]
    assert "to prove it" in " ".join(out.split())
    assert out.count("Take-off trim") == 1
    again = trainer("practice", "--questions", "2", typed="s\ns\n")[1]
    first = again.split("1 · ")[1].split("2 · ")[0]
    assert "Asked first: you said that you know it." in first and "Take-off trim" in first
    assert "Asked first" not in trainer("practice", "--questions", "9", typed="s\n" * 9)[1]


def test_not_for_me_is_asked_no_more_until_it_is_switched_on(trainer):
    def asked(*words):
        out = " ".join(trainer("practice", *words, typed="s\n" * 12)[1].split())
        return "Take-off trim for the gross weight?" in out

    trainer("practice", "--questions", "1", typed="x\ns\n")
    assert "weight-and-trim" in trainer("deck", "on")[1]
    assert not asked("--questions", "12")
    assert trainer("deck", "on", "weight-and-trim")[1].strip() == "nothing is off"
    assert asked("weight and trim")


def test_flags_are_listed_and_lifted(trainer):
    trainer("practice", "--questions", "1", typed="f\ns\n")
    assert "weight-and-trim" in trainer("deck", "flags")[1]
    assert trainer("deck", "flags", "--lift")[1].strip() == "1 flag lifted"
    assert "nothing is flagged" in trainer("deck", "flags")[1]


def test_what_can_be_typed_is_shown_and_costs_nothing(trainer):
    out = trainer("practice", "--questions", "1", typed="?\nhelp\n?s\n")[1]
    assert out.count("known already: asked once") == 2 and "Not known." in out
    assert max(map(len, out.splitlines())) <= 80


def test_a_case_leaves_out_what_is_for_another_case_alone():
    from trainer.decks import library
    from trainer.practice import wish

    outlines = library.load().outlines
    by_case = {case: set(wish.wanted(wish.Wish(case=case), outlines)) for case in (1, 2, 3)}
    assert any("case-3" in name for name in by_case[3])
    for case, names in by_case.items():
        assert not [name for name in names if wish.case_of(outlines[name]) not in (0, case)]
    assert by_case[1] != by_case[3]
