"""Who the pilot is, and the chain of digests that the reviews hang on.

An export quotes the ends of the chain, and its links at the moments of earlier exports, so that whoever kept an
earlier export sees that nothing before it was changed or left out since.
"""

import hashlib
import uuid

EXPORTS = "exports"  # setting: [[UTC text, number of the last review then], …], the oldest first
OWN_ID = "own id"
NAME, CALL_SIGN = "pilot name", "pilot call sign"
MOST_EARLIER = 50
NEWEST_CHECKED = 20_000  # reviews compared with their digests for a report; `trainer data verify` compares all


def pilot(store, chain, *, name="", call_sign=""):
    """Return the pilot's record: what to call them, and an id that stays and tells nothing.

    A call sign is shown instead of the name, never beside it.
    """
    sign = call_sign or ("" if name else store.setting(CALL_SIGN, "") or "")
    shown = sign or name or store.setting(NAME, "") or "unnamed pilot"
    # The first review is the same in every export of one pilot, and is nobody else's.
    opaque = hashlib.sha256(f"pilot {chain.origin}".encode("ascii")).hexdigest()[:16] if chain.origin else ""
    return {"name": shown, "is_call_sign": bool(sign), "id": opaque}


def own_id(store):
    """Return an id that is this pilot's alone, stays, and tells nothing; it is made when it is first asked for."""
    known = store.setting(OWN_ID)
    if not isinstance(known, str):
        known = uuid.uuid4().hex
        if store.writable:
            store.set_setting(OWN_ID, known)
    return known


def of_reviews(store, covered):
    """Return the chain's record; ``covered`` is how many reviews the export was made from."""
    earlier = (store.setting(EXPORTS) or [])[-MOST_EARLIER:]
    chain = store.chain([number for _, number in earlier])
    return {
        "reviews": chain.reviews,
        "withdrawn": chain.withdrawn,
        "covered": covered,
        "head": chain.head,
        "withdrawals_head": chain.withdrawals,
        "checked": min(chain.reviews, NEWEST_CHECKED),
        "faults": len(store.chain_faults(NEWEST_CHECKED)),
        "earlier": [
            {"at": at, "reviews": number, "digest": chain.links[number]}
            for at, number in earlier
            if number in chain.links
        ],
    }


def remember(store, record):
    """Keep in the store that the export ``record`` was written, and what its pilot is to be called."""
    at, reviews = record["made"]["at"], record["chain"]["reviews"]
    earlier = store.setting(EXPORTS) or []
    if reviews and (not earlier or earlier[-1][1] != reviews):
        store.set_setting(EXPORTS, [*earlier, [at, reviews]][-MOST_EARLIER:])
    shown = record["pilot"]["name"]
    if shown != "unnamed pilot":
        store.set_setting(CALL_SIGN if record["pilot"]["is_call_sign"] else NAME, shown)
