"""The line that repeats the numbers of a question."""

import random

from trainer.decks import library
from trainer.drills import computed, fixed_inputs, flow, worked_solution


def test_empty_stations_of_a_loading_are_not_repeated():
    shelf = library.load()
    drill = next(drill for drill in shelf.drills.values() if getattr(drill, "quantity", "") == "weight_and_balance")
    question = computed.make(drill, shelf, random.Random("one"))
    given = next(line for line in worked_solution.worked(question, drill, shelf) if line.startswith("given: "))
    assert "station 1" in given
    assert "station 6" not in given
    assert "station_6_lb" in question.inputs, "else this checks nothing"


def test_a_number_that_the_question_does_not_name_is_found_first_and_not_given():
    """Asked from the final bearing, the solution gave the BRC, and so left out the step that the drill tests."""
    from trainer.decks import library
    from trainer.drills import questions, worked_solution

    shelf = library.load()
    drill = shelf.drills["downwind-from-final-bearing"]
    asked = questions.make(drill, shelf, "seed 1")
    given, first, *_ = worked_solution.worked(asked, drill, shelf)
    assert "BRC" not in given and "final bearing" in given
    assert first.startswith("first: BRC ") and first.endswith("(final bearing = BRC - angle)")


def test_an_answer_that_was_rounded_says_what_it_was_before():
    shelf = library.load()
    drill = shelf.drills["fuel-for-passes-odd"]
    inputs = {"bingo_lb": 2950.0, "pass_fuel_lb": 650.0, "passes": 4.0}
    question = fixed_inputs.question(drill, shelf, inputs)
    assert "answer: 5,600 lb (5,550 lb, up to 100)" in worked_solution.worked(question, drill, shelf)
    whole = fixed_inputs.question(drill, shelf, inputs | {"pass_fuel_lb": 700.0, "bingo_lb": 3000.0})
    assert "answer: 5,800 lb" in worked_solution.worked(whole, drill, shelf)


def test_a_whole_flow_tells_which_of_its_steps_stand_on_less_than_its_source():
    shelf = library.load()
    drill = shelf.drills["bingo"]
    question = flow.make(drill, shelf, random.Random("one"), form="recite")
    lines = worked_solution.worked(question, drill, shelf)
    source = next(at for at, line in enumerate(lines) if line.startswith("source: "))
    assert lines[source].endswith("published") and lines[source + 1] == "memory: clean up: gear, flaps, boards and hook"
    asked = flow.make(drill, shelf, random.Random("one"), form="next")
    assert not any(line.startswith("memory: ") for line in worked_solution.worked(asked, drill, shelf))


def test_a_signed_input_is_told_as_a_side():
    shelf = library.load()
    drill = shelf.drills["angle-shift"]
    question = computed.make(drill, shelf, random.Random("one"))
    (first,) = [line for line in worked_solution.worked(question, drill, shelf) if line.startswith("first: ")]
    side = "left" if question.inputs["relative_wind_deg"] < 0 else "right"
    assert first.startswith(f"first: wind off the bow {abs(question.inputs['relative_wind_deg']):g}° {side}")
