"""Statements that a training organisation's record store takes."""

import copy
import json

import pytest

from tests.pages.experience_api import problems
from tests.pages.hostile import HOSTILE
from trainer.pages import xapi

PILOT = {"name": "Wren", "id": "0123456789abcdef"}


@pytest.fixture
def statements(files):
    return json.loads(files["xapi.json"])


def test_every_review_is_a_statement_that_meets_the_requirements(statements, record):
    assert len(statements) == record["period"]["answers"]
    assert {problem for statement in statements for problem in problems(statement)} == set()


def test_ids_are_unique_and_the_same_next_time_with_answers_or_without(statements, practised, record):
    from trainer.store.store import Store

    home, clock = practised
    with Store.open(home, clock=clock, create=False) as store:
        again = json.loads(xapi.statements(store.table(xapi.COLUMNS), record["pilot"], answers=False))
    assert [one["id"] for one in again] == [one["id"] for one in statements]
    assert len({one["id"] for one in statements}) == len(statements)


def test_what_a_statement_says_of_an_answer(statements):
    assert "duration" not in statements[0]["result"], "the first question of all has no clock"
    timed = next(one for one in statements[1:] if one["result"]["score"]["scaled"] == 1.0)
    assert timed["result"]["success"] is True and timed["result"]["duration"].startswith("PT")
    assert timed["verb"]["id"] == "http://adlnet.gov/expapi/verbs/answered"
    assert timed["actor"]["account"]["homePage"] == "https://trainer.invalid"


def row(**values):
    usual = dict.fromkeys(xapi.COLUMNS, "x") | {
        "digest": bytes(32),
        "at": "2031-03-03T19:30:00.000Z",
        "score": 1.0,
        "seconds": None,
        "slip": "",
        "deviation": None,
        "predicted": 0.5,
        "hint_used": 0,
    }
    return tuple((usual | values).values())


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_texts_stay_texts(text):
    written = xapi.statements([row(typed=text, question=text, slip=text)], PILOT | {"name": text})
    (statement,) = json.loads(written)
    assert problems(statement) == []
    assert len(written) < 6_000


def test_what_was_typed_can_be_left_out():
    assert "secret" in xapi.statements([row(typed="secret")], PILOT)
    told = {"typed": "secret", "question": "secret", "slip": "secret", "deviation": 77.0}
    bare = xapi.statements([row(**told)], PILOT, answers=False)
    assert "secret" not in bare and "77" not in bare and "77" in xapi.statements([row(**told)], PILOT)


def test_an_activity_is_defined_alike_whatever_was_asked(statements):
    defined = {}
    for one in statements:
        defined.setdefault(one["object"]["id"], []).append(one["object"]["definition"])
    assert all(each == several[0] for several in defined.values() for each in several)
    assert max(map(len, defined.values())) > 1, "a drill was asked in several ways"


def test_no_reviews_are_an_empty_list():
    assert json.loads(xapi.statements([], PILOT)) == []


@pytest.mark.parametrize(
    ("spoil", "what"),
    [
        (lambda one: one.update(id="7"), None),
        (lambda one: one.update(colour="red"), "2.2"),
        (lambda one: one["actor"].update(mbox="mailto:a@example.invalid"), "2.4.2.1"),
        (lambda one: one["verb"].update(id="answered it"), "2.4.3"),
        (lambda one: one["result"]["score"].update(scaled=1.5), "2.4.5.1"),
        (lambda one: one["result"].update(duration="12 s"), "4.6"),
        (lambda one: one["object"]["definition"].update(interactionType="guess"), "2.4.4.1"),
        (lambda one: one["context"]["extensions"].update({"no iri": 1}), "2.4.7"),
        (lambda one: one.update(timestamp="2031-03-03T19:30:00"), "4.5"),
        (lambda one: one["result"].update(response=None), "2.2"),
    ],
)
def test_a_broken_requirement_is_seen(statements, spoil, what):
    statement = copy.deepcopy(statements[0])
    spoil(statement)
    if what is None:
        with pytest.raises(ValueError):
            problems(statement)
    else:
        assert any(problem.startswith(what) for problem in problems(statement))
