"""Recall drills and calls: numbers, words, choices; items of a call and their order."""

from dataclasses import replace

import pytest

from trainer.drills import grading, questions, worked_solution
from trainer.errors import AnswerError
from trainer.model import ON_THE_NUMBER, OUTSIDE_LIMITS, CallItem
from trainer.reading.freetext.asking_back import Unsure


def asked(library, drill_id, seed="1", **more):
    drill = library.drills[drill_id]
    return drill, questions.make(drill, library, seed, **more)


def verdict(library, drill_id, typed, seed="1"):
    drill, question = asked(library, drill_id, seed)
    return grading.grade(question, drill, library, typed, 5).verdict


@pytest.mark.parametrize("typed", ["5000", "5,000 ft", "angels 5", "5k"])
def test_a_limit_is_read_like_any_number(library, typed):
    assert verdict(library, "platform", typed) == ON_THE_NUMBER


def test_a_limit_that_is_wrong(library):
    drill, question = asked(library, "platform")
    graded = grading.grade(question, drill, library, "4000", 5)
    assert (graded.verdict, graded.deviation) == (OUTSIDE_LIMITS, -1000)
    assert graded.said == ("1,000 ft too low",)


@pytest.mark.parametrize("typed", ["popeye", "Popeye!", "popey", "in the soup"])
def test_words_are_accepted_in_any_accepted_wording(library, typed):
    assert verdict(library, "popeye", typed) == ON_THE_NUMBER


@pytest.mark.parametrize("typed", ["on top", "kilo", "not popeye"])
def test_other_words_are_wrong(library, typed):
    assert verdict(library, "popeye", typed) == OUTSIDE_LIMITS


@pytest.mark.parametrize(("typed", "expected"), [("right", OUTSIDE_LIMITS), ("left", ON_THE_NUMBER)])
def test_a_side_that_is_refused_is_wrong_though_it_is_called_right(library, typed, expected):
    """A refused "right" took the place of all that is right, and was accepted."""
    drill = replace(library.drills["popeye"], accept=("left", "to port"), refuse=("right",))
    question = questions.make(drill, library, "1")
    assert grading.grade(question, drill, library, typed, 5).verdict == expected
    assert grading.grade(question, drill, library, "to port", 5).verdict == ON_THE_NUMBER


@pytest.mark.parametrize("typed", ["", "?", "dunno", "\u200b"])
def test_no_answer_is_asked_again(library, typed):
    with pytest.raises(AnswerError):
        verdict(library, "popeye", typed)


def test_choices_are_taken_by_number_or_word(library):
    drill, question = asked(library, "bow-turn")
    number = str(question.choices.index("right") + 1)
    for typed in (number, "right", "R", "starboard"):
        assert grading.grade(question, drill, library, typed, 5).verdict == ON_THE_NUMBER
    assert grading.grade(question, drill, library, "left", 5).verdict == OUTSIDE_LIMITS
    with pytest.raises(AnswerError):
        grading.grade(question, drill, library, "4", 5)
    orders = {asked(library, "bow-turn", str(seed))[1].choices for seed in range(40)}
    assert len(orders) > 1


def test_a_vague_word_is_asked_back(library):
    with pytest.raises(Unsure):
        verdict(library, "popeye", "soup of the day")


def ball(library):
    drill, question = asked(library, "ball", "3")
    return drill, question, question.truth


def graded_call(library, text):
    drill, question, said = ball(library)
    return grading.grade(question, drill, library, text.format(*said), 5)


@pytest.mark.parametrize("text", ["{0}, {1}, {2}, {3}", "{0} {1} {2} {3}", "Two zero one Lancer ball five point four"])
def test_a_call_in_order_is_right(library, text):
    drill, question, said = ball(library)
    spoken = {"201": "two zero one"}.get(said[0]) or " ".join(
        "zero one two three four five six seven eight niner".split()[int(digit)] for digit in said[0]
    )
    state = " ".join(
        "point" if c == "." else "zero one two three four five six seven eight nine".split()[int(c)] for c in said[3]
    )
    text = text.replace("Two zero one", spoken).replace("five point four", state)
    graded = graded_call(library, text)
    assert (graded.verdict, graded.said) == (ON_THE_NUMBER, ())
    assert set(graded.parts) == {"side number", "type", "ball", "state"}


def test_items_missing_wrong_or_out_of_order_are_named(library):
    missing = graded_call(library, "{0}, {1}, {2}")
    assert missing.verdict == OUTSIDE_LIMITS and missing.parts["state"] == 0.0 and missing.score == 0.75
    assert "state" in missing.said[0] and "nobody knows your fuel" in missing.said[0]
    assert graded_call(library, "{0}, {1}, {2}, 9.9").parts["state"] == 0.0
    assert graded_call(library, "{0}, {1}, clara, {3}").parts["ball"] == 0.0
    assert graded_call(library, "{0}, {1}, clara ball, {3}").parts["ball"] == 0.0
    swapped = graded_call(library, "{0}, {2}, {1}, {3}")
    assert swapped.verdict == OUTSIDE_LIMITS and len(swapped.said) == 1 and "nobody's list" in swapped.said[0]
    assert graded_call(library, "{3}, {0}, {1}, {2}").parts == {
        "side number": 1.0,
        "type": 1.0,
        "ball": 1.0,
        "state": 0.0,
    }


def test_a_number_in_the_midst_of_words_must_be_right(library):
    drill = library.drills["ball"]
    item = CallItem(name="passing", say="passing angels {state_klb} in the climb")
    drill = replace(drill, items=(item,))
    question = questions.make(drill, library, "1")
    said = question.truth[0]
    assert grading.grade(question, drill, library, said, 5).verdict == ON_THE_NUMBER
    wrong = said.replace(f"{question.inputs['state_klb']:.1f}", "9.9")
    assert wrong != said and grading.grade(question, drill, library, wrong, 5).verdict == OUTSIDE_LIMITS
    turned = said.replace("climb", "descent").replace("in the descent", "and descend")
    assert grading.grade(question, drill, library, turned, 5).verdict == OUTSIDE_LIMITS


def test_a_call_heard_is_asked_item_by_item(library):
    for seed in range(30):
        drill, question = asked(library, "reply", str(seed))
        assert question.form == "listen" and len(question.truth) == 3 and question.inputs["hear_s"] >= 2
        assert grading.grade(question, drill, library, question.truth_text, 5).verdict == ON_THE_NUMBER
        commas = question.truth_text.replace(";", ",")
        assert grading.grade(question, drill, library, commas, 5).score == 1.0
        lost = "; ".join([*question.truth_text.split("; ")[:2], "?"])
        graded = grading.grade(question, drill, library, lost, 5)
        assert graded.verdict == OUTSIDE_LIMITS and graded.score == pytest.approx(2 / 3) and len(graded.said) == 1
        with pytest.raises(AnswerError):
            grading.grade(question, drill, library, "12", 5)
    assert any(line.startswith("heard: ") for line in worked_solution.worked(question, drill, library))


def test_the_last_scenario_does_not_come_again(library):
    drill = library.drills["ball"]
    for seed in range(30):
        last = questions.make(drill, library, str(seed)).inputs
        again = questions.make(drill, library, str(seed), avoid=[last]).inputs
        assert (again["side_number"], again["state_klb"]) != (last["side_number"], last["state_klb"])


def test_a_denial_is_no_answer_though_the_question_has_a_not_of_its_own():
    from trainer.reading.freetext import facts

    asked = "Parked, chocks not yet in. What holds the aircraft?"
    assert facts.is_right("the brakes", ("your brakes", "the brakes"), ("the hook",), asked)
    assert not facts.is_right("not the brakes", ("your brakes", "the brakes"), ("the hook",), asked)
