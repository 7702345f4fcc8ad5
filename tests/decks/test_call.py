"""Radio calls, made and heard."""

import pytest

from tests.decks.samples import CALL, HEAD, LISTEN

CALL_FAULTS = [
    ('order = "an invented list"\n', "", ['"order" is missing']),
    ('order = "an invented list"', "ordered = 3", ["3 must be true or false"]),
    ('say = "{type_name}"', 'say = "{type}"', ['{type} names no input; did you mean "type_name"?']),
    ('"state {state_klb}"', '"state {state}"', ["{state} names no input"]),
    ('say = "{type_name}"\n', "", ['"say" is missing']),
    ('name = "type"', 'name = "type"\noptionl = true', ['unknown key "optionl"; did you mean "optional"?']),
    ("{ from = 3.2, to = 7.8, step = 0.1 }", "{ from = 3.2, to = 7.8 }", ['"step" is missing']),
    ("[[call.item]]", "[[call.items]]", ["there is no item", 'unknown key "items"; did you mean "item"?']),
    ('source = "sop"', 'source = "sop"\nkeep = ["state_klb > 4"]\nask2 = 1', ['unknown key "ask2"']),
]  # fmt: skip


@pytest.mark.parametrize(("old", "new", "expected"), CALL_FAULTS)
def test_faults_of_calls(told, old, new, expected):
    assert old in CALL
    faults = told(HEAD + CALL.replace(old, new))
    assert len(faults) == len(expected), faults
    assert all(part in fault for fault, part in zip(faults, expected, strict=True)), faults


LISTEN_FAULTS = [
    ("count = 2", "count = 3", ["3 must be from 1 to 2"]),
    ("count = 2", "count = 1.5", ["1.5 must be a whole number"]),
    ('value = "fb_deg"', 'value = "fb"', ['"fb" is no input that is drawn; did you mean "fb_deg"?']),
    ('value = "fb_deg"', 'value = "fb_deg"\nsay = "x"', ["exactly one of"]),
    ('value = "fb_deg"\n', "", ["exactly one of"]),
    ('unit = "count"', 'unit = "counts"', ['"counts" is no unit; did you mean "count"?']),
    ('ask = "Button?"\n', "", ['"ask" is missing']),
    ("{fb_deg}", "{fb}", ["{fb} names no input"]),
    ('hear = "', 'heard = "', ['"hear" is missing', 'unknown key "heard"']),
]  # fmt: skip


@pytest.mark.parametrize(("old", "new", "expected"), LISTEN_FAULTS)
def test_faults_of_calls_that_are_heard(told, old, new, expected):
    assert old in LISTEN
    faults = told(HEAD + LISTEN.replace(old, new, 1))
    assert len(faults) == len(expected), faults
    assert all(part in fault for fault, part in zip(faults, expected, strict=True)), faults


def test_records(deck):
    call, heard = deck(HEAD + CALL + LISTEN).drills
    assert (call.kind, call.order, call.ordered, call.items[1].ways) == (
        "recall",
        "an invented list",
        True,
        ("state {state_klb}",),
    )
    assert call.draws[1].any_of == ("Harrow",)
    assert (heard.hear[:8], heard.count, heard.items[0].unit, heard.items[1].unit) == (
        "Expected",
        2,
        "heading",
        "count",
    )
