"""Every shipped drill, drawn many times: the truth is finite, in range, read back, and each slip is named."""

import math
import random

import numpy as np
import pytest

from trainer.decks import library as libraries
from trainer.drills import computed, grading, questions, recitation, worked_solution
from trainer.drills.computed import result_of, slip_values
from trainer.drills.drawing import words_of
from trainer.drills.slips import deviation
from trainer.drills.try_drill import drawn_and_kept, stated_truths
from trainer.engine import display
from trainer.engine.quantities import QUANTITIES
from trainer.engine.units import UNITS
from trainer.model import ON_THE_NUMBER, OUTSIDE_LIMITS, CallDrill
from trainer.reading.numbers.values import read_number

DRAWS = 500  # two thousand in ``python -m tests.bench.reading --questions``
ASKED = 8  # questions made, worked and graded one by one, of each drill; there a hundred


@pytest.fixture(scope="module")
def shipped():
    return libraries.load()


def of_kind(library, kind):
    return [drill for drill in library.drills.values() if drill.kind == kind]


def read_back(value, drill, question_unit, step):
    """Return the deviation between a truth and what the reader makes of the truth as it is shown."""
    text = display.value(value, question_unit, step)
    return abs(deviation(read_number(text, question_unit, about=value), value, question_unit))


def test_many_draws_of_every_computed_drill(shipped):
    drills = of_kind(shipped, "computed")
    assert drills
    for drill in drills:
        drawn, share = drawn_and_kept(drill, shipped, random.Random(f"2000 {drill.id}"), DRAWS)
        truths = stated_truths(drill, shipped, drawn, round(DRAWS * share))
        assert len(truths), drill.id
        result = result_of(drill)
        assert np.all(np.isfinite(truths)), drill.id
        if result.words:
            assert set(np.unique(truths)) <= set(result.words), drill.id
            continue
        cycle = UNITS[result.unit].cycle
        if cycle:
            low, high = (1, 360) if cycle == 360 else (0, cycle)
            assert np.all((truths >= low) & (truths <= high)), drill.id
        allowed = result.tolerance.on + 1e-6
        for value in np.unique(truths):
            assert read_back(float(value), drill, result.unit, result.round_to or None) <= allowed, (drill.id, value)


def test_inputs_lie_in_the_ranges_of_the_quantities(shipped):
    for drill in of_kind(shipped, "computed"):
        if not drill.quantity:
            continue
        drawn, _ = drawn_and_kept(drill, shipped, random.Random(f"range {drill.id}"), 300)
        for spec in QUANTITIES[drill.quantity].inputs:
            if spec.unit != "table":
                column = np.asarray(drawn[spec.name], dtype=float)
                allowed = (
                    np.isin(column, tuple(spec.words)) if spec.words else (column >= spec.low) & (column <= spec.high)
                )
                assert np.all(allowed), (drill.id, spec.name)


def test_every_computed_question_is_answered_by_its_truth_and_names_its_slips(shipped):
    for drill in of_kind(shipped, "computed"):
        named = 0
        for seed in range(ASKED):
            question = questions.make(drill, shipped, str(seed))
            assert "{" not in question.text and math.isfinite(question.truth)
            grade = grading.grade(question, drill, shipped, question.truth_text, 1.0)
            assert (grade.verdict, grade.score) == (ON_THE_NUMBER, 1.0), (drill.id, seed)
            lines = worked_solution.worked(question, drill, shipped, ascii_only=True)
            assert any(line.startswith("source: ") for line in lines) and all(line.isascii() for line in lines)
            named += _slips_named(question, drill, shipped)
        assert named, drill.id


def _slips_named(question, drill, library):
    """Return how many slips of the question are named when their answer is typed; all that can be told apart are."""
    words, count = result_of(drill).words, 0
    separable = computed.separable(drill, library, question.inputs)
    for slip, value in slip_values(drill, library, question.inputs):
        typed = words[int(value)] if words else display.value(value, question.unit, result_of(drill).round_to or 1e-9)
        grade = grading.grade(question, drill, library, typed, 1.0)
        found = grade.slip is not None and grade.slip.name == slip.name
        if separable and not words and not UNITS[question.unit].form == "duration":
            assert grade.verdict == OUTSIDE_LIMITS and found, (drill.id, question.inputs, slip.name, grade)
        count += found
    return count


def test_every_flow_is_asked_and_answered_in_every_form(shipped):
    from trainer.drills import flow

    for drill in of_kind(shipped, "flow"):
        for form in flow.forms_of(drill):
            for seed in range(4):
                question = questions.make(drill, shipped, str(seed), form=form)
                grade = grading.grade(question, drill, shipped, right_answer(question, drill), 1.0)
                assert (grade.verdict, grade.said) == (ON_THE_NUMBER, ()), (drill.id, form, seed)
                assert worked_solution.worked(question, drill, shipped)


def right_answer(question, drill):
    """Return what a person who knows the flow types."""
    if question.form == "recite":
        return "\n".join(step.do for step in drill.steps)
    if question.form == "missing":
        return question.truth_text
    numbers = [
        str(question.inputs["shown"].index(step) + 1) for step in question.truth if step in question.inputs["shown"]
    ]
    return " ".join(numbers) if question.form == "order" else numbers[0]


def test_every_wording_of_every_step_means_that_step(shipped):
    for drill in of_kind(shipped, "flow"):
        for step, wordings in recitation.wordings(drill).items():
            for wording in wordings:
                assert recitation.read_line(wording, drill) == step, (drill.id, wording)


def test_every_recall_drill_takes_its_own_answers_and_refuses_what_it_refuses(shipped):
    for drill in of_kind(shipped, "recall"):
        question = questions.make(drill, shipped, "1")
        grade = grading.grade(question, drill, shipped, question.truth_text, 1.0)
        assert (grade.verdict, grade.said) == (ON_THE_NUMBER, ()), drill.id
        assert worked_solution.worked(question, drill, shipped)[-1]
        if isinstance(drill, CallDrill) or drill.value is not None or drill.choices:
            continue
        for wording in drill.accept:
            assert grading.grade(question, drill, shipped, wording, 1.0).verdict == ON_THE_NUMBER, (drill.id, wording)
        for wording in drill.refuse:
            assert grading.grade(question, drill, shipped, wording, 1.0).verdict == OUTSIDE_LIMITS, (drill.id, wording)
        assert not accepted(question, drill, shipped, f"not {drill.accept[0]}"), drill.id


def accepted(question, drill, library, typed):
    from trainer.errors import AnswerError

    try:
        return grading.grade(question, drill, library, typed, 1.0).verdict == ON_THE_NUMBER
    except AnswerError:
        return False


def test_calls_are_drawn_and_answered(shipped):
    for drill in [drill for drill in shipped.drills.values() if isinstance(drill, CallDrill)]:
        for seed in range(ASKED):
            question = questions.make(drill, shipped, str(seed))
            grade = grading.grade(question, drill, shipped, question.truth_text, 1.0)
            assert (grade.verdict, grade.said) == (ON_THE_NUMBER, ()), (drill.id, seed, question.truth_text)


def test_a_coded_input_is_shown_by_its_word(shipped):
    for drill in of_kind(shipped, "computed"):
        quantity = QUANTITIES.get(drill.quantity)
        question = questions.make(drill, shipped, "1")
        for name, value in question.inputs.items():
            if words_of(quantity, name):
                assert computed.shown_input(drill, name, value) == words_of(quantity, name)[int(value)]


# Written out here and not taken from the lexicon, so that a gap in the lexicon shows.
TURNED = {
    "up": "down", "on": "off", "left": "right", "in": "out", "open": "closed", "raise": "lower",
    "raised": "lowered",
    "locked": "unlocked", "spread": "folded", "released": "set", "release": "apply", "climb": "descend",
    "above": "below",
    "inbound": "outbound", "armed": "safe",
    "before": "after", "forward": "aft", "full": "idle", "increase": "reduce",
    "day": "night", "positive": "negative", "ahead": "astern", "add": "subtract", "first": "last", "port": "starboard",
    "green": "red", "amber": "green", "higher": "lower", "max": "minimum", "true": "magnetic",
}  # fmt: skip
TURNED |= {other: one for one, other in TURNED.items() if other not in TURNED}


# Verbs with a particle of their own: turned round they mean nothing ("level on", "wipe in").
VERBS = (
    "level off", "wipe out", "wave off", "waved off", "dirty up", "listen out", "break off", "in front",
    "lights on or off", "signal up or down", "never lower", "10 nm down", "needles",
)  # fmt: skip


def turned(wording):
    """Yield ``wording`` with one word turned into its opposite."""
    words = wording.split()
    for at, word in enumerate(words):
        bare = word.strip(",;:.").lower()
        around = " ".join(words[max(0, at - 3) : at + 2]).lower()
        if bare in TURNED and not any(verb in around for verb in VERBS):
            yield " ".join([*words[:at], word.lower().replace(bare, TURNED[bare]), *words[at + 1 :]])


def test_no_step_is_accepted_with_one_word_turned_round(shipped):
    wrong, tried = [], 0
    for drill in of_kind(shipped, "flow"):
        for step, wordings in recitation.wordings(drill).items():
            for text in {text for wording in wordings for text in turned(wording)} - set(wordings):
                tried += 1
                if meant(text, drill) == step:
                    wrong.append((drill.id, step, text))
    assert tried > 300 and wrong == []


def meant(text, drill):
    from trainer.errors import AnswerError

    try:
        return recitation.read_line(text, drill)
    except AnswerError:
        return None


def test_no_recall_answer_is_accepted_with_one_word_turned_round(shipped):
    wrong = []
    for drill in of_kind(shipped, "recall"):
        if isinstance(drill, CallDrill) or drill.value is not None or drill.choices:
            continue
        question = questions.make(drill, shipped, "1")
        for text in {text for wording in drill.accept for text in turned(wording)} - set(drill.accept):
            if accepted(question, drill, shipped, text):
                wrong.append((drill.id, text))
    assert wrong == []
