"""Flows asked in every form: the truth is right, whatever the dependencies do not forbid is right too."""

import json
from dataclasses import replace

import pytest

from trainer.drills import flow, grading, questions, recitation, step_order, worked_solution
from trainer.errors import AnswerError
from trainer.model import ON_THE_NUMBER, OUT_OF_TIME, OUTSIDE_LIMITS
from trainer.reading.freetext.asking_back import Unsure


@pytest.fixture
def suspend(library):
    return library.drills["suspend"]


def ask(suspend, library, form, seed="1", **more):
    return questions.make(suspend, library, seed, form=form, **more)


def grade(question, drill, library, typed, seconds=5.0):
    return grading.grade(question, drill, library, typed, seconds)


def number_of(question, step):
    return str(question.inputs["shown"].index(step) + 1)


@pytest.mark.parametrize("form", flow.FORMS)
def test_every_form_is_made_plain_and_the_same_again(suspend, library, form):
    for seed in range(40):
        question = ask(suspend, library, form, str(seed))
        assert question.form == form and question.kind == "flow"
        assert json.loads(json.dumps(dict(question.inputs))) == question.inputs
        assert question == ask(suspend, library, form, str(seed))
        assert set(question.truth) <= {step.id for step in suspend.steps}
        assert len(set(question.choices)) == len(question.choices)


def test_all_forms_come_up(suspend, library):
    known = [step.id for step in suspend.steps]
    forms = {questions.make(suspend, library, str(seed), known=known).form for seed in range(120)}
    assert forms == set(flow.FORMS)


def test_a_flow_is_never_first_met_by_reciting_it(suspend, library):
    """Somebody who met a flow for the first time was asked to recite all of it."""
    forms = {questions.make(suspend, library, str(seed)).form for seed in range(120)}
    assert forms == {"next", "before", "order", "misplaced"}


def test_recital_comes_when_most_steps_have_been_right(suspend, library):
    ids = [step.id for step in suspend.steps]
    few, most = ids[: len(ids) // 2], ids[: round(0.6 * len(ids) + 0.5)]
    assert "recite" not in flow.forms_of(suspend, few)
    assert "recite" in flow.forms_of(suspend, most)
    forms = {questions.make(suspend, library, str(seed), known=["other-flow", *few]).form for seed in range(120)}
    assert "recite" not in forms and "missing" in forms


def test_a_step_is_known_while_its_last_answer_was_right():
    newest_first = [{"a": 1.0, "b": 0.0}, {"a": 0.0, "b": 1.0, "c": 1.0}]
    assert recitation.known_steps(newest_first) == ("a", "c")
    assert recitation.known_steps([]) == ()


def test_one_step_is_asked_with_a_shorter_limit_than_an_order(suspend, library):
    limits = {form: ask(suspend, library, form, "1").limit_s for form in flow.FORMS}
    assert limits["next"] == limits["before"] < limits["missing"] < limits["order"] <= limits["recite"]


def test_every_form_has_a_hint(suspend, library):
    for form in flow.FORMS:
        question = ask(suspend, library, form, "1")
        assert question.hint and question.hint not in question.text


@pytest.mark.parametrize("form", ["next", "before", "misplaced"])
def test_one_line_is_right_and_the_others_are_not(suspend, library, form):
    for seed in range(60):
        question = ask(suspend, library, form, str(seed))
        verdicts = {
            step: grade(question, suspend, library, number_of(question, step)).verdict
            for step in question.inputs["shown"]
        }
        right = [step for step, verdict in verdicts.items() if verdict == ON_THE_NUMBER]
        assert right and set(right) <= set(question.truth)
        assert len(right) <= 2 if form == "misplaced" else len(right) == 1


def test_next_takes_words_and_any_step_that_may_come_next(suspend, library):
    question = next(
        q for q in (ask(suspend, library, "next", str(s)) for s in range(99)) if q.inputs["done"] == ["call"]
    )
    for words, step in [("stay at power", "stay"), ("tension off", "tension"), ("officer in front", "front")]:
        graded = grade(question, suspend, library, words)
        assert (graded.verdict, graded.value, graded.parts) == (ON_THE_NUMBER, step, {step: 1.0})
    wrong = grade(question, suspend, library, "throttle back")
    assert wrong.verdict == OUTSIDE_LIMITS and wrong.parts == {question.truth[0]: 0.0}
    assert "comes before it" in wrong.said[0]
    assert grade(question, suspend, library, "call suspend twice").said == ("that is done already",)


def test_the_opposite_of_a_step_is_told(suspend, library):
    question = next(q for q in (ask(suspend, library, "next", str(s)) for s in range(99)) if "bar" in q.truth)
    graded = grade(question, suspend, library, "launch bar down")
    assert graded.verdict == OUTSIDE_LIMITS
    assert graded.said == ('that turns "launch bar up" round, or gets a part of it wrong',)


def test_words_that_are_no_step_are_asked_again(suspend, library):
    question = ask(suspend, library, "next")
    for typed in ("wash the windscreen", "", "9", "?", "dunno"):
        with pytest.raises(AnswerError):
            grade(question, suspend, library, typed)


def test_before_wants_the_last_thing(suspend, library):
    question = next(
        q for q in (ask(suspend, library, "before", str(s)) for s in range(99)) if q.inputs["step"] == "back"
    )
    assert set(question.truth) == {"stay", "bar", "front"}
    assert grade(question, suspend, library, "bar up").verdict == ON_THE_NUMBER
    with pytest.raises(AnswerError, match="earlier"):
        grade(question, suspend, library, "tension off")


def test_order_is_graded_against_the_dependencies(suspend, library):
    needs = step_order.needs_of(suspend.steps)
    for seed in range(40):
        question = ask(suspend, library, "order", str(seed))
        assert 4 <= len(question.truth) <= 6 and not step_order.is_allowed(question.inputs["shown"], needs)
        numbers = [number_of(question, step) for step in question.truth]
        for typed in (" ".join(numbers), "".join(numbers), ", ".join(numbers)):
            graded = grade(question, suspend, library, typed)
            assert (graded.verdict, graded.score) == (ON_THE_NUMBER, 1.0)
            assert graded.parts == dict.fromkeys(question.truth, 1.0)
        shown_order = " ".join(str(at + 1) for at in range(len(numbers)))
        wrong = grade(question, suspend, library, shown_order)
        assert wrong.verdict == OUTSIDE_LIMITS and 0 <= wrong.score < 1 and 0.0 in wrong.parts.values()
        assert all(line.startswith("too early") for line in wrong.said)


@pytest.mark.parametrize("typed", ["1 2 3", "1 1 2 3", "0 1 2 3", "abcd", "1 2 3 4 5 6 7 8 9", "-1 2 3 4"])
def test_what_is_no_order_is_asked_again(suspend, library, typed):
    question = ask(suspend, library, "order")
    with pytest.raises(AnswerError, match="order"):
        grade(question, suspend, library, typed)


def test_the_missing_step_is_named_in_words(suspend, library):
    for seed in range(30):
        question = ask(suspend, library, "missing", str(seed))
        [missing] = question.truth
        assert missing not in question.inputs["shown"]
        words = next(step.do for step in suspend.steps if step.id == missing)
        assert grade(question, suspend, library, words).verdict == ON_THE_NUMBER
        there = next(step.do for step in suspend.steps if step.id == question.inputs["shown"][0])
        assert grade(question, suspend, library, there).said == ("that step is there",)
        with pytest.raises(AnswerError):
            grade(question, suspend, library, "1")


RECITALS = [
    "call suspend twice\nstay at power\ntension off\nbar up\nofficer in front\nthrottle back",
    "call suspend twice; tension off; officer in front; bar up; keep the power on; throttle back",
    "suspend, suspend\n1. keep power\n2) release tension\nbar raised\nofficer steps in front\nthrottles to idle",
    "call suspend twice, tension released, bar up, stay at power, officer in front, throttle back",
    "call suspend twice then stay at power then tension off then bar up then officer in front -> throttle back",
]


@pytest.mark.parametrize("typed", RECITALS)
def test_any_allowed_order_recites_the_flow(suspend, library, typed):
    question = ask(suspend, library, "recite")
    graded = grade(question, suspend, library, typed)
    assert (graded.verdict, graded.score, graded.said) == (ON_THE_NUMBER, 1.0, ())
    assert graded.parts == dict.fromkeys(("call", "stay", "tension", "bar", "front", "back"), 1.0)


def test_faults_of_a_recital_are_told_with_what_goes_wrong(suspend, library):
    question = ask(suspend, library, "recite")
    typed = "call suspend twice\nbar up\ntension off\ntension off\nofficer in front\nwash the windscreen\nthrottle back"
    graded = grade(question, suspend, library, typed)
    assert graded.said == (
        'missed: "stay at power" – fired at low power',
        'too early: "launch bar up" before "tension released" – the shuttle still pulls',
        'repeated: "tension released"',
        'not in this flow: "wash the windscreen"',
    )
    assert graded.verdict == OUTSIDE_LIMITS and graded.score == pytest.approx(1 - 4 / 6)
    assert {step for step, part in graded.parts.items() if part == 0.0} == {"stay", "bar", "tension"}


def test_a_recital_has_time_for_its_steps(suspend, library):
    question = ask(suspend, library, "recite")
    assert question.limit_s >= 6 * 8
    assert grade(question, suspend, library, RECITALS[0], 500.0).verdict == OUT_OF_TIME


def test_a_line_is_read_as_it_is_typed(suspend):
    assert recitation.read_line("raise the launch bar", suspend) == "bar"
    assert recitation.read_line("wash the windscreen", suspend) is None
    with pytest.raises(Unsure) as caught:
        recitation.read_line("launch bar", suspend)
    assert caught.value.likely[0][0] == "launch bar up" and caught.value.meant == ""


def test_weak_steps_are_asked_first(suspend, library):
    asked = [ask(suspend, library, "next", str(seed), weak=("bar",)).truth[0] for seed in range(60)]
    assert asked.count("bar") > 30
    asked = [ask(suspend, library, "missing", str(seed), weak=("bar",)).truth[0] for seed in range(60)]
    assert asked.count("bar") > 30
    assert all("bar" in ask(suspend, library, "order", str(seed), weak=("bar",)).truth for seed in range(30))
    known = [step.id for step in suspend.steps if step.id != "bar"]
    forms = [questions.make(suspend, library, str(seed), weak=("bar",), known=known).form for seed in range(200)]
    assert 0 < forms.count("recite") < 20


def test_weak_steps_come_from_what_went_wrong_lately():
    newest_first = [{"a": 1.0, "b": 0.0, "c": 1.0}, {"a": 0.0, "b": 0.0}, {"c": 0.0}, {"c": 1.0}]
    assert recitation.weak_steps(newest_first) == ("b", "a", "c")
    assert recitation.weak_steps([{"a": 1.0}]) == ()


def test_the_last_question_is_not_asked_again(suspend, library):
    for seed in range(30):
        last = questions.make(suspend, library, str(seed)).inputs
        again = questions.make(suspend, library, str(seed), avoid=[last]).inputs
        assert again != last or last["form"] == "recite"


def test_the_solution_shows_the_flow_and_marks_the_step(suspend, library):
    question = ask(suspend, library, "missing")
    lines = worked_solution.worked(question, suspend, library)
    assert sum(line.startswith(">") for line in lines) == 1 and "source:" in lines[-2]
    shown = grading.grade_shown_solution(question, suspend)
    assert shown.score == 0.0 and shown.parts == {question.truth[0]: 0.0}


@pytest.fixture
def with_option(suspend):
    """The flow with its second step optional."""
    steps = list(suspend.steps)
    steps[1] = replace(steps[1], optional=True)
    return replace(suspend, steps=tuple(steps))


def test_an_optional_step_may_be_left_out_of_a_recital_but_not_be_said_too_early(with_option, library):
    question = ask(with_option, library, "recite")
    lines = [step.do for step in with_option.steps]
    option = lines.pop(1)
    assert with_option.steps[1].id not in question.truth
    assert grade(question, with_option, library, "\n".join(lines)).verdict == ON_THE_NUMBER
    assert grade(question, with_option, library, "\n".join([lines[0], option, *lines[1:]])).score == 1.0
    needs = step_order.needs_of(with_option.steps)[with_option.steps[1].id]
    if needs:
        assert grade(question, with_option, library, "\n".join([option, *lines])).score < 1.0
    assert grade(question, with_option, library, "\n".join(lines[:-1])).score < 1.0


def test_nothing_waits_for_an_optional_step():
    needs = {"green": frozenset(), "amber": frozenset({"green"}), "salute": frozenset({"green", "amber"})}
    assert step_order.possible_next(["green"], needs) == ("amber",)
    assert step_order.possible_next(["green"], needs, {"amber"}) == ("amber", "salute")
    assert step_order.last_before("salute", needs) == {"amber"}
    assert step_order.last_before("salute", needs, {"amber"}) == {"green", "amber"}


def test_an_optional_step_is_never_the_missing_one(with_option, library):
    missing = {ask(with_option, library, "missing", str(seed)).truth[0] for seed in range(60)}
    assert missing and with_option.steps[1].id not in missing


def test_the_solution_marks_what_is_not_always_done(with_option, library):
    question = ask(with_option, library, "recite")
    lines = worked_solution.worked(question, with_option, library)
    marked = [line for line in lines if line.endswith("where it applies")]
    assert len(marked) == 1 and with_option.steps[1].do in marked[0]


def test_what_may_come_before_a_step_is_no_wrong_answer_to_what_must():
    """At the catapult the steering may be off before the creep; the holdback must be on, and it is offered."""
    from trainer.decks import library

    shipped = library.load()
    for one_flow in (drill for drill in shipped.drills.values() if drill.kind == "flow"):
        needs, ids = step_order.needs_of(one_flow.steps), [step.id for step in one_flow.steps]
        for seed in range(6):
            asked = ask(one_flow, shipped, "before", str(seed))
            if asked.form != "before":
                continue
            target, own = asked.inputs["step"], [one for one in asked.inputs["shown"] if one in ids]
            assert asked.truth[0] in own
            wrong = [one for one in own if one not in asked.truth]
            assert all(one in needs[target] or ids.index(one) > ids.index(target) for one in wrong), one_flow.id
