"""A first look at the database before the store is opened: the question kept for today.

Only what a cold start needs; nothing is written, and whatever is wrong with the file is left for the store
to say.
"""

import json
import sqlite3

from trainer import paths
from trainer.store.connection import uri


def opening(home):
    """Return the record kept by ``Store.set_opening``, None where there is none or the file can't be read."""
    path = paths.database(home)
    if not path.is_file():
        return None
    try:
        connection = sqlite3.connect(uri(path, "mode=ro"), uri=True, timeout=0.2)
        try:
            row = connection.execute("SELECT record FROM opening WHERE id = 1").fetchone()
        finally:
            connection.close()
        return json.loads(row[0]) if row else None
    except (sqlite3.Error, ValueError):
        return None
