"""What is known already is found out by the hardest drill of each rule."""

from types import SimpleNamespace

import pytest

from trainer.model import ON_THE_NUMBER, Grade
from trainer.practice import find_out, wish
from trainer.practice.session import Session
from trainer.practice.wish import Wish


def outline(name, quantity="", level=1, kind="computed", choices=0):
    return SimpleNamespace(id=name, quantity=quantity, level=level, kind=kind, choice_count=choices)


SHELF = {
    one.id: one
    for one in (
        outline("easy", "trim"), outline("fact", kind="recall"), outline("hard", "trim", 3),
        outline("flow", kind="flow"),
        outline("odd", "trim", 2), outline("pair", kind="recall", choices=2), outline("mean", "fuel", 1),
    )
}  # fmt: skip


def test_the_hardest_of_the_rule_that_most_drills_share_is_asked_first():
    assert find_out.in_order(SHELF, SHELF) == ["hard", "flow", "mean", "fact", "pair", "odd", "easy"]


@pytest.mark.parametrize(
    ("name", "others"), [("hard", ["easy", "odd"]), ("odd", ["easy"]), ("easy", []), ("fact", []), ("pair", [])]
)
def test_a_right_answer_speaks_for_what_is_no_harder_of_the_same_rule(name, others):
    assert find_out.speaks_for(SHELF[name], SHELF, SHELF) == others


def test_a_guess_speaks_for_nothing_else():
    guessed = outline("pair-of-a-rule", "trim", 3, choices=2)
    assert find_out.speaks_for(guessed, [*SHELF], SHELF) == []


@pytest.fixture
def series(store, clock):
    """Return a function that runs a series over the whole shelf and returns the ids asked."""
    from trainer.decks import library

    shelf = library.load()

    def run(answer):
        session = Session(
            store=store, clock=clock, wish=Wish(questions=25, find_out=True), load_library=lambda: shelf, signature="s"
        )  # fmt: skip
        asked = []
        while (question := session.next()) is not None:
            asked.append(question.drill_id)
            answer(session, question)
        return asked, session

    return run


def test_who_knows_it_is_done_with_the_easy_half_which_comes_at_the_end(series, store):
    def know(session, question):
        session._record(question, Grade(verdict=ON_THE_NUMBER, score=1.0, value=question.truth), "", 4.0)

    asked, session = series(know)
    assert len(set(asked)) == len(asked) == 25
    spoken_for = find_out.spoken_for(store)
    core = session.syllabus.members().core
    assert 5 <= len(spoken_for) and spoken_for <= set(core) - set(asked)
    order = wish.in_order(Wish(), session.syllabus, session._drills, spoken_for)
    assert set(order[len(core) - len(spoken_for) : len(core)]) == spoken_for


def test_who_misses_it_is_spoken_for_in_nothing(series, store):
    asked, _ = series(lambda session, question: session.give_up(4.0))
    assert len(set(asked)) == 25
    assert find_out.spoken_for(store) == frozenset()
