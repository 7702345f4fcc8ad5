"""One way to open a database file and one way to write to it."""

import contextlib
import os
import sqlite3

from trainer.errors import StorageError
from trainer.store.faults import NO_ROOM, damaged, name_of

SCHEMA = 3  # the newest tables that this program knows; a cold start asks for it before the tables are loaded

# WAL keeps a report and a session independent of each other; FULL makes a returned commit survive a power
# cut; a checkpoint after every commit keeps a bare copy of the one file whole.
_PRAGMAS = (
    "synchronous=FULL",
    "foreign_keys=ON",
    "recursive_triggers=ON",  # else INSERT OR REPLACE walks past a trigger that forbids DELETE
    "wal_autocheckpoint=1",
    "trusted_schema=OFF",
    "cell_size_check=ON",
)


def uri(path, query):
    """Return the SQLite address of ``path`` with the options ``query``."""
    posix = path.absolute().as_posix()
    for char, code in (("%", "%25"), ("?", "%3f"), ("#", "%23")):
        posix = posix.replace(char, code)
    if not posix.isascii():  # a name of any bytes
        posix = "".join(chr(byte) if byte < 128 else f"%{byte:02x}" for byte in os.fsencode(posix))
    return f"file://{posix if posix.startswith('/') else '/' + posix}?{query}"


def _opened(path, query, pragmas, check, wait_s):
    connection = sqlite3.connect(uri(path, query), uri=True, timeout=wait_s, isolation_level=None)
    try:
        check(connection, path)  # before anything is written to a file that may not be ours
        for pragma in pragmas:
            connection.execute("PRAGMA " + pragma)
    except UnicodeDecodeError as error:
        # Python fails on SQLite's message where it quotes damaged bytes.
        connection.close()
        raise damaged("what the file says of its tables is no text") from error
    except BaseException:
        connection.close()
        raise
    return connection


def connect(path, *, check, wait_s=5.0):
    """Open the existing file ``path`` for reading and writing; a lock is waited for ``wait_s`` seconds.

    ``check(connection, path)`` reads from the file first and raises if it is not what was expected.
    A network share may refuse WAL; SQLite then goes on with a rollback journal, and so does the caller.
    """
    return _opened(path, "mode=rw", ("journal_mode=WAL", *_PRAGMAS), check, wait_s)


def connect_to_read(path, *, check, wait_s=5.0):
    """Open the existing file ``path`` so that it can only be read, from a read-only folder as well."""
    pragmas = (*_PRAGMAS, "query_only=ON")
    try:
        return _opened(path, "mode=rw", pragmas, check, wait_s)
    except sqlite3.OperationalError as error:
        if not name_of(error).startswith(("SQLITE_CANTOPEN", "SQLITE_READONLY", *NO_ROOM)) or not path.is_file():
            raise
    # Without the helper files of WAL, which a read-only folder or a full disk can't hold.
    _refuse_unfinished(path)
    return _opened(path, "immutable=1", pragmas, check, wait_s)


def _refuse_unfinished(path):
    log = path.with_name(path.name + "-wal")
    if log.exists() and log.stat().st_size:
        raise StorageError(
            f"{path} was not closed and its folder can't be written, or its disk is full",
            hint="free some space, or copy the folder to a place that can be written and choose that with --home",
        )


@contextlib.contextmanager
def writing(connection):
    """Hold the write lock from the first read on; commit at the end, or put everything back.

    A plain BEGIN takes the lock at the first write, and fails at once when another process wrote in between.
    """
    connection.execute("BEGIN IMMEDIATE")
    try:
        yield
        connection.execute("COMMIT")
    except BaseException:
        _put_back(connection)
        raise


def _put_back(connection):
    # SQLite has already rolled back after a full disk; a failing ROLLBACK would hide the first error.
    with contextlib.suppress(sqlite3.Error):
        if connection.in_transaction:
            connection.execute("ROLLBACK")


@contextlib.contextmanager
def reading(connection):
    """See one and the same state of the data for the whole block, whatever other windows write."""
    connection.execute("BEGIN")
    try:
        yield
    finally:
        _put_back(connection)
