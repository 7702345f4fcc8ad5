"""One finder for calculator, deck and practice: what names a quantity names its drills."""

import pytest

from trainer.decks import library
from trainer.engine.quantities import QUANTITIES
from trainer.practice import finding


@pytest.fixture(scope="module")
def shelf():
    return library.load()


@pytest.mark.parametrize(
    "words",
    ["trim", "clearing turn", "bingo", "marshal radial", "wind over deck", "line of sight", "platform", "push time"],
)
def test_words_that_find_a_quantity_find_its_drills(shelf, words):
    found = finding.find(words.split())
    drilled = {one.id for one in shelf.outlines.values() if one.quantity in {quantity.name for quantity in found}}
    assert found and drilled and drilled <= set(finding.drills(words.split(), shelf))


def test_every_quantity_that_is_drilled_finds_its_drills_by_its_name(shelf):
    for name in {one.quantity for one in shelf.outlines.values()} & QUANTITIES.keys():
        drilled = {one.id for one in shelf.outlines.values() if one.quantity == name}
        assert drilled <= set(finding.drills([name], shelf)), name
        assert QUANTITIES[name] in finding.find([name])


def test_part_of_a_word_finds_only_where_no_word_begins_so(shelf):
    assert {one.name for one in finding.find(["fix"])} and not any(
        "prefix" in one for one in finding.drills(["fix"], shelf)
    )
    assert finding.find(["ndicated"]) and finding.drills(["ndicated"], shelf)


def test_nothing_typed_finds_nothing(shelf):
    assert finding.drills([], shelf) == finding.drills([" - "], shelf) == []
    assert finding.find([]) == list(QUANTITIES.values()), "the calculator lists them all"


@pytest.mark.parametrize(
    ("typed", "meant"), [("trmi", "trim"), ("clearing trun", "clearing turn"), ("maershal radail", "marshal radial")]
)
def test_a_slip_of_the_keys_is_told_what_would_be_found(shelf, typed, meant):
    assert f"did you mean {meant}?" in str(finding.no_such_drill(typed.split(), shelf))
    assert finding.drills(meant.split(), shelf)


def test_what_is_like_nothing_is_sent_to_the_list(shelf):
    assert "did you mean" not in str(finding.no_such_drill(["zzzz"], shelf))
