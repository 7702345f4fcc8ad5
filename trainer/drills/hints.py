"""Hints that name a line by the number under which it stands on the screen."""

from random import Random

from trainer.drills import chance


def one_of_two(rng: Random, right: int, count: int) -> str:
    """Return which two of ``count`` lines the right one (its index) is among, "" where that says nothing.

    >>> one_of_two(Random("one"), 2, 4), one_of_two(Random("one"), 0, 2)
    ('it is 3 or 4', '')
    """
    if count < 3:
        return ""
    other = chance.choice(rng, [at for at in range(count) if at != right])
    first, second = sorted((right + 1, other + 1))
    return f"it is {first} or {second}"
