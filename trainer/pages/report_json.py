"""The report on one pilot as JSON: written, and read again from files that may come from anybody.

The schema is ``schema/report-1.json``.  A reader of version 1 ignores fields that it does not know; a field never
changes its meaning: that would be version 2.
"""

import json
import math
from functools import cache
from pathlib import Path

from trainer import bounded_file
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
    return _known(record, _schema())


def _text(path):
    try:
        return bounded_file.read(path, MOST_BYTES).decode("utf-8-sig")
    except bounded_file.Unfit as error:
        raise NotAReport(str(error)) from None
    except UnicodeDecodeError:
        raise NotAReport("is not UTF-8 text") from None


def _parsed(text):
    try:
        return json.loads(text, object_pairs_hook=_once, parse_constant=_no_constant, parse_float=_finite)
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


def _finite(text):
    number = float(text)
    if not math.isfinite(number):
        raise ValueError(f"{text[:20]} is out of all bounds")
    return number


def _known(record, schema):
    """Return ``record`` with the fields that ``schema`` names: of many files nothing else is to be kept in memory."""
    if isinstance(record, list):
        return [_known(entry, _part(schema, "items")) for entry in record]
    fields = _part(schema, "properties")
    if not isinstance(record, dict) or not fields:
        return record
    return {name: _known(value, fields[name]) for name, value in record.items() if name in fields}


def _part(schema, key):
    """Return what ``schema``, or the choice in it that has such a thing, says under ``key``; {} for nothing."""
    return next((one[key] for one in (schema, *schema.get("anyOf", ())) if key in one), {})


@cache
def _schema():
    return json.loads(SCHEMA.read_text(encoding="utf-8"))


@cache
def _validator():
    import fastjsonschema

    return fastjsonschema.compile(_schema())


def _problem(record):
    import fastjsonschema

    try:
        _validator()(record)
    except fastjsonschema.JsonSchemaValueException as error:
        return error.message[:160]
    except (OverflowError, RecursionError):
        return "a number in it is out of all bounds"
    return ""
