"""A second way memory may work: all or none, in stages.

An item is unknown, held for a while, or set for good (Atkinson 1972).  Practice moves an unknown item to
"held"; what is held is forgotten at a constant rate, and a practice after some time may set it for good.
Traces can't imitate this: here a single lapse means that all is lost, and short gaps pay until the item is
set.  Like the traces, it is kept under several hypotheses, with two numbers each: the probabilities of
"held" and of "set"; an answer moves them exactly (Bayes).
"""

from itertools import product

import numpy as np

FORGETTING_PER_DAY = (0.1, 0.35)  # of a held item: half gone in a week, in two days
SETTING = (0.15, 0.40)  # chance that a practice sets a held item, a day or more after the last
LEARNING = (0.45, 0.75)  # chance that an error and its feedback, or a lucky answer, makes it held
LOSING_PER_DAY = 1 / 300  # nothing is set quite for good
SETTING_DAYS = 1.0  # a practice sooner than this after the last sets little: it takes a night's sleep

_GRID = np.array(list(product(FORGETTING_PER_DAY, SETTING, LEARNING)))
STAGES = len(_GRID)
HELD, SET = 0, 1
_RATE = np.stack((_GRID[:, 0], np.full(STAGES, LOSING_PER_DAY)), -1)  # [STAGES, 2]
_SETTING, _LEARNING = _GRID[:, 1], _GRID[:, 2]


def start(known_before):
    """Return the stages [rows, STAGES, 2] of items never asked, known before with probability [rows]."""
    stages = np.zeros((len(known_before), STAGES, 2))
    stages[:, :, SET] = np.asarray(known_before)[:, None]
    return stages


def fade(stages, days):
    """Return ``stages`` [..., STAGES, 2] after ``days`` [...] without practice."""
    return stages * np.exp(-np.asarray(days)[..., None, None] * _RATE)


def known(stages):
    """Return the probability of knowing [..., STAGES]."""
    return stages.sum(-1)


def seen(stages, guess, slip, score):
    """Return ``stages`` [rows, STAGES, 2] in the light of an answer that was right to the degree ``score`` [rows]."""
    guess, slip, degree = (np.asarray(value)[:, None, None] for value in (guess, slip, score))
    chance = guess + (1.0 - guess - slip) * known(stages)[..., None]
    return stages * (degree * (1.0 - slip) / chance + (1.0 - degree) * slip / (1.0 - chance))


def practise(stages, gap_days):
    """Return ``stages`` after a practice ``gap_days`` [...] after the last."""
    held, sure = stages[..., HELD], stages[..., SET]
    settled = _SETTING * (1.0 - np.exp(-np.asarray(gap_days) / SETTING_DAYS))[..., None] * held
    learned = _LEARNING * (1.0 - held - sure)
    return np.stack((held + learned - settled, sure + settled), -1)
