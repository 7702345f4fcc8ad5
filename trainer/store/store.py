"""The store of one person's reviews: what is returned from here is on the disk."""

import contextlib
import sqlite3

from trainer import paths
from trainer.errors import StorageError
from trainer.store import access, beside, disk_room, files, history, rows
from trainer.store.connection import reading, writing
from trainer.store.faults import displaced, is_lost, require_sqlite, told, unsound
from trainer.store.notes import Notes
from trainer.store.presence import Displaced, Presence
from trainer.store.records import Rebuilt, Recorded, Unwatched
from trainer.store.replay import check_states, replay
from trainer.store.states import (
    insert_review,
    insert_withdrawal,
    keep_for_undo,
    number_of,
    old_states,
    put_back,
    read_learner,
    save_states,
)


def _tell_nobody(line):
    """Stands where nobody is told."""


class Store(Notes):
    """Reviews, and the states that they lead to, of one home folder.

    ``update(states, learner, review) -> (states, learner)`` is how a review changes what is believed:
    ``states`` maps each item of the review to bytes (None: never seen), ``learner`` is bytes or None.
    It must give the same bytes for the same sequence of reviews.  ``model`` names the version of ``update``:
    states of another version are computed again before they are used.  None: whatever made them.

    Every method raises ``StorageError`` for what a person can put right: a full disk, a lock, damage.
    """

    def __init__(self, connection, path, clock, *, writable=True, progress=Unwatched, tell=_tell_nobody):
        self._connection, self._tell, self._told = connection, tell, set()
        self.path = path
        self.clock = clock
        self.progress = progress
        self.writable = writable
        self._together = False
        self._presence = Presence(path, connection) if writable else None
        self._given = {}  # the answers of this session, by digest: (row, when it was withdrawn)
        self._pending = {}  # those of the transaction that is open

    @classmethod
    def open(cls, home, *, clock, create=True, wait_s=5.0, progress=Unwatched, tell=_tell_nobody):
        """Open the store in the folder ``home``; wait ``wait_s`` seconds for another window's lock.

        With ``create`` the folder and the file are made where they are missing, and it is known from the
        start that they can be written.  Without, nothing is made or changed: no file gives an empty store.
        ``progress`` is told how far work over all reviews has come; see ``records.Unwatched``.  ``tell(line)`` says
        what is damaged and was passed over.
        """
        path = paths.database(home)
        with told(path):
            require_sqlite()
            if create:
                path.parent.mkdir(parents=True, exist_ok=True)
                disk_room.require(path)
            connection = (access.to_write if create else access.to_read)(path, wait_s)
        return cls(connection, path, clock, writable=create, progress=progress, tell=tell)

    def tell(self, line):
        """Say ``line`` to whoever opened the store, once."""
        if line not in self._told:
            self._told.add(line)
            self._tell(line)

    def close(self):
        """Close the file.  What was recorded is safe without it."""
        files.close(self._connection)

    def __enter__(self):
        return self

    def __exit__(self, kind, *_):
        try:
            if kind is None:
                self.require_saved()
        finally:
            self.close()

    @contextlib.contextmanager
    def _write(self):
        if self._together:
            yield self._connection
            return
        try:
            with told(self.path):
                if self._presence:
                    self._presence.freshen()
                with writing(self._connection):
                    yield self._connection
                    self._require_presence()
                self._given |= self._pending
                if self._presence:
                    self._presence.settle()
        except Displaced as error:
            raise self._kept_beside(str(error)) from error
        except StorageError as error:
            if self._given and is_lost(error):
                raise self._kept_beside("damaged") from error
            raise
        except sqlite3.IntegrityError as error:
            # In sound data it is a mistake of this program; a page that leads astray breaks the rules as well.
            self._raise_if_damaged(error)
            raise
        finally:
            self._pending = {}

    def require_saved(self):
        """Raise ``DisplacedError`` unless the answers of this session stand in the file of that name."""
        if self._given:
            try:
                self._require_presence()
            except Displaced as error:
                raise self._kept_beside(str(error)) from error

    def _require_presence(self):
        if self._presence and not self._presence.require():
            self._given = {}  # another window put a copy in place, which knows nothing of them

    def _kept_beside(self, what):
        """Return the error that says ``what`` happened to the file; the answers of this session lie beside."""
        answers = (self._given | self._pending).values()
        stamp = f"{self.clock.now():%Y%m%d-%H%M%S}"
        kept = beside.keep(self.path, answers, stamp) if answers else None
        return displaced(self.path, what, len(answers), kept)

    def _raise_if_damaged(self, error):
        from trainer.store.verify import damage

        with told(self.path), reading(self._connection):
            sentence = damage(self._read, lambda: None)
        if sentence:
            raise unsound(self.path, sentence) from error

    @contextlib.contextmanager
    def together(self):
        """Store everything that the block stores, or nothing of it: at its end, in one transaction."""
        with self._write():
            self._together = True
            try:
                yield
            finally:
                self._together = False

    def _read(self, sql, values=()):
        with told(self.path):
            return self._connection.execute(sql, values).fetchall()

    def record(self, review, update, items=(), model=None):
        """Store ``review`` with the states that it leads to, in one transaction, and return ``Recorded``.

        ``update`` is handed the review as it is stored (times in milliseconds, plain numbers), so that the
        states can be computed again from the file.  ``items`` are the names whose states the review changes,
        by default its drill.  Raises ValueError or TypeError for what can't be stored.
        """
        items = tuple(items) or (review.drill_id,)
        row = rows.to_row(review, items)
        review = rows.from_row(row[1:])
        self._pending[items, row] = (row, None)  # its digest is not known yet
        with self._write() as connection:
            self._renew(connection, update, model)
            review_id, digest = insert_review(connection, row)
            old = old_states(connection, items)
            learner, stored_model = read_learner(connection)
            states, new_learner = update({item: old[item][0] for item in items}, learner, review)
            check_states(items, states, new_learner)
            keep_for_undo(connection, review_id, old, learner)
            last = dict.fromkeys(items, review_id)
            save_states(connection, states, last, new_learner, stored_model if model is None else model)
            self._pending[digest] = self._pending.pop((items, row))
        return Recorded(id=review_id, digest=digest, review=review, states=states, learner=new_learner)

    def withdraw(self, review_id, update, model=None, *, digest=None):
        """Take a review back: it stays stored, marked as withdrawn, and no longer counts.

        Returns the states that changed (all of them where reviews had to be replayed through ``update``
        because the review is not among the newest).  With a ``digest`` it is that review, whatever its number is
        by now.  Raises KeyError when there is no such review or it is withdrawn already, ``StorageError`` when
        the data no longer hold the one of that ``digest``.
        """
        with self._write() as connection:
            if digest is not None and (review_id := number_of(connection, review_id, digest)) is None:
                raise StorageError(
                    "the answer to take back is no longer there: another window put other data in place",
                    hint="nothing was changed; go on with the next question",
                )
            newest, at = history.newest(self._read), rows.utc_text(self.clock.now())
            try:
                insert_withdrawal(connection, review_id, at)
            except KeyError:
                if digest is None:
                    raise
                raise StorageError("the answer is taken back already", hint="go on with the next question") from None
            if digest in self._given:
                self._pending[digest] = (self._given[digest][0], at)
            kept = self._read("SELECT item, state, last_review, learner FROM before WHERE review_id = ?", (review_id,))
            if newest and newest[0] == review_id and kept and not self.outdated(model):
                return put_back(connection, review_id, kept)
            return self._replayed_and_saved(connection, update, model)

    def last_review(self):
        """Return (id, ``Review``) of the newest review that was not withdrawn, or None."""
        return history.newest(self._read)

    def states(self):
        """Return the state of every item that was ever asked, as bytes."""
        return dict(self._read("SELECT item, state FROM belief"))

    def learner(self):
        """Return the state of the learner as bytes, or None before the first review."""
        with told(self.path):
            return read_learner(self._connection)[0]

    def outdated(self, model):
        """Return whether there are states that another model than ``model`` made (None: that does not matter)."""
        with told(self.path):
            learner, stored_model = read_learner(self._connection)
        return model is not None and learner is not None and stored_model != model

    def _renew(self, connection, update, model):
        # Asked under the lock: another window may have put back an older copy, or go on with an older program.
        if self.outdated(model):
            self._replayed_and_saved(connection, update, model)

    def count(self):
        """Return how many reviews count."""
        # Both tables are numbered without gaps, so no rows need to be counted.
        return self._read(
            "SELECT (SELECT coalesce(max(id), 0) FROM review) - (SELECT coalesce(max(id), 0) FROM withdrawal)"
        )[0][0]

    def reviews(self, since=None, newest_first=False, drill=None, withdrawn=False):
        """Yield every ``Review`` in the order they were stored, from the aware instant ``since`` on.

        ``drill`` picks those of one drill id; ``withdrawn`` gives those that were taken back as well.
        """
        since = None if since is None else rows.utc_text(since)
        return history.reviews(self._read, since=since, newest_first=newest_first, drill=drill, withdrawn=withdrawn)

    def table(self, columns, since=None):
        """Return a list of tuples with these ``columns`` (fields of ``Review``, "id", "items") as stored.

        Times are UTC text, mappings and answers JSON text.  Much faster than ``reviews``.
        """
        return history.table(self._read, columns, None if since is None else rows.utc_text(since))

    def last_inputs(self, drill_id, count=1):
        """Return the inputs of the last ``count`` questions of a drill, newest first."""
        found = self._read("SELECT inputs FROM review WHERE drill_id = ? ORDER BY id DESC LIMIT ?", (drill_id, count))
        return [rows.from_json(text) for (text,) in found]

    def chain(self, ids=()):
        """Return the ``chain.Chain`` of digests, with the links of the reviews numbered ``ids``."""
        from trainer.store.chain import read_chain

        return read_chain(self._read, ids)

    def chain_faults(self, newest):
        """Return plain sentences about those of the ``newest`` reviews that do not fit their digests.

        Much faster than ``verify``, which also computes the states again.
        """
        from trainer.store.verify import chain_faults

        return list(chain_faults(self._read, newest))

    def rebuild(self, update):
        """Return the states that the reviews lead to.  Nothing is stored."""
        with told(self.path), reading(self._connection):
            return self._replayed(update).rebuilt()

    def repair(self, update, model=None):
        """Put the states that the reviews lead to in place of the stored ones, and return them."""
        with self._write() as connection:
            return self._replayed_and_saved(connection, update, model)

    def verify(self, update, model=None):
        """Return a list of plain sentences about what is wrong with the data; empty when all is well.

        States of another ``model`` are not compared with the reviews: they will be computed again.
        """
        from trainer.store.verify import problems

        return problems(self._connection, update, model)

    def _replayed_and_saved(self, connection, update, model):
        vanished = {}
        with contextlib.suppress(StorageError):  # damaged, perhaps; they are replaced
            vanished = dict.fromkeys(self.states())
        model = read_learner(connection)[1] if model is None else model
        done = self._replayed(update)
        # The kept states were built on what is being replaced.
        for name in ("before", "belief", "learner"):
            connection.execute(f"DELETE FROM {name}")
        if done.learner is not None:
            save_states(connection, done.states, done.last, done.learner, model)
        return Rebuilt(states=vanished | done.states, learner=done.learner)

    def _replayed(self, update):
        with self.progress("reviews read again", self.clock, total=self.count()) as progress:
            return replay(self._read, progress.counting(update))
