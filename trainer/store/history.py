"""Reads the history of reviews in pieces, so that its length costs time and not memory.

No cursor stays open between two pieces: the reader may write, and other windows never wait for it.
"""

from trainer.store import rows

FIRST_PIECE, PIECE = 32, 2_000
LIVE = "NOT EXISTS (SELECT 1 FROM withdrawal WHERE withdrawal.review_id = review.id)"
KNOWN = frozenset({"id", "digest", *rows.COLUMNS})


def pieces(read, columns, *, since=None, drill=None, newest_first=False, withdrawn=False, after=0):
    """Yield lists of rows (id first, then ``columns``) in order of id.

    ``read(sql, values)`` returns all rows.  ``since`` is UTC text as ``rows.utc_text`` writes it;
    ``withdrawn`` gives withdrawn reviews too; ``after`` only those numbered above it (not with ``newest_first``).
    The first pieces are small, for one who needs only a few rows.  Raises ``StorageError`` for rows out of order.
    """
    wanted, values = [] if withdrawn else [LIVE], []
    for condition, value in (("drill_id = ?", drill), ("at >= ?", since)):
        if value is not None:
            wanted.append(condition)
            values.append(value)
    wanted.append("id < ?" if newest_first else "id > ?")
    sql = (
        f"SELECT id, {', '.join(columns)} FROM review WHERE {' AND '.join(wanted)}"
        f" ORDER BY id {'DESC' if newest_first else 'ASC'} LIMIT ?"
    )
    edge, size = (2**62 if newest_first else after), min(FIRST_PIECE, PIECE)
    while piece := read(sql, (*values, edge, size)):
        last = piece[-1][0]
        if (last >= edge) if newest_first else (last <= edge):
            raise rows.damaged("reviews are out of order")  # else a damaged page would be read for ever
        yield piece
        edge, size = last, min(4 * size, PIECE)


def reviews(read, **how):
    """Yield every ``Review``; ``how`` as in ``pieces``."""
    for piece in pieces(read, rows.FIELDS, **how):
        for row in piece:
            yield rows.from_row(row[1:])


def table(read, columns, since=None):
    """Return a list of tuples of ``columns``, in order of id, as they are stored."""
    unknown = set(columns) - KNOWN
    if unknown:
        raise ValueError(f"no such column: {', '.join(sorted(unknown))}")
    return [row[1:] for piece in pieces(read, columns, since=since) for row in piece]


def newest(read):
    """Return (id, ``Review``) of the newest review that was not withdrawn, or None."""
    found = read(f"SELECT id, {', '.join(rows.FIELDS)} FROM review WHERE {LIVE} ORDER BY id DESC LIMIT 1")
    return (found[0][0], rows.from_row(found[0][1:])) if found else None
