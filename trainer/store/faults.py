"""Turns what SQLite and the file system answer into one line that says what to do next."""

import contextlib
import sqlite3
from pathlib import Path

from trainer.errors import DisplacedError, StorageError

OLDEST_SQLITE = (3, 37, 0)  # the first with STRICT tables

RESCUE = object()  # a hint that depends on the copies there are
_BY_NAME = {
    "SQLITE_BUSY": (
        "another trainer window is writing to {path}; nothing was saved",
        "wait a moment or close it, then try again",
    ),
    "SQLITE_FULL": ("the disk is full; nothing was saved to {path}", "free some space, then try again"),
    "SQLITE_READONLY": (
        "{path} can't be written",
        "make the file and its folder writable, or choose another folder with --home",
    ),
    "SQLITE_CANTOPEN": (
        "{path} can't be opened",
        "check that it is a file and that its folder is writable, or choose another with --home",
    ),
    "SQLITE_NOTADB": ("{path} is not a trainer database", RESCUE),
    "SQLITE_CORRUPT": ("{path} is damaged", RESCUE),
    "SQLITE_IOERR": (
        "the disk failed while {path} was in use; the last answer may not be saved",
        "check the disk, then `trainer data verify`",
    ),
}
_BY_NAME["SQLITE_LOCKED"] = _BY_NAME["SQLITE_PROTOCOL"] = _BY_NAME["SQLITE_BUSY"]
_BY_NAME["SQLITE_PERM"] = _BY_NAME["SQLITE_AUTH"] = _BY_NAME["SQLITE_READONLY"]


NO_ROOM = ("SQLITE_IOERR_SHMSIZE", "SQLITE_IOERR_SHMMAP")


def name_of(error):
    """Return SQLite's name of ``error``, "" for one that Python's own part of the library raised."""
    return getattr(error, "sqlite_errorname", None) or ""


def rescue(path):
    """Return what to do about the lost database ``path``: save what is readable, or put back the last copy."""
    return f"`trainer data salvage` saves what can be read of it, {last_copy(path)}"


def last_copy(path):
    """Return how to put back the automatic copy of the database ``path`` that holds most."""
    from trainer.store import copies  # which opens files, and so needs this module

    found = copies.listed(Path(path).parent)
    if not found:
        return "`trainer data restore FILE` puts back a copy of yours"
    return f'`trainer data restore "{found[0]}"` puts back the last copy'


def damaged(reason):
    """Return the error with which SQLite tells of a damaged file."""
    error = sqlite3.DatabaseError(reason)
    error.sqlite_errorname = "SQLITE_CORRUPT"
    return error


def _named(name, path):
    message, hint = _BY_NAME[name]
    return StorageError(message.format(path=path), hint=rescue(path) if hint is RESCUE else hint)


def storage_error(error, path):
    """Return the ``StorageError`` that tells a person what ``error`` (of SQLite) means for ``path``."""
    # A full disk has no room for the shared memory of a window either, which SQLite tells as a failing disk.
    primary = "SQLITE_FULL" if name_of(error) in NO_ROOM else "_".join(name_of(error).split("_")[:2])
    if primary in _BY_NAME:
        return _named(primary, path)
    reason = " ".join(str(error).split())
    return StorageError(f"{path} can't be used ({reason})", hint="`trainer data verify` tells more")


def full(path):
    """Return the ``StorageError`` for a disk without room for an answer."""
    return _named("SQLITE_FULL", path)


def unwritable(path):
    """Return the ``StorageError`` for a file or a folder that can't be written."""
    return _named("SQLITE_READONLY", path)


def unsound(path, sentence):
    """Return the ``StorageError`` for a database that can be read but is not as it was stored."""
    return StorageError(f"{path} is damaged: {sentence.rstrip('.')}", hint=rescue(path))


def displaced(path, what, answers, kept):
    """Return the error for the database ``path`` that "was ``what``" during a session of ``answers``.

    ``kept`` is the file that holds them now, None if there is none.
    """
    happened = f"{path} was {what} while this window was open"
    if not answers:
        return DisplacedError(f"{happened}; nothing was saved", hint="look what moved it, then start again")
    some, are = ("the answer", "is") if answers == 1 else (f"the {answers} answers", "are")
    if kept is None:
        return DisplacedError(
            f"{happened}; {some} of this session could be kept nowhere", hint="they are lost unless it is put back"
        )
    if kept.parent == Path(path).parent:
        hint = f"the next start takes them in; `trainer data merge` brings in what was moved. {last_copy(path)}"
        return DisplacedError(f"{happened}; {some} of this session {are} kept in {kept}", hint=hint)
    return DisplacedError(
        f"{happened}; {some} of this session {are} kept in {kept}", hint=f"move that file to {Path(path).parent}"
    )


def is_lost(error):
    """Return whether the ``StorageError`` says that the file no longer is a sound database."""
    return name_of(error.__cause__).startswith(("SQLITE_NOTADB", "SQLITE_CORRUPT", "SQLITE_READONLY_DBMOVED"))


def file_error(error, path):
    """Return the ``StorageError`` for an ``OSError`` met at ``path``."""
    reason = error.strerror or type(error).__name__
    return StorageError(f"{error.filename or path}: {reason}", hint="check the folder, or choose another with --home")


@contextlib.contextmanager
def told(path):
    """Raise ``StorageError`` for every failure of SQLite or of the file system inside the block.

    A constraint that is broken or an SQL statement that can't run is a bug of this program, not something
    that a person can act on; it keeps its traceback.
    """
    try:
        yield
    except (sqlite3.IntegrityError, sqlite3.ProgrammingError, sqlite3.InterfaceError, sqlite3.DataError):
        raise
    except sqlite3.Error as error:
        raise storage_error(error, path) from error
    except UnicodeDecodeError as error:  # Python fails on SQLite's message where it quotes damaged bytes
        raise storage_error(damaged(str(error)), path) from error
    except OSError as error:
        raise file_error(error, path) from error


def require_sqlite(version=None):
    """Raise ``StorageError`` when the SQLite library is older than the tables need."""
    version = version or sqlite3.sqlite_version_info
    if version < OLDEST_SQLITE:
        have, need = ".".join(map(str, version)), ".".join(map(str, OLDEST_SQLITE[:2]))
        raise StorageError(
            f"this Python comes with SQLite {have}; {need} or newer is needed",
            hint="install Python from python.org or with uv, which bring a newer one",
        )
