"""Brings the reviews of another home of the same pilot into this one: each once, in the order of time.

The chain of digests is made anew where the order asks for it; how both ended before is kept in the setting
``merged``, so that nobody takes the new chain for a forged one.  States follow from the reviews alone.
"""

import contextlib
import json
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from sqlite3 import Connection

from trainer import paths
from trainer.errors import StorageError, UsageError
from trainer.frozen import frozen
from trainer.store import backup, files, history, rows, schema, shapes
from trainer.store.chain import MERGED, origin_of, read_chain
from trainer.store.connection import connect, writing
from trainer.store.faults import told
from trainer.store.presence import mark_put_back
from trainer.store.records import Unwatched
from trainer.store.replay import Replay
from trainer.store.states import insert_review, insert_withdrawal, save_states

NOTES = {
    "event": ("name", "at", "offset_min", "minutes_per_day", "areas", "standard", "created"),
    "debrief": ("flown", "remarks", "phases", "created"),
}
_FLAG = ("drill_id", "deck", "deck_hash", "question", "at", "note")
_NAMES = ("pilot name", "pilot call sign")
_EXPORTS = "exports"  # numbers of reviews; they mean nothing once reviews are numbered anew


@frozen
class Merged:
    """What came of it: ``new`` reviews came in.  ``ends`` are (reviews, last digest) of here and there before.

    ``kept`` is where the data lie as they were before; None where nothing was to be brought in.
    """

    new: int
    reviews: int
    ends: tuple[tuple[int, str], tuple[int, str]]
    kept: Path | None
    renumbered: bool


@frozen
class _Line:
    """One review of one of the two: where it stands, and all that tells it from others."""

    at: str
    content: bytes
    side: int
    number: int
    withdrawn: str | None


class _Side:
    def __init__(self, path, number):
        self.path = path
        with told(path):
            self.connection = connect(path, check=schema.check)
        self.lines = list(self._lines(number))
        self.chain = read_chain(self.read)

    def read(self, sql, values=()):
        with told(self.path):
            return self.connection.execute(sql, values).fetchall()

    def _lines(self, side) -> Iterator[_Line]:
        gone = dict(self.read("SELECT review_id, at FROM withdrawal"))
        for piece in history.pieces(self.read, rows.COLUMNS, withdrawn=True):
            for number, *row in piece:
                yield _Line(
                    at=row[_AT], content=rows.content(row), side=side, number=number, withdrawn=gone.get(number)
                )

    def row(self, number):
        return self.read(f"SELECT {', '.join(rows.COLUMNS)} FROM review WHERE id = ?", (number,))[0]

    def settings(self):
        return dict(self.read("SELECT key, value FROM setting"))

    def names(self):
        """Return what the pilot is called here."""
        kept = self.settings()
        found = set()
        for name in _NAMES:
            with contextlib.suppress(KeyError, shapes.Misshapen):
                found.add(shapes.setting(name, kept[name]))
        return found


_AT = rows.COLUMNS.index("at")


def merge(home, file, *, update, model, clock, same_pilot=False, progress=Unwatched) -> Merged:
    """Bring what ``file`` (a copy, or another home) holds into the data of ``home``; merging again changes nothing.

    ``same_pilot`` is the person's word for it where the two have no answer in common.  Raises ``StorageError`` for
    damaged data or an open window and ``UsageError`` for another pilot's; nothing is changed then.
    """
    path, file = paths.database(home), Path(file)
    with told(path):
        if not path.is_file():
            raise StorageError(f"{path} is not there", hint=f'`trainer data restore "{file}"` puts the copy in place')
        backup.refuse_if_open(path, "nothing was merged")
    with told(file):
        file = paths.database(file) if file.is_dir() else file
        if file.is_file() and path.samefile(file):
            raise StorageError(f"{file} is the data themselves", hint="name a copy from the other computer")
    at = rows.utc_text(clock.now())
    with backup.ready(file, path, at) as other, contextlib.ExitStack() as stack:
        backup.refuse_unsound(path)
        backup.refuse_unsound(other, called=file)
        here, there = _Side(path, 0), _Side(other, 1)
        stack.callback(here.connection.close)
        stack.callback(there.connection.close)
        _require_one_pilot(here, there, same_pilot)
        union = _union(here.lines, there.lines)
        ends = (here.chain.reviews, here.chain.head), (there.chain.reviews, there.chain.head)
        new = len(union) - len(here.lines)
        if not new and not _withdrawn_there_only(union, here) and not _has_new_notes(here, there):
            return Merged(new=0, reviews=len(union), ends=ends, kept=None, renumbered=False)
        part = stack.enter_context(files.part_of(path.with_name("reviews-merged.db")))
        schema.create(part)
        with contextlib.closing(connect(part, check=schema.check)) as connection, writing(connection):
            with progress("reviews merged", clock, total=len(union)) as watched:
                renumbered = _fill(connection, (here, there), union, watched.counting(update), model)
            _note(connection, (here, there), at, renumbered)
        if (read_chain(here.read).reviews, here.chain.head) != (here.chain.reviews, read_chain(here.read).head):
            raise StorageError("another window has answered meanwhile; nothing was merged", hint="try again")
        here.connection.close()
        there.connection.close()
        kept = backup.put_in_place(part, path, f"{clock.local():%Y-%m-%d-%H%M%S}", "merge")
    return Merged(new=new, reviews=len(union), ends=ends, kept=kept, renumbered=renumbered)


def _require_one_pilot(here, there, same_pilot):
    if not here.lines or not there.lines:
        return
    if {line.content for line in here.lines} & {line.content for line in there.lines}:
        return
    mine, theirs = here.names(), there.names()
    if mine and theirs and not mine & theirs:
        raise UsageError(
            f"these are the answers of {', '.join(sorted(theirs))}, not of {', '.join(sorted(mine))}",
            hint="two people's answers can't be merged; `trainer roster` shows them side by side",
        )
    if not same_pilot:
        raise UsageError(
            "the two have no answer in common, so they may be two people's",
            hint="if both are yours, add --same-pilot",
        )


def _union(mine, theirs):
    """Return the lines of both in the order of time; what stands in both stands once, and is withdrawn if either is."""
    left = Counter(line.content for line in mine)
    taken_back = {line.content: line.withdrawn for line in theirs if line.withdrawn}
    union = [
        line
        if line.withdrawn or line.content not in taken_back
        else _Line(**{**line.__dict__, "withdrawn": taken_back[line.content]})
        for line in mine
    ]
    for line in theirs:
        if left[line.content] > 0:
            left[line.content] -= 1
        else:
            union.append(line)
    if len(union) == len(mine):
        return union  # in its own order, whatever the clock did
    return sorted(union, key=lambda line: (line.at, line.content))


def _withdrawn_there_only(union, here):
    return sum(line.withdrawn is not None for line in union) > here.chain.withdrawn


def _has_new_notes(here, there):
    return any(_notes(there, table) - _notes(here, table) for table in (*NOTES, "flag"))


def _notes(side, table):
    return Counter(side.read(f"SELECT {', '.join(NOTES.get(table, _FLAG))} FROM {table}"))


def _fill(connection, sides, union, update, model):
    """Write the reviews of ``union`` into the new database; return whether those of here got other numbers."""
    replay, numbers = Replay(update), {}
    for line in union:
        row = sides[line.side].row(line.number)
        review_id, _ = insert_review(connection, row)
        numbers[line.side, line.number] = numbers[line.content] = review_id
        if line.withdrawn is None:
            replay.feed(review_id, rows.items_of(row[0]), rows.from_row(row[1:]))
    for line in sorted((line for line in union if line.withdrawn), key=lambda line: (line.withdrawn, line.content)):
        insert_withdrawal(connection, numbers[line.side, line.number], line.withdrawn)
    if replay.learner is not None:
        save_states(connection, replay.states, replay.last, replay.learner, model)
    _copy_notes(connection, sides, numbers)
    return any(line.side == 0 and numbers[0, line.number] != line.number for line in union)


def _copy_notes(connection, sides, numbers):
    for table, columns in NOTES.items():
        marks = ", ".join("?" * len(columns))
        union = _notes(sides[0], table) | _notes(sides[1], table)
        for row in sorted(union.elements(), key=lambda row: (row[-1], repr(row))):
            connection.execute(f"INSERT INTO {table} ({', '.join(columns)}) VALUES ({marks})", row)
    seen = Counter()
    flags = [(side, row) for side in (0, 1) for row in _flags(sides[side])]
    held = _notes(sides[0], "flag")
    for side, (review_id, *row) in sorted(flags, key=lambda flag: (flag[1][5], repr(flag))):
        seen[side, *row] += 1
        if side == 1 and seen[side, *row] <= held[tuple(row)]:
            continue
        named = numbers.get((side, review_id)) or numbers.get(_content_of(sides[side], review_id))
        number = connection.execute("SELECT coalesce(max(id), 0) + 1 FROM flag").fetchone()[0]
        connection.execute(
            f"INSERT INTO flag (id, review_id, {', '.join(_FLAG)}) VALUES ({', '.join('?' * 8)})", (number, named, *row)
        )


def _flags(side):
    return side.read(f"SELECT review_id, {', '.join(_FLAG)} FROM flag")


def _content_of(side, number):
    return None if number is None else rows.content(side.row(number))


def _note(connection: Connection, sides, at, renumbered):
    """Write the settings: those of here before those of there, and how both chains ended."""
    here, there = sides
    kept = there.settings() | here.settings()
    if renumbered or _EXPORTS not in here.settings():
        kept.pop(_EXPORTS, None)  # they would quote other links of the chain than the earlier reports did
    earlier = [entry for side in sides for entry in _merged_before(side)]
    first = min((side for side in sides if side.lines), key=lambda side: (side.lines[0].at, side.chain.first))
    ends = [
        {"reviews": side.chain.reviews, "withdrawn": side.chain.withdrawn, "head": side.chain.head} for side in sides
    ]
    record = {"at": at, "pilot": origin_of(first.read, first.chain.first), "ends": ends}
    unique = {json.dumps(entry, sort_keys=True): entry for entry in [*earlier, record]}
    kept[MERGED] = rows.to_json(list(unique.values()))
    connection.executemany("INSERT INTO setting VALUES (?, ?)", kept.items())
    mark_put_back(connection, at)


def _merged_before(side):
    try:
        return shapes.setting(MERGED, side.settings().get(MERGED, "[]"))
    except shapes.Misshapen:
        return []
