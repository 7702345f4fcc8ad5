"""A first look at the database before the store is opened: what a cold start and the choice of files need.

Nothing is written, and whatever is wrong with the file is left for the store to say.
"""

import json
import sqlite3
import zlib

from trainer import paths
from trainer.store import shapes
from trainer.store.connection import SCHEMA, uri


def opening(home):
    """Return the record kept by ``Store.set_opening``, None where there is none or it is not as it was written."""
    record = _first(home, "SELECT record FROM opening WHERE id = 1", ())
    return record if sealed(record) else None


def seal(question):
    """Return the checksum of the record of a question, which it is kept with."""
    return zlib.crc32(json.dumps(question, sort_keys=True, separators=(",", ":")).encode("ascii"))


def sealed(record):
    """Return whether ``record`` holds a question as it was written: damage must not be asked, nor graded."""
    return isinstance(record, dict) and "question" in record and record.get("seal") == seal(record["question"])


def setting(home, key):
    """Return the setting ``key``, None where it was never set or the file can't be read."""
    found = _first(home, "SELECT value FROM setting WHERE key = ?", (key,))
    return found if shapes.fits(found, shapes.SETTINGS.get(key, object)) else None


def _first(home, sql, values):
    path = paths.database(home)
    if not path.is_file():
        return None
    try:
        connection = sqlite3.connect(uri(path, "mode=ro"), uri=True, timeout=0.2)
        try:
            if connection.execute("PRAGMA user_version").fetchone()[0] > SCHEMA:
                return None  # the store refuses it; nothing must be asked before
            row = connection.execute(sql, values).fetchone()
        finally:
            connection.close()
        return json.loads(row[0]) if row else None
    except (sqlite3.Error, ValueError, RecursionError, TypeError):
        return None
