"""The answers of a session whose database was taken away, in a file beside, and how the next start takes them in.

One JSON object a line: the columns of a review, and when it was withdrawn (null: it counts).
"""

import json
import os
import tempfile
from collections.abc import Iterable, Iterator
from pathlib import Path

from trainer.errors import StorageError
from trainer.store import files, history, rows

NAMES = "answers-*.jsonl"
Answer = tuple[tuple, str | None]  # values of ``rows.COLUMNS``, UTC text of its withdrawal


def keep(path: Path, answers: Iterable[Answer], stamp: str) -> Path | None:
    """Write ``answers`` beside the database ``path``, or where that fails among temporary files; None if nowhere."""
    lines = [
        json.dumps({"review": dict(zip(rows.COLUMNS, row, strict=True)), "withdrawn": withdrawn}) + "\n"
        for row, withdrawn in answers
    ]
    name = f"answers-{stamp}-{os.getpid()}.jsonl"
    for folder in (path.parent, Path(tempfile.gettempdir())):
        try:
            folder.mkdir(parents=True, exist_ok=True)
            files.write_private(folder / name, "".join(lines).encode("ascii"))
        except OSError:
            continue
        return folder / name
    return None


def waiting(home: Path) -> list[Path]:
    """Return the files of answers in the folder ``home`` that were not taken in yet."""
    return sorted(Path(home).glob(NAMES))


def read(file: Path) -> tuple[list[Answer], int]:
    """Return (the answers in ``file``, the number of lines that are none)."""
    found, faults = [], 0
    for line in file.read_bytes().splitlines():
        try:
            found.append(_answer(json.loads(line)))
        except (StorageError, ValueError, TypeError, KeyError, AttributeError, RecursionError):
            faults += 1
    return found, faults


def _answer(record):
    named = rows.LATER | record["review"]
    row = tuple(named[name] for name in rows.COLUMNS)
    withdrawn = record["withdrawn"]
    if withdrawn is not None:
        rows.instant(withdrawn)
    # Written anew: what a person edited must come out as the store would have written it.
    return rows.to_row(rows.from_row(row[1:]), rows.items_of(row[0])), withdrawn


def take_in(store, update, model: str) -> int:
    """Record the answers kept beside ``store`` that it does not hold yet, and return how many there were.

    A file that is taken in whole is removed; one with lines that are no answers is renamed and stays.
    """
    taken = 0
    for file in waiting(store.path.parent):
        try:
            answers, faults = read(file)
        except OSError:  # another window was first
            continue
        with store.together():
            taken += sum(_take(store, held, one, update, model) for held, one in _with_held(store, answers))
        if faults:
            os.replace(file, file.with_suffix(".faulty"))
        else:
            file.unlink(missing_ok=True)
    return taken


def _with_held(store, answers) -> Iterator[tuple[tuple | None, Answer]]:
    """Yield (number and digest in the store or None, answer): an answer given twice is held twice or taken once."""
    since = min((row[_AT] for row, _ in answers), default="")
    held = {}
    for piece in history.pieces(store._read, (*rows.COLUMNS, "digest"), since=since, withdrawn=True):
        for number, *row, digest in piece:
            held.setdefault(rows.content(row), []).append((number, digest))
    for row, withdrawn in answers:
        same = held.get(rows.content(row))
        yield (same.pop(0) if same else None), (row, withdrawn)


def _take(store, held, answer, update, model):
    """Record ``answer`` unless it is ``held``, withdraw it where it was withdrawn; return whether it was new."""
    row, withdrawn = answer
    if held is None:
        kept = store.record(rows.from_row(row[1:]), update, rows.items_of(row[0]), model)
        number, digest = kept.id, kept.digest
    else:
        number, digest = held
    if withdrawn is not None and not store._read("SELECT 1 FROM withdrawal WHERE review_id = ?", (number,)):
        store.withdraw(number, update, model, digest=digest)
    return held is None


_AT = rows.COLUMNS.index("at")
