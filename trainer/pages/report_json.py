"""The report on one pilot as JSON: written, and read again from files that may come from anybody.

The schema is ``schema/report-1.json``.  A reader of version 1 ignores fields that it does not know; a field never
changes its meaning: that would be version 2.
"""

import json
from functools import cache
from pathlib import Path

from trainer.pages import seal

SCHEMA = Path(__file__).with_name("schema") / "report-1.json"
FORMAT, VERSION = "trainer report", 1
MOST_BYTES = 5_000_000


class NotAReport(Exception):
    """A file that can't be taken for a report; the message says why, for a person."""


def write(report):
    """Return the JSON text of the record ``report``; its seal is still open."""
    return json.dumps(report | {"seal": seal.OPEN}, ensure_ascii=False, indent=1, allow_nan=False) + "\n"


def read(path):
    """Return the record in the file ``path``; raises ``NotAReport``."""
    text = _text(Path(path))
    record = _parsed(text)
    if not isinstance(record, dict) or record.get("format") != FORMAT:
        raise NotAReport("is no report of the trainer")
    version = record.get("version")
    if version != VERSION or isinstance(version, bool):
        raise NotAReport(f"has version {str(version)[:20]}; this trainer reads version {VERSION}")
    state = seal.check(text)
    if state != seal.SOUND:
        raise NotAReport(f"is {state}")
    problem = _problem(record)
    if problem:
        raise NotAReport(f"is not a whole report: {problem}")
    return record


def _text(path):
    try:
        with path.open("rb") as file:
            data = file.read(MOST_BYTES + 1)
    except (OSError, ValueError) as error:
        raise NotAReport(f"can't be read: {getattr(error, 'strerror', None) or error}") from None
    if len(data) > MOST_BYTES:
        raise NotAReport(f"is larger than {MOST_BYTES:,} bytes")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise NotAReport("is not UTF-8 text") from None


def _parsed(text):
    try:
        return json.loads(text, object_pairs_hook=_once, parse_constant=_no_constant)
    except RecursionError:
        raise NotAReport("is nested too deeply") from None
    except ValueError as error:
        raise NotAReport(f"is damaged: {str(error)[:120]}") from None


def _once(pairs):
    """Return the object; of a key that stands twice, readers would take different values."""
    found = dict(pairs)
    if len(found) != len(pairs):
        raise ValueError("a key stands twice in one object")
    return found


def _no_constant(name):
    raise ValueError(f"{name} is no number of JSON")


@cache
def _validator():
    import fastjsonschema

    return fastjsonschema.compile(json.loads(SCHEMA.read_text(encoding="utf-8")))


def _problem(record):
    import fastjsonschema

    try:
        _validator()(record)
    except fastjsonschema.JsonSchemaValueException as error:
        return error.message[:160]
    except (OverflowError, RecursionError):
        return "a number in it is out of all bounds"
    return ""
