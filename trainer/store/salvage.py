"""Saves what can still be read of a damaged database into a new one, and fills gaps from the automatic copies.

A review is proven unaltered by the digest that chains it to the one before it.  What is readable but can't
be proven is kept and counted; what is gone is counted too.
"""

import os
import sqlite3
from collections import Counter
from contextlib import closing
from pathlib import Path

from trainer import paths
from trainer.errors import StorageError
from trainer.frozen import frozen
from trainer.store import access, beside, copies, files, raw_pages, rows, schema
from trainer.store.connection import connect_to_read, writing
from trainer.store.faults import last_copy, told
from trainer.store.replay import Replay
from trainer.store.states import insert_review, insert_withdrawal, save_states

MOST_NUMBER = 100_000_000  # a review number beyond is damage
_EVENT = "INSERT INTO event VALUES (NULL, ?, ?, ?, ?, ?, ?, ?)"
_DEBRIEF = "INSERT INTO debrief VALUES (NULL, ?, ?, ?, ?)"
_FLAG = "INSERT INTO flag VALUES ((SELECT coalesce(max(id), 0) + 1 FROM flag), ?, ?, ?, ?, ?, ?, ?)"


@frozen
class Salvaged:
    """What was saved to ``path``: of ``numbered`` reviews ever stored, how many and how sure.

    ``from_beside`` more were never stored there: they lay beside a database that was taken away.
    """

    path: Path
    numbered: int
    saved: int
    proven: int
    from_copies: int
    withdrawn: int
    from_beside: int = 0


class _Source:
    """The rows of one file, by table and number.  Tables are told apart by the shape of their rows."""

    def __init__(self, path):
        self.path = path
        self.reviews, self.withdrawals, self.events, self.debriefs, self.flags = {}, {}, {}, {}, {}
        try:
            with raw_pages.rows(path) as found:
                for number, values in found:
                    if 0 < number <= MOST_NUMBER:
                        self._take(number, values)
        except OSError:
            pass

    def _take(self, number, values):
        if review := rows.from_record(values):
            self.reviews[number] = review
            return
        match values:
            case (None, int(review), str(at), bytes(digest)) if len(at) == 24 and len(digest) == 32:
                self.withdrawals[number] = (review, at)
            case (None, str(), str(), int(), float() | int(), str(), str(), str()):
                self.events[number] = values[1:]
            case (None, str(flown), str(), str(), str()) if len(flown) == 10:
                self.debriefs[number] = values[1:]
            case (None, str(), str(), str(), str(), int() | None, str(), str()):
                self.flags[number] = values[1:]

    def agrees(self, other):
        """Return whether both files hold the same history, as far as can be seen."""
        return any(self.reviews.get(number, (0, 0))[1] == digest for number, (_, digest) in other.reviews.items())


def salvage(home, file=None, *, update, clock, model=""):
    """Save what can be read of ``file`` (None: the database of ``home``) and return ``Salvaged``.

    The new file lies among the automatic copies; nothing else is changed.  ``update`` and ``model`` as for ``Store``.
    Raises ``StorageError`` when no review can be read.
    """
    damaged = Path(file) if file else paths.database(home)
    if not damaged.is_file():
        raise StorageError(f"{damaged} is not there", hint="`trainer data where` lists the copies")
    source = _Source(damaged)
    if not source.reviews:
        raise StorageError(f"no review can be read from {damaged}", hint=last_copy(paths.database(home)))
    others = [copy for copy in map(_Source, copies.listed(home)) if copy.agrees(source)]
    target = copies.folder(home) / f"reviews-salvaged-{clock.local():%Y-%m-%d-%H%M%S}.db"
    part = files.part_name(target)
    with told(target):
        try:
            schema.create(part)
            with closing(access.to_write(part)) as connection:
                done = _Rescue(connection, [source, *others], update, model, _beside(home)).carry_out(target)
            os.replace(part, target)
        finally:
            files.remove(files.with_helpers(part))
        files.flush_folder(target.parent)
    return done


def _beside(home):
    """Return the answers of sessions whose database was taken away; the next start would take them in as well."""
    return [answer for file in beside.waiting(home) for answer in beside.read(file)[0]]


class _Rescue:
    def __init__(self, connection, sources, update, model, answers_beside):
        self.beside = answers_beside
        self.connection, self.sources, self.replay, self.model = connection, sources, Replay(update), model
        self.proven = self.from_copies = self.from_beside = 0
        self.new_number = {}

    def carry_out(self, target):
        """Fill the new database in one transaction."""
        gone = self._first("withdrawals")
        gone_reviews = {review for review, _ in gone.values()}
        with writing(self.connection):
            held = Counter()
            for number, row in self._reviews():
                self._keep_review(number, row, withdrawn=number in gone_reviews)
                held[self._content(row)] += 1
            self._keep_beside(held)
            for _, (review, at) in sorted(gone.items()):
                if review in self.new_number:
                    self._try(lambda: insert_withdrawal(self.connection, self.new_number[review], at))  # noqa: B023
            if self.replay.learner is not None:
                done = self.replay
                save_states(self.connection, done.states, done.last, done.learner, self.model)
            self._keep_notes()
        return Salvaged(
            path=target,
            numbered=max(max(source.reviews, default=0) for source in self.sources),
            saved=len(self.new_number) - self.from_beside,
            proven=self.proven,
            from_beside=self.from_beside,
            from_copies=self.from_copies,
            withdrawn=sum(review in self.new_number for review, _ in gone.values()),
        )

    def _first(self, table):
        """Return the rows of ``table`` by number, those of the damaged file before those of the copies."""
        merged = {}
        for source in reversed(self.sources):
            merged |= getattr(source, table)
        return merged

    def _reviews(self):
        """Yield (number, row) in order, of each the one that can be proven if there is one."""
        previous, expected = rows.FIRST_DIGEST, 1
        for number in sorted({number for source in self.sources for number in source.reviews}):
            known = previous if number == expected else None
            found = [(source, *source.reviews[number]) for source in self.sources if number in source.reviews]
            proven = [one for one in found if known and rows.fits(one[2], rows.digest, known, number, one[1])]
            source, row, previous = (proven or found)[0]
            expected = number + 1
            self.proven += bool(proven)
            self.from_copies += source is not self.sources[0]
            yield number, row

    def _keep_review(self, number, row, *, withdrawn):
        def keep():
            items, review = rows.items_of(row[0]), rows.from_row(row[1:])
            review_id, _ = insert_review(self.connection, rows.to_row(review, items))
            if not withdrawn:
                self.replay.feed(review_id, items, review)
            self.new_number[number] = review_id

        self._try(keep)

    def _content(self, row):
        try:
            return rows.content(row) if self.beside else None
        except (TypeError, ValueError):
            return None  # damaged: it is like no other

    def _keep_beside(self, held):
        """Keep the answers that lie beside and stand in none of the files."""
        for place, (row, withdrawn) in enumerate(self.beside, start=MOST_NUMBER + 1):
            if held[rows.content(row)] > 0:
                held[rows.content(row)] -= 1
                continue
            self._keep_review(place, row, withdrawn=withdrawn is not None)
            self.from_beside += place in self.new_number
            if withdrawn is not None and place in self.new_number:
                self._try(lambda: insert_withdrawal(self.connection, self.new_number[place], withdrawn))  # noqa: B023

    def _keep_notes(self):
        for table, sql in (("events", _EVENT), ("debriefs", _DEBRIEF)):
            for _, values in sorted(self._first(table).items()):
                self._try(lambda: self.connection.execute(sql, values))  # noqa: B023
        for _, values in sorted(self._first("flags").items()):
            named = (*values[:4], self.new_number.get(values[4]), *values[5:])
            self._try(lambda: self.connection.execute(_FLAG, named))  # noqa: B023
        for key, value in self._settings():
            self._try(lambda: self.connection.execute("INSERT INTO setting VALUES (?, ?)", (key, value)))  # noqa: B023

    def _settings(self):
        """Return the settings of the first file that SQLite itself can read."""
        for source in self.sources:
            try:
                with closing(connect_to_read(source.path, check=lambda *_: None)) as connection:
                    return connection.execute("SELECT key, value FROM setting").fetchall()
            except (sqlite3.Error, StorageError):
                continue
        return []

    def _try(self, keep):
        """Carry out ``keep``, or leave no trace of it: what damage has made of a row may break any rule."""
        self.connection.execute("SAVEPOINT row")
        try:
            keep()
        except (
            sqlite3.IntegrityError,
            sqlite3.DataError,
            StorageError,
            ValueError,
            TypeError,
            KeyError,
            OverflowError,
        ):
            self.connection.execute("ROLLBACK TO row")
        self.connection.execute("RELEASE row")
