"""Were past forecasts honest?  Predicted chances against what was then answered."""

import numpy as np

from trainer.frozen import frozen

FEWEST = 50  # answers below which nothing is said: the calibration error of luck alone would be above .05
BINS = 10  # of equal count, so that none is left to chance
FEWEST_PER_BIN = 10

# Recalibration: log-odds are shifted and stretched, leaning on "as they are" (memory notes, 8.3).  On the bench
# (tuning seeds) the latest answers alone did better than all: a belief is wrong in another way every week.
SHIFT_DEVIATION, STRETCH_DEVIATION = 0.5, 0.3
RECENT = 150  # answers that count
LEAST_GAP_DAYS = 0.5  # answers sooner after the last practice say little about forgetting
NEWTON_STEPS = 30
LEAST = 1e-4


@frozen
class Bin:
    """Answers with alike forecasts: how many, what was predicted on average, what share was right."""

    count: int
    predicted: float
    observed: float


@frozen
class Reliability:
    """How honest ``count`` forecasts were.  The numbers are None, and ``bins`` empty, where it is too early to say.

    ``brier`` is the mean squared error, ``brier_constant`` that of always saying the overall share,
    ``calibration_error`` the mean distance between predicted and observed over ``bins``, ``bias`` predicted
    minus observed.
    """

    count: int
    brier: float | None = None
    brier_constant: float | None = None
    log_loss: float | None = None
    calibration_error: float | None = None
    bias: float | None = None
    bins: tuple[Bin, ...] = ()

    @property
    def too_early(self):
        """Whether there are too few answers to say anything."""
        return self.count < FEWEST


def reliability(predicted, observed):
    """Return the ``Reliability`` of forecasts ``predicted`` (0 to 1) of scores ``observed`` (0 to 1)."""
    predicted, observed = _pair(predicted, observed)
    count = len(predicted)
    if count < FEWEST:
        return Reliability(count=count)
    bins = binned(predicted, observed)
    return Reliability(
        count=count,
        brier=float(np.mean((predicted - observed) ** 2)),
        brier_constant=float(np.mean((observed.mean() - observed) ** 2)),
        log_loss=_log_loss(predicted, observed),
        calibration_error=sum(one.count * abs(one.predicted - one.observed) for one in bins) / count,
        bias=float(predicted.mean() - observed.mean()),
        bins=bins,
    )


def binned(predicted, observed, bins=BINS):
    """Return the forecasts in ``Bin`` of equal count, ascending."""
    order = np.argsort(predicted, kind="stable")
    parts = np.array_split(order, max(1, min(bins, len(order) // FEWEST_PER_BIN)))
    return tuple(
        Bin(count=len(part), predicted=float(predicted[part].mean()), observed=float(observed[part].mean()))
        for part in parts
        if len(part)
    )


@frozen
class Recalibration:
    """A learner's own correction: log-odds times ``stretch`` plus ``shift``; 1 and 0 leave them as they are."""

    shift: float = 0.0
    stretch: float = 1.0

    def apply(self, chance):
        """Return ``chance`` (float or array) corrected."""
        odds = log_odds(chance)
        return 1.0 / (1.0 + np.exp(-(self.shift + self.stretch * odds)))[()]


def recalibration(predicted, observed, gap_days):
    """Return the ``Recalibration`` that this learner's answers ask for, oldest answer first.

    Only the latest ``RECENT`` answers at least ``LEAST_GAP_DAYS`` after the item's last practice count
    (``gap_days``, NaN for a first answer).  With fewer than ``FEWEST`` of them forecasts stay as they are.
    """
    predicted, observed = _pair(predicted, observed)
    counts = np.nan_to_num(np.asarray(gap_days, dtype=float), nan=0.0) >= LEAST_GAP_DAYS
    predicted, observed = predicted[counts][-RECENT:], observed[counts][-RECENT:]
    return fitted(predicted, observed) if len(predicted) >= FEWEST else Recalibration()


def fitted(predicted, observed):
    """Return the likeliest ``Recalibration`` given its prior, by Newton's method."""
    odds = log_odds(predicted)
    inputs = np.stack((np.ones_like(odds), odds), -1)
    centre, precision = np.array((0.0, 1.0)), np.diag((SHIFT_DEVIATION**-2, STRETCH_DEVIATION**-2))
    value = centre.copy()
    for _ in range(NEWTON_STEPS):
        chance = 1.0 / (1.0 + np.exp(-(inputs @ value)))
        slope = inputs.T @ (observed - chance) - precision @ (value - centre)
        bend = (inputs.T * (chance * (1.0 - chance))) @ inputs + precision
        step = np.linalg.solve(bend, slope)
        value = value + np.clip(step, -1.0, 1.0)
    return Recalibration(shift=float(value[0]), stretch=float(value[1]))


def _pair(predicted, observed):
    return np.asarray(predicted, dtype=float), np.asarray(observed, dtype=float)


def log_odds(chance):
    """Return the log-odds of ``chance`` (float or array), none of them infinite."""
    chance = np.clip(chance, LEAST, 1.0 - LEAST)
    return np.log(chance / (1.0 - chance))


def _log_loss(predicted, observed):
    chance = np.clip(predicted, LEAST, 1.0 - LEAST)
    return float(-np.mean(observed * np.log(chance) + (1.0 - observed) * np.log1p(-chance)))
