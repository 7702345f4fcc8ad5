"""The slots that are left until a dated event, and the ways to practise an item in them."""

from itertools import combinations

import numpy as np

from trainer.memory.practice_patterns import Horizons, Roller, tree_of

# More slots than these make a plan slower, not better: days near the event stand alone, earlier ones
# are taken together in runs of equal length.
MOST_SLOTS = 10
# Where the minutes left buy what was begun a practice or two each, six slots do: followed day by day such a plan gives
# what one with ten gives, within half a per cent.  Where there are 60 s for each it would give 3 % less, and of new
# items up to 5 %, which are alike and so are weighed in no time anyway.
FEW_SLOTS, FEW_BELOW_S = 6, 25.0
# What is still known a month after the event counts too.  On the bench (tuning seeds) that costs nothing on the
# day, for a belief that looks only one day beyond the last session takes much for learned that is not.
LATER_DAYS, LATER_SHARE = 30.0, 0.4
KEPT_FOR, ON_THE_DAY = range(2)
NEGLIGIBLE = 0.005  # laws of memory that are less likely than this, all together, change no plan
THIN_GRID = 6  # slots from which three or four practices are chosen


def most_slots(seconds, begun):
    """Return how many slots are worth their time where ``seconds`` are left in all and so many items are ``begun``."""
    return FEW_SLOTS if seconds < FEW_BELOW_S * begun else MOST_SLOTS


def grouped(days, most=MOST_SLOTS):
    """Return the practice ``days`` (ascending, the first is today) as at most ``most`` runs."""
    if len(days) <= most:
        return [[day] for day in days]
    alone = most // 2 - 1  # at the end
    runs = np.array_split(np.asarray(days[1:-alone]), most - 1 - alone)
    return [[days[0]], *(run.tolist() for run in runs), *([day] for day in days[-alone:])]


def templates(slots):
    """Return the ways to practise in ``slots`` slots, as tuples of slot numbers.

    All with one or two practices; today with any two later; three or four on a thin grid; runs of days up
    to the event; every other slot.
    """
    every = range(slots)
    thin = sorted({round(place) for place in np.linspace(0, slots - 1, min(THIN_GRID, slots))})
    found: set[tuple[int, ...]] = {()}
    for size in (1, 2):
        found.update(combinations(every, size))
    found.update((0, *rest) for rest in combinations(range(1, slots), 2))
    for size in (3, 4):
        found.update(combinations(thin, size))
    found.update(tuple(range(first, slots)) for first in every)
    found.update(tuple(range(first, slots, 2)) for first in (0, 1) if first < slots)
    return sorted(found)


def roller_until(now, slot_days, event_day):
    """Return the ``Roller`` for slots on ``slot_days`` (the first now) towards ``event_day``.

    Its two purposes are ``KEPT_FOR``, which plans are made for, and ``ON_THE_DAY``, which forecasts are read from.
    """
    offsets = np.maximum(0.0, np.asarray(slot_days, dtype=float) - now)
    ahead = event_day - now
    weight = np.zeros((2, 2))
    weight[KEPT_FOR] = 1.0 - LATER_SHARE, LATER_SHARE
    weight[ON_THE_DAY] = 1.0, 0.0
    horizons = Horizons(days=np.array([ahead, ahead + LATER_DAYS]), weight=weight, in_time=True)
    return Roller(tree_of(offsets, templates(len(offsets))), horizons, negligible=NEGLIGIBLE)
