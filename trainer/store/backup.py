"""Copies of the user's data: made, rotated, put back, erased."""

import contextlib
import os
import sqlite3
from pathlib import Path

from trainer import paths
from trainer.errors import StorageError
from trainer.frozen import frozen
from trainer.store import access, copies, files, rows, schema, verify
from trainer.store.connection import connect_to_read, reading
from trainer.store.copies import day_of, folder
from trainer.store.faults import name_of, require_sqlite, storage_error, told, unsound
from trainer.store.presence import mark_put_back
from trainer.store.records import Unwatched

_CONTENTS = "SELECT coalesce(max(id), 0) FROM review"


@frozen
class Where:
    """Where the data lie.  What can't be read is None, and ``fault`` says why."""

    database: Path
    size_bytes: int
    reviews: int | None
    schema: int | None
    fault: str
    backups: tuple[Path, ...]


def backup(home, to, *, clock):
    """Copy the data of ``home`` to the file ``to`` (or into that folder) and return the path of the copy.

    An older copy of that name is replaced when the new one is complete; any other file is left alone.
    """
    target = Path(to)
    path = require(home)
    with told(target):
        if target.is_dir():
            target = target / f"trainer-reviews-{clock.local().date().isoformat()}.db"
        if target.exists():
            _refuse_to_replace(target, path)
    _copy(path, target)
    return target


def daily(home, *, clock, progress=Unwatched):
    """Copy the data into the folder of automatic copies, at most once a local day; return the path or None.

    Copies that the new one makes superfluous are removed (``copies.superseded``).  Raises ``StorageError``, copies
    nothing and removes nothing where the data are damaged: a damaged copy must not take the place of a good one.
    """
    with told(folder(home)):
        today = clock.local().date().isoformat()
        if any(day_of(copy) == today for copy in copies.listed(home)):
            return None
    path = require(home)
    count, _ = _contents(path)
    if count == 0:
        return None  # a later session of today has something to keep
    target = folder(home) / copies.name(today, count)
    with progress("reviews checked", clock, total=count) as watched:
        _copy(path, target, check=lambda connection: _refuse_unsound(connection, path, watched.step))
    with told(folder(home)):
        files.remove(copies.superseded(home, target))
    return target


def restore(home, file, *, clock):
    """Put the copy ``file`` in the place of the data of ``home``.

    The copy is checked first.  What was there is kept, and its path returned (None if there was nothing).
    Other windows that are open go on with the restored data.
    """
    path, file = paths.database(home), Path(file)
    with told(path):
        if path.exists() and file.exists() and path.samefile(file):
            raise StorageError(f"{file} is the data themselves", hint="name a copy of them")
        path.parent.mkdir(parents=True, exist_ok=True)
        with ready(file, path, rows.utc_text(clock.now())) as part:
            return put_in_place(part, path, f"{clock.local():%Y-%m-%d-%H%M%S}", "restore")


@contextlib.contextmanager
def ready(file, path, at):
    """Yield a file beside ``path`` with what the copy ``file`` holds, in today's tables.

    Windows that are open know no others.  It says that it was put in place ``at`` (UTC text), so that they go on
    with it.  Raises ``StorageError`` for a file that is no sound copy.
    """
    with told(file):
        if not file.is_file():
            what = "is no file" if file.exists() else "is not there"
            raise StorageError(f"{file} {what}", hint="`trainer data where` lists the copies")
    with files.part_of(path.with_name("reviews-put-back.db")) as part:
        source = _opened(file, check=_check_copy)
        try:
            with told(path):
                files.copy_database(source, part)
        finally:
            source.close()
        with told(path), contextlib.closing(sqlite3.connect(part, isolation_level=None)) as connection:
            if schema.version(connection) < schema.SCHEMA:
                schema.apply(connection)
            mark_put_back(connection, at)
        yield part


@frozen
class Erased:
    """What was ``removed``, and what is ``left`` in the home: nothing of it are reviews."""

    removed: list[Path]
    left: list[Path]


def erase(home) -> Erased:
    """Remove the reviews of ``home`` with all automatic copies and everything that was written beside them.

    A link is followed: what it leads to is removed as well.  The user's own decks stay, and so do copies and
    reports that were written elsewhere.
    """
    path = paths.database(home)
    with told(path):
        if path.is_file():
            refuse_if_open(path, "nothing was erased")
        found = [*files.with_helpers(path), *sorted(path.parent.glob(f"{path.name}.*.part*"))]
        found += sorted({*path.parent.glob("reviews-*.db*"), *path.parent.glob("answers-*.*")})
        found += sorted(folder(home).glob("reviews-*.db*"))
        led_to = [target for one in found if one.is_symlink() for target in _led_to(one)]
        removed = files.remove([*found, *led_to])
        if folder(home).is_dir() and not any(folder(home).iterdir()):
            folder(home).rmdir()
        left = sorted(path.parent.iterdir()) if path.parent.is_dir() else []
        return Erased(removed=removed, left=left)


def _led_to(link):
    """Return the file that ``link`` leads to, with its helpers; none for a folder."""
    target = Path(os.path.realpath(link))
    return files.with_helpers(target) if target.is_file() else []


def where(home):
    """Return ``Where`` the data of ``home`` lie.  Nothing is made or changed."""
    path = paths.database(home)
    reviews = number = None
    size, automatic, others, fault = 0, [], [], ""
    try:
        with told(path):
            size = path.stat().st_size if path.is_file() else 0
            automatic = copies.listed(home)
            others = sorted(set(folder(home).glob("reviews-*.db")) - set(automatic))
            reviews, number = _contents(path) if path.exists() else (0, None)
    except StorageError as error:
        fault = str(error)
    backups = (*automatic, *others)
    return Where(database=path, size_bytes=size, reviews=reviews, schema=number, fault=fault, backups=backups)


def require(home):
    """Return the path of the database of ``home``; raise ``StorageError`` where there is none."""
    path = paths.database(home)
    with told(path):
        there = path.exists()
    if not there:
        raise StorageError(f"{path} is not there", hint="practice once, then there is something to keep")
    return path


def _opened(path, check=schema.check):
    """Return a connection to ``path`` that reads it as it is, of an older schema as well."""
    require_sqlite()
    with told(path):
        access.refuse_cut(path)
        return connect_to_read(path, check=check)


def _contents(path):
    """Return (number of reviews, schema) of the database ``path``."""
    connection = _opened(path)
    try:
        with told(path):
            return connection.execute(_CONTENTS).fetchone()[0], schema.version(connection)
    finally:
        files.close(connection)


def _refuse_unsound(connection, path, step):
    def read(sql, values=()):
        return connection.execute(sql, values).fetchall()

    with told(path), reading(connection):
        sentence = verify.damage(read, step)
    if sentence:
        raise unsound(path, sentence)


def refuse_unsound(path, called=None):
    """Raise ``StorageError`` where the database ``path`` (``called`` so in the message) is not as it was stored."""
    with contextlib.closing(_opened(path)) as connection:
        _refuse_unsound(connection, called or path, lambda: None)


def _copy(path, target, check=lambda connection: None):
    connection = _opened(path)
    try:
        check(connection)
        with told(target):  # what is full or read-only is where the copy goes
            target.parent.mkdir(parents=True, exist_ok=True)
            try:
                files.copy_database(connection, target)
            except sqlite3.DatabaseError as error:
                if name_of(error).startswith("SQLITE_CORRUPT"):  # what is damaged is not
                    raise storage_error(error, path) from error
                raise
    finally:
        files.close(connection)


def _refuse_to_replace(target, path):
    if target.samefile(path):
        raise StorageError(f"{target} is the data themselves", hint="name another file")
    try:
        connect_to_read(target, check=schema.check).close()
    except (sqlite3.Error, StorageError):
        raise StorageError(
            f"{target} is there already and is not a copy of reviews", hint="name another file"
        ) from None


def _check_copy(connection, path):
    schema.check(connection, path)
    if connection.execute("PRAGMA integrity_check(1)").fetchall() != [("ok",)]:
        raise StorageError(f"{path} is damaged", hint="`trainer data where` lists the copies")


def put_in_place(part, path, stamp, verb):
    """Put the finished file ``part`` in the place of the database ``path`` (by ``verb``, "restore" or "merge").

    At no instant there is no ``path``.  Return where what was there is kept, None if there was nothing.
    """
    if not path.exists():
        files.flush_file(part)
        os.replace(part, path)
        files.flush_folder(path.parent)
        return None
    try:
        connection = access.to_write(path)
    except (sqlite3.Error, StorageError) as error:
        _raise_unless_lost(error)
        return _set_aside(part, path, stamp)
    try:
        return _overwrite(connection, path, part, stamp, verb)
    except sqlite3.DatabaseError as error:
        _raise_unless_lost(error)  # it opens, but a page of it is damaged: it can't be kept as a tidy copy
    finally:
        files.close(connection)
    refuse_if_open(path, f"nothing was {verb}d")
    return _set_aside(part, path, stamp)


def _overwrite(connection, path, part, stamp, verb):
    """Copy ``part`` over the database behind ``connection`` as one transaction."""
    kept = folder(path.parent) / f"reviews-before-{verb}-{stamp}.db"
    kept.parent.mkdir(exist_ok=True)
    files.copy_database(connection, kept)
    tries = iter(range(20))

    def give_up(status, remaining, total):
        if status == sqlite3.SQLITE_BUSY and next(tries, None) is None:
            raise StorageError(
                f"another trainer window is writing to {path}; nothing was {verb}d",
                hint="close it, then try again",
            )

    with contextlib.closing(sqlite3.connect(part)) as source:
        source.backup(connection, progress=give_up)
    return kept


def _raise_unless_lost(error):
    """Raise ``error`` again unless it says that there is nothing of ours to save in the file."""
    if not isinstance(error, StorageError) and not name_of(error).startswith(
        ("SQLITE_NOTADB", "SQLITE_CORRUPT", "SQLITE_IOERR_SHORT_READ")
    ):
        raise error


def _set_aside(part, path, stamp):
    """Keep the damaged ``path`` with its log under another name and put ``part`` in its place."""
    kept = path.with_name(f"reviews-damaged-{stamp}.db")
    files.flush_file(part)
    for old, new in zip(files.with_helpers(path), files.with_helpers(kept), strict=True):
        if old.exists():
            files.keep_as(old, new)
    # The old log must not be taken for one of the new file.
    files.remove(files.with_helpers(path)[1:])
    os.replace(part, path)
    files.flush_folder(path.parent)
    return kept


def refuse_if_open(path, consequence):
    """Raise ``StorageError`` while another window has the file open: only alone can the mode be changed."""
    connection = sqlite3.connect(path, timeout=0.5, isolation_level=None)
    try:
        connection.execute("PRAGMA journal_mode=DELETE").fetchall()
    except sqlite3.OperationalError as error:
        if name_of(error).startswith("SQLITE_BUSY"):
            raise StorageError(
                f"another trainer window has {path} open; {consequence}", hint="close it, then try again"
            ) from None
    except sqlite3.DatabaseError:
        pass  # not a database any more: it can go
    finally:
        connection.close()
