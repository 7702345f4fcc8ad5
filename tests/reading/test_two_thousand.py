"""Many questions of every shipped drill that leaves something to chance, made as a session makes them.

``python -m tests.bench.reading --questions`` makes two thousand of each.  Each truth is sound and is read back by the
reader of answers; what was read back once is not read again.
Computed drills are drawn as arrays in ``test_shipped.py``.
"""

import math

import pytest

from trainer.decks import library as libraries
from trainer.drills import answers, calls, flow, grading, questions
from trainer.drills.drawing import chances
from trainer.model import ON_THE_NUMBER, CallDrill
from trainer.reading.numbers import spoken

DRAWS = 60
DRAWS_OF_CHOICES = 600  # so that every order of four is met


@pytest.fixture(scope="module")
def shipped():
    return libraries.load()


def drills_of(library, kind, heard=None):
    found = [drill for drill in library.drills.values() if drill.kind == kind]
    if heard is None:
        return [drill for drill in found if not isinstance(drill, CallDrill)]
    return [drill for drill in found if isinstance(drill, CallDrill) and bool(drill.hear) == heard]


def drawn(drill, library, form="", draws=None):
    for seed in range(draws or DRAWS):
        yield questions.make(drill, library, str(seed), form=form)


@pytest.mark.parametrize("form", flow.FORMS)
def test_flows_in_every_form(shipped, form):
    for drill in drills_of(shipped, "flow"):
        if form not in flow.forms_of(drill):
            continue
        ids, seen = {step.id for step in drill.steps}, set()
        for question in drawn(drill, shipped, form):
            assert question.truth and set(question.truth) <= ids, (drill.id, question.truth)
            assert len(question.choices) == len(question.inputs["shown"]) == len(set(question.choices))
            typed = right_answer(question, drill)
            case = (question.form, question.truth, typed, tuple(question.inputs["shown"]) if form == "order" else ())
            if case not in seen:
                seen.add(case)
                read = answers.read(typed, question, drill, shipped)
                read = read if isinstance(read, list) else [read]
                assert set(read) <= ids, (drill.id, form, typed)
                assert set(question.truth) <= set(read) if form == "recite" else read[0] in question.truth, typed


def right_answer(question, drill):
    """Return what a person types who knows the flow: numbers where lines are offered, else words."""
    shown = question.inputs["shown"]
    if question.form == "recite":
        return "\n".join(step.do for step in drill.steps)
    if question.form == "order":
        return " ".join(str(shown.index(step) + 1) for step in question.truth)
    if question.form == "missing":
        return question.truth_text
    return str(shown.index(question.truth[0]) + 1)


def test_recall_drills(shipped):
    for drill in drills_of(shipped, "recall"):
        orders = set()
        for question in (
            drawn(drill, shipped, draws=max(DRAWS, DRAWS_OF_CHOICES))
            if drill.choices
            else [questions.make(drill, shipped, "1")]
        ):
            assert set(question.choices) == set(drill.choices)
            if question.choices in orders:
                continue
            orders.add(question.choices)
            if drill.value is not None:
                assert (
                    math.isfinite(question.truth) and answers.read(question.truth_text, question, drill) == drill.value
                )
                continue
            assert answers.read(question.truth_text, question, drill) == question.truth, drill.id
            if drill.choices:
                number = str(question.choices.index(question.truth) + 1)
                assert answers.read(number, question, drill) == question.truth, drill.id
        assert not drill.choices or len(orders) >= min(math.factorial(len(drill.choices)), 100)


@pytest.mark.parametrize("heard", [False, True])
def test_calls(shipped, heard):
    drills = drills_of(shipped, "recall", heard)
    assert len(drills) >= 10
    for drill in drills:
        seen, varied = set(), set()
        for question in drawn(drill, shipped):
            check_inputs(drill, question)
            facts = {(name, str(value)) for name, value in question.inputs.items() if name not in ("hear", "hear_s")}
            varied.add(question.text if not heard else question.inputs["hear"])
            if not facts <= seen:
                seen |= facts
                for typed in (question.truth_text, in_words(question, drill)):
                    grade = grading.grade(question, drill, shipped, typed, 1.0)
                    assert (grade.verdict, grade.said) == (ON_THE_NUMBER, ()), (drill.id, typed)
        assert len(varied) >= min(chances(drill, shipped), DRAWS) / 4, drill.id


def check_inputs(drill, question):
    """Fail where a drawn number is not finite or lies outside what its drill may draw."""
    for draw in drill.draws:
        value = question.inputs[draw.name]
        assert isinstance(value, str) or math.isfinite(value), (drill.id, draw.name)
        if draw.span:
            assert draw.span[0] - 1e-9 <= value <= draw.span[1] + 1e-9, (drill.id, draw.name, value)
        assert not draw.any_of or value in draw.any_of
        if draw.unit == "heading":
            assert 1 <= value <= 360
        if draw.unit == "minute":
            assert 0 <= value < 60


def in_words(question, drill):
    """Return the right answer with its numbers as they are spoken."""
    if question.form == "call":
        return calls.as_spoken(question, drill)
    asked = zip(question.inputs["asked"], question.truth, strict=True)
    return "; ".join(spoken.said(truth, drill.items[at].unit or "count") for at, truth in asked)
