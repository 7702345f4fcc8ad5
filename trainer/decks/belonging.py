"""Which kind of file this is, by what stands in it: a file in the wrong folder is told where it belongs."""

from collections.abc import Mapping
from typing import Any

# kind -> (what it is called, where it lies)
PLACES = {
    "deck": ("a deck", "it belongs beside the other decks, in the folder decks itself"),
    "data": ("an airframe or a ship", "it belongs into the folder airframes or ships"),
    "stage": ("a stage", "it belongs into the folder stages"),
    "standard": ("a standard", "it belongs into the folder standards"),
    "said": ("how people say the steps of a flow", "it belongs into the folder said beside the deck"),
}
# kind -> top-level keys that no other kind has
MARKS = {
    "deck": {"deck", "computed", "flow", "recall", "call", "listen"},
    "data": {"values", "table"},
    "stage": {"core", "more"},
    "standard": {"all", "area", "flows"},
}


def kind_of(tables: Mapping[str, Any]) -> str:
    """Return the kind of a file with these top-level ``tables``, "" where nothing tells."""
    named = next((kind for kind, marks in MARKS.items() if marks & tables.keys()), "")
    return named or ("said" if tables and all(map(_is_said, tables.values())) else "")


def _is_said(step):
    return isinstance(step, Mapping) and bool(step) and step.keys() <= {"right", "wrong", "near"}


def misplaced(tables: Mapping[str, Any], kind: str) -> str:
    """Return where a file with these top-level ``tables`` belongs, "" where it may well be of ``kind``."""
    if MARKS[kind] & tables.keys():
        return ""
    other = kind_of(tables)
    what, where = PLACES.get(other, ("", ""))
    return f"this is {what}, not {PLACES[kind][0]}; {where}" if other else ""
