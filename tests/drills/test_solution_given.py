"""The line that repeats the numbers of a question."""

import random

from trainer.decks import library
from trainer.drills import computed, worked_solution


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
