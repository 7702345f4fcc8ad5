"""Computed drills: the same seed gives the same question, draws are exact, and the typed truth is right."""

import json
import random
from dataclasses import replace

import numpy as np
import pytest

from trainer.drills import chance, computed, grading, questions, worked_solution
from trainer.drills.computed import slip_values
from trainer.drills.slips import deviation
from trainer.drills.try_drill import drawn_and_kept, stated_truths
from trainer.errors import DomainError
from trainer.model import INSIDE_LIMITS, ON_THE_NUMBER, OUT_OF_TIME, OUTSIDE_LIMITS, Draw

COMPUTED = ("fix", "radial", "minutes", "state")

# Read by a person once; a change here is a change of every stored seed.
GOLDEN = [
    ["fix", "1", "Marshal gives you angels 10. How far is your fix?", "25 nm"],
    ["fix", "2", "Marshal gives you angels 20. How far is your fix?", "35 nm"],
    ["fix", "3", "Marshal gives you angels 12. How far is your fix?", "27 nm"],
    ["fix", "2030-03-01 7", "Marshal gives you angels 14. How far is your fix?", "29 nm"],
    ["fix", "x", "Marshal gives you angels 12. How far is your fix?", "27 nm"],
    ["radial", "1", "Expected final bearing 087°. Which radial?", "267°"],
    ["radial", "2", "Expected final bearing 264°. Which radial?", "084°"],
    ["radial", "3", "Expected final bearing 130°. Which radial?", "310°"],
    ["radial", "2030-03-01 7", "Expected final bearing 100°. Which radial?", "280°"],
    ["radial", "x", "Expected final bearing 346°. Which radial?", "166°"],
    ["minutes", "1", "4,700 lb on board, bingo 1,600 lb, burning 110 lb/min. Minutes to bingo?", "28.2 min"],
    ["minutes", "2", "5,600 lb on board, bingo 2,900 lb, burning 100 lb/min. Minutes to bingo?", "27 min"],
    ["minutes", "3", "5,500 lb on board, bingo 2,400 lb, burning 45 lb/min. Minutes to bingo?", "68.9 min"],
    ["minutes", "2030-03-01 7", "3,700 lb on board, bingo 2,200 lb, burning 55 lb/min. Minutes to bingo?", "27.3 min"],
    ["minutes", "x", "3,700 lb on board, bingo 2,100 lb, burning 65 lb/min. Minutes to bingo?", "24.6 min"],
    ["state", "1", "You have 6,000 lb. State?", "6,000 lb"],
    ["state", "2", "You have 7,100 lb. State?", "7,100 lb"],
    ["state", "3", "You have 5,500 lb. State?", "5,500 lb"],
    ["state", "2030-03-01 7", "You have 5,800 lb. State?", "5,800 lb"],
    ["state", "x", "You have 2,100 lb. State?", "2,100 lb"],
]


def golden_now(library):
    return [
        [drill, seed, question.text, question.truth_text]
        for drill in COMPUTED
        for seed in ("1", "2", "3", "2030-03-01 7", "x")
        for question in [questions.make(library.drills[drill], library, seed)]
    ]


def test_the_same_seed_gives_the_same_question_everywhere(library):
    assert golden_now(library) == GOLDEN


def test_inputs_are_plain_and_exact(library):
    for seed in range(200):
        question = questions.make(library.drills["minutes"], library, str(seed))
        assert json.loads(json.dumps(dict(question.inputs))) == question.inputs
        assert question.inputs["fuel_lb"] > question.inputs["bingo_lb"] + 500
        assert question.inputs["flow_lb_min"] % 5 == 0
    assert question.area == "marshal" and question.seed == "199"


def test_a_grid_of_tenths_is_written_as_tenths(library):
    drill = replace(library.drills["fix"], draws=(Draw(name="angels", span=(6.0, 7.0, 0.1)),))
    drawn = {questions.make(drill, library, str(seed)).inputs["angels"] for seed in range(200)}
    # Below 6.4 two slips give the same answer, so such draws are passed over.
    assert drawn == {6.4, 6.5, 6.6, 6.7, 6.8, 6.9, 7.0}


def test_the_grid_is_exact_where_floats_are_not():
    rng = random.Random("grid")
    drawn = {chance.on_grid(rng, 0.1, 0.7, 0.1) for _ in range(200)}
    assert drawn == {0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7}


def test_the_last_numbers_do_not_come_again(library):
    drill = library.drills["fix"]
    for seed in range(60):
        last = questions.make(drill, library, str(seed)).inputs
        before = questions.make(drill, library, f"{seed} before").inputs
        again = questions.make(drill, library, str(seed), avoid=[last, before]).inputs
        assert again["angels"] not in (last["angels"], before["angels"])


def test_a_drill_with_one_draw_may_repeat(library):
    drill = replace(library.drills["fix"], draws=(Draw(name="angels", any_of=(9.0,)),))
    first = questions.make(drill, library, "1")
    assert questions.make(drill, library, "2", avoid=[first.inputs]).inputs == first.inputs


def test_conditions_that_nothing_meets_are_told(library):
    drill = replace(library.drills["minutes"], keep=("fuel_lb > 90000",))
    with pytest.raises(DomainError, match="minutes"):
        questions.make(drill, library, "1")


def test_many_draws_at_once_equal_one_at_a_time(library):
    drill = library.drills["minutes"]
    drawn, share = drawn_and_kept(drill, library, random.Random("a"), 500)
    truths = stated_truths(drill, library, drawn, round(500 * share))
    assert 200 < len(truths) < 500 and len(drawn["fuel_lb"]) == len(truths)
    for row in range(0, len(truths), 25):
        one = {name: float(column[row]) for name, column in drawn.items()}
        assert float(computed.solve(drill, library, one).value) == truths[row]
    assert np.all(drawn["fuel_lb"] > drawn["bingo_lb"] + 500)


@pytest.mark.parametrize("drill_id", COMPUTED)
def test_the_truth_typed_is_on_the_number(library, drill_id):
    drill = library.drills[drill_id]
    for seed in range(150):
        question = questions.make(drill, library, str(seed))
        grade = grading.grade(question, drill, library, question.truth_text, 5)
        assert (grade.verdict, grade.score) == (ON_THE_NUMBER, 1.0)


@pytest.mark.parametrize("drill_id", COMPUTED)
def test_each_slip_typed_is_named(library, drill_id):
    drill, named = library.drills[drill_id], set()
    for seed in range(150):
        question = questions.make(drill, library, str(seed))
        if not computed.separable(drill, library, question.inputs):
            continue
        for slip, value in slip_values(drill, library, question.inputs):
            grade = grading.grade(question, drill, library, f"{value:.10g}", 5)
            assert grade.verdict == OUTSIDE_LIMITS
            assert grade.slip is not None and grade.slip.name == slip.name
            assert grade.said[0] == grade.slip.words and "{" not in grade.slip.words
            named.add(slip.name)
    assert len(named) >= 2


def test_verdicts_and_time(library):
    drill = library.drills["minutes"]
    question = replace(
        questions.make(drill, library, "1"),
        inputs={"bingo_lb": 2000.0, "fuel_lb": 4000.0, "flow_lb_min": 100.0},
        truth=20.0,
        limit_s=30.0,
    )

    def verdict(typed, seconds=5.0):
        grade = grading.grade(question, drill, library, typed, seconds)
        return grade.verdict, grade.score

    assert verdict("20") == (ON_THE_NUMBER, 1.0)
    assert verdict("20.1") == (ON_THE_NUMBER, 1.0)
    assert verdict("19:30") == (INSIDE_LIMITS, 1.0)
    assert verdict("20.6") == (OUTSIDE_LIMITS, 0.0)
    assert verdict("20", 31.0) == (OUT_OF_TIME, 1.0)
    assert verdict("25", 31.0) == (OUTSIDE_LIMITS, 0.0)
    assert verdict("20", None) == (ON_THE_NUMBER, 1.0)
    late = grading.grade(question, drill, library, "20", 30.2)
    assert late.said == ("31 s, the limit is 30 s",)


def test_a_slip_near_the_truth_is_not_accused(library):
    drill = library.drills["minutes"]
    # To zero and to bingo differ by 0.4 min here: inside the limits of 0.5.
    question = replace(
        questions.make(drill, library, "1"),
        inputs={"bingo_lb": 40.0, "fuel_lb": 4000.0, "flow_lb_min": 100.0},
        truth=39.6,
    )
    assert grading.grade(question, drill, library, "40.0", 5).slip is None
    alone = replace(drill, slips=drill.slips[:1])
    graded = grading.grade(question, alone, library, "40.2", 5)
    assert (graded.verdict, graded.slip) == (OUTSIDE_LIMITS, None)
    assert grading.grade(question, drill, library, "40.4", 5).slip.name == "added bingo"


def test_slips_that_coincide_are_told_together(library):
    twice = library.drills["minutes"].slips[0]
    drill = replace(library.drills["minutes"], slips=(twice, replace(twice, name="another", words="or another")))
    question = questions.make(drill, library, "1")
    value = slip_values(drill, library, question.inputs)[0][1]
    slip = grading.grade(question, drill, library, f"{value}", 5).slip
    assert slip.name == "to zero" and slip.words.endswith("lb – or: or another")


def test_deviation_goes_the_short_way_round():
    assert deviation(2, 359, "heading") == 3
    assert deviation(359, 2, "heading") == -3
    assert deviation(58, 1, "minute") == -3
    assert deviation(5, 1435, "clock") == 10
    assert deviation(5, 1435, "ft") == -1430


def test_headings_across_north_are_inside_limits(library):
    drill = library.drills["radial"]
    question = replace(questions.make(drill, library, "1"), inputs={"final_bearing_deg": 180.0}, truth=360.0)
    assert grading.grade(question, drill, library, "001", 5).verdict == INSIDE_LIMITS
    assert grading.grade(question, drill, library, "003", 5).verdict == OUTSIDE_LIMITS


def test_the_worked_solution_puts_the_numbers_in(library):
    drill = library.drills["minutes"]
    question = questions.make(drill, library, "1")
    lines = worked_solution.worked(question, drill, library)
    assert lines[0].startswith("given: ") and question.truth_text in "\n".join(lines)
    assert any(line.startswith("source: Nobody's manual") and "invented" in line for line in lines)
    assert lines[-1] == "invented: Every number here is invented."
    assert all(line.isascii() for line in worked_solution.worked(question, drill, library, ascii_only=True))
    assert worked_solution.brief_truth(question) == question.truth_text


def test_angels_are_not_said_twice(library):
    assert "angels angels" not in questions.make(library.drills["fix"], library, "1").text
