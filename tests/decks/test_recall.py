"""Recall drills have exactly one form of answer."""

import pytest

from tests.decks.samples import HEAD, RECALL

ANSWER = '{ value = 5000, unit = "ft" }'
NEEDED = "exactly one of: value, accept, choices"
FAULTS = [
    ('{ value = 5000, unit = "feet" }', ['14: platform: "feet" is no unit; did you mean "ft"?']),
    ('{ value = 5000, unit = "parsec" }', ['"parsec" is no unit (allowed: heading, ']),
    ('{ value = 5000, unit = 3 }', ["3 is no unit"]),
    ("{ value = 5000 }", ['14: platform: "unit" is missing']),
    ('{ value = "5000", unit = "ft" }', ['"5000" must be a number']),
    ('{ value = 1e13, unit = "ft" }', ["must be from"]),
    ('{ value = 5, unit = "ft", on = 2, inside = 1 }', ["1 is less than on = 2"]),
    ('{ value = 5, unit = "ft", on = -1 }', ["-1 must be from 0"]),
    ('{ value = 5, unit = "ft", with = 1 }', ['unknown key "with"']),
    ('{ value = 5, unit = "ft", accept = ["x"] }', [NEEDED]),
    ("{}", ["the answer is empty"]),
    ('{ unit = "ft" }', [NEEDED]),
    ('"5000"', ['"5000" must be a table']),
    ('{ accept = [] }', ["no words are accepted"]),
    ('{ accept = "popeye" }', ['"popeye" must be a list']),
    ('{ accept = ["–"] }', ['"–" holds no word']),
    ('{ accept = ["a b"], refuse = ["A  B!"] }', ['"A B!" is both accepted and refused']),
    ('{ accept = ["' + 'a", "' * 100 + '"] }', ["the list has 101 entries"]),
    ('{ choices = ["left"], right = "left" }', ["a choice needs at least two"]),
    ('{ choices = ["left", "Left"], right = "left" }', ["two choices are the same words"]),
    ('{ choices = ["left", "right"], right = "up" }', ['"up" is none of the choices']),
    ('{ choices = ["left", "right"] }', ['"right" is missing']),
    ('{ choices = ["' + 'a", "' * 9 + 'b"], right = "a" }', ["the list has 10 entries"]),
]  # fmt: skip


@pytest.mark.parametrize(("answer", "expected"), FAULTS)
def test_faults(told, answer, expected):
    faults = told(HEAD + RECALL.replace(ANSWER, answer))
    assert len(faults) == len(expected), faults
    for fault, part in zip(faults, expected, strict=True):
        assert part in fault


def test_no_answer(told):
    assert told(HEAD + RECALL.replace(f"answer = {ANSWER}\n", "")) == ['11: platform: "answer" is missing']


def test_words(deck):
    drill = deck(HEAD + RECALL.replace(ANSWER, '{ accept = ["popeye", "in cloud"], refuse = ["tally"] }')).drills[0]
    assert (drill.accept, drill.refuse, drill.value) == (("popeye", "in cloud"), ("tally",), None)


def test_a_choice(deck):
    drill = deck(HEAD + RECALL.replace(ANSWER, '{ choices = ["left", "right"], right = "right" }')).drills[0]
    assert (drill.accept, drill.choices) == (("right",), ("left", "right"))
