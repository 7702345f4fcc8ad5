"""The shapes of what is kept as JSON: whatever does not have them is damaged and counts as absent."""

import json
import math
from types import GenericAlias

TYPE_CHECKING = False
if TYPE_CHECKING:  # a cold start reads the opening by this, and waits for nothing else
    from typing import Any

# setting -> its shape; a setting that is not named here may be any JSON
SETTINGS: dict[str, type | GenericAlias] = {
    "asked first": list[tuple[str, str]],
    "chosen files": dict[str, str],
    "daily prices": list[float],
    "exports": list[tuple[str, int]],
    "last card": dict[str, object],
    "left sortie": dict[str, object],
    "merged": list[dict],
    "pilot call sign": str,
    "pilot name": str,
    "put back": str,
    "standing by day": dict[str, list],
}
MADE_ANEW = ("daily prices", "standing by day")  # settings that follow from the reviews: nobody misses them
TEXTS, MAPPING = list[str], dict[str, object]


class Misshapen(ValueError):
    """Something that does not have its shape."""


def loaded(text: bytes | str, shape: type | GenericAlias = object) -> "Any":
    """Return the value that the JSON ``text`` holds; ``Misshapen`` unless it has this ``shape``.

    >>> loaded("[1, 2]", list[float])
    [1, 2]
    """
    try:
        value = json.loads(text, parse_constant=_no_constant, parse_float=_finite)
    except (ValueError, RecursionError, TypeError) as error:
        raise Misshapen(str(error)) from None
    if not fits(value, shape):
        raise Misshapen(f"it is no {getattr(shape, '__name__', shape)}")
    return value


def fits(value: object, shape: type | GenericAlias) -> bool:
    """Return whether ``value`` (of JSON) has the ``shape``: a type, list[T], dict[str, T] or tuple[T, U]."""
    if shape is object:
        return True
    parts = getattr(shape, "__args__", ())
    kind = getattr(shape, "__origin__", shape)
    if kind is tuple:
        return isinstance(value, list) and len(value) == len(parts) and all(map(fits, value, parts))
    if kind is list:
        return isinstance(value, list) and all(fits(entry, parts[0]) for entry in value if parts)
    if kind is dict:
        return isinstance(value, dict) and all(fits(entry, parts[1]) for entry in value.values() if parts)
    if kind is float:
        return isinstance(value, (int, float)) and not isinstance(value, bool) and math.isfinite(value)
    return type(value) is kind


def setting(key: str, text: bytes | str) -> "Any":
    """Return the value of the setting ``key``; ``Misshapen`` where damage has made something else of it."""
    return loaded(text, SETTINGS.get(key, object))


def _finite(text):
    number = float(text)
    if not math.isfinite(number):
        raise ValueError(f"{text[:20]} is out of all bounds")
    return number


def _no_constant(name):
    raise ValueError(f"{name} is no number")
