"""Files that appear whole or not at all, and stay after a power cut."""

import contextlib
import os
import shutil
import sqlite3
from pathlib import Path

from trainer.store.connection import uri


def with_helpers(path):
    """Return ``path`` and the names of the helper files that SQLite may keep beside it."""
    path = Path(path)
    return [path, *(path.with_name(path.name + end) for end in ("-wal", "-shm", "-journal"))]


def part_name(path):
    """Return a name beside ``path``, of this process alone, for a file that is still being written."""
    return path.with_name(f"{path.name}.{os.getpid()}.part")


@contextlib.contextmanager
def part_of(path):
    """Yield the name of a part file for ``path``; nothing of it is left after the block."""
    part = part_name(path)
    remove(with_helpers(part))
    try:
        yield part
    finally:
        with contextlib.suppress(OSError):
            remove(with_helpers(part))


def remove(paths):
    """Remove those of ``paths`` that are there, links themselves and not what they lead to, and return them."""
    removed = [path for path in paths if os.path.lexists(path)]
    for path in removed:
        path.unlink()
    return removed


def make_private(path):
    """Take from everybody but its owner the right to read ``path``, where that can be done."""
    with contextlib.suppress(OSError):
        mode = os.stat(path).st_mode
        if mode & 0o077:
            os.chmod(path, mode & 0o700)


def write_private(path, data):
    """Write ``data`` as the file ``path`` that only its owner can read, whole or not at all, and flush it."""
    with part_of(path) as part:
        handle = os.open(part, os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0), 0o600)
        with open(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        os.replace(part, path)
    flush_folder(path.parent)


def flush_file(path):
    """Wait until the content of ``path`` is on the disk."""
    with open(path, "r+b") as file:
        os.fsync(file.fileno())


def flush_folder(folder):
    """Wait until the names in ``folder`` are on the disk, where the system lets a folder be opened."""
    try:
        handle = os.open(folder, os.O_RDONLY)
    except OSError:  # Windows writes names by itself
        return
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def keep_as(old, new):
    """Let the file ``old`` be there as ``new``, too."""
    try:
        os.link(old, new)
    except OSError:  # a file system without links
        shutil.copyfile(old, new)
        flush_file(new)


def publish(part, path):
    """Give the finished file ``part`` the name ``path`` unless another process was first."""
    try:
        os.link(part, path)  # unlike a rename it never takes another's place
    except FileExistsError:
        return
    except OSError:  # a file system without links
        if not path.exists():
            os.rename(part, path)
    flush_folder(path.parent)


def copy_database(connection, target):
    """Write what ``connection`` (opened by ``connection``) sees as one tidy file ``target``, in place of an older one.

    The copy keeps no log beside it, so it opens from a read-only place too.
    """
    with part_of(target) as part:
        (query_only,) = connection.execute("PRAGMA query_only").fetchone()
        connection.execute("PRAGMA query_only=OFF")  # it forbids to write another file too
        try:
            connection.execute("VACUUM INTO ?", (uri(part, "mode=rwc"),))
        finally:
            connection.execute(f"PRAGMA query_only={query_only}")
        flush_file(part)
        os.replace(part, target)
    flush_folder(target.parent)


def close(connection):
    """Close ``connection`` and fold its log into the file."""
    # What was committed is safe in the log; a full disk or a second window only delays the folding.
    with contextlib.suppress(sqlite3.Error):
        connection.execute("PRAGMA busy_timeout=0")  # a report in another window is not waited for
        connection.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchall()
    connection.close()
