"""Tables, their steps, and a saved database of every released schema."""

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from tests.store import invented
from tests.store.invented import fill, standing, update
from trainer.errors import StorageError
from trainer.store import access, schema
from trainer.store.connection import writing
from trainer.store.store import Store

SAVED = sorted(Path(__file__).parent.glob("schema-*.sql"))


def test_all_tables_are_strict(store):
    tables = {row[1]: row[5] for row in store._read("PRAGMA table_list") if row[2] == "table"}
    own = set(tables) - {"sqlite_schema", "sqlite_temp_schema", "_sqlite_migrations"}
    assert own == {name for name in schema.EXPECTED if name in tables} and len(own) == 10
    assert [name for name in own if not tables[name]] == []


def test_the_file_says_what_it_is(store):
    assert store._read("PRAGMA user_version") == [(schema.SCHEMA,)]
    assert store._read("PRAGMA application_id") == [(schema.APPLICATION_ID,)]
    assert store.path.read_bytes()[68:72] == schema.APPLICATION_ID.to_bytes(4, "big")


def test_everything_that_is_made_is_asked_for_at_the_start(store):
    names = {name for (name,) in store._read("SELECT name FROM sqlite_schema WHERE sql IS NOT NULL")}
    assert {name for name in names if "_sqlite_migrations" not in name} == schema.EXPECTED


def test_there_is_a_saved_database_of_every_released_schema():
    assert [path.stem for path in SAVED] == [f"schema-{number}" for number in range(1, schema.SCHEMA + 1)]


@pytest.mark.parametrize("saved", SAVED, ids=lambda path: path.stem)
def test_a_saved_database_still_opens(saved, home):
    home.mkdir()
    with closing(sqlite3.connect(home / "reviews.db")) as old:
        old.executescript(saved.read_text(encoding="utf-8"))
        number = int(saved.stem.split("-")[1])
        old.execute(f"PRAGMA user_version={number}")
        old.execute(f"PRAGMA application_id={schema.APPLICATION_ID}")
    with Store.open(home, clock=invented.clock()) as store:
        assert store.verify(update) == []
        assert store.count() == 7 and len(list(store.reviews(withdrawn=True))) == 8
        assert [review.seed for review in store.reviews()][-1] == "s7"
        assert store.setting("minutes") == 5 and store.opening() == {"drill": "fix-1"}
        assert (len(store.events()), len(store.debriefs()), len(store.flags())) == (1, 1, 1)
        fill(store, 1, start=20)
        assert store.verify(update) == []


def with_second_step(fails=False):
    steps = schema.migrations()

    @steps(name="2: invented")
    def second(db):
        db.execute("ALTER TABLE review ADD COLUMN weather TEXT")
        if fails:
            db.execute("INSERT INTO nowhere VALUES (1)")

    return steps


@pytest.fixture
def newer(monkeypatch):
    """Let the program be one schema ahead of the file."""
    apply = schema.apply

    def prepare(fails=False):
        monkeypatch.setattr(schema, "SCHEMA", 2)
        monkeypatch.setattr(schema, "apply", lambda connection: apply(connection, with_second_step(fails), 2))

    return prepare


@pytest.mark.parametrize("create", [True, False])
def test_an_older_file_is_copied_and_then_brought_up_to_date(home, newer, create):
    with Store.open(home, clock=invented.clock()) as store:
        fill(store, 10)
        stood = standing(store)
    newer()
    with Store.open(home, clock=invented.clock(), create=create) as store:
        assert store._read("PRAGMA user_version") == [(2,)]
        assert "weather" in [row[1] for row in store._read("PRAGMA table_info(review)")]
        assert standing(store) == stood and store.verify(update) == []
        assert store._read("PRAGMA foreign_keys") == [(1,)]
    with closing(sqlite3.connect(home / "reviews-schema-1.db")) as kept:
        assert kept.execute("PRAGMA user_version").fetchall() == [(1,)]
        assert kept.execute("SELECT count(*) FROM review").fetchall() == [(10,)]


def test_a_step_that_fails_changes_nothing(home, newer, monkeypatch):
    with Store.open(home, clock=invented.clock()) as store:
        fill(store, 3)
    newer(fails=True)
    with pytest.raises(StorageError, match="nowhere"):
        Store.open(home, clock=invented.clock())
    monkeypatch.undo()
    with Store.open(home, clock=invented.clock()) as store:
        assert store._read("PRAGMA user_version") == [(1,)] and store.verify(update) == []
        assert "weather" not in [row[1] for row in store._read("PRAGMA table_info(review)")]


def test_a_step_that_leaves_loose_ends_changes_nothing(home):
    with Store.open(home, clock=invented.clock()) as store:
        fill(store, 3)
    steps = schema.migrations()

    @steps(name="2: careless")
    def second(db):
        db.execute("INSERT INTO belief VALUES ('stray', x'00', 99)")

    connection = access.to_write(home / "reviews.db")
    with closing(connection):
        with pytest.raises(StorageError, match="loose ends"):
            schema.apply(connection, steps, 2)
        assert schema.version(connection) == 1
        assert connection.execute("SELECT count(*) FROM belief").fetchall() == [(3,)]


def test_the_order_of_work_does_not_grow_with_the_history(store):
    """What is read at the start, and before each answer, is found through an index or a key."""
    seen = []
    store._connection.set_trace_callback(seen.append)
    fill(store, 1)
    store.states(), store.learner(), store.count(), store.last_inputs("fix-1"), store.opening()
    store.last_review(), store.withdraw(1, update)
    store._connection.set_trace_callback(None)
    reads = [sql for sql in seen if "FROM review" in sql or "FROM withdrawal" in sql or "before" in sql]
    assert len(reads) >= 8
    for sql in reads:
        if sql.startswith(("SELECT", "DELETE")):
            plan = [row[3] for row in store._read("EXPLAIN QUERY PLAN " + sql)]
            scans = [step for step in plan if step.startswith("SCAN") and step != "SCAN CONSTANT ROW"]
            first_met = sql.endswith("LIMIT 1") and "drill_id = " not in sql  # a scan that ends at its first row
            assert not scans or first_met or "max(id)" in sql, (sql, plan)
            assert not any("TEMP B-TREE" in step for step in plan), (sql, plan)


def test_writing_puts_everything_back(store):
    with pytest.raises(KeyboardInterrupt), writing(store._connection):
        store._connection.execute("INSERT INTO setting VALUES ('a', '1')")
        raise KeyboardInterrupt
    assert store.setting("a") is None and not store._connection.in_transaction
