"""Flows: the order that the steps allow, and wordings that tell the steps apart."""

import pytest

from tests.decks.samples import FLOW, HEAD
from trainer.decks.order import circles, remaining

FAULTS = [
    ('after = ["brakes"]', 'after = ["brake"]', ['27: tension: "brake" is no step of this flow; did you mean "bra']),
    ('do = "take tension"', 'do = "take tension"\nafter = ["wipe-out"]',
     ["19: tension: the steps wait for each other: take-tension after wipe-out after brakes after take-tension"]),
    ('do = "brakes released"', 'do = "take  Tension!"', ['21: tension: "take Tension!" also means step "take-']),
    ('"brakes off"', '"brakes off", "controls wiped out"', ['26: tension: "controls wiped out" also means step "br']),
    ('id = "brakes"', 'id = "take-tension"', ["stands twice in this flow; the first is step 1", "is no step"]),
    ('id = "brakes"', 'id = "Brakes"', ['"Brakes" is no id', '"brakes" is no step']),
    ('do = "take tension"', 'do = "–"', ['"–" holds no word']),
    ('do = "take tension"\n', "", ['16: tension: "do" is missing']),
    ('do = "take tension"', 'do = "take tension"\nactr = "pilot"', ['unknown key "actr"; did you mean "actor"?']),
    ('do = "take tension"', 'do = "take tension"\nsource = "x"', ['"x" is no [source.…]']),
    ('title = "Tension"\n', "", ['11: tension: "title" is missing']),
    ('cue = "The director signals tension"\n', "", ['"cue" is missing']),
    ('source = "sop"', 'source = "sop"\nsteps = 3', ['unknown key "steps"; did you mean "step"?']),
]  # fmt: skip


@pytest.mark.parametrize(("old", "new", "expected"), FAULTS)
def test_faults(told, old, new, expected):
    assert old in FLOW
    faults = told(HEAD + FLOW.replace(old, new, 1))
    assert len(faults) == len(expected), faults
    for fault, part in zip(faults, expected, strict=True):
        assert part in fault


def test_the_order_of_the_file_must_be_allowed(told):
    text = FLOW.replace('do = "take tension"', 'do = "take tension"\nafter = ["brakes"]').replace(
        'after = ["take-tension"]\n', ""
    )
    assert told(HEAD + text) == ['19: tension: step "take-tension" stands before "brakes", which it comes after']


def test_steps_behind_a_circle_can_never_be_reached(told):
    text = FLOW.replace('after = ["take-tension"]', 'after = ["take-tension", "brakes"]')
    assert told(HEAD + text) == [
        "23: tension: the steps wait for each other: brakes after brakes",
        '27: tension: step "wipe-out" can never be reached: it waits for a circle',
    ]


def test_a_flow_has_three_steps(told):
    text = FLOW.replace('[[flow.step]]\nid = "wipe-out"\ndo = "controls wiped out"\nafter = ["brakes"]\n', "")
    assert told(HEAD + text) == ["11: tension: a flow has at least 3 steps, this one 2"]
    assert "at least 3 steps, this one 0" in told(HEAD + FLOW.split("[[flow.step]]")[0])[0]


def test_thousands_of_steps_are_refused(told):
    steps = "".join(f'[[flow.step]]\nid = "step-{i}"\ndo = "do {i}"\n' for i in range(4000))
    assert told(HEAD + FLOW + steps) == ["16: tension: the list has 4,003 entries; at most 100 are read"]


def test_circles_among_thousands_need_no_stack():
    chain = {str(i): [str(i + 1)] for i in range(50_000)} | {"50000": ["0"], "behind": ["7"]}
    assert [len(circle) for circle in circles(chain)] == [50_001]
    assert len(remaining(chain)) == 50_002


def test_circles_are_found_once_each():
    after = {"a": ["b"], "b": ["a"], "c": ["c"], "d": ["a"], "e": ["f"], "f": [], "g": ["nowhere"]}
    assert sorted(map(sorted, circles(after))) == [["a", "b"], ["c"]]
    assert list(remaining(after)) == ["a", "b", "c", "d"]
