"""The stages over a library: what is met, and in which order."""

import pytest

from trainer.decks import library, stages
from trainer.paths import own_decks
from trainer.practice.stage import Syllabus

OWN = """
[deck]
format = 1
name = "mine"
title = "Mine"
area = "fuel"
[source.own]
text = "my squadron"
status = "common practice"
"""


def drill(name):
    return f'[[recall]]\nid = "{name}"\nask = "{name}?"\nanswer = {{ accept = ["yes"] }}\nsource = "own"\n'


@pytest.fixture
def own(home):
    """Return a function that writes a file of the user's own."""

    def write(where, text):
        path = own_decks(home) / where
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")

    return write


def staged(home, name=stages.FIRST):
    return Syllabus(library.load(home), home, name)


def test_the_core_of_the_chosen_stage_comes_first_then_more_then_the_next_stage():
    syllabus = staged(None, "fuel")
    mine, following = syllabus.members("fuel"), syllabus.members("weather-departure")
    order = syllabus.order()
    assert order[: len(mine.all)] == mine.all
    assert order[len(mine.all) :][: len(following.all)] == following.all
    assert not set(order) & syllabus.reference


def test_reference_is_asked_only_when_it_is_chosen():
    syllabus = staged(None, stages.REFERENCE)
    assert set(syllabus.order()) == syllabus.reference != frozenset()


def test_own_drills_in_no_stage_are_met_in_turn_with_those_of_the_stage(home, own):
    own("mine.toml", OWN + drill("mine-one") + drill("mine-two"))
    syllabus = staged(home)
    core = syllabus.members().core
    assert syllabus.order()[:5] == (core[0], "mine-one", core[1], "mine-two", core[2])


def test_a_whole_area_leaves_out_what_is_named_and_what_is_reference(home, own):
    own(
        "stages/task.toml",
        'format = 1\nname = "task"\ntitle = "Task"\ncore = ["bingo", "area:fuel"]\nmore = ["gone"]\n',
    )
    syllabus = staged(home, "task")
    found = syllabus.members()
    assert found.core[0] == "bingo"
    assert len(set(found.core)) == len(found.core) > 20
    assert found.more == ()  # a drill that is no longer there is passed over
    assert not set(found.core) & syllabus.reference
    assert {syllabus.drills[one].area for one in found.core[1:]} == {"fuel"}


def test_a_stage_with_faults_stops_nothing(home, own):
    own("stages/task.toml", "format = 1")
    syllabus = staged(home, "task")
    assert syllabus.chosen.name == stages.FIRST
    assert syllabus.faults


def test_without_any_stage_all_drills_are_met(tmp_path, monkeypatch, home, own):
    own("mine.toml", OWN + drill("mine-one"))
    shelf = library.load(home)
    monkeypatch.setattr(stages, "listing", lambda home=None: {})
    syllabus = Syllabus(shelf, home)
    assert syllabus.chosen is None
    assert set(syllabus.order()) == set(shelf.drills)
