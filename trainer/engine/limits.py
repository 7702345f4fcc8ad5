"""Refusals that many functions share: directions, and several inputs with one range."""

from trainer.engine.domain import inside

_UNITS = ("deg", "kn", "nm", "ft", "min", "s")


def directions(**values):
    """Raise ``DomainError`` unless every direction, float or array, is a number from 0 to 360."""
    within(0, 360, **values)


def within(low, high, **values):
    """Raise ``DomainError`` unless every named value (float or array) lies from ``low`` to ``high``."""
    for name, value in values.items():
        inside(_spoken(name), value, low, high)


def _spoken(name):
    """Return ``ship_speed_kn`` as a person says it: "ship speed"."""
    *words, last = name.split("_")
    return " ".join(words if last in _UNITS and words else (*words, last))
