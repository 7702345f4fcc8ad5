"""What a question gives away, how even its choices are, and whether the numbers that are heard can happen."""

import re
from itertools import combinations

import pytest

from trainer.decks import library
from trainer.decks.words import normalise
from trainer.drills import questions
from trainer.model import CallDrill, RecallDrill

LONGEST_RIGHT = 0.40  # of the choices, at most this share has the right one as its longest
LONGER = 1.35  # no right choice is longer than the longest wrong one by more than this, where it has many words
MANY_LETTERS = 24
DRAWS = 150

# Where the world has two ways.  A choice of two is made of one of these.
PAIRS = {
    frozenset(pair)
    for pair in (
        ("left", "right"), ("port", "starboard"), ("before", "after"), ("above", "below"), ("magnetic", "true"),
        ("added", "subtracted"), ("inbound", "outbound"), ("in", "out"), ("clean", "dirty"), ("yes", "no"),
        ("the same", "the other"), ("the pilot", "the deck crew"),
    )
}  # fmt: skip
# A bare yes or no is half given away: it needs a question that has no third answer.
YES_OR_NO = {"tacan-lock-off-distance"}


@pytest.fixture(scope="module")
def shelf():
    """Return the recall drills of the shipped shelf, calls left out."""
    drills = library.load().drills.values()
    return [drill for drill in drills if isinstance(drill, RecallDrill)]


@pytest.fixture(scope="module")
def choices(shelf):
    return [drill for drill in shelf if drill.choices]


def holds(words, text):
    """Return whether ``words`` stand in ``text`` as whole words, whatever their case and signs."""
    return f" {normalise(words)} " in f" {normalise(text)} "


def given_away(drill):
    """Return the accepted answers that the question itself says."""
    if drill.choices:
        named = [choice for choice in drill.choices if holds(choice, drill.ask)]
        return [choice for choice in named if choice == drill.accept[0]] if len(named) < len(drill.choices) else []
    if drill.value is not None:
        number = re.escape(f"{drill.value:g}")
        return re.findall(rf"(?<![\d.,-]){number}(?![\d.,]*\d|-)", drill.ask.replace(",", ""))
    return [words for words in drill.accept if holds(words, drill.ask)]


def longest_is_right(drill):
    return all(len(drill.accept[0]) > len(choice) for choice in drill.choices if choice != drill.accept[0])


def test_no_question_says_its_answer(shelf):
    assert {drill.id: given_away(drill) for drill in shelf if given_away(drill)} == {}


def test_a_question_that_says_its_answer_is_seen(shelf):
    drill = next(drill for drill in shelf if drill.id == "popeye-say")
    leaking = RecallDrill(**{**vars(drill), "ask": "You enter cloud and call popeye. Which word?"})
    assert given_away(leaking) == ["popeye"]


def test_the_right_choice_is_seldom_the_longest(choices):
    longest = [drill.id for drill in choices if longest_is_right(drill)]
    assert len(choices) > 150 and len(longest) <= LONGEST_RIGHT * len(choices), longest


def test_the_right_choice_does_not_stick_out(choices):
    for drill in choices:
        wrong = max(len(choice) for choice in drill.choices if choice != drill.accept[0])
        assert len(drill.accept[0]) <= max(MANY_LETTERS, LONGER * wrong), drill.id


def test_the_right_choice_has_no_favourite_place(choices):
    first = [drill for drill in choices if drill.choices[0] == drill.accept[0]]
    question = [questions.make(drill, library.load(), str(seed)) for drill in first[:20] for seed in range(6)]
    places = {one.choices.index(one.truth_text) for one in question if one.truth_text in one.choices}
    assert len(places) > 1


def test_two_choices_stand_where_the_world_has_two_ways(choices):
    two = {drill.id: frozenset(drill.choices) for drill in choices if len(drill.choices) == 2}
    assert {drill_id: pair for drill_id, pair in two.items() if pair not in PAIRS} == {}
    assert {drill_id for drill_id, pair in two.items() if pair == frozenset(("yes", "no"))} <= YES_OR_NO


def test_every_recall_drill_gives_a_reason(shelf):
    assert [drill.id for drill in shelf if len(drill.why) < 12] == []
    told = re.compile(r"^(see|source|table|page|section|the (manual|text|table) says)\b", re.IGNORECASE)
    assert [drill.id for drill in shelf if told.search(drill.why)] == []


def test_reasons_are_not_shared_out(shelf):
    """One reason under three questions explains none of them."""
    whys = [drill.why for drill in shelf if drill.why]
    assert {why for why in whys if whys.count(why) > 2} == set()


def drawn(drill_id):
    shipped = library.load()
    drill = shipped.drills[drill_id]
    assert isinstance(drill, CallDrill)
    return [questions.make(drill, shipped, str(seed)).inputs for seed in range(DRAWS)]


def test_a_vector_after_a_bolter_leads_downwind():
    for inputs in drawn("hear-vector"):
        off = (inputs["heading_deg"] - inputs["bearing_deg"] - 180 + 180) % 360 - 180
        assert abs(off) <= 30, inputs


def test_an_expected_approach_time_lies_five_to_forty_minutes_ahead():
    for inputs in drawn("hear-marshal-case-3"):
        assert 5 <= (inputs["push_minute"] - inputs["time_minute"]) % 60 <= 40, inputs


def test_a_delta_is_even_and_never_less_than_four_minutes():
    delays = {inputs["delay_min"] for inputs in drawn("hear-delta")}
    assert delays == {4, 6, 8, 10, 12}


def test_the_bingo_that_is_heard_is_that_of_the_field_that_is_heard():
    table = library.load().tables["airframe.bingo"]
    for inputs in drawn("hear-bingo"):
        assert 0 <= inputs["bingo_klb"] * 1000 - table(inputs["distance_nm"]) < 100.001, inputs


def test_pigeons_give_a_field_that_is_worth_asking_for():
    distances = [inputs["distance_nm"] for inputs in drawn("hear-pigeons")]
    assert min(distances) >= 30 and len(set(distances)) > 40


def test_heard_numbers_differ_from_each_other_enough_to_be_told_apart():
    """A call whose numbers are always the same trains nothing."""
    for drill_id in ("hear-vector", "hear-marshal-case-3", "hear-deck-change"):
        inputs = drawn(drill_id)[:20]
        assert sum(a != b for a, b in combinations(inputs, 2)) > 150
