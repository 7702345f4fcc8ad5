"""The tables.  They are made here and nowhere else; a released step never changes.

A new step is a new list of statements, a new function in ``migrations`` and one more in ``connection.SCHEMA``.
A table that is remade loses its triggers: make them again in the same step.  A column that a review gains comes
with a field of ``Review`` that has the same default: the digests of older rows leave it out (``rows.LATER``).
"""

import hashlib
import os
import sqlite3

from trainer.errors import StorageError
from trainer.store import files
from trainer.store.connection import SCHEMA, writing
from trainer.store.faults import rescue

APPLICATION_ID = 0x43684646  # marks the file as ours

_KEPT = ("review", "withdrawal", "flag")  # rows are added and never changed or removed
_FIRST = (
    """CREATE TABLE review (
        id INTEGER PRIMARY KEY,
        items TEXT NOT NULL,
        drill_id TEXT NOT NULL,
        deck TEXT NOT NULL,
        deck_hash TEXT NOT NULL,
        kind TEXT NOT NULL,
        area TEXT NOT NULL,
        form TEXT NOT NULL,
        quantity TEXT NOT NULL,
        inputs TEXT NOT NULL,
        seed TEXT NOT NULL,
        question TEXT NOT NULL,
        typed TEXT NOT NULL,
        value TEXT NOT NULL,
        truth TEXT NOT NULL,
        unit TEXT NOT NULL,
        tolerance_on REAL,
        tolerance_inside REAL,
        deviation REAL,
        verdict TEXT NOT NULL,
        score REAL NOT NULL CHECK (score BETWEEN 0 AND 1),
        slip TEXT NOT NULL,
        parts TEXT NOT NULL,
        seconds REAL,
        limit_s REAL NOT NULL,
        hint_used INTEGER NOT NULL CHECK (hint_used IN (0, 1)),
        mode TEXT NOT NULL,
        predicted REAL NOT NULL CHECK (predicted BETWEEN 0 AND 1),
        guess REAL CHECK (guess BETWEEN 0 AND 1),
        at TEXT NOT NULL CHECK (length(at) = 24),
        offset_min INTEGER NOT NULL,
        engine_version TEXT NOT NULL,
        digest BLOB NOT NULL CHECK (length(digest) = 32)
    ) STRICT""",
    "CREATE INDEX review_by_drill ON review (drill_id, id)",
    """CREATE TABLE withdrawal (
        id INTEGER PRIMARY KEY,
        review_id INTEGER NOT NULL UNIQUE REFERENCES review (id),
        at TEXT NOT NULL CHECK (length(at) = 24),
        digest BLOB NOT NULL CHECK (length(digest) = 32)
    ) STRICT""",
    """CREATE TABLE belief (
        item TEXT PRIMARY KEY,
        state BLOB NOT NULL,
        last_review INTEGER NOT NULL REFERENCES review (id)
    ) STRICT, WITHOUT ROWID""",
    "CREATE TABLE learner (id INTEGER PRIMARY KEY CHECK (id = 1), state BLOB NOT NULL) STRICT",
    # The state as it was before each of the newest reviews, so that undo is as quick after years of use.
    """CREATE TABLE before (
        review_id INTEGER NOT NULL REFERENCES review (id),
        item TEXT NOT NULL,
        state BLOB,
        last_review INTEGER,
        learner BLOB,
        PRIMARY KEY (review_id, item)
    ) STRICT, WITHOUT ROWID""",
    """CREATE TABLE event (
        id INTEGER PRIMARY KEY,
        name TEXT NOT NULL,
        at TEXT NOT NULL CHECK (length(at) = 24),
        offset_min INTEGER NOT NULL,
        minutes_per_day REAL NOT NULL CHECK (minutes_per_day > 0),
        areas TEXT NOT NULL,
        standard TEXT NOT NULL,
        created TEXT NOT NULL CHECK (length(created) = 24)
    ) STRICT""",
    """CREATE TABLE debrief (
        id INTEGER PRIMARY KEY,
        flown TEXT NOT NULL CHECK (length(flown) = 10),
        remarks TEXT NOT NULL,
        phases TEXT NOT NULL,
        created TEXT NOT NULL CHECK (length(created) = 24)
    ) STRICT""",
    """CREATE TABLE flag (
        id INTEGER PRIMARY KEY,
        drill_id TEXT NOT NULL,
        deck TEXT NOT NULL,
        deck_hash TEXT NOT NULL,
        question TEXT NOT NULL,
        review_id INTEGER REFERENCES review (id),
        at TEXT NOT NULL CHECK (length(at) = 24),
        note TEXT NOT NULL
    ) STRICT""",
    "CREATE TABLE setting (key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT, WITHOUT ROWID",
    "CREATE TABLE opening (id INTEGER PRIMARY KEY CHECK (id = 1), record TEXT NOT NULL) STRICT",
    *(
        f"""CREATE TRIGGER {table}_stays_{verb.lower()} BEFORE {verb} ON {table}
        BEGIN SELECT RAISE(ABORT, '{table} rows are never changed or removed'); END"""
        for table in _KEPT
        for verb in ("UPDATE", "DELETE")
    ),
    # INSERT OR REPLACE removes a row without firing a trigger on DELETE, so the order of numbers is kept too.
    *(
        f"""CREATE TRIGGER {table}_in_order BEFORE INSERT ON {table}
        WHEN new.id IS NOT (SELECT coalesce(max(id), 0) + 1 FROM {table})
        BEGIN SELECT RAISE(ABORT, '{table} rows are numbered without gaps'); END"""
        for table in _KEPT
    ),
)
# States say which memory model made them.  They are all of one model, so it stands beside the learner, which every
# answer writes.  A trainer of schema 1 that is still open fails to write there: it would mix in states of its own.
_SECOND = ("ALTER TABLE learner ADD COLUMN model TEXT NOT NULL DEFAULT ''",)
_THIRD = ("ALTER TABLE review ADD COLUMN asked_back TEXT NOT NULL DEFAULT ''",)
_STEPS = "_sqlite_migrations"
# Of all that a database of the present schema holds: a start compares it without making a second one.
DIGEST = "aa9fbc97eb49e9384efb880450aaf03c0def4c17893e435a395b59ff06ef6ad5"


def migrations():
    """Return the steps that lead from an empty file to the present tables."""
    from sqlite_utils import Migrations  # slow to import, and needed only when a step is due

    steps = Migrations("trainer")

    @steps(name="1: reviews, states, events")
    def first(db):
        for statement in _FIRST:
            db.execute(statement)

    @steps(name="2: the model that made the states")
    def second(db):
        for statement in _SECOND:
            db.execute(statement)

    @steps(name="3: what was asked back before an answer was read")
    def third(db):
        for statement in _THIRD:
            db.execute(statement)

    return steps


def apply(connection, steps=None, schema=SCHEMA):
    """Bring the tables behind ``connection`` up to date: all steps that are due, or none of them.

    The lock is taken before the steps are counted, so two processes that start at once don't both apply them.
    """
    from sqlite_utils import Database

    steps = steps or migrations()
    # A step that remakes a table would otherwise take the rows that point to it along.
    connection.execute("PRAGMA foreign_keys=OFF")
    with writing(connection):
        steps.apply(Database(connection, execute_plugins=False))
        connection.execute(f"PRAGMA application_id={APPLICATION_ID}")
        connection.execute(f"PRAGMA user_version={schema}")
        if connection.execute("PRAGMA foreign_key_check").fetchall():
            raise StorageError("the step to the new schema left loose ends; nothing was changed")
    connection.execute("PRAGMA foreign_keys=ON")


def create(path):
    """Make a new database ``path`` with its folder; leave one alone that another process made meanwhile.

    It gets its name only when it is complete: a file of that name without tables is always a damaged one.
    """
    path.parent.mkdir(parents=True, exist_ok=True)
    with files.part_of(path) as part:
        os.close(os.open(part, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600))  # whoever calls, with whatever umask
        connection = sqlite3.connect(part, isolation_level=None)
        try:
            apply(connection)
            # Here, where nobody else is: of two that switch the mode at once, one fails without waiting.
            connection.execute("PRAGMA journal_mode=WAL").fetchall()
        finally:
            files.close(connection)
        files.flush_file(part)
        files.publish(part, path)


def create_in_memory():
    """Return a connection to an empty database that refuses to be written to."""
    connection = sqlite3.connect(":memory:", isolation_level=None)
    apply(connection)
    connection.execute("PRAGMA query_only=ON")
    return connection


def version(connection):
    """Return the schema number of the database behind ``connection``."""
    return connection.execute("PRAGMA user_version").fetchone()[0]


def check(connection, path):
    """Raise ``StorageError`` unless the file is ours, from no newer program, and holds our tables and nothing else.

    A trigger, a view or a rule that somebody else put in could change what is stored, or never end.
    """
    if connection.execute("PRAGMA application_id").fetchone()[0] != APPLICATION_ID:
        raise StorageError(
            f"{path} is not a trainer database",
            hint=f"choose another folder with --home, or {rescue(path)}",
        )
    found = version(connection)
    if found > SCHEMA:
        raise StorageError(
            f"{path} was written by a newer trainer (schema {found}; this one knows {SCHEMA})",
            hint="install the newer trainer; nothing was changed",
        )
    have = _objects(connection)
    if found == SCHEMA and _digest(have) == DIGEST:
        return
    wanted = _objects_of(found)
    if lacking := sorted(wanted.keys() - have.keys()):
        raise StorageError(f"{path} lacks {', '.join(lacking)}", hint=rescue(path))
    if foreign := sorted(name for name, what in have.items() if wanted.get(name) != what):
        raise StorageError(f"{path} holds what is none of ours: {', '.join(foreign)[:200]}", hint=rescue(path))


def _objects(connection):
    """Return {name: (type, SQL without its white space)} of tables, indexes, triggers and views.

    The table in which steps are noted is another library's, which may spell it in another way.
    """
    found = connection.execute("SELECT name, type, tbl_name, sql FROM sqlite_schema").fetchall()
    return {
        str(name): (kind, "".join(str(sql).split()) if table != _STEPS else "")
        for name, kind, table, sql in found
        if sql is not None
    }


def _digest(objects):
    return hashlib.sha256(repr(sorted(objects.items())).encode("utf-8", "replace")).hexdigest()


def _objects_of(number):
    """Return ``_objects`` of a sound database of schema ``number``."""
    connection = sqlite3.connect(":memory:", isolation_level=None)
    try:
        _apply_first(connection, number)
        return _objects(connection)
    finally:
        connection.close()


def _apply_first(connection, number):
    from sqlite_utils import Database

    steps, database = migrations(), Database(connection, execute_plugins=False)
    later = [step.name for step in steps.pending(database)][number:]
    steps.apply(database, stop_before=later[0] if later else None)
