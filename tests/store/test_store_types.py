"""A damaged page may hold values of another type than its column has: SQLite hands them over as they are."""

import re
import sqlite3
from contextlib import closing

import pytest

from tests.store import invented
from tests.store.invented import fill, update
from trainer.errors import StorageError
from trainer.store import backup
from trainer.store.salvage import salvage
from trainer.store.store import Store

CHECK = re.compile(r"CHECK \((?:[^()]|\([^()]*\))*\)")


@pytest.fixture
def mistyped(home, filled):
    """Return a function that carries out ``sql`` while the columns of ``table`` take values of any type."""

    def change(table, sql):
        filled(6)
        with Store.open(home, clock=invented.clock()) as store:
            store.withdraw(6, update)
            store.flag({"text": "?"}, drill_id="fix-1", deck="invented", deck_hash="a" * 64, at=invented.FIRST)
        path = home / "reviews.db"
        with closing(sqlite3.connect(path, isolation_level=None)) as connection:
            triggers = connection.execute("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'").fetchall()
            for name, _ in triggers:
                connection.execute(f"DROP TRIGGER {name}")
            (made,) = connection.execute("SELECT sql FROM sqlite_schema WHERE name = ?", (table,)).fetchone()
        loose = re.sub(r" (TEXT|REAL)\b", " BLOB", CHECK.sub("", made)).replace(" STRICT", "").replace(" NOT NULL", "")
        _redefine(path, table, loose)
        with closing(sqlite3.connect(path, isolation_level=None)) as connection:
            connection.execute(sql)
        _redefine(path, table, made)
        with closing(sqlite3.connect(path, isolation_level=None)) as connection:
            for _, trigger in triggers:
                connection.execute(trigger)
        return home

    return change


def _redefine(path, table, sql):
    with closing(sqlite3.connect(path, isolation_level=None)) as connection:
        connection.execute("PRAGMA writable_schema=ON")
        connection.execute("UPDATE sqlite_schema SET sql = ? WHERE name = ?", (sql, table))


OF_REVIEWS = ["typed = x'00ff'", "score = 'abc'", "at = x'00'", "items = 5", "digest = 'text'", "parts = x'00'",
              "seconds = 'z'", "seed = 3", "hint_used = 'x'", "offset_min = 1.5", "drill_id = NULL"]  # fmt: skip


@pytest.mark.parametrize("change", OF_REVIEWS)
def test_a_review_of_other_types_is_told_and_never_a_traceback(mistyped, change):
    """`trainer data verify` ended with "bytes is not JSON serializable" where it should have said what is wrong."""
    home = mistyped("review", f"UPDATE review SET {change} WHERE id = 3")
    with Store.open(home, clock=invented.clock(), create=False) as store:
        assert "Review 3 was changed after it was stored." in store.verify(update)
        assert "Review 3 was changed after it was stored." in store.chain_faults(100)
        assert store.chain([3]).reviews == 6
        if not change.startswith(("digest", "items")):
            with pytest.raises(StorageError, match="a stored row is damaged.*trainer data salvage"):
                list(store.reviews())
        if not change.startswith("digest"):
            with pytest.raises(StorageError, match="a stored row is damaged"):
                store.rebuild(update)
    with pytest.raises(StorageError, match="is damaged"):
        backup.daily(home, clock=invented.clock())
    assert salvage(home, update=update, clock=invented.clock()).saved >= 4


def test_no_answer_is_hung_on_a_chain_that_ends_in_no_digest(mistyped):
    home = mistyped("review", "UPDATE review SET digest = 'text' WHERE id = 6")
    with Store.open(home, clock=invented.clock()) as store:
        with pytest.raises(StorageError, match="damaged"):
            fill(store, 1, start=9)
        assert store.count() == 5


@pytest.mark.parametrize("of", ["the review", "the last withdrawal"])
def test_no_withdrawal_is_hung_on_what_is_no_digest(mistyped, of):
    """Found by fuzzing: to take an answer back ended in a traceback."""
    sql = "UPDATE review SET digest = NULL WHERE id = 5" if of == "the review" else "UPDATE withdrawal SET digest = 5"
    home = mistyped("review" if of == "the review" else "withdrawal", sql)
    with Store.open(home, clock=invented.clock()) as store:
        with pytest.raises(StorageError, match="damaged"):
            store.withdraw(5, update)
        assert store.count() == 5


@pytest.mark.parametrize(
    ("table", "change"),
    [("withdrawal", "at = 5"), ("withdrawal", "digest = 'x'"), ("belief", "state = 'x'"), ("learner", "state = 'x'"),
     ("learner", "model = x'ff'"), ("flag", "question = 5"), ("flag", "at = 5")],
)  # fmt: skip
def test_other_rows_of_other_types_are_told(mistyped, table, change):
    home = mistyped(table, f"UPDATE {table} SET {change}")
    with Store.open(home, clock=invented.clock(), create=False) as store:
        assert store.verify(update) != []
        store.states(), store.learner(), store.outdated("today's"), store.count(), store.last_review()
        if table == "flag":
            told = []
            store._tell = told.append
            assert store.flags() == store.flags() == []
            assert len(told) == 1 and told[0].startswith("flag 1 is damaged and passed over")
