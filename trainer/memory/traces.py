"""How memory is thought to work: a trace at several time scales, under several hypotheses.

Each practice leaves a trace that fades at ten speeds at once, from an hour to years.  Their weighted sum
is the strength; a sum of exponentials over such a range fades like a power of time (Rubin, Hinton and
Wenzel 1999; Wixted and Carpenter 2007).  A scale gains only what it and the faster scales have lost: that
gate is the spacing effect (after the multiscale context model, Mozer et al. 2009).

Nobody knows how fast this person forgets this item, so the traces are kept under ``DYNAMICS`` hypotheses
(``slope``, ``ceiling``) and read under ``READOUTS`` (sharpness, difficulty).  What is
remembered of an item is therefore of constant size, whatever its history.
"""

import numpy as np

# Time constants in days: 58 minutes to 11 years in equal ratios, so that no time scale of practice
# between "the same session" and "years later" lies further than a factor of two from one of them.
TAU_DAYS = 0.04 * 3.6 ** np.arange(10)
SCALES = len(TAU_DAYS)

# The weight of a scale falls by ``slope`` from one to the next; the smaller, the faster one forgets.
# Strength falls about like t**-d; between a day and a year d is about .2, .3, .4 and .5.
SLOPES = (0.90, 0.80, 0.66)
SLOPE_PRIOR = (0.3, 0.4, 0.3)
# How practice fills the scales: (ceiling, gain of a right answer, gain of an error).  At a ceiling of .7 one practice
# fills all the room there is, so that spacing matters much; at 3 little.  An error with feedback teaches nearly as
# much as a right answer (Kornell, Klein and Rawson 2015), but not for everybody: in the last way success breeds
# success, and what went slowly goes fast (after the multiscale context model, where a right answer gains four times
# what an error does).  Chosen on the bench (tuning seeds).
WAYS = ((0.7, 1.0, 0.6), (3.0, 1.0, 0.6), (3.0, 2.0, 0.5))
WAY_PRIOR = (0.4, 0.3, 0.3)
# Log-odds of a right answer per unit of ln(strength): 1.3 where difficulty differs from question to
# question, 4.5 where an item is soon either known or not.
SHARPNESSES = (1.3, 2.6, 4.5)
SHARPNESS_PRIOR = (0.4, 0.4, 0.2)

# Difficulty: the strength at which half the answers are right.  Six values in equal ratios.
DIFFICULTIES = (0.10, 0.17, 0.28, 0.46, 0.77, 1.30)
LEAST_STRENGTH = 1e-3  # keeps the logarithm finite before the first practice

DYNAMICS = len(SLOPES) * len(WAYS)
READOUTS = len(SHARPNESSES) * len(DIFFICULTIES)

SLOPE_OF = np.repeat(SLOPES, len(WAYS))
CEILING_OF, GAIN_RIGHT, GAIN_WRONG = np.tile(np.array(WAYS), (len(SLOPES), 1)).T
SCALE_WEIGHTS = SLOPE_OF[:, None] ** np.arange(SCALES)  # [DYNAMICS, SCALES]
_SHARE = SCALE_WEIGHTS / SCALE_WEIGHTS.sum(-1, keepdims=True)
_UP_TO = np.cumsum(SCALE_WEIGHTS, -1)
# A read-out is (sharpness, difficulty), the last running fastest.
SHARPNESS_OF = np.repeat(SHARPNESSES, len(DIFFICULTIES))
LN_DIFFICULTY = np.tile(np.log(DIFFICULTIES), len(SHARPNESSES))

ALL = slice(None)  # ``which`` of the dynamics are worked with, where some weigh next to nothing


def fade(traces, days):
    """Return ``traces`` [..., DYNAMICS, SCALES] after ``days`` [...] without practice."""
    return traces * np.exp(-np.asarray(days)[..., None, None] / TAU_DAYS)


def strength(traces, which: slice | np.ndarray = ALL):
    """Return the strength [..., DYNAMICS] of ``traces`` [..., DYNAMICS, SCALES]."""
    return np.einsum("...ck,ck->...c", traces, _SHARE[which])


def strength_after(traces, days, which: slice | np.ndarray = ALL):
    """Return the strength [items, readings, DYNAMICS] after ``days`` [readings] without practice.

    ``traces`` is [items, readings, DYNAMICS, SCALES].
    """
    return np.einsum("ipck,pck->ipc", traces, _SHARE[which] * np.exp(-days[:, None, None] / TAU_DAYS))


def practise(traces, gain, which: slice | np.ndarray = ALL):
    """Return ``traces`` after one practice of ``gain`` [..., DYNAMICS] (or [..., 1])."""
    held = np.cumsum(SCALE_WEIGHTS[which] * traces, -1) / _UP_TO[which]
    room = np.maximum(0.0, 1.0 - held / CEILING_OF[which, None])
    return traces + gain[..., None] * room


def gain_of(success, which: slice | np.ndarray = ALL):
    """Return the gain [..., DYNAMICS] of a practice right to the degree ``success`` [..., DYNAMICS or 1] (0 to 1)."""
    return GAIN_WRONG[which] + (GAIN_RIGHT - GAIN_WRONG)[which] * success


def log_odds(strengths):
    """Return the log-odds of knowing [..., DYNAMICS, READOUTS] at ``strengths`` [..., DYNAMICS]."""
    return SHARPNESS_OF * (np.log(np.asarray(strengths)[..., None] + LEAST_STRENGTH) - LN_DIFFICULTY)


def known_share(strengths):
    """Return the probability of knowing, shaped as ``log_odds``."""
    return 1.0 / (1.0 + np.exp(-log_odds(strengths)))
