"""Standards read from files, with every fault named."""

from pathlib import Path

import pytest

from trainer.decks import library, standards
from trainer.errors import DeckError, UsageError
from trainer.model import AREAS
from trainer.paths import own_decks, shipped_decks

GOOD = """
format = 1
name = "mine"
title = "Mine"
[all]
share = 0.7
[area.fuel]
share = 0.9
in_time = 0.5
[flows]
required = ["bingo"]
"""


@pytest.fixture
def write(tmp_path):
    def put(text, name="mine"):
        path = tmp_path / f"{name}.toml"
        path.write_text(text, encoding="utf-8")
        return path

    return put


def test_what_an_area_leaves_out_comes_from_all(write):
    standard, faults = standards.read(write(GOOD))
    assert faults == []
    assert (standard.demand("fuel").share, standard.demand("fuel").in_time) == (0.9, 0.5)
    assert {standard.demand(area).share for area in AREAS if area != "fuel"} == {0.7}
    assert standard.required == ("bingo",)


@pytest.mark.parametrize(
    ("old", "new", "line", "says"),
    [
        ("format = 1", "format = 2", 2, "format 2 is not known"),
        ('name = "mine"', 'name = "other"', 3, "must be the name of the file"),
        ('title = "Mine"', "", 1, '"title" is missing'),
        ("share = 0.7", "share = 70", 6, "must be from 0 to 1"),
        ("share = 0.7", "shares = 0.7", 6, "unknown key"),
        ("[area.fuel]", "[area.fule]", 7, 'did you mean "fuel"'),
        ('["bingo"]', '["bigno"]', 11, 'is no flow; did you mean "bingo"'),
        ('["bingo"]', "[", 11, ""),
    ],
)
def test_a_fault_is_named_with_its_line(write, old, new, line, says):
    standard, faults = standards.read(write(GOOD.replace(old, new)), drills=library.load().drills)
    assert standard is None
    assert any(says in fault.message for fault in faults), faults
    if says and "missing" not in says:
        assert line in {fault.line for fault in faults}


def test_the_shipped_standards_are_sound_and_labelled():
    drills = library.load().drills
    names = standards.listing()
    assert "night-board" in names
    for name in names:
        assert standards.load(name=name, drills=drills).invented


def test_the_users_own_standard_comes_first_and_replaces(home):
    folder = own_decks(home) / "standards"
    folder.mkdir(parents=True)
    shipped = (shipped_decks() / "standards" / "night-board.toml").read_text(encoding="utf-8")
    (folder / "night-board.toml").write_text(shipped.replace("share = 0.8 ", "share = 0.5 "), encoding="utf-8")
    (folder / "mine.toml").write_text(GOOD, encoding="utf-8")
    assert next(iter(standards.listing(home))) == "mine"
    assert standards.load(home, "night-board").demand("deck").share == 0.5
    assert standards.load(None, "night-board").demand("deck").share == 0.8


def test_a_standard_that_is_not_there(home):
    with pytest.raises(UsageError, match="there is no standard 'strict'"):
        standards.load(home, "strict")
    with pytest.raises(DeckError, match="no such file"):
        standards.load(home, str(Path(home) / "nowhere.toml"))
