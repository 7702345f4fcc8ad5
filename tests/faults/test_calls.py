"""Each call of the database fails in turn: nothing that was judged is lost, and the next session goes on."""

import sqlite3

import pytest

from tests.faults import killing
from tests.faults.conftest import LONG
from tests.faults.failing import Failing

SESSION = ("practice", "--questions", "2")
ANSWERS = [
    ("SQLITE_FULL", False), ("SQLITE_IOERR_WRITE", True), ("SQLITE_BUSY", False), ("SQLITE_CORRUPT", False),
    ("SQLITE_READONLY", False), ("SQLITE_FULL", True), ("SQLITE_IOERR_FSYNC", False),
]  # fmt: skip
TYPED = "s\n27\nu\ns\nf\ns\n"


def practise(trainer, monkeypatch, failing):
    """Run a session of two questions over a database that fails."""
    with monkeypatch.context() as patched:
        patched.setattr(sqlite3, "connect", failing.connect)
        return trainer(*SESSION, typed=TYPED)


def standing(done, before, after):
    """Assert that what was shown as judged is stored, in its order, and at most one answer more."""
    new = after.reviews[len(before.reviews) :]
    assert len(done.judged) <= len(new) <= len(done.judged) + 1
    for block, review in zip(done.judged, new, strict=False):
        assert killing.bare(review.question) in block
    assert after.withdrawn - before.withdrawn >= done.out.count("The last answer is withdrawn")
    assert after.flags - before.flags >= done.out.count("Flagged as faulty")
    assert after.problems == []


@pytest.fixture
def calls(trainer, monkeypatch, home):
    """Return every call of a first session and of one after it."""
    first, second = Failing(), Failing()
    assert practise(trainer, monkeypatch, first).code == practise(trainer, monkeypatch, second).code == 0
    return len(first.calls), len(second.calls)


@pytest.mark.parametrize("turn", range(len(ANSWERS)) if LONG else range(1))
def test_each_call_fails_in_turn(trainer, monkeypatch, refused, calls, home, turn):
    total, fell = calls[1], 0
    assert total > 40
    for at in range(1, total + 1, 1 if LONG else 3):
        before = killing.stored(home)
        name, late = ANSWERS[(at + turn) % len(ANSWERS)]
        failing = Failing(at, name, late=late)
        done = practise(trainer, monkeypatch, failing)
        if done.code:
            fell += 1
            refused(done)
        assert "Traceback" not in done.err + done.out
        standing(done, before, killing.stored(home))
        assert trainer("practice", "--questions", "1", typed="s\n").code == 0, f"call {at} of {failing.calls}"
    assert fell > total / (2 if LONG else 6), "most calls matter, and the others may fail without harm"


def test_each_call_of_the_first_start_fails_in_turn(trainer, monkeypatch, refused, calls, tmp_path, home):
    for at in range(1, calls[0] + 1, 1 if LONG else 7):
        new = tmp_path / f"new-{at}"
        with monkeypatch.context() as patched:
            patched.setattr(sqlite3, "connect", Failing(at).connect)
            done = trainer(*SESSION, typed=TYPED, home=new)
        if done.code:
            refused(done)
        assert "Traceback" not in done.err + done.out
        again = trainer(*SESSION, typed=TYPED, home=new)
        assert again.code == 0, again.err
        after = killing.stored(new)
        assert len(done.judged) + len(again.judged) <= len(after.reviews) and after.problems == []
