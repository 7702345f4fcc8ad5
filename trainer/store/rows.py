"""A review as a row: typed columns, canonical JSON, one way to write a time, a digest that chains rows."""

import hashlib
import json
import math
from collections.abc import Mapping
from dataclasses import MISSING, fields
from datetime import UTC, datetime
from functools import cache

from trainer.clock import LAST_YEAR
from trainer.errors import StorageError
from trainer.model import Review

TYPE_CHECKING = False
if TYPE_CHECKING:  # a cold start reads by this module
    from typing import Any

_JSON = frozenset({"inputs", "value", "truth", "parts"})
REAL = frozenset({"tolerance_on", "tolerance_inside", "deviation", "score", "seconds", "limit_s", "predicted", "guess"})
FIELDS = tuple(field.name for field in fields(Review))
COLUMNS = ("items", *FIELDS)
# Columns that a later release added, with what stands for them in older rows.  They lie behind all others in the file.
LATER = {field.name: field.default for field in fields(Review) if field.default is not MISSING}
_RELEASED_FIRST = tuple(name for name in COLUMNS if name not in LATER)
FIRST_DIGEST = bytes(32)
MINUTES_PER_DAY = 1440
_ENCODER = json.JSONEncoder(sort_keys=True, separators=(",", ":"), allow_nan=False)


def _no_constant(name):
    raise ValueError(f"{name} is no number")


_DECODER = json.JSONDecoder(parse_constant=_no_constant)


def utc_text(instant):
    """Return ``instant`` (aware) as UTC text, cut to the millisecond, of fixed width: text sorts as time."""
    if instant.tzinfo is None:
        raise ValueError(f"{instant!r} has no time zone")
    return instant.astimezone(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")


def instant(text):
    """Return the aware datetime that ``utc_text`` wrote; ``StorageError`` when damage has changed it."""
    try:
        found = datetime.fromisoformat(text)
    except (ValueError, TypeError) as error:
        raise damaged(error) from error
    if found.tzinfo is None or found.year > LAST_YEAR:
        raise damaged(f"{text} is no time of ours")
    return found


def offset(minutes):
    """Return the offset from UTC in a column; ``StorageError`` for one of more than a day."""
    if not abs(stored_number(minutes)) < MINUTES_PER_DAY:
        raise damaged(f"{minutes} is no offset from UTC")
    return minutes


def damaged(error):
    """Return the ``StorageError`` for a row that damage has changed."""
    return StorageError(f"a stored row is damaged ({error})", hint="`trainer data salvage` saves all the others")


def plain(value):
    """Return ``value`` as what JSON can hold: numpy scalars as Python's, tuples as lists, text without loose
    surrogates (what a terminal hands over for bytes that are not UTF-8)."""
    if value is None or value is True or value is False:
        return value
    if isinstance(value, str):
        return value.encode("utf-8", "replace").decode("utf-8")
    if isinstance(value, float):
        return float(value)
    if isinstance(value, int):
        return int(value)
    if isinstance(value, Mapping):
        return {plain(key): plain(entry) for key, entry in value.items()}
    if isinstance(value, (list, tuple)):
        return [plain(entry) for entry in value]
    if hasattr(value, "item"):
        return plain(value.item())
    raise TypeError(f"{value!r} can't be stored")


def to_json(value):
    """Return ``value`` as canonical JSON; ValueError for a number that is not finite."""
    return _dumps(plain(value))


def _dumps(value):
    return _ENCODER.encode(value)


def tuples(value: "Any") -> "Any":
    """Return ``value`` (of JSON) with tuples in the place of lists."""
    if isinstance(value, list):
        return tuple(tuples(entry) for entry in value)
    if isinstance(value, dict):
        return {key: tuples(entry) for key, entry in value.items()}
    return value


def from_json(text):
    """Return what ``to_json`` wrote, sequences as tuples; ``StorageError`` when damage has changed it."""
    if text == "{}":
        return {}
    try:
        value = _DECODER.raw_decode(text)[0]
    except (ValueError, RecursionError, TypeError) as error:
        raise damaged(error) from error
    return tuples(value) if "[" in text else value


def items_of(text):
    """Return the names of the items in the column ``items``; ``StorageError`` when damage has changed it."""
    items = from_json(text)
    if not isinstance(items, tuple) or not all(isinstance(item, str) for item in items):
        raise damaged(f"{text!r} names no items")
    return items


def stored_number(value):
    """Return ``value`` from a column of numbers; ``StorageError`` when damage has made something else of it."""
    if type(value) not in (int, float) or not math.isfinite(value):
        raise damaged(f"{value!r} is no number")
    return value


def number(value):
    """Return ``value`` as a finite float, or None for None; ValueError for anything that is not finite.

    SQLite keeps no negative zero, so it is made positive before the digest is taken.
    """
    if value is None:
        return None
    value = float(value) + 0.0
    if not math.isfinite(value):
        raise ValueError(f"{value} is not a finite number")
    return value


def _text(value):
    if not isinstance(value, str):
        raise TypeError(f"{value!r} is not text")
    return plain(value)


def _column(name):
    if name in _JSON:
        return to_json
    if name in REAL:
        return number
    special = {"at": utc_text, "hint_used": lambda value: int(bool(value)), "offset_min": int}
    return special.get(name, _text)


_WRITERS = tuple((name, _column(name)) for name in FIELDS)


def to_row(review, items):
    """Return the values of ``COLUMNS`` for ``review``, which changed the states of ``items``.

    Raises ValueError or TypeError, with the name of the field, for what can't be stored.
    """
    row: list[float | str | None] = [to_json(list(items))]
    for name, write in _WRITERS:
        try:
            row.append(write(getattr(review, name)))
        except (ValueError, TypeError) as error:
            raise type(error)(f"review of {review.drill_id!r}, {name}: {error}") from error
    return tuple(row)


_INPUTS, _VALUE, _TRUTH, _PARTS, _AT, _HINT, _OFFSET = (
    FIELDS.index(name) for name in ("inputs", "value", "truth", "parts", "at", "hint_used", "offset_min")
)


_OPTIONAL = REAL - {"score", "limit_s", "predicted"}
_WHOLE = ("hint_used", "offset_min")


def _types(name):
    if name in REAL:
        return (float, type(None)) if name in _OPTIONAL else (float,)
    return (int,) if name in _WHOLE else (str,)


@cache
def _check_types(*types):
    """Raise ``StorageError`` unless values of these ``types`` can be those of ``FIELDS``."""
    # SQLite hands over what a damaged page says, whatever the type of the column.
    for name, found in zip(FIELDS, types, strict=True):
        if found not in _types(name):
            raise damaged(f"{name} is of the type {found.__name__}")


def from_row(row):
    """Return the ``Review`` in the values of ``FIELDS``; ``StorageError`` when damage has changed them."""
    _check_types(*map(type, row))
    values = list(row)
    for place in (_INPUTS, _VALUE, _TRUTH, _PARTS):
        values[place] = from_json(values[place])
    values[_AT] = instant(values[_AT])
    values[_HINT] = bool(values[_HINT])
    offset(values[_OFFSET])
    review = object.__new__(Review)
    # The constructor of a frozen class sets each field by a call: four times slower over a long history.
    review.__dict__.update(zip(FIELDS, values, strict=True))
    return review


def digest(previous, review_id, row):
    """Return the SHA-256 over ``previous`` digest and the canonical JSON of the row (values of ``COLUMNS``).

    Empty columns are left out, and later ones that hold what stands for older rows: so a column that is added
    leaves the digests of older rows as they are.  ``StorageError`` where damage has made ``previous`` something else.
    """
    named = {
        name: value
        for name, value in zip(COLUMNS, row, strict=True)
        if value is not None and not (name in LATER and value == LATER[name])
    }
    return hashlib.sha256(_bytes(previous) + _dumps({"id": review_id, **named}).encode("ascii")).digest()


def content(row):
    """Return a digest of what the row (values of ``COLUMNS``) says, wherever in whichever chain it stands."""
    return digest(FIRST_DIGEST, 0, row)


def _bytes(digest):
    if not isinstance(digest, bytes):
        raise damaged("a digest is none")
    return digest


def fits(found, make, *what):
    """Return whether the digest ``found`` is what ``make(*what)`` gives: of damaged values there may be none."""
    try:
        return make(*what) == found
    except (StorageError, TypeError, ValueError):
        return False


def withdrawal_digest(previous, withdrawal_id, review_digest, at):
    """Return the SHA-256 that chains a withdrawal to the one before it and to the review it withdraws."""
    text = _dumps({"id": withdrawal_id, "review": _bytes(review_digest).hex(), "at": at})
    return hashlib.sha256(_bytes(previous) + text.encode("ascii")).digest()


def from_record(values):
    """Return (values of ``COLUMNS``, digest) from a record as a database file holds it, None where it is no review.

    A record that was written before a column was added lacks it, whatever stands in the tables by now; one of a
    newer trainer may have more at its end.
    """
    first = len(_RELEASED_FIRST) + 1  # the number of the row, which the record leaves empty
    if (
        len(values) <= first
        or values[0] is not None
        or not isinstance(values[first], bytes)
        or len(values[first]) != 32
    ):
        return None
    named = dict(zip(_RELEASED_FIRST, values[1:first], strict=True)) | LATER
    named |= dict(zip(LATER, values[first + 1 :], strict=False))
    return tuple(_with_reals(name, named[name]) for name in COLUMNS), values[first]


def _is_digest(value):
    return isinstance(value, bytes) and len(value) == len(FIRST_DIGEST)


def _with_reals(name, value):
    # SQLite writes 5.0 as the integer 5 and turns it back by the type of the column.
    return float(value) if name in REAL and isinstance(value, int) else value
