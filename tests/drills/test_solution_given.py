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
