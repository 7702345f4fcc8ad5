"""Chance from a seed, the same on every platform and release of Python.

Only ``random.Random.random`` is documented to stay as it is, so everything is made from it.
"""

from decimal import Decimal


def index(rng, count):
    """Return a whole number from 0 to ``count`` - 1."""
    return min(int(rng.random() * count), count - 1)


def choice(rng, options):
    """Return one of ``options``."""
    return options[index(rng, len(options))]


def sample(rng, options, count):
    """Return ``count`` different ones of ``options`` in a drawn order (all of them when there are fewer)."""
    pool = list(options)
    return [pool.pop(index(rng, len(pool))) for _ in range(min(count, len(pool)))]


def weighted(rng, options, weights):
    """Return one of ``options``, each as likely as its weight."""
    at = rng.random() * sum(weights)
    for option, weight in zip(options, weights, strict=True):
        at -= weight
        if at < 0:
            return option
    return options[-1]


def on_grid(rng, low, high, step):
    """Return a float from ``low``, ``low`` + ``step`` … ``high``, exact as written (never 0.30000000000000004)."""
    low, high, step = (Decimal(repr(float(number))) for number in (low, high, step))
    return float(low + index(rng, int((high - low) / step) + 1) * step)
