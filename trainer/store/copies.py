"""The automatic copies of a home, in the order of what they hold: a clock that went wrong must not decide."""

import contextlib
import sqlite3
from pathlib import Path

from trainer.errors import StorageError
from trainer.patterns import Late
from trainer.store.connection import connect_to_read

_NAME = Late(r"reviews-(\d{4}-\d\d-\d\d)-(\d+)\.db")
KEPT = 7  # copies of one history


def folder(home: Path) -> Path:
    """Return the folder of the automatic copies."""
    return Path(home) / "backups"


def name(day: str, reviews: int) -> str:
    """Return the name of the copy that is made on ``day`` (YYYY-MM-DD) of so many reviews."""
    return f"reviews-{day}-{reviews}.db"


def listed(home: Path) -> list[Path]:
    """Return the automatic copies, the one that holds the most reviews first; of as many, the one of the latest day."""
    found = [(_NAME.fullmatch(copy.name), copy) for copy in folder(home).glob("reviews-*.db")]
    ordered = sorted(((int(match[2]), match[1], copy) for match, copy in found if match), reverse=True)
    return [copy for _, _, copy in ordered]


def day_of(copy: Path) -> str:
    """Return the local day on which ``copy`` was made, as the clock stood then."""
    match = _NAME.fullmatch(copy.name)
    return match[1] if match else ""


def superseded(home: Path, newest: Path) -> list[Path]:
    """Return the copies that can go once ``newest`` is there.

    Of those whose whole history ``newest`` goes on with, all but the fullest; of others (the data were lost or
    begun anew, or an older copy was put back) the fullest few stay too.
    """
    within, beside = [], []
    with _opened(newest) as latest:
        for copy in listed(home):
            if copy != newest:
                (within if latest is not None and _is_within(copy, latest) else beside).append(copy)
    return [*within[KEPT - 1 :], *beside[KEPT:]]


@contextlib.contextmanager
def _opened(path):
    """Yield a connection to ``path``, None where it can't be read."""
    try:
        connection = connect_to_read(path, check=lambda *_: None)
    except (sqlite3.Error, StorageError, OSError):
        yield None
        return
    try:
        yield connection
    finally:
        connection.close()


def _is_within(copy, latest):
    """Return whether the last review of ``copy`` stands in ``latest`` too, at the same place of the chain."""
    with _opened(copy) as older:
        if older is None:
            return False
        try:
            last = older.execute("SELECT id, digest FROM review ORDER BY id DESC LIMIT 1").fetchone()
            return last is None or latest.execute("SELECT 1 FROM review WHERE id = ? AND digest = ?", last).fetchone()
        except (sqlite3.Error, UnicodeDecodeError):
            return False
