"""Opens the database of a home: makes it, brings it up to date, or refuses it with a reason."""

from trainer.errors import StorageError
from trainer.store import faults, files, schema
from trainer.store.connection import connect, connect_to_read, writing

OURS = ("reviews", ".reviews", "backups", "decks", "exports", ".index", "answers-")  # what lies in a home of ours
SMALLEST_PAGE = 512  # bytes; a database is a whole number of pages (https://www.sqlite.org/fileformat.html)
# A read-only file gives the lock away and refuses only the first write; it is told now, not after an answer.
_NO_CHANGE = "DELETE FROM before WHERE review_id < 0"


def to_write(path, wait_s=5.0):
    """Return a connection to ``path`` that is known to be writable; make the file where it is missing."""
    if not path.exists():
        schema.create(path)
    refuse_cut(path)
    # Of a home that an older trainer made, or an empty folder that was handed in; one with other things is not ours.
    ours = [path.parent] if all(one.name.startswith(OURS) for one in path.parent.iterdir()) else []
    for each in (*files.with_helpers(path), *ours):
        files.make_private(each)
    connection = connect(path, check=schema.check, wait_s=wait_s)
    try:
        if schema.version(connection) < schema.SCHEMA:
            _bring_up_to_date(connection, path)
        with writing(connection):
            connection.execute(_NO_CHANGE)
    except BaseException:
        files.close(connection)
        raise
    return connection


def to_read(path, wait_s=5.0):
    """Return a connection to ``path`` that can only read; an empty one where there is no file."""
    if not path.exists():
        return schema.create_in_memory()
    refuse_cut(path)
    connection = connect_to_read(path, check=schema.check, wait_s=wait_s)
    if schema.version(connection) == schema.SCHEMA:
        return connection
    files.close(connection)
    return to_write(path, wait_s)


def _bring_up_to_date(connection, path):
    old = schema.version(connection)
    files.copy_database(connection, path.with_name(f"reviews-schema-{old}.db"))
    schema.apply(connection)


def refuse_cut(path):
    """Raise ``StorageError`` for a file that ends too early in a way that SQLite does not notice.

    It takes an empty file for a new database, and fills up a last page that is not whole.
    """
    size = path.stat().st_size if path.is_file() else None
    if size == 0:
        raise StorageError(
            f"{path} is empty (0 bytes): what it held is gone",
            hint=f"{faults.rescue(path)}; delete the file to start anew",
        )
    in_use = path.with_name(path.name + "-wal").exists()
    if size is not None and size % SMALLEST_PAGE and not in_use:
        raise StorageError(
            f"{path} is damaged: its end is missing, or it is not a trainer database", hint=faults.rescue(path)
        )
