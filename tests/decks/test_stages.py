"""Stages read from files, with every fault named; and the shipped ones, which share all drills among them."""

import re
from collections import Counter

import pytest

from trainer.decks import library, stages, standards
from trainer.drills.check_deck import check
from trainer.errors import DeckError, UsageError
from trainer.paths import own_decks, shipped_decks
from trainer.practice.stage import Syllabus

GOOD = """
format = 1
name = "mine"
title = "Mine"
case = 3
standard = "night-board"
next = "fuel"
core = [
    "bingo",
    "deck:fuel",
]
more = ["area:marshal"]
"""


@pytest.fixture(scope="module")
def shelf():
    return library.load()


@pytest.fixture
def write(tmp_path):
    def put(text, name="mine"):
        folder = tmp_path / "stages"
        folder.mkdir(exist_ok=True)
        path = folder / f"{name}.toml"
        path.write_text(text, encoding="utf-8")
        return path

    return put


def test_a_stage_says_what_it_holds(write):
    stage, faults = stages.read(write(GOOD))
    assert faults == []
    assert (stage.name, stage.case, stage.standard, stage.next) == ("mine", 3, "night-board", "fuel")
    assert (stage.core, stage.more) == (("bingo", "deck:fuel"), ("area:marshal",))


@pytest.mark.parametrize(
    ("old", "new", "line", "says"),
    [
        ("format = 1", "format = 2", 2, "format 2 is not known"),
        ('name = "mine"', 'name = "other"', 3, "must be the name of the file"),
        ('title = "Mine"', "", 1, '"title" is missing'),
        ("case = 3", "case = 4", 5, "4 is no Case: 1, 2 or 3"),
        ("case = 3", "case = true", 5, "true is no Case"),
        ("core =", "cores =", 8, 'unknown key "cores"; did you mean "core"?'),
        ('"bingo"', '"bigno"', 9, 'there is no drill "bigno"; did you mean "bingo"?'),
        ('"deck:fuel"', '"deck:fule"', 10, 'there is no deck "fule"; did you mean "fuel"?'),
        ('"deck:fuel"', '"bingo"', 10, '"bingo" stands twice; the first is entry 1'),
        ('"deck:fuel"', '"Bingo flow"', 10, "is no drill: an id, deck:NAME or area:NAME"),
        ('"area:marshal"', '"area:marshall"', 12, 'is no area; did you mean "marshal"?'),
        ('"area:marshal"', '"bingo"', 12, '"bingo" stands in core, too'),
        ("more = [", "more = [,", 12, "is not TOML"),
        ('"night-board"', '"nigth-board"', 6, 'there is no standard "nigth-board"; did you mean "night-board"?'),
        ('"fuel"\ncore', '"feul"\ncore', 7, 'there is no stage "feul"; did you mean "fuel"?'),
    ],
)
def test_every_fault_is_named_with_its_line(write, old, new, line, says):
    assert old in GOOD
    faults = check([write(GOOD.replace(old, new, 1))], draws=0)
    assert any(says in fault.message for fault in faults), faults
    assert "missing" in says or line in {fault.line for fault in faults}


def test_an_empty_stage_is_told(write):
    _, faults = stages.read(write('format = 1\nname = "mine"\ntitle = "Mine"\n'))
    assert ["there is nothing in it: core and more are both empty"] == [fault.message for fault in faults]


def test_a_stage_file_is_checked_with_its_folder(write, tmp_path):
    write(GOOD.replace('"bingo"', '"bigno"'))
    assert [fault.line for fault in check([tmp_path], draws=0)] == [9]


def test_the_users_own_stage_replaces_and_is_listed(home):
    folder = own_decks(home) / "stages"
    folder.mkdir(parents=True)
    (folder / "mine.toml").write_text(GOOD, encoding="utf-8")
    (folder / "fuel.toml").write_text(GOOD.replace('"mine"', '"fuel"'), encoding="utf-8")
    assert "mine" in stages.listing(home)
    assert stages.load(home, "fuel").title == "Mine"
    assert stages.load(None, "fuel").title != "Mine"
    with pytest.raises(UsageError, match="there is no stage"):
        stages.load(home, "nowhere")
    (folder / "mine.toml").write_text("format = 1", encoding="utf-8")
    with pytest.raises(DeckError):
        stages.load(home, "mine")


# -- the shipped ones ---------------------------------------------------------------------------------


def places(syllabus):
    """Return how often each drill stands in a stage."""
    return Counter(one for name in syllabus.stages for one in syllabus.members(name).all)


def not_once(syllabus):
    """Return the drills that don't stand in exactly one stage, with the number of stages."""
    found = places(syllabus)
    return {one: found[one] for one in syllabus.drills if found[one] != 1}


def test_every_shipped_drill_stands_in_exactly_one_stage(shelf):
    assert not_once(Syllabus(shelf)) == {}


def test_a_drill_in_two_stages_and_one_in_none_are_seen(shelf, home):
    folder = own_decks(home) / "stages"
    folder.mkdir(parents=True)
    text = (shipped_decks() / "stages" / "fuel.toml").read_text(encoding="utf-8")
    changed = re.sub(r'^    "bingo",$', '    "tension-day",', text, count=1, flags=re.MULTILINE)
    assert changed != text
    (folder / "fuel.toml").write_text(changed, encoding="utf-8")
    assert not_once(Syllabus(shelf, home)) == {"bingo": 0, "tension-day": 2}


@pytest.mark.parametrize("name", sorted(stages.listing()))
def test_a_shipped_stage_is_sound_and_its_standard_demands_its_own_flows(shelf, name):
    path = stages.listing()[name]
    stage, faults = stages.read(path, drills=shelf.drills, decks=shelf.decks)
    assert faults == []
    assert check([path], draws=0) == []
    if name == stages.REFERENCE:
        assert (stage.core, stage.standard, stage.next) == ((), "", "")
        return
    assert 20 <= len(stage.core) <= 110
    demanded = standards.load(name=stage.standard, drills=shelf.drills).required
    assert set(demanded) <= set(Syllabus(shelf).members(name).core)


def test_the_stages_follow_each_other_and_each_is_reached(shelf):
    syllabus = Syllabus(shelf)
    reached = [stage.name for stage in syllabus.following()]
    assert reached[0] == stages.FIRST
    assert {*reached, stages.REFERENCE} == set(syllabus.stages)
