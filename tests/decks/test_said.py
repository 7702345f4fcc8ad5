"""Files that tell how people say the steps of a flow."""

import pytest

from trainer.decks import templates
from trainer.decks.deckfile import read
from trainer.decks.said import path_beside, read_said
from trainer.drills.check_deck import check

GOOD = """
[battery]
right = ["batt on", "battery switch on"]
wrong = ["battery off"]
near = ["battery"]

[crank]
right = ["crank the right one"]
"""
FAULTS = [
    ("[crank]", "[cranc]", ['6: "cranc" is no step of this flow; did you mean "crank"?']),
    ('near = ["battery"]', 'near = ["batt on"]', ['2: "batt on" stands among the others, too']),
    ('wrong = ["battery off"]', 'wrong = ["batt on"]', ['2: "batt on" stands among the others, too']),
    ('wrong = ["battery off"]', 'wrong = "battery off"', ["must be a list in [ ]"]),
    ('wrong = ["battery off"]', "wrong = [1]", ["1 must be a text in quotes"]),
    ("near", "nearly", ['unknown key "nearly"']),
    ('near = ["battery"]', 'near = ["battery"', ["is not TOML", "not closed"]),
]


@pytest.fixture
def written(tmp_path):
    def write(text):
        path = tmp_path / "start-up.toml"
        path.write_text(text.lstrip("\n"), encoding="utf-8")
        return path

    return write


def test_texts_are_read_by_step_and_sort(written):
    said = read_said(written(GOOD), ("battery", "crank"))
    assert said.faults == []
    assert said.right == {"battery": ("batt on", "battery switch on"), "crank": ("crank the right one",)}
    assert said.wrong == {"battery": ("battery off",), "crank": ()} and said.near["battery"] == ("battery",)


@pytest.mark.parametrize(("old", "new", "expected"), FAULTS)
def test_faults(written, old, new, expected):
    assert old in GOOD
    faults = [str(fault) for fault in read_said(written(GOOD.replace(old, new, 1)), ("battery", "crank")).faults]
    assert len(faults) == len(expected), faults
    assert all(part in fault for fault, part in zip(faults, expected, strict=True))


def test_a_file_that_is_not_there_is_a_fault_and_no_traceback(tmp_path):
    assert "there is no such file" in str(read_said(tmp_path / "none.toml").faults[0])


def test_a_flow_knows_where_its_file_would_lie_and_deck_check_reads_it(tmp_path):
    deck = templates.write("flow", tmp_path / "mine.toml")
    flow = read(deck)[1][0]
    assert flow.said == str(path_beside(deck, flow.id))
    assert check([tmp_path], draws=0) == []
    (tmp_path / "said").mkdir()
    path_beside(deck, flow.id).write_text("[batery]\n", encoding="utf-8")
    path_beside(deck, "no-flow").write_text("[battery]\n", encoding="utf-8")
    faults = [fault.message for fault in check([tmp_path], draws=0)]
    assert len(faults) == 2 and 'did you mean "battery"' in faults[0] and "its name is that of no flow" in faults[1]


def test_a_step_with_too_few_texts_is_told_and_the_file_is_not_heard(tmp_path):
    deck = templates.write("flow", tmp_path / "start-up.toml")
    folder = tmp_path / "said"
    folder.mkdir()
    path = folder / "start-up-start-up.toml"
    six = [f"text {number}" for number in "123456"]
    steps = ("battery", "fire-test", "clear", "crank")
    text = "\n".join(f"[{step}]\nright = {six}\nwrong = {[one.upper() for one in six]}" for step in steps)
    path.write_text(text, encoding="utf-8")
    assert check([deck, path], draws=0) == []
    path.write_text(text.replace(", 'TEXT 6'", "", 1).replace("[crank]", "[clear2]"), encoding="utf-8")
    assert any("is no step of this flow" in fault.message for fault in check([deck, path], draws=0))
    path.write_text(text.replace(", 'TEXT 6'", "", 1).partition("[crank]")[0], encoding="utf-8")
    assert [(fault.line, fault.message.partition(";")[0]) for fault in check([deck, path], draws=0)] == [
        (0, 'the step "crank" has 0 right and 0 wrong texts'), (1, 'the step "battery" has 5 wrong texts')
    ]  # fmt: skip


def test_a_file_of_texts_beside_the_decks_is_told_where_it_belongs(tmp_path):
    path = tmp_path / "decks" / "bingo.toml"
    path.parent.mkdir()
    path.write_text('[report]\nright = ["call it"]\n', encoding="utf-8")
    _, _, (fault,) = read(path)
    assert "it belongs into the folder said beside the deck" in fault.message
