"""Checks that the data are whole: the file, the links, the digests, and the states against the reviews."""

import itertools
import sqlite3

from trainer.errors import StorageError
from trainer.safe_text import printable
from trainer.store import history, rows
from trainer.store.connection import reading
from trainer.store.faults import name_of
from trainer.store.replay import Replay

_SHOWN = 5  # faults of one sort that are told one by one


def problems(connection, update, model=None):
    """Return a list of plain sentences, one for each thing that is wrong; empty when all is well.

    The stored states must be those that ``update`` leads to, unless another ``model`` (None: any) made them.
    """

    def read(sql, values=()):
        return connection.execute(sql, values).fetchall()

    found = []
    try:
        with reading(connection):
            _tell(found, _file(read), "pages")
            _tell(found, _links(read), "rows")
            replayed = Replay(update)
            whole = not _tell(found, _reviews(read, replayed), "reviews")
            _tell(found, withdrawals(read), "withdrawals")
            # Else the states would be compared with reviews that are not the ones they came from.
            if whole and _of_model(read, model):
                _tell(found, _states(read, replayed), "states")
    except sqlite3.DatabaseError as error:
        damaged = name_of(error).startswith("SQLITE_CORRUPT")
        found.append(f"{'The file is damaged' if damaged else 'The rest is unreadable'}: {_plain(str(error))}.")
    except UnicodeDecodeError as error:  # Python fails on SQLite's message where it quotes damaged bytes
        found.append(f"The file is damaged: {_plain(str(error))}.")
    except StorageError as error:
        found.append(f"The rest is unreadable: {error.message}.")
    return found


def damage(read, step):
    """Return the first thing that is wrong with pages, rows or digests, "" when there is none.

    ``step`` is called for each review.  The states are left alone: they can be computed again.
    """
    every = read("SELECT count(*) FROM review")[0][0]
    return next(itertools.chain(_file(read), _links(read), chain_faults(read, every, step)), "")


def chain_faults(read, newest, step=lambda: None):
    """Yield a sentence for each of the ``newest`` reviews, and for every withdrawal, that does not fit its digest.

    ``step`` is called for each review that was looked at.
    """
    last = read("SELECT coalesce(max(id), 0) FROM review")[0][0]
    before = max(0, last - newest)
    found = read("SELECT digest FROM review WHERE id = ?", (before,))
    previous, expected = (found[0][0] if found else rows.FIRST_DIGEST), before + 1
    for piece in history.pieces(read, (*rows.COLUMNS, "digest"), after=before, withdrawn=True):
        for review_id, *row, digest in piece:
            step()
            if review_id != expected:
                yield f"Reviews {expected} to {review_id - 1} are missing."
            elif not rows.fits(digest, rows.digest, previous, review_id, row):
                yield f"Review {review_id} was changed after it was stored."
            previous, expected = digest, review_id + 1
    yield from withdrawals(read)


def _of_model(read, model):
    return model is None or read("SELECT model FROM learner") in ([], [(model,)])


def _tell(found, sentences, what):
    """Add the first few ``sentences`` to ``found`` and return how many there were."""
    count = 0
    for count, sentence in enumerate(sentences, 1):
        if count <= _SHOWN:
            found.append(sentence)
    if count > _SHOWN:
        found.append(f"So it is with {count - _SHOWN} more {what}.")
    return count


def _file(read):
    answers = [text for (text,) in read("PRAGMA integrity_check(20)")]
    return [f"The file is damaged: {_plain(text)}." for text in answers if text != "ok"]


def _plain(text):
    # SQLite may quote what stands in the file, and that may be anything.
    return printable(" ".join(text.split()), instead="?")


def _links(read):
    return [
        f"Row {row} of {table} points to a row of {parent} that is not there."
        for table, row, parent, _ in read("PRAGMA foreign_key_check")
    ]


def _reviews(read, replayed):
    """Yield faults of the chain of reviews; feed those that count to ``replayed`` until there is a fault."""
    gone = {review_id for (review_id,) in read("SELECT review_id FROM withdrawal")}
    previous, expected, whole = rows.FIRST_DIGEST, 1, True
    for piece in history.pieces(read, (*rows.COLUMNS, "digest"), withdrawn=True):
        for review_id, items, *row, digest in piece:
            if review_id != expected:
                whole = False
                yield f"Reviews {expected} to {review_id - 1} are missing."
            elif not rows.fits(digest, rows.digest, previous, review_id, (items, *row)):
                whole = False
                yield f"Review {review_id} was changed after it was stored."
            previous, expected = digest, review_id + 1
            if whole and review_id not in gone:
                replayed.feed(review_id, rows.items_of(items), rows.from_row(row))


def withdrawals(read):
    """Yield faults of the chain of withdrawals."""
    previous = rows.FIRST_DIGEST
    for withdrawal_id, at, digest, review_digest in read(
        "SELECT withdrawal.id, withdrawal.at, withdrawal.digest, review.digest FROM withdrawal"
        " JOIN review ON review.id = withdrawal.review_id ORDER BY withdrawal.id"
    ):
        if not rows.fits(digest, rows.withdrawal_digest, previous, withdrawal_id, review_digest, at):
            yield f"Withdrawal {withdrawal_id} or the review it takes back was changed after it was stored."
        previous = digest


def _states(read, replayed):
    stored = {item: rest for item, *rest in read("SELECT item, state, last_review FROM belief")}
    for item in sorted(stored.keys() | replayed.states.keys(), key=str):
        if stored.get(item) != [replayed.states.get(item), replayed.last.get(item)]:
            yield f"What is stored of {item!r} differs from what its reviews lead to."
    learner = read("SELECT state FROM learner")
    if (learner[0][0] if learner else None) != replayed.learner:
        yield "What is stored of the learner differs from what the reviews lead to."
