"""A rehearsal and a debrief that can't be stored for a while: the question stays, and nothing is told twice."""

import sqlite3
from contextlib import closing

import pytest

from tests.faults.test_windows import Person
from trainer.decks import library, standards
from trainer.errors import StorageError
from trainer.practice import knowledge
from trainer.practice.night.debrief import Walk
from trainer.practice.night.prepare import make_ready
from trainer.practice.night.rehearsal import Rehearsal
from trainer.store.store import Store
from trainer.terminal import debrief, rehearsal


@pytest.fixture(scope="module")
def shelf():
    return library.load()


@pytest.fixture
def hurried(home, clock):
    """Return a store that waits a moment only for another window."""
    with Store.open(home, clock=clock, wait_s=0.05) as store:
        yield store


@pytest.fixture
def other(hurried):
    """Another window; ``other.execute("BEGIN IMMEDIATE")`` takes the lock."""
    with closing(sqlite3.connect(hurried.path, isolation_level=None)) as connection:
        yield connection


@pytest.fixture
def fly(shelf, hurried, clock):
    """Return a function that lets a ``Person`` fly the marshal phase of a sortie."""
    standard = standards.load(name="night-board", drills=shelf.drills)
    flown = make_ready(shelf, standard, seed="7", case=3, first="marshal", last="marshal")

    def run(person):
        sortie = Rehearsal(flown=flown, library=shelf, store=hurried, clock=clock)
        return rehearsal.run(sortie, flown, person)

    return run


@pytest.fixture
def tell(shelf, hurried, clock):
    """Return a function that lets a ``Person`` tell of a flight."""

    def run(person, **how):
        walk = Walk(library=shelf, store=hurried, clock=clock, case=3, flown="2030-02-28")
        debrief.run(walk, person, **how)
        return walk

    return run


def sound(store, reviews):
    assert store.count() == reviews and store.verify(knowledge.after_review, knowledge.model()) == []


def test_a_rehearsal_keeps_the_question_until_its_answer_is_stored(fly, hurried, other):
    person = Person(
        lambda: other.execute("BEGIN IMMEDIATE"), "s", "s",
        lambda: other.execute("ROLLBACK"), "s", "q",
    )  # fmt: skip
    sheet = fly(person)
    assert sum("another trainer window" in line for line in person.said) == 2
    assert sum("Not known" in line for line in person.said) == len(sheet.answers) == 1
    sound(hurried, 1)


def test_a_rehearsal_in_a_pipe_ends_where_its_answer_cannot_be_stored(fly, hurried, other):
    person = Person(lambda: other.execute("BEGIN IMMEDIATE"), "s", "s", person=False)
    with pytest.raises(StorageError, match="another trainer window"):
        fly(person)
    assert person.lines == ["s"] and hurried.count() == 0


def test_a_phase_is_told_again_and_counted_once(tell, hurried, other):
    person = Person(
        lambda: other.execute("BEGIN IMMEDIATE"), "1m", "1m",
        lambda: other.execute("ROLLBACK"), "2m", "q",
    )  # fmt: skip
    walk = tell(person)
    assert sum("another trainer window" in line for line in person.said) == 2
    assert [one.item.words for one in walk.failed()] == [list(walk.phases().values())[0][1].words]
    sound(hurried, 6)


def test_a_phase_that_fails_half_way_is_not_stored_by_half(tell, hurried):
    """Of six items three were stored when the disk was full, and these were told twice once there was room."""
    stored, real = [], hurried.record

    def full_at_the_fourth(*given, **how):
        stored.append(1)
        if len(stored) == 4:
            raise StorageError("the disk is full", hint="free some space, then try again")
        return real(*given, **how)

    hurried.record = full_at_the_fourth
    person = Person("1m", "1m", "q")
    tell(person)
    assert sum("the disk is full" in line for line in person.said) == 1
    sound(hurried, 6)


def test_a_phase_is_taken_back_once_it_can_be(tell, hurried, other):
    person = Person(
        "1m", lambda: other.execute("BEGIN IMMEDIATE"), "u",
        lambda: other.execute("ROLLBACK"), "u", "2m", "q",
    )  # fmt: skip
    walk = tell(person)
    assert sum("taken back" in line for line in person.said) == 1 and walk.counts() == (5, 6)
    sound(hurried, 6)


@pytest.mark.parametrize("again", [True, False])
def test_remarks_are_kept_once_they_can_be(tell, hurried, other, again):
    lock, free = lambda: other.execute("BEGIN IMMEDIATE"), lambda: other.execute("ROLLBACK")
    if again:
        person = Person("1m", "q", free, "")
        person.lines.insert(1, lock)
        tell(person, remarks="late on the ball")
        assert hurried.debriefs()[0].remarks == "late on the ball"
    else:
        person = Person("1m", lock, "q", "q")
        with pytest.raises(StorageError, match="another trainer window"):
            tell(person, remarks="late on the ball")
        free()
        assert hurried.debriefs() == []
    sound(hurried, 6)


def test_a_debrief_in_a_pipe_ends_where_it_cannot_be_stored(tell, hurried, other):
    person = Person(lambda: other.execute("BEGIN IMMEDIATE"), "1m", "2m", person=False)
    with pytest.raises(StorageError, match="another trainer window"):
        tell(person)
    assert person.lines == ["2m"] and hurried.count() == 0
