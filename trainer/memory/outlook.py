"""What to expect on a date: the share right, the chance of meeting a standard, and how sure that is.

The belief alone is far too sure of itself: all items of an area are wrong together when the model is wrong
about this learner.  So each area gets a shared error besides the errors of its items.
"""

from math import comb

import numpy as np

from trainer.frozen import frozen
from trainer.memory import costs, reliability
from trainer.memory.costs import normal_share
from trainer.memory.practice_patterns import Horizons, Roller, tree_of
from trainer.memory.reliability import Recalibration

# The shared error of an area's share.  Without it an "80 %" interval held the truth 34 to 48 times in a hundred on
# the prototype's bench (memory notes, 9.2); the amounts are from ours (tuning seeds), on corrected forecasts.
SIGMA_ALWAYS = 0.045
SIGMA_EARLY, EARLY_DAYS = 0.01, 10.0  # in full until ten days of practice have been seen
SIGMA_PER_DOUBLING = 0.025  # for each doubling of the horizon over the longest gap that was ever seen
SIGMA_MOST = 0.15
SHORTEST_GAP_DAYS = 0.5  # before any gap was seen, half a day stands for it

# What practice still to come will gain is known less well than what is there: on the bench (tuning seeds) the
# gain that a plan expects was off by about this share of itself, root mean square over the families.
PLAN_DOUBT = 0.4

# A plan is made anew every day from what the answers have shown, and so it gives more than it promises: on the bench
# (tuning seeds) a twentieth in log-odds with five days left, on average over ten families.
PLAN_GROWS_PER_DAY, PLAN_GROWS_MOST = 0.01, 0.05
# How past forecasts erred says how far the next ones lean, but of what practice will still change it says less: half,
# and stretched about the middle of what is there and what is promised (same bench; in full it did harm).
PLAN_CORRECTED = 0.5

LEVEL = 0.90  # of the interval
NODES = np.linspace(-3.0, 3.0, 41)  # of the shared error, in deviations
NODE_WEIGHT = np.exp(-0.5 * NODES**2) / np.exp(-0.5 * NODES**2).sum()
TEN_MINUTES_S = 600.0


@frozen
class AreaStandard:
    """What is demanded of an area: at least ``share`` right of ``questions`` drawn from its items."""

    area: str
    share: float = 0.8
    questions: int = 10


@frozen
class AreaOutlook:
    """The forecast of one area (or of all, with area "").

    ``share`` is the expected share right in time, between ``low`` and ``high`` with probability ``LEVEL``;
    ``chance`` the probability of meeting the standard; ``items`` how many, ``seen`` how many of them were
    ever asked.
    """

    area: str
    items: int
    seen: int
    share: float
    low: float
    high: float
    chance: float


@frozen
class TenMinutes:
    """What ten minutes now on ``area`` would buy: the items, and the rise of share and chance on the date."""

    area: str
    ids: tuple[str, ...]
    share_gain: float
    chance_gain: float


@frozen
class Outlook:
    """The forecast for ``on``: each area, all together, the best ten minutes first.

    ``beyond`` says how many times longer the wait is than any gap seen so far: above 1 the forecast leans
    on the model alone.
    """

    on: float
    areas: tuple[AreaOutlook, ...]
    overall: AreaOutlook
    ten_minutes: tuple[TenMinutes, ...]
    beyond: float


def sigma(horizon_days, days_practised, longest_gap_days):
    """Return the deviation of the shared error of an area's share; floats or arrays.

    >>> round(float(sigma(1.0, 40, 10.0)), 3)
    0.051
    """
    early = SIGMA_EARLY * np.minimum(1.0, EARLY_DAYS / np.maximum(days_practised, 1.0))
    beyond = np.maximum(horizon_days, 0.0) / np.maximum(longest_gap_days, SHORTEST_GAP_DAYS)
    return np.minimum(SIGMA_MOST, SIGMA_ALWAYS + early + SIGMA_PER_DOUBLING * np.log2(1.0 + beyond))


def meeting_chance(share, deviation, standard):
    """Return the probability of meeting ``standard`` where the true share is about ``share``.

    ``deviation`` is that of the true share; the questions then add their own luck.
    """
    shares = np.clip(share + deviation * NODES, 0.0, 1.0)
    # A hair below, so that 0.8 of 10 is 8 and not, by rounding, 9.
    needed = int(np.ceil(standard.share * standard.questions - 1e-9))
    enough = np.zeros(len(NODES))
    for right in range(needed, standard.questions + 1):
        ways = comb(standard.questions, right)
        enough += ways * shares**right * (1.0 - shares) ** (standard.questions - right)
    return float(enough @ NODE_WEIGHT)


def spread(chances_by_hypothesis, weights):
    """Return the variance [items] of the chance over the hypotheses."""
    mean = np.einsum("rh,rh->r", chances_by_hypothesis, weights)
    return np.maximum(0.0, np.einsum("rh,rh->r", chances_by_hypothesis**2, weights) - mean**2)


def interval(share, deviation, level=LEVEL):
    """Return (low, high) about ``share`` that hold the truth with probability ``level``; floats or arrays."""
    half = _deviations_of(level) * deviation
    return np.clip(share - half, 0.0, 1.0), np.clip(share + half, 0.0, 1.0)


def share_deviation(variances, shared, planned_gain=0.0):
    """Return the deviation of the mean share of items with ``variances`` [..., items] and a ``shared`` error.

    ``planned_gain`` is what practice still to come is expected to add to the share.
    """
    count = variances.shape[-1]
    return np.sqrt(variances.sum(-1) / count**2 + shared**2 + (PLAN_DOUBT * planned_gain) ** 2)


def outlook(beliefs, *, day, on, standards, chances=None, correction=None):
    """Return the ``Outlook`` on day ``on``, seen from ``day``, for the areas that ``standards`` name.

    ``standards`` are ``AreaStandard``; one with area "" sets the standard of all together.  ``chances``
    [items] replaces the chances without further practice: those of a plan, if it is kept to.  ``correction`` is
    the learner's own ``reliability.Recalibration``; ``chances`` that are given are not corrected again.
    Areas without an item are left out.
    """
    seen = _Seen(beliefs, day, on, chances, correction or Recalibration())
    wanted = {standard.area: standard for standard in standards}
    overall = wanted.pop("", AreaStandard(area=""))
    areas = [(standard, seen.places(standard.area)) for standard in wanted.values()]
    areas = [(standard, places) for standard, places in areas if len(places)]
    ten = [seen.ten_minutes(standard, places) for standard, places in areas] if on > day else []
    return Outlook(
        on=float(on),
        areas=tuple(seen.forecast(standard, places) for standard, places in areas),
        overall=seen.forecast(overall, np.arange(len(beliefs))),
        ten_minutes=tuple(sorted(ten, key=lambda entry: -entry.chance_gain)),
        beyond=float((on - day) / max(beliefs.learner.longest_gap_days, SHORTEST_GAP_DAYS)),
    )


def as_renewed(promised, bare, correction, days_left):
    """Return the chances that a plan leads to, renewed every day, where it ``promised`` such and practises at all.

    ``bare`` are the chances without any practice, ``correction`` is the learner's, ``days_left`` are the days of
    practice, today's counted.

    >>> round(float(as_renewed(0.5, 0.2, Recalibration(), 5)), 4)
    0.5125
    """
    odds = reliability.log_odds(promised)
    middle = (odds + reliability.log_odds(bare)) / 2.0
    grows = min(PLAN_GROWS_MOST, PLAN_GROWS_PER_DAY * days_left)
    moved = odds + PLAN_CORRECTED * correction.shift + (correction.stretch - 1.0) * middle + grows
    return 1.0 / (1.0 + np.exp(-moved))


class _Seen:
    """Chances of all items on a date, and what one more practice now would add."""

    def __init__(self, beliefs, day, on, chances, correction):
        self.beliefs, table = beliefs, beliefs.table
        learner_rows = beliefs.learner_rows(len(beliefs))
        both = costs.chances(beliefs.rows, table, on) * costs.soon(beliefs.rows, table, learner_rows, on)
        self.variances = spread(both, beliefs.weights)
        bare = correction.apply(np.einsum("rh,rh->r", both, beliefs.weights))
        self.bare = bare
        self.chances = bare if chances is None else np.asarray(chances, dtype=float)
        learner = beliefs.learner
        self.shared = float(sigma(on - day, learner.days_practised, learner.longest_gap_days))
        horizons = Horizons(days=np.array([max(on - day, 0.0)]), weight=np.ones(1), in_time=True)
        roller = Roller(tree_of((0.0,), [(), (0,)]), horizons)
        outlay = roller.outlay(beliefs.rows, table, learner_rows, beliefs.weights, day)
        # What a practice adds to a chance that a plan will have raised anyway is less: the room left shrinks.
        room = (1.0 - self.chances) / np.maximum(1.0 - bare, 1e-6)
        self.gain = (outlay.reward[:, 1] - outlay.reward[:, 0]) * np.minimum(room, 1.0)
        self.seconds = outlay.seconds[:, 1]

    def places(self, area):
        """Return the places of the items of ``area``."""
        return np.array([place for place, spec in enumerate(self.beliefs.specs) if spec.area == area], dtype=int)

    def forecast(self, standard, places, extra=0.0):
        """Return the ``AreaOutlook`` of the items at ``places``, their share raised by ``extra``."""
        share = float(self.chances[places].mean()) + extra if len(places) else 0.0
        deviation = self.shared
        if len(places):
            gain = share - float(self.bare[places].mean())
            deviation = float(share_deviation(self.variances[places], self.shared, gain))
        low, high = interval(share, deviation)
        return AreaOutlook(
            area=standard.area,
            items=len(places),
            seen=sum(self.beliefs.seen(self.beliefs.ids[place]) for place in places),
            share=share,
            low=float(low),
            high=float(high),
            chance=meeting_chance(share, deviation, standard),
        )

    def ten_minutes(self, standard, places):
        """Return what the best ten minutes on the items at ``places`` would add."""
        order = places[np.argsort(-(self.gain / self.seconds)[places], kind="stable")]
        taken = order[(np.cumsum(self.seconds[order]) <= TEN_MINUTES_S) & (self.gain[order] > 0.0)]
        rise = float(self.gain[taken].sum() / len(places))
        before, after = self.forecast(standard, places), self.forecast(standard, places, rise)
        return TenMinutes(
            area=standard.area,
            ids=tuple(self.beliefs.ids[place] for place in taken),
            share_gain=rise,
            chance_gain=after.chance - before.chance,
        )


def _deviations_of(level):
    """Return how many deviations to each side hold ``level`` of a normal distribution (by bisection)."""
    low, high = 0.0, 6.0
    for _ in range(50):
        middle = (low + high) / 2.0
        low, high = (middle, high) if 2.0 * normal_share(middle) - 1.0 < level else (low, middle)
    return low
