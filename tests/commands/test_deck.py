"""The deck command: faults of a deck, all at once, and what it shows of sound ones."""

import re
from pathlib import Path

import pytest

from trainer import cli

FAULTY = """\
[deck]
format = 1
name = "faulty"
title = "A deck with ten faults"
area = "galley"

[source.atc]
text = "NAVEDTRA 14342A, Air Traffic Controller"
status = "certain"

[[computed]]
id = "One!"
quantity = "marshal_fix_distanse"
ask = "Angels {angels}?"
source = "atc"
[computed.draw]
angels = { from = 6, to = 20, step = 1 }

[[computed]]
id = "fix-out-of-range"
quantity = "marshal_fix_distance"
ask = "Angels {angels}?"
source = "atc"
[computed.draw]
angels = { from = 2, to = 20, step = 1 }

[[computed]]
id = "fix-unnamed-input"
quantity = "marshal_fix_distance"
ask = "Angels {altitude}?"
source = "nobody"
[computed.draw]
angels = { from = 6, to = 20, step = 1 }

[[recall]]
id = "recall-misspelt"
ask = "At what altitude is platform called?"
answer = { value = 5000, unit = "ft" }
hnt = "five of them"
source = "atc"

[[recall]]
id = "recall-unit"
ask = "At what altitude is platform called?"
answer = { value = 5000, unit = "feets" }
source = "atc"

[[flow]]
id = "flow-cycle"
title = "Round and round"
cue = "it begins"
source = "atc"
[[flow.step]]
id = "one-step"
do = "first"
after = ["three-step"]
[[flow.step]]
id = "two-step"
do = "second"
after = ["one-step"]
[[flow.step]]
id = "three-step"
do = "third"
after = ["two-step"]
"""


@pytest.fixture
def trainer(monkeypatch, capsys, tmp_path):
    """Return a function that runs the command line and returns (exit code, output, error)."""
    monkeypatch.chdir(tmp_path)

    def run(*words):
        code = cli.main(["deck", *map(str, words)])
        said = capsys.readouterr()
        return code, said.out, said.err

    return run


def test_ten_planted_faults_are_ten_lines_with_file_line_and_drill(trainer):
    Path("faulty.toml").write_text(FAULTY, encoding="utf-8")
    code, out, _ = trainer("check", "faulty.toml")
    lines = [line for line in out.splitlines() if line.startswith("faulty.toml:")]
    assert code == 1
    planted = {
        "area": 'area = "galley"', "status": 'status = "certain"', "id": 'id = "One!"', "distanse": "distanse",
        "range": "from = 2", "altitude": "{altitude}", "nobody": '"nobody"', "hnt": "hnt", "feets": "feets",
        "cycle": "three-step",
    }  # fmt: skip
    text = FAULTY.splitlines()
    for name, what in planted.items():
        at = {number for number, line in enumerate(text, start=1) if what in line}
        told = {int(re.match(r"faulty.toml:(\d+):", line).group(1)) for line in lines}
        assert at & told, f"no fault is told where {name} was planted ({at}): {out}"
    assert len(lines) == 10, out


def test_the_shipped_decks_have_no_faults(trainer):
    root = Path(cli.__file__).resolve().parents[1]
    code, out, _ = trainer("check", root / "decks", "--draws", "200")
    assert (code, out) == (0, "no faults\n")


@pytest.mark.parametrize("kind", ["computed", "flow", "recall", "airframe", "ship"])
def test_a_new_file_passes_the_check_and_is_never_overwritten(trainer, kind):
    assert trainer("new", kind, f"my-{kind}.toml")[0] == 0
    assert trainer("check", f"my-{kind}.toml") == (0, "no faults\n", "")
    code, _, err = trainer("new", kind, f"my-{kind}.toml")
    assert code != 0 and err.count("\n") == 1


def test_a_drill_is_shown_with_where_it_stands_and_a_worked_sample(trainer):
    code, out, _ = trainer("show", "fix-from-angels")
    text = " ".join(out.split())
    assert code == 0
    assert "marshal-numbers.toml:" in text
    assert "answer:" in text and "source:" in text


def test_an_own_ship_is_used_once_it_is_chosen(trainer, home):
    (home / "decks" / "ships").mkdir(parents=True)
    assert trainer("new", "ship", home / "decks" / "ships" / "mine.toml")[0] == 0
    assert "ship: mine" in trainer("use")[1], "the user's own comes before the shipped one"
    assert "ship: hollenmere" in trainer("use", "ship", "hollenmere")[1]
    assert "ship: hollenmere" in trainer("use")[1]
    code, _, err = trainer("use", "ship", "nobodys")
    assert code == 2 and "there is no ship 'nobodys'" in err


def test_flagged_questions_are_listed_with_their_deck(trainer, monkeypatch):
    import io

    assert "nothing is flagged" in trainer("flags")[1]
    monkeypatch.setattr("sys.stdin", io.StringIO("f\nq\n"))
    cli.main(["practice", "--questions", "2", "--seed", "1"])
    trainer("use")  # takes what practice has printed out of the way
    out = trainer("flags")[1]
    assert re.match(r"\d{4}-\d\d-\d\d  [a-z-]+  [a-z0-9-]+: \S", out)
