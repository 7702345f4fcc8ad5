"""Which slip led to a wrong answer – and when that can't be told."""

from dataclasses import replace

from trainer.engine.units import UNITS
from trainer.model import Slip, Tolerance

HAIR = 1e-6
MOST_NAMED = 2  # slips that lead to one number and are both told


def hair_of(truth: float) -> float:
    """Return the difference that floating point alone may make beside ``truth``."""
    return HAIR * max(1.0, abs(truth))


def deviation(value: float, truth: float, unit_name: str) -> float:
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


def nameable(
    slips: list[tuple[Slip, float]], truths: tuple[float, ...], unit_name: str, limits: Tolerance
) -> list[tuple[Slip, float]]:
    """Return those of ``slips`` [(Slip, value)] that are clearly wrong; such as lead to one number are told as one.

    ``truths`` are the truth and what other accepted methods give.  Slips that coincide keep the name of the first,
    which the quantity or the deck holds for the likeliest, and the words of the first two.
    """
    found = []
    for slip, wrong in slips:
        if not all(_apart(wrong, truth, unit_name, limits.inside, truths[0]) for truth in truths):
            continue
        alike = [at for at, (_, other) in enumerate(found) if not _apart(wrong, other, unit_name, limits.on, truths[0])]
        if alike:
            found[alike[0]][0].append(slip)
        else:
            found.append(([slip], wrong))
    return [(together(several), wrong) for several, wrong in found]


def together(slips: list[Slip]) -> Slip:
    """Return one ``Slip`` for ``slips`` that can't be told from each other."""
    return replace(slips[0], words=" – or: ".join(dict.fromkeys(slip.words for slip in slips[:MOST_NAMED])))


def _apart(one, other, unit_name, allowed, truth):
    return abs(deviation(one, other, unit_name)) > allowed + hair_of(truth)


def matching(
    value: float, slips: list[tuple[Slip, float]], truths: tuple[float, ...], unit_name: str, limits: Tolerance
) -> Slip | None:
    """Return the nearest nameable slip within limits of ``value``, None when none is nearer than the truth."""
    off = min(abs(deviation(value, truth, unit_name)) for truth in truths)
    told = nameable(slips, truths, unit_name, limits)
    near = [(abs(deviation(value, wrong, unit_name)), slip) for slip, wrong in told]
    near = [pair for pair in near if pair[0] <= limits.inside + hair_of(truths[0]) and pair[0] < off]
    return min(near, key=lambda pair: pair[0])[1] if near else None
