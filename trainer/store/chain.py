"""The chain of digests, as an export quotes it: how long it is, and what stands at its ends."""

from dataclasses import dataclass, field

from trainer.store import rows


@dataclass(frozen=True, kw_only=True)
class Chain:
    """``reviews`` and ``withdrawn`` count what was ever stored; digests are hexadecimal, "" where there is none.

    ``first`` and ``head`` belong to the first and the last review, ``withdrawals`` to the last withdrawal;
    ``links`` holds the digests of the reviews that were asked for, by number.
    """

    reviews: int
    withdrawn: int
    first: str
    head: str
    withdrawals: str
    links: dict[int, str] = field(default_factory=dict)


def read_chain(read, ids=()):
    """Return the ``Chain``; ``read(sql, values)`` returns all rows, ``ids`` are numbers of reviews to quote."""
    (reviews, withdrawn), *_ = read("SELECT (SELECT count(*) FROM review), (SELECT count(*) FROM withdrawal)")
    wanted = sorted({1, reviews, *ids})
    found = read(f"SELECT id, digest FROM review WHERE id IN ({', '.join('?' * len(wanted))})", tuple(wanted))
    digests = {number: _hexadecimal(digest) for number, digest in found}
    last = read("SELECT digest FROM withdrawal ORDER BY id DESC LIMIT 1")
    return Chain(
        reviews=reviews,
        withdrawn=withdrawn,
        first=digests.get(1, ""),
        head=digests.get(reviews, ""),
        withdrawals=_hexadecimal(last[0][0]) if last else "",
        links={number: digests[number] for number in ids if number in digests},
    )


def _hexadecimal(digest):
    # What damage has made of a digest proves nothing.
    return digest.hex() if isinstance(digest, bytes) else ""


def faults(read, newest, step=lambda: None):
    """Yield a sentence for each of the ``newest`` reviews, and for every withdrawal, that does not fit its digest.

    ``step`` is called for each review that was looked at.
    """
    from trainer.store import history, verify

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
    yield from verify.withdrawals(read)
