"""Two windows at once, one of them inside a transaction: the second waits, says so, and keeps the question."""

import sqlite3
from contextlib import closing

import pytest

from tests.faults import driving, killing
from tests.faults.conftest import LONG
from tests.practice.conftest import SMALL
from trainer.decks import library
from trainer.errors import StorageError
from trainer.practice.session import Session
from trainer.practice.wish import Wish
from trainer.store.store import Store
from trainer.terminal import loop
from trainer.terminal.look import Look


class Person:
    """Somebody at a terminal who types ``lines``; a function among them is something that happens meanwhile."""

    def __init__(self, *lines, person=True):
        self.lines, self.person, self.said, self.look = list(lines), person, [], Look(width=200)

    def say(self, text="", tone=""):
        self.said.append(text)

    def ask(self, status):
        status(0.0)
        return self._next(), 1.0

    def pause(self, text):
        return self._next() if self.person else ""

    def _next(self):
        while self.lines and callable(self.lines[0]):
            self.lines.pop(0)()
        if not self.lines:
            raise EOFError
        return self.lines.pop(0)


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
def session(hurried, clock):
    wish = Wish(decks=(SMALL,), questions=3, seed="7")
    return Session(
        store=hurried, clock=clock, wish=wish, load_library=lambda: library.load(files=wish.decks), signature="small"
    )


@pytest.mark.parametrize("word", ["s", "27"])
def test_an_answer_that_could_not_be_saved_is_typed_again(session, hurried, other, word):
    person = Person(
        lambda: other.execute("BEGIN IMMEDIATE"), word,
        lambda: other.execute("ROLLBACK"), "s", "", "q",
    )  # fmt: skip
    loop.run(session, person)
    assert sum("another trainer window" in line for line in person.said) == 1
    assert any("try again" in line for line in person.said)
    assert hurried.count() == 1
    assert sum("Not known" in line for line in person.said) == 1, "nothing is judged that is not stored"


@pytest.mark.parametrize("where", ["at the verdict", "at the next question"])
def test_an_undo_that_could_not_be_saved_is_done_again(session, hurried, other, where):
    """The answer was forgotten by the session and stayed in the store, and a second `u` took back another."""
    begin = [] if where == "at the verdict" else [""]
    person = Person(
        "s", "", "s", *begin,
        lambda: other.execute("BEGIN IMMEDIATE"), "u",
        lambda: other.execute("ROLLBACK"), "u", "q",
    )  # fmt: skip
    summary = loop.run(session, person)
    assert hurried.count() == summary.asked == 1
    assert sum("is withdrawn" in line for line in person.said) == 1


def test_nobody_is_asked_again_in_a_pipe(session, other):
    person = Person(lambda: other.execute("BEGIN IMMEDIATE"), "s", "s", person=False)
    with pytest.raises(StorageError, match="another trainer window"):
        loop.run(session, person)
    assert person.lines == ["s"]


def test_the_summary_is_shown_before_anything_more_is_written(hurried, other, clock, small_shelf):
    """A full disk or a lock at the very end took the summary away."""
    session = Session(store=hurried, clock=clock, wish=Wish(questions=1), load_library=library.load, signature="small")
    person = Person("s", lambda: other.execute("BEGIN IMMEDIATE"), "")
    with pytest.raises(StorageError, match="your answers are saved"):
        loop.run(session, person)
    assert any(line.startswith("1 question in") for line in person.said)
    other.execute("ROLLBACK")


def test_two_windows_practise_at_once(home):
    """Each answers as fast as it can; no answer of either is lost."""
    each = 60 if LONG else 6
    windows = [driving.Piped("practice", "--questions", str(each), home=home) for _ in range(2)]
    while not all(len(window.typed) >= each for window in windows):
        for window in windows:
            assert window.listen(0.02) or len(window.typed) >= each, window.text()
            if window.waiting() and len(window.typed) < each:
                window.send("s")
    codes = [window.rest() for window in windows]
    assert codes == [0, 0], windows[0].text() + windows[1].text()
    after = killing.stored(home)
    assert len(after.reviews) == 2 * each and after.problems == []
    assert [len(killing.judged(window.text())) for window in windows] == [each, each]
