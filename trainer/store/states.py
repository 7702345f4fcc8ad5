"""The statements that write reviews, withdrawals and states.  The caller holds the transaction."""

from trainer.store import history, rows
from trainer.store.records import Rebuilt

KEPT_FOR_UNDO = 50
_NAMES = ("id", *rows.COLUMNS, "digest")
_INSERT_REVIEW = f"INSERT INTO review ({', '.join(_NAMES)}) VALUES ({', '.join('?' * len(_NAMES))})"


def insert_review(connection, row):
    """Add a review with its link in the chain and return (its number, its digest)."""
    last_id, last_digest = connection.execute("SELECT id, digest FROM review ORDER BY id DESC LIMIT 1").fetchone() or (
        0,
        rows.FIRST_DIGEST,
    )
    review_id = last_id + 1
    digest = rows.digest(last_digest, review_id, row)
    connection.execute(_INSERT_REVIEW, (review_id, *row, digest))
    return review_id, digest


def number_of(connection, review_id, digest):
    """Return the number of the review with this ``digest``, which was ``review_id`` once; None if it is not there."""
    here = "SELECT id FROM review WHERE digest = ?"
    found = connection.execute(f"{here} AND id = ?", (digest, review_id)).fetchone()
    found = found or connection.execute(here, (digest,)).fetchone()
    return found[0] if found else None


def old_states(connection, items):
    """Return (state, last review) for each of ``items``; (None, None) for one never seen."""
    return {
        item: connection.execute("SELECT state, last_review FROM belief WHERE item = ?", (item,)).fetchone()
        or (None, None)
        for item in items
    }


def read_learner(connection):
    """Return (state of the learner, name of the model that made it and every other state); (None, None) for none."""
    # As bytes: Python refuses a row whose text is none, and all of this can be computed again.
    found = connection.execute("SELECT CAST(state AS BLOB), CAST(model AS BLOB) FROM learner").fetchone()
    return (found[0], str(found[1] or b"", "utf-8", "replace")) if found else (None, None)


def keep_for_undo(connection, review_id, old, learner):
    """Keep what stood before a review, and drop what was kept for one long ago."""
    connection.execute("DELETE FROM before WHERE review_id <= ?", (review_id - KEPT_FOR_UNDO,))
    connection.executemany(
        "INSERT INTO before VALUES (?, ?, ?, ?, ?)",
        [(review_id, item, state, last, learner) for item, (state, last) in old.items()],
    )


def save_states(connection, states, last, learner, model):
    """Store states that ``model`` made; ``last`` gives the review that changed each item."""
    connection.executemany(
        "INSERT INTO belief VALUES (?, ?, ?) ON CONFLICT (item)"
        " DO UPDATE SET state = excluded.state, last_review = excluded.last_review",
        [(item, state, last[item]) for item, state in states.items()],
    )
    _save_learner(connection, learner, model)


def _save_learner(connection, learner, model):
    connection.execute(
        "INSERT INTO learner (id, state, model) VALUES (1, ?, ?)"
        " ON CONFLICT (id) DO UPDATE SET state = excluded.state, model = excluded.model",
        (learner, model or ""),
    )


def insert_withdrawal(connection, review_id, at):
    """Mark a review as taken back; KeyError when there is none to take back."""
    found = connection.execute(f"SELECT digest FROM review WHERE id = ? AND {history.LIVE}", (review_id,)).fetchone()
    if not found:
        raise KeyError(review_id)
    last_id, last_digest = connection.execute(
        "SELECT id, digest FROM withdrawal ORDER BY id DESC LIMIT 1"
    ).fetchone() or (0, rows.FIRST_DIGEST)
    digest = rows.withdrawal_digest(last_digest, last_id + 1, found[0], at)
    connection.execute("INSERT INTO withdrawal VALUES (?, ?, ?, ?)", (last_id + 1, review_id, at, digest))


def put_back(connection, review_id, kept):
    """Give the items of the newest review the states that they had before it."""
    connection.execute("DELETE FROM before WHERE review_id = ?", (review_id,))
    learner, (_, model) = kept[0][3], read_learner(connection)
    connection.executemany("DELETE FROM belief WHERE item = ?", [(item,) for item, *_ in kept])
    connection.executemany("INSERT INTO belief VALUES (?, ?, ?)", [row[:3] for row in kept if row[1] is not None])
    if learner is None:
        connection.execute("DELETE FROM learner")
    else:
        _save_learner(connection, learner, model)
    return Rebuilt(states={item: state for item, state, *_ in kept}, learner=learner)
