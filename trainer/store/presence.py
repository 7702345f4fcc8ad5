"""Whether the open file still is the one of its name and holds what was stored in it.

SQLite goes on writing into a file that was deleted, moved or replaced meanwhile, as a synchronised folder does, and
mixes its own pages into one that was overwritten.  Nobody may be told that an answer is saved there.
"""

import contextlib
import os
import sqlite3
from pathlib import Path

from trainer.errors import StorageError
from trainer.store import rows
from trainer.store.connection import connect_to_read

PUT_BACK = "put back"  # setting: when a copy was put in place by our own hand, UTC text
GONE, REPLACED, OVERWRITTEN = "deleted or moved", "replaced by another file", "overwritten"


class Displaced(Exception):
    """What happened to the file, in words that follow "was"."""


class Presence:
    """Watches the file ``path`` for the one connection that writes to it.

    Costs two looks at the folder an answer; only where the file was changed by another hand is it read.
    """

    def __init__(self, path: Path, connection: sqlite3.Connection):
        self._path, self._connection = path, connection
        self._file = _identity(path)
        self._state = _state(path)
        self._last, self._put_back = (0, None), b""
        with contextlib.suppress(sqlite3.Error, UnicodeDecodeError):  # damage is told by those who meet it
            self._last, self._put_back = self._newest(), _put_back(connection)

    def freshen(self) -> None:
        """Forget pages read before another hand changed the file; to be called outside of a transaction."""
        if _state(self._path) != self._state:
            self._connection.execute("PRAGMA shrink_memory")

    def require(self) -> bool:
        """Return whether all is as it was, False where a copy was put back by our own hand; raise ``Displaced``.

        To be called before a commit.
        """
        self._require_file()
        return _state(self._path) == self._state or self._holds_the_last()

    def settle(self) -> None:
        """Take what was just committed for the last that the file must hold; raise ``Displaced`` if it is gone.

        The head of the file is looked at once more: another hand may have come between the look and the commit.
        """
        state, self._last = _state(self._path), self._newest()
        self._require_file()
        if not _begins_as_a_database(self._path):
            raise Displaced(OVERWRITTEN)
        self._state = state

    def _require_file(self):
        now = _identity(self._path)
        if now != self._file:
            raise Displaced(GONE if now is None else REPLACED)

    def _holds_the_last(self):
        """Look into the file by its name, as a program would that starts now."""
        number, digest = self._last
        try:
            other = connect_to_read(self._path, check=lambda *_: None)
        except (sqlite3.Error, StorageError) as error:
            raise Displaced(OVERWRITTEN) from error
        try:
            found = other.execute("SELECT digest FROM review WHERE id = ?", (number,)).fetchone()
            if (found or (None,))[0] == digest:
                return True
            if _put_back(other) > self._put_back:
                self._put_back = _put_back(other)
                return False
        except (sqlite3.Error, UnicodeDecodeError) as error:
            raise Displaced(OVERWRITTEN) from error
        finally:
            other.close()
        raise Displaced(OVERWRITTEN)

    def _newest(self):
        """Return (number, digest) of the newest review."""
        found = self._connection.execute("SELECT id, digest FROM review ORDER BY id DESC LIMIT 1").fetchone()
        return found or (0, None)


def mark_put_back(connection: sqlite3.Connection, at: str) -> None:
    """Write into a copy that it was put in place at ``at`` (UTC text), for windows that are open on it."""
    connection.execute(
        "INSERT INTO setting VALUES (?, ?) ON CONFLICT (key) DO UPDATE SET value = excluded.value",
        (PUT_BACK, rows.to_json(at)),
    )


def _put_back(connection):
    found = connection.execute("SELECT CAST(value AS BLOB) FROM setting WHERE key = ?", (PUT_BACK,)).fetchone()
    return found[0] if found else b""


def _identity(path):
    try:
        found = os.stat(path)
    except OSError:
        return None
    return found.st_dev, found.st_ino


def _begins_as_a_database(path):
    """Return whether the file begins as one (https://www.sqlite.org/fileformat.html, 1.3)."""
    try:
        with open(path, "rb") as file:
            return file.read(16) == b"SQLite format 3\0"
    except OSError:
        return False


def _state(path):
    try:
        found = os.stat(path)
    except OSError:
        return None
    return found.st_size, found.st_mtime_ns
