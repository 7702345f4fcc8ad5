"""A fourth way memory may work: a half-life that each right answer stretches, the more the longer the wait was.

What is known is forgotten at a constant rate.  An early repeat stretches little, a late one much, an error
throws back.  One half-life per hypothesis is kept, and the days since the last practice.
"""

from itertools import product

import numpy as np

FIRST_DAYS = (0.5, 1.2, 3.0)  # the half-life after the first practice
FIRST_CENTRE, FIRST_DEVIATION = np.log((1.5, 1.2, 0.9)), 0.9  # of its logarithm, by kind, as in items.KINDS
FIRST_PER_STEP = -0.03  # for each step of a long procedure, see prior
GROWTH = (0.8, 2.5)  # how much a wait of one half-life adds, in half-lives
LEVEL = 0.93  # even at once not all is known
MOST_WAITED = 1.5  # half-lives beyond which waiting adds nothing
THROWN_BACK = 0.6  # an error leaves so much of the half-life

_FIRST, _GROWTH = np.array(list(product(FIRST_DAYS, GROWTH))).T
HYPOTHESES = len(_FIRST)
LAWS = len(GROWTH)
LAW_OF = np.tile(np.arange(LAWS), len(FIRST_DAYS))
WIDTH = HYPOTHESES + 1


def prior(kind, extra_steps):
    """Return how likely each hypothesis is [rows, HYPOTHESES]; rows sum to 1."""
    centre = FIRST_CENTRE[kind] + FIRST_PER_STEP * extra_steps
    bell = np.exp(-0.5 * ((np.log(_FIRST) - centre[:, None]) / FIRST_DEVIATION) ** 2)
    return bell / bell.sum(-1, keepdims=True)


def start(rows):
    """Return the half-lives and the wait [rows, WIDTH] of items never asked."""
    return np.zeros((rows, WIDTH))


def fade(halves, days):
    """Return ``halves`` [..., WIDTH] after ``days`` [...] without practice."""
    return np.concatenate((halves[..., :-1], (halves[..., -1] + days)[..., None]), -1)


def known(halves):
    """Return the probability of knowing [..., HYPOTHESES]."""
    life = halves[..., :-1]
    return np.where(life > 0, LEVEL * np.exp2(-halves[..., -1:] / np.maximum(life, 1e-9)), 0.0)


def practise(halves, success):
    """Return ``halves`` after a practice that was right to the degree ``success`` [..., HYPOTHESES or 1]."""
    life = halves[..., :-1]
    waited = np.minimum(halves[..., -1:] / np.maximum(life, 1e-9), MOST_WAITED)
    right = life * (1.0 + _GROWTH * waited)
    wrong = np.maximum(_FIRST, THROWN_BACK * life)
    after = np.where(life > 0, success * right + (1.0 - success) * wrong, _FIRST)
    return np.concatenate((after, np.zeros((*life.shape[:-1], 1))), -1)
