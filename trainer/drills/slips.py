"""Which slip led to a wrong answer – and when that can't be told."""

from trainer.engine.units import UNITS

HAIR = 1e-6


def hair_of(truth):
    """Return the difference that floating point alone may make beside ``truth``."""
    return HAIR * max(1.0, abs(truth))


def deviation(value, truth, unit_name):
    """Return ``value`` minus ``truth``, the shorter way round for headings, minutes and clock times.

    >>> deviation(2.0, 359.0, "heading"), deviation(58.0, 1.0, "minute")
    (3.0, -3.0)
    """
    cycle = UNITS[unit_name].cycle
    difference = value - truth
    if cycle:
        difference %= cycle
        difference -= cycle if difference > cycle / 2 else 0.0
    return difference


def clear(slips, truths, unit_name, limits):
    """Return those of ``slips`` [(Slip, value)] that can be told from the truths and from each other.

    ``truths`` are the truth and what other accepted methods give.  A slip within limits of one of them, or
    one that coincides with another slip, is never accused.
    """
    hair = hair_of(truths[0])
    return [
        (slip, wrong)
        for slip, wrong in slips
        if all(abs(deviation(wrong, truth, unit_name)) > limits.inside + hair for truth in truths)
        and all(other is slip or abs(deviation(wrong, theirs, unit_name)) > limits.on + hair for other, theirs in slips)
    ]


def matching(value, slips, truths, unit_name, limits):
    """Return the nearest clear slip within limits of ``value``, None when none is nearer than the truth."""
    off = min(abs(deviation(value, truth, unit_name)) for truth in truths)
    near = [(abs(deviation(value, wrong, unit_name)), slip) for slip, wrong in clear(slips, truths, unit_name, limits)]
    near = [pair for pair in near if pair[0] <= limits.inside + hair_of(truths[0]) and pair[0] < off]
    return min(near, key=lambda pair: pair[0])[1] if near else None
