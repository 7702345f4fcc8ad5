"""What is switched off, flagged, or flown by other kinds of aircraft is not asked."""

from types import SimpleNamespace

import pytest

from trainer.decks import library
from trainer.errors import UsageError
from trainer.practice import left_out


@pytest.fixture(scope="module")
def shelf():
    return library.load()


def test_a_deck_and_a_drill_are_switched_off_and_on_again(store, shelf):
    before = left_out.ids(store, shelf)
    left_out.switch_off(store, ["unit-numbers", "bingo"])
    off = left_out.ids(store, shelf) - before
    assert off == {"bingo", *(name for name, one in shelf.outlines.items() if one.deck == "unit-numbers")}
    left_out.switch_on(store, ["unit-numbers"])
    assert left_out.ids(store, shelf) - before == {"bingo"}


def test_a_jet_pilot_never_sees_what_only_turboprops_fly(store, shelf):
    others = {name for name in shelf.outlines if {"turboprop", "helicopter"} & set(name.split("-"))}
    assert "departure-case-3-turboprop" in others
    assert left_out.ids(store, shelf) == others
    nobody = SimpleNamespace(outlines=shelf.outlines, notes={})
    assert left_out.ids(store, nobody) == frozenset(), "an airframe that does not say is asked everything"
    prop = SimpleNamespace(outlines=shelf.outlines, notes={"airframe.wings": "turboprop"})
    assert "departure-case-3-turboprop" not in left_out.ids(store, prop)
    assert any("jet" in name.split("-") for name in left_out.ids(store, prop))


def test_a_flag_lasts_from_session_to_session_until_it_is_lifted(begin, store, shelf):
    first = begin(questions=1, seed="7")
    flagged = first.next().drill_id
    first.flag(first._question)
    other = begin(questions=20, seed="8")
    asked = set()
    while (question := other.next()) is not None:
        asked.add(question.drill_id)
        other.give_up(1.0)
    assert asked and flagged not in asked
    assert left_out.lift(store, [flagged]) == 1
    assert left_out.flags(store) == [] and len(store.flags()) == 1, "what was flagged stays on record"
    assert left_out.lift(store, [flagged]) == 0
    assert flagged in begin(questions=1)._drills


def test_damaged_settings_count_as_none(store, shelf):
    before = left_out.ids(store, shelf)
    for damaged in ("x", 7, {"a": 1}, [1, None]):
        store.set_setting(left_out.OFF, damaged)
        store.set_setting(left_out.LIFTED, damaged)
        assert left_out.ids(store, shelf) == before
        assert left_out.flags(store) == []


@pytest.mark.parametrize(
    ("text", "name"),
    [("Unit-Numbers", "unit-numbers"), ("fuel.toml", "fuel"), ("bingo", "bingo"), ("ball call", "ball-call")],
)
def test_what_is_typed_means_a_deck_or_a_drill(shelf, text, name):
    assert left_out.meant(text, shelf) == name


@pytest.mark.parametrize(("text", "says"), [("trim", "may be"), ("galley", "there is no deck or drill")])
def test_what_means_none_or_many_is_refused(shelf, text, says):
    with pytest.raises(UsageError, match=says):
        left_out.meant(text, shelf)
