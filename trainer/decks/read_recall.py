"""Recall drills: exactly one form of answer – a number, words, or a choice."""

from trainer.decks.read_common import read_drill, read_limits
from trainer.decks.shape import REQUIRED
from trainer.decks.unit_names import read_unit
from trainer.decks.words import nearest, normalise, quoted
from trainer.model import RecallDrill, Tolerance

FORMS = ("value", "accept", "choices")
MOST_CHOICES = 9  # they are numbered 1 to 9


def read_recall(top, setting):
    """Return the ``RecallDrill`` in the table ``top``; faults are noted."""
    table, common = read_drill(top, setting, "recall")
    asked = {key: table.text(key, default) for key, default in (("ask", REQUIRED), ("hint", ""), ("why", ""))}
    answer = table.table("answer", required=True)
    forms = [form for form in FORMS if form in answer.data]
    if table.has("answer") and answer.data and len(forms) != 1:
        answer.fault("", "an answer has exactly one of: value, accept, choices")
    read = {"value": _number, "accept": _words, "choices": _choice}.get(forms[0]) if forms else None
    fields = read(answer) if read else {}
    if forms:
        answer.known += FORMS
        answer.finish()
    elif table.has("answer") and isinstance(table.data["answer"], dict) and not answer.data:
        answer.fault("", "the answer is empty")
    table.finish()
    return RecallDrill(**common, **asked, **fields)


def _number(answer):
    value, limits = answer.number("value", REQUIRED), read_limits(answer, 0.0)
    unit = read_unit(answer)
    tolerance = Tolerance(on=limits[0], inside=limits[1]) if limits else None
    return {"value": value, "unit": unit, "tolerance": tolerance}


def _words(answer):
    accept, refuse = answer.texts("accept", required=True), answer.texts("refuse")
    if not accept and answer.data["accept"] == []:
        answer.fault("accept", "no words are accepted")
    right = {normalise(text) for text in accept}
    for index, text in enumerate(refuse):
        if normalise(text) in right:
            answer.fault("refuse", f"{quoted(text)} is both accepted and refused ({index + 1}. of the list)")
    for text in accept:
        if not normalise(text):
            answer.fault("accept", f"{quoted(text)} holds no word")
    return {"accept": accept, "refuse": refuse}


def _choice(answer):
    choices, right = answer.texts("choices", most=MOST_CHOICES), answer.text("right", REQUIRED)
    if isinstance(answer.data["choices"], list) and len(answer.data["choices"]) < 2:
        answer.fault("choices", "a choice needs at least two")
    if len({normalise(choice) for choice in choices}) != len(choices):
        answer.fault("choices", "two choices are the same words")
    if right and choices and right not in choices:
        answer.fault("right", f"{quoted(right)} is none of the choices{nearest(right, choices)}")
    return {"accept": (right,) if right else (), "choices": choices}
