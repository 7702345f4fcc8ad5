"""A record as it is handed out: numbers to six digits, texts harmless and of bounded length."""

from typing import Any

from trainer.pages.text import clean

DECIMALS = 6
LONGEST_NAME, LONGEST_TYPED = 80, 200


def tidy(value: Any, key: str = "") -> Any:
    """Return ``value`` (a JSON record) with every number rounded and every text cleaned."""
    if isinstance(value, float):
        return round(value, DECIMALS) + 0.0
    if isinstance(value, str):
        return clean(value, {"name": LONGEST_NAME, "typed": LONGEST_TYPED, "asked_back": LONGEST_TYPED}.get(key, 600))
    if isinstance(value, dict):
        return {name: tidy(entry, name) for name, entry in value.items()}
    if isinstance(value, (list, tuple)):
        return [tidy(entry, key) for entry in value]
    return value
