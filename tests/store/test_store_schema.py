"""Tables, their steps, and a saved database of every released schema."""

import shutil
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from tests.store import invented
from tests.store.invented import fill, standing, update
from trainer.errors import StorageError
from trainer.practice import knowledge
from trainer.store import access, backup, schema
from trainer.store.connection import writing
from trainer.store.store import Store

SAVED = sorted(Path(__file__).parent.glob("schema-*.sql"))


def test_all_tables_are_strict(store):
    tables = {row[1]: row[5] for row in store._read("PRAGMA table_list") if row[2] == "table"}
    own = set(tables) - {"sqlite_schema", "sqlite_temp_schema", "_sqlite_migrations"}
    assert own == schema._objects(store._connection).keys() & set(tables) - {"_sqlite_migrations"} and len(own) == 10
    assert [name for name in own if not tables[name]] == []


def test_the_file_says_what_it_is(store):
    assert store._read("PRAGMA user_version") == [(schema.SCHEMA,)]
    assert store._read("PRAGMA application_id") == [(schema.APPLICATION_ID,)]
    assert store.path.read_bytes()[68:72] == schema.APPLICATION_ID.to_bytes(4, "big")


def test_everything_that_is_made_is_compared_at_the_start(store):
    assert schema._digest(schema._objects(store._connection)) == schema.DIGEST
    assert schema._objects(store._connection) == schema._objects_of(schema.SCHEMA)


FOREIGN = {
    "trigger": "CREATE TRIGGER x AFTER INSERT ON review BEGIN UPDATE belief SET state = x'00'; END",
    "view": "CREATE VIEW x AS WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n) SELECT i FROM n",
    "table": "CREATE TABLE x (id INTEGER PRIMARY KEY) STRICT",
    "index": "CREATE INDEX x ON review (typed)",
    "trigger on the steps": "CREATE TRIGGER x AFTER INSERT ON _sqlite_migrations BEGIN SELECT 1; END",
    "column": "ALTER TABLE setting ADD COLUMN x TEXT",
    "a view in place of a table": "DROP TABLE opening; CREATE VIEW opening AS SELECT 1 AS id, 'x' AS record",
    "a rule less": "DROP TABLE flag; CREATE TABLE flag (id INTEGER PRIMARY KEY, drill_id TEXT)",
}


@pytest.mark.parametrize("what", FOREIGN)
def test_what_is_none_of_ours_is_refused(home, tmp_path, what):
    """In the data themselves, in a copy that is put back, and in one of an older schema."""
    with Store.open(home, clock=invented.clock()) as store:
        fill(store, 2)
    copy = tmp_path / "copy.db"
    shutil.copyfile(home / "reviews.db", copy)
    with closing(sqlite3.connect(copy)) as hostile:
        hostile.executescript(FOREIGN[what])
    with pytest.raises(StorageError, match="none of ours|lacks"):
        backup.restore(home, copy, clock=invented.clock())
    shutil.copyfile(copy, home / "reviews.db")
    for create in (True, False):
        with pytest.raises(StorageError, match="none of ours|lacks"):
            Store.open(home, clock=invented.clock(), create=create)


def test_what_is_none_of_ours_does_not_come_in_with_an_older_schema(home):
    home.mkdir()
    with closing(sqlite3.connect(home / "reviews.db")) as old:
        old.executescript(SAVED[0].read_text(encoding="utf-8"))
        old.execute("PRAGMA user_version=1")
        old.execute(f"PRAGMA application_id={schema.APPLICATION_ID}")
        old.executescript(FOREIGN["trigger"])
    with pytest.raises(StorageError, match="none of ours: x"):
        Store.open(home, clock=invented.clock())


def test_there_is_a_saved_database_of_every_released_schema():
    assert [path.stem for path in SAVED] == [f"schema-{number}" for number in range(1, schema.SCHEMA + 1)]


@pytest.fixture(params=SAVED, ids=lambda path: path.stem)
def saved(request, home):
    """Make a home of a saved database and return (its schema, what its tables hold)."""
    home.mkdir()
    with closing(sqlite3.connect(home / "reviews.db")) as old:
        old.executescript(request.param.read_text(encoding="utf-8"))
        number = int(request.param.stem.split("-")[1])
        old.execute(f"PRAGMA user_version={number}")
        old.execute(f"PRAGMA application_id={schema.APPLICATION_ID}")
    return number, content(home / "reviews.db")


def content(path):
    """Return {(table, column): values} of the database ``path``."""
    with closing(sqlite3.connect(path)) as connection:
        tables = [name for (name,) in connection.execute("SELECT name FROM sqlite_schema WHERE type = 'table'")]
        found = {}
        for table in tables:
            rows = connection.execute(f"SELECT * FROM {table}")
            names, values = [column[0] for column in rows.description], rows.fetchall()
            found |= {(table, name): [row[place] for row in values] for place, name in enumerate(names)}
    return found


ADDED = {2: ("learner", "model"), 3: ("review", "asked_back")}  # schema -> the column that it added


def test_a_saved_database_is_copied_and_brought_up_to_date(saved, home):
    number, before = saved
    assert len(before["review", "id"]) > 5 and all(
        before[table, "id"] for table in ("withdrawal", "event", "debrief", "flag", "opening")
    )
    Store.open(home, clock=invented.clock()).close()
    after = content(home / "reviews.db")
    steps = {place: values for place, values in after.items() if place[0] == "_sqlite_migrations"}
    assert {place: after[place] for place in before if place not in steps} == {
        place: values for place, values in before.items() if place not in steps
    }
    assert after.keys() - before.keys() == {column for schema, column in ADDED.items() if schema > number}
    assert len(steps["_sqlite_migrations", "name"]) == schema.SCHEMA
    kept = home / f"reviews-schema-{number}.db"
    assert kept.exists() == (number < schema.SCHEMA)
    assert not kept.exists() or content(kept) == before


def test_the_states_of_a_saved_database_are_those_its_reviews_lead_to(saved, home):
    """The saved one comes from a memory of its time; what it knew is worked out anew before a plan is made."""
    with Store.open(home, clock=invented.clock()) as store:
        assert store.chain_faults(1000) == []
        states, learner = knowledge.known(store)
        assert (states, learner) == standing(store) and len(states) == len(saved[1]["belief", "item"])
        rebuilt = store.rebuild(knowledge.after_review)
        assert (rebuilt.states, rebuilt.learner) == (states, learner)
        assert store.verify(knowledge.after_review, knowledge.model()) == []
        (newest, review), count = store.last_review(), store.count()
        recorded = store.record(review, knowledge.after_review, model=knowledge.model())
        store.withdraw(recorded.id, knowledge.after_review, knowledge.model())
        assert standing(store) == (states, learner)
        store.withdraw(newest, knowledge.after_review, knowledge.model())
        assert store.count() == count - 1 and store.verify(knowledge.after_review, knowledge.model()) == []


NEXT, RELEASED = schema.SCHEMA + 1, schema.migrations


def with_next_step(fails=False):
    steps = RELEASED()

    @steps(name="next: invented")
    def following(db):
        db.execute("ALTER TABLE review ADD COLUMN weather TEXT")
        if fails:
            db.execute("INSERT INTO nowhere VALUES (1)")

    return steps


@pytest.fixture
def newer(monkeypatch):
    """Let the program be one schema ahead of the file."""
    apply = schema.apply

    def prepare(fails=False):
        monkeypatch.setattr(schema, "SCHEMA", NEXT)
        monkeypatch.setattr(schema, "migrations", lambda: with_next_step(fails))
        monkeypatch.setattr(schema, "apply", lambda connection: apply(connection, None, NEXT))

    return prepare


@pytest.mark.parametrize("create", [True, False])
def test_an_older_file_is_copied_and_then_brought_up_to_date(home, newer, create):
    with Store.open(home, clock=invented.clock()) as store:
        fill(store, 10)
        stood = standing(store)
    newer()
    with Store.open(home, clock=invented.clock(), create=create) as store:
        assert store._read("PRAGMA user_version") == [(NEXT,)]
        assert "weather" in [row[1] for row in store._read("PRAGMA table_info(review)")]
        assert standing(store) == stood and store.verify(update) == []
        assert store._read("PRAGMA foreign_keys") == [(1,)]
    with closing(sqlite3.connect(home / f"reviews-schema-{schema.SCHEMA - 1}.db")) as kept:
        assert kept.execute("PRAGMA user_version").fetchall() == [(NEXT - 1,)]
        assert kept.execute("SELECT count(*) FROM review").fetchall() == [(10,)]


def test_a_step_that_fails_changes_nothing(home, newer, monkeypatch):
    with Store.open(home, clock=invented.clock()) as store:
        fill(store, 3)
    newer(fails=True)
    with pytest.raises(StorageError, match="nowhere"):
        Store.open(home, clock=invented.clock())
    monkeypatch.undo()
    with Store.open(home, clock=invented.clock()) as store:
        assert store._read("PRAGMA user_version") == [(schema.SCHEMA,)] and store.verify(update) == []
        assert "weather" not in [row[1] for row in store._read("PRAGMA table_info(review)")]


def test_a_step_that_leaves_loose_ends_changes_nothing(home):
    with Store.open(home, clock=invented.clock()) as store:
        fill(store, 3)
    steps = schema.migrations()

    @steps(name="next: careless")
    def following(db):
        db.execute("INSERT INTO belief VALUES ('stray', x'00', 99)")

    connection = access.to_write(home / "reviews.db")
    with closing(connection):
        with pytest.raises(StorageError, match="loose ends"):
            schema.apply(connection, steps, NEXT)
        assert schema.version(connection) == schema.SCHEMA
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
