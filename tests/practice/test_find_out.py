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


def test_the_hardest_of_a_rule_is_asked_and_first_where_a_second_tells_most():
    """Computed drills came before facts, and five minutes told of nineteen drills where they can tell of forty."""
    assert find_out.in_order(SHELF, SHELF) == ["hard", "fact", "pair", "mean", "flow", "odd", "easy"]


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
    assert 4 <= len(spoken_for) and spoken_for <= set(core) - set(asked)
    order = wish.in_order(Wish(), session.syllabus, session._drills, spoken_for)
    assert set(order[len(core) - len(spoken_for) : len(core)]) == spoken_for


def test_who_misses_it_is_spoken_for_in_nothing(series, store):
    asked, _ = series(lambda session, question: session.give_up(4.0))
    assert len(set(asked)) == 25
    assert find_out.spoken_for(store) == frozenset()


@pytest.mark.parametrize("seed", [1, 2])
def test_one_evening_tells_most_of_the_easy_half_of_a_pilot_who_knows_it_and_believes_no_guesser(seed):
    from tests.bench.known_already import one_run
    from trainer.decks import library

    shelf = library.load()
    knows = one_run("knows 9 of 10", shelf, "day-departure", seed, evenings=1)
    assert knows["easy half done"] >= 0.55 and knows["asked"] >= 30
    guesses = one_run("guesses", shelf, "day-departure", seed, evenings=1)
    assert guesses["spoken for"] <= 1 and guesses["done"] < 0.1 and guesses["holds"] == 0.0


def test_the_screen_says_how_much_is_told_and_that_the_series_goes_on(home, monkeypatch, capsys):
    import io

    from trainer import cli

    monkeypatch.setenv("TRAINER_NOW", "2030-03-01T19:00:00+00:00")
    monkeypatch.setattr("sys.stdin", io.StringIO("s\ns\ns\n"))
    assert cli.main(["stage", "--find-out"]) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert "Of 3 of the" in said and "`trainer stage --find-out` goes on" in said
