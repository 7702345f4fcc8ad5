"""Answers are taken down in one place, and each is known by its digest, whatever its number is by now."""

import ast
from pathlib import Path

import pytest

from trainer.errors import StorageError
from trainer.store import backup
from trainer.store.store import Store

TRAINER = Path(__file__).parents[2] / "trainer"


def calls(method):
    """Return the modules above the store that call something like ``store.method(…)``."""
    return {
        path.relative_to(TRAINER).as_posix()
        for path in TRAINER.rglob("*.py")
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Call)
        and isinstance(node.func, ast.Attribute)
        and node.func.attr == method
        and ast.unparse(node.func.value).endswith("store")
        and path.relative_to(TRAINER).parts[0] != "store"
    }


@pytest.mark.parametrize("method", ["record", "withdraw"])
def test_there_is_one_recorder(method):
    assert calls(method) == {"practice/answering.py"}


@pytest.fixture
def put_back(store, home, clock, tmp_path):
    """Return a function that lets another window put back the copy made when this fixture was set up."""
    copy = backup.backup(home, tmp_path / "copy.db", clock=clock)
    return lambda: backup.restore(home, copy, clock=clock)


def answer(session, count=1):
    for _ in range(count):
        session.next()
        session.give_up(1.0)


def test_undo_never_takes_back_another_answer(begin, store, home, clock, put_back):
    session = begin(questions=5, seed="7")
    answer(session)
    put_back()
    with Store.open(home, clock=clock) as other:  # an answer in the other window gets the number of ours
        second = begin(questions=5, seed="8")
        second._store = other
        answer(second)
        theirs = other.count()
    with pytest.raises(StorageError, match="no longer there"):
        session.undo()
    assert store.count() == theirs == 1
    answer(session)
    assert store.count() == 2, "the session goes on with the data that stand there now"
    assert session.undo() and store.count() == 1


def test_a_flag_outlives_its_answer(begin, store, put_back):
    session = begin(questions=5, seed="7")
    answer(session)
    put_back()
    with pytest.raises(StorageError, match="no longer there"):
        session.flag()
    (flag,) = store.flags()
    assert flag.review_id is None


def test_an_answer_is_taken_back_once(begin, store):
    session = begin(questions=5, seed="7")
    answer(session)
    (done,) = session._done
    assert session.undo()
    with pytest.raises(StorageError, match="already"):
        session._take_back(done)


def test_what_was_asked_back_counts_like_a_hint(begin, store):
    session = begin(questions=5, seed="7", areas=("marshal",))
    while (question := session.next()).drill_id != "small-fix":
        session.flag(question)
    from trainer.drills import grading

    grade = grading.grade(question, session._drill(question), session._library, question.truth_text, 1.0)
    kept = session._recorder.answered(question, grade, typed="y", seconds=1.0, asked_back="27 nm?")
    assert (grade.score, kept.review.score, kept.review.asked_back) == (1.0, 0.5, "27 nm?")
