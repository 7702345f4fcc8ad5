"""A third way memory may work: practice counts, time since takes its toll, and nothing else matters.

The log-odds of knowing rise with the logarithm of the practices so far and fall with that of the days since
the last (power laws of practice and of forgetting; logistic models of right answers and attempts are of this
form).  Spacing buys nothing by itself here.  Two numbers are kept: the practices, weighed by what they taught,
and the days since the last.
"""

import numpy as np

FIRST = (-3.0, -2.0, -1.0, 0.0, 1.0)  # log-odds right after the first practice
FIRST_CENTRE, FIRST_DEVIATION = np.array((-1.0, -1.1, -1.4)), 1.2  # by kind, as in items.KINDS
FIRST_PER_STEP = -0.06  # for each step of a long procedure, see prior
# Log-odds per unit of ln(practices), and what they lose per unit of ln(1 + days / SOON_DAYS).
GAIN_AND_FALL = ((1.2, 0.2), (1.2, 0.5), (2.2, 0.3), (2.2, 0.6), (4.0, 0.5), (4.0, 1.0))
SOON_DAYS = 0.5
BEFORE = 0.5  # what was never practised is as easy as if it had been practised half a time
AFTER_ERROR = 0.6  # of a practice: an error with feedback teaches nearly as much (Kornell, Klein and Rawson 2015)
MASSED_DAYS, MASSED = 0.25, 0.8  # a repeat in the same sitting counts little

_GAIN, _FALL = np.array(GAIN_AND_FALL).T
LAWS = len(GAIN_AND_FALL)
_FIRST = np.repeat(FIRST, LAWS)
HYPOTHESES = len(_FIRST)  # [FIRST, LAWS], the laws running fastest
_ODDS_AGAINST = np.exp(-np.array(FIRST))[:, None]
LAW_OF = np.tile(np.arange(LAWS), len(FIRST))
WIDTH = 2
PRACTICES, SINCE = range(WIDTH)


def prior(kind, extra_steps):
    """Return how likely each hypothesis is [rows, HYPOTHESES]; rows sum to 1."""
    centre = FIRST_CENTRE[kind] + FIRST_PER_STEP * extra_steps
    bell = np.exp(-0.5 * ((_FIRST - centre[:, None]) / FIRST_DEVIATION) ** 2)
    return bell / bell.sum(-1, keepdims=True)


def start(rows):
    """Return the tallies [rows, WIDTH] of items never asked."""
    return np.zeros((rows, WIDTH))


def fade(tallies, days):
    """Return ``tallies`` [..., WIDTH] after ``days`` [...] without practice."""
    return np.stack((tallies[..., PRACTICES], tallies[..., SINCE] + days), -1)


def known(tallies):
    """Return the probability of knowing [..., HYPOTHESES]."""
    practices, since = tallies[..., PRACTICES, None], tallies[..., SINCE, None]
    grown = np.log((BEFORE + practices) / (BEFORE + 1.0))
    gone = np.where(practices > 0, np.log1p(since / SOON_DAYS), 0.0)
    against = np.exp(_FALL * gone - _GAIN * grown)
    share = _ODDS_AGAINST * against[..., None, :]
    share += 1.0
    np.divide(1.0, share, out=share)
    return share.reshape(*share.shape[:-2], HYPOTHESES)


def practise(tallies, gap_days, success):
    """Return ``tallies`` after a practice right to the degree ``success`` [...], ``gap_days`` [...] after the last."""
    practices = tallies[..., PRACTICES]
    gain = AFTER_ERROR + (1.0 - AFTER_ERROR) * success
    massed = np.where(practices > 0, MASSED * np.exp(-np.asarray(gap_days) / MASSED_DAYS), 0.0)
    return np.stack((practices + gain * (1.0 - massed), np.zeros(practices.shape)), -1)
