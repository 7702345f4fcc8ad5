"""A database that fails at a call of one's choice."""

import sqlite3

_CONNECT = sqlite3.connect
MESSAGES = {
    "SQLITE_FULL": "database or disk is full",
    "SQLITE_IOERR_WRITE": "disk I/O error",
    "SQLITE_IOERR_FSYNC": "disk I/O error",
    "SQLITE_BUSY": "database is locked",
    "SQLITE_READONLY": "attempt to write a readonly database",
    "SQLITE_CORRUPT": "database disk image is malformed",
    "SQLITE_CANTOPEN": "unable to open database file",
}


def error(name):
    """Return the error that Python raises when SQLite answers ``name``."""
    made = (sqlite3.DatabaseError if name == "SQLITE_CORRUPT" else sqlite3.OperationalError)(MESSAGES[name])
    made.sqlite_errorname = name
    return made


class Failing:
    """Stands in the place of ``sqlite3.connect``; call number ``at`` (from 1) is answered with ``name``.

    With ``late`` the call is carried out before it fails, as when the answer of the disk gets lost.
    """

    def __init__(self, at=0, name="SQLITE_FULL", *, late=False, only=""):
        self.at, self.name, self.late, self.only = at, name, late, only
        self.calls = []

    def connect(self, *args, **kwargs):
        """Open a connection whose calls are counted."""
        host = self

        class Connection(sqlite3.Connection):
            def execute(self, sql, *values):
                return host.call(sql, lambda: super(Connection, self).execute(sql, *values))

            def executemany(self, sql, *values):
                return host.call(sql, lambda: super(Connection, self).executemany(sql, *values))

            def backup(self, *args, **kwargs):
                return host.call("BACKUP", lambda: super(Connection, self).backup(*args, **kwargs))

        return self.call("OPEN", lambda: _CONNECT(*args, factory=Connection, **kwargs))

    def call(self, sql, carry_out):
        """Carry out one call, or fail."""
        if self.only and not sql.startswith(self.only):
            return carry_out()
        self.calls.append(sql)
        if len(self.calls) != self.at:
            return carry_out()
        if self.late:
            done = carry_out()
            if sql == "OPEN":
                done.close()
        raise error(self.name)
