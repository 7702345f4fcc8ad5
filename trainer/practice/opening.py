"""The first question of the next session, chosen and drawn when the last one ends.

It lies in the store as one record, so that a cold start can show it before decks, engine and memory are
loaded.  It is used only while the decks it came from are unchanged.
"""

from dataclasses import asdict

from trainer.model import Question
from trainer.store import cold_read, rows


def to_record(question, *, signature):
    """Return ``question`` as a JSON record; ``signature`` is that of the decks it was drawn from."""
    record = rows.plain(asdict(question) | {"inputs": dict(question.inputs)})
    return {"signature": signature, "question": record, "seal": cold_read.seal(record)}


def from_record(record, *, signature):
    """Return the ``Question`` of ``record``, or None when there is none or the decks have changed since."""
    if not cold_read.sealed(record) or record.get("signature") != signature:
        return None
    try:
        fields = dict(record["question"])
        for name in ("choices", "truth"):
            if isinstance(fields.get(name), list):
                fields[name] = tuple(fields[name])
        return Question(**fields)
    except (KeyError, TypeError):
        return None  # written by another version of the trainer: choose afresh
