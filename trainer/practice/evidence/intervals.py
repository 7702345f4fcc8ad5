"""Intervals around a share that was counted.

Source: Wilson, E. B. (1927), Probable inference, the law of succession, and statistical inference, JASA 22.
"""

import math

EIGHTY_PERCENT = 1.2815515655  # standard normal deviate that leaves 10 % on each side


def wilson(right, asked, deviate=EIGHTY_PERCENT):
    """Return (low, high) around the share ``right`` / ``asked``; (0, 1) where nothing was asked.

    ``right`` may be a sum of scores from 0 to 1.

    >>> [round(end, 3) for end in wilson(8, 10)]
    [0.602, 0.914]
    """
    if not asked:
        return 0.0, 1.0
    share, square = right / asked, deviate**2
    middle = share + square / (2 * asked)
    reach = deviate * math.sqrt(share * (1 - share) / asked + square / (4 * asked**2))
    scale = 1 + square / asked
    return max(0.0, (middle - reach) / scale), min(1.0, (middle + reach) / scale)
