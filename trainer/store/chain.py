"""The chain of digests, as an export quotes it: how long it is, and what stands at its ends."""

from dataclasses import field

from trainer.frozen import frozen
from trainer.store import shapes

MERGED = "merged"  # setting: how the chains ended that were merged, and the first digest by which the pilot is known


@frozen
class Chain:
    """``reviews`` and ``withdrawn`` count what was ever stored; digests are hexadecimal, "" where there is none.

    ``first`` and ``head`` belong to the first and the last review, ``withdrawals`` to the last withdrawal;
    ``origin`` is the digest by which the pilot is known: that of the first review ever, kept when chains are merged.
    ``links`` holds the digests of the reviews that were asked for, by number.
    """

    reviews: int
    withdrawn: int
    first: str
    head: str
    withdrawals: str
    origin: str
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
        origin=origin_of(read, digests.get(1, "")),
        withdrawals=_hexadecimal(last[0][0]) if last else "",
        links={number: digests[number] for number in ids if number in digests},
    )


def origin_of(read, first):
    """Return the digest by which the pilot is known whose chain begins with the digest ``first``."""
    found = read("SELECT CAST(value AS BLOB) FROM setting WHERE key = ?", (MERGED,))
    try:
        merged = shapes.setting(MERGED, found[0][0]) if found else []
    except shapes.Misshapen:
        merged = []
    kept = merged[-1].get("pilot") if merged else None
    return kept if isinstance(kept, str) and kept else first


def _hexadecimal(digest):
    # What damage has made of a digest proves nothing.
    return digest.hex() if isinstance(digest, bytes) else ""
