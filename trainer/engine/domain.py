"""Refusal: a formula is not used outside the range in which it holds."""

import numpy as np

from trainer.errors import DomainError


def inside(name, value, low, high, *, why=""):
    """Raise ``DomainError`` unless every element of ``value`` is a number from ``low`` to ``high``.

    ``name`` appears in the message; ``why`` tells the reason for the limit.  NaN and infinity are refused.
    """
    if isinstance(value, float | int) and low <= value <= high:
        return  # a single number, as nearly all are, is not worth an array
    array = np.asarray(value, dtype=float)
    bad = ~((array >= low) & (array <= high))
    if np.any(bad):
        worst = array[bad].flat[0]
        reason = f" ({why})" if why else ""
        raise DomainError(f"{name} is {worst:g}", hint=f"it must be {low:g} to {high:g}{reason}")


def require(condition, message, *, hint=""):
    """Raise ``DomainError`` with ``message`` unless every element of ``condition`` is true."""
    if not (isinstance(condition, bool | np.bool_) and condition) and not np.all(condition):
        raise DomainError(message, hint=hint)
