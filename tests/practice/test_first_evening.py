"""What a new pilot meets first: the heart of the day departure, whatever the seed."""

from datetime import UTC, datetime

import pytest

from trainer.clock import StillClock
from trainer.decks import library
from trainer.model import ON_THE_NUMBER, OUTSIDE_LIMITS, Grade
from trainer.practice.session import Session
from trainer.practice.stage import CHOSEN
from trainer.practice.wish import Wish
from trainer.store.store import Store

HEART = ["weight-and-trim", "clearing-heading-round", "case-1-departure-climb", "tension-day", "band-airspeed-low"]


@pytest.fixture(scope="module")
def shelf():
    return library.load()


@pytest.fixture
def evening(home, shelf):
    """Return a function that begins a session of a new pilot's."""
    clock = StillClock(datetime(2030, 3, 1, 19, tzinfo=UTC))
    with Store.open(home, clock=clock) as store:

        def begin(**wish):
            session = Session(
                store=store, clock=clock, wish=Wish(**wish), load_library=lambda: shelf, signature="shelf"
            )  # fmt: skip
            session.store = store
            return session

        yield begin


def asked(session):
    found = []
    while (question := session.next()) is not None:
        found.append(question)
        session.give_up(5.0)
    return found


@pytest.mark.parametrize("seed", [None, *map(str, range(1, 9))])
def test_the_first_five_questions_are_the_heart_of_the_day_departure(evening, seed):
    assert [question.drill_id for question in asked(evening(seed=seed, questions=5))] == HEART


def test_the_trim_table_is_shown_once(evening):
    questions = asked(evening(questions=12))
    with_table = [question for question in questions if "The table, this once" in question.text]
    assert [question.drill_id for question in with_table] == ["weight-and-trim"]
    assert "trim-step-round" in [question.drill_id for question in questions]
    assert with_table[0].text.count("up to") == 5


def test_another_stage_begins_with_its_own_core(evening, shelf):
    session = evening(questions=3)
    session.store.set_setting(CHOSEN, "fuel")
    first = [question.drill_id for question in asked(session)]
    assert first == list(session.syllabus.members("fuel").core[:3])


def test_reference_is_never_asked_on_an_ordinary_day_even_if_it_was_met(evening):
    old = evening(questions=2, deck_names=("unit-numbers",))
    met = {question.drill_id for question in asked(old)}
    assert met <= old.syllabus.reference
    assert not met & {question.drill_id for question in asked(evening(questions=30))}


def test_three_questions_of_one_area_are_enough(evening, shelf):
    areas = [question.area for question in asked(evening(questions=30))]
    runs = [areas[at : at + 4] for at in range(len(areas) - 3)]
    assert all(len(set(run)) > 1 for run in runs)


def test_who_knows_it_all_is_not_kept_in_one_area(evening):
    """Right at first sight makes room for the next: a section of the file came whole, fifteen questions of one area."""
    session, areas = evening(questions=26), []
    while (question := session.next()) is not None:
        areas.append(question.area)
        session._record(question, Grade(verdict=ON_THE_NUMBER, score=1.0, value=question.truth), "", 4.0)
    assert all(len(set(areas[at : at + 4])) > 1 for at in range(len(areas) - 3)), areas


@pytest.mark.parametrize(("score", "most", "least"), [(0.0, 42, 20), (1.0, 60, 50)], ids=["misses all", "knows all"])
def test_who_misses_everything_is_not_shown_one_new_drill_after_another(evening, score, most, least):
    """What was missed takes the minutes of tomorrow; what is known leaves them."""
    session, met = evening(questions=60, minutes=1), set()
    while (question := session.next()) is not None:
        verdict = ON_THE_NUMBER if score else OUTSIDE_LIMITS
        session._record(question, Grade(verdict=verdict, score=score, value=question.truth), "", 4.0)
        met.add(question.drill_id)
    assert least <= len(met) <= most


def test_beyond_the_core_new_drills_wait_for_more_room(evening):
    """What was begun of the core fades while more is begun: with three quarters of the minutes taken, only the core."""
    choosing = evening(questions=1)._choosing
    choosing._upkeep.seconds_a_day = lambda seconds: 0.75 * choosing._budget_s
    assert choosing._waiting() != set(choosing._new)
    choosing._new = [name for name in choosing._new if name not in choosing._core]
    assert choosing._waiting() == set(choosing._new)
