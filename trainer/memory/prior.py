"""What is thought of an item before its first answer.

By kind, from the centres that the prototype's bench gave for learners who have never seen the material;
each learner's own answers then move it (``personal``): empirical Bayes.
"""

import numpy as np

from trainer.memory import laws
from trainer.memory.states import HYPOTHESES, KNOWN_BEFORE, OF_TRACES
from trainer.memory.traces import (
    DYNAMICS,
    LN_DIFFICULTY,
    READOUTS,
    SHARPNESS_PRIOR,
    SLOPE_PRIOR,
    WAY_PRIOR,
)

# ln difficulty ~ normal, centres by kind in the order of items.KINDS. The deviation was chosen on
# the bench (tuning seeds): 1.0 made too many items look hopeless, or known, before they had been tried; at .65 two
# misses still did, and plans promised too little. Between .3 and .45 answers are foretold best.
LN_CENTRE = np.log((0.35, 0.40, 0.52))
LN_DEVIATION = 0.35

# Procedures are forgotten faster the more steps they have (Shields, Goldberg and Dressel 1979; Rose et
# al., user's decision aid): the centre rises with every step past the eighth.
STEPS_WITHOUT_PENALTY = 8
LN_PER_STEP = 0.03

# Fitting the prior to the learner.  All items of a learner follow one law, more or less: their evidence is
# added up, but counts only ``LAW_WEIGHT`` of what it says, for no law is quite true; and so much as
# ``ODD_SHARE`` stays with what was thought before, for the odd item.  At .8 learners who forget by a power law
# lost a point, at .1 those who know all or nothing lost four.  After that, how hard the items of a kind are:
# the prior counts as much as eight of the learner's own items, and sixteen rounds of expectation and
# maximisation come near enough to the end.  All chosen on the bench (tuning seeds).
LAW_WEIGHT, ODD_SHARE = 0.4, 0.1
PRIOR_WEIGHT = 8.0
ROUNDS = 16
FEWEST_ANSWERS = 2  # an item with fewer says nothing about the learner


def _laws():
    """Return [HYPOTHESES, laws]: 1 where a hypothesis follows a law; the last law is "known before"."""
    readouts = READOUTS // len(SHARPNESS_PRIOR)
    of_traces = np.repeat(np.arange(OF_TRACES // readouts), readouts)
    number = np.concatenate((of_traces, of_traces[-1] + 1 + laws.LAW_OF))
    return np.eye(number.max() + 1)[number]


OF_LAW = _laws()


def general(kind, steps):
    """Return the prior [rows, HYPOTHESES] of items of ``kind`` (index) with ``steps``; rows sum to 1."""
    kind = np.asarray(kind, dtype=int)
    extra = np.maximum(0.0, np.asarray(steps, dtype=float) - STEPS_WITHOUT_PENALTY)
    centre = LN_CENTRE[kind] + LN_PER_STEP * extra
    bell = np.exp(-0.5 * ((LN_DIFFICULTY - centre[:, None]) / LN_DEVIATION) ** 2)
    readouts = bell * np.repeat(SHARPNESS_PRIOR, READOUTS // len(SHARPNESS_PRIOR))
    dynamics = np.outer(SLOPE_PRIOR, WAY_PRIOR).reshape(DYNAMICS)
    of_traces = (dynamics[None, :, None] * readouts[:, None, :]).reshape(len(kind), OF_TRACES)
    joint = np.empty((len(kind), HYPOTHESES))
    joint[:, OF_TRACES:] = laws.prior(kind, extra, KNOWN_BEFORE[kind])
    joint[:, :OF_TRACES] = (1.0 - joint[:, OF_TRACES:].sum(-1))[:, None] * (
        of_traces / of_traces.sum(-1, keepdims=True)
    )
    return joint


def personal(prior, kind, loglik, answers, owner=None):
    """Return ``prior`` moved towards what this learner's items turned out to be.

    ``prior`` and ``loglik`` are [rows, hypotheses], ``kind`` and ``answers`` [rows].  ``owner`` [rows]
    numbers the learner of each row where there are several.  Rows sum to 1.
    """
    owner = np.zeros(len(kind), dtype=int) if owner is None else owner
    telling = answers >= FEWEST_ANSWERS
    if not telling.any():
        return prior
    of_law = _of_one_law(prior, owner, loglik, telling)
    return _as_hard(of_law, owner * (kind.max(initial=0) + 1) + kind, loglik, telling)


def _of_one_law(prior, owner, loglik, telling):
    """Return ``prior`` with the laws weighed by what all items of a learner say together, whatever their kind."""
    mass = prior @ OF_LAW
    raised = np.exp(loglik[telling] - loglik[telling].max(-1, keepdims=True))
    by_law = (prior[telling] * raised) @ OF_LAW / mass[telling]
    known = mass[telling][:, -1:]  # an item that was known before says nothing about the laws
    said = np.log(np.maximum((1.0 - known) * by_law[:, :-1] + known * by_law[:, -1:], 1e-300))
    total = LAW_WEIGHT * _summed(said, owner[telling], owner.max() + 1)
    fresh = mass[:, :-1].mean(0)
    likely = fresh * np.exp(total - total.max(-1, keepdims=True))
    likely /= likely.sum(-1, keepdims=True)
    ratio = np.ones_like(mass)
    ratio[:, :-1] = (1.0 - ODD_SHARE) * likely[owner] * (1.0 - mass[:, -1:]) / mass[:, :-1] + ODD_SHARE
    return prior * (ratio @ OF_LAW.T)


def _as_hard(prior, group, loglik, telling):
    """Return ``prior`` fitted to the items of each ``group`` [rows], by expectation and maximisation."""
    mine, size = group[telling], group.max() + 1
    count = np.bincount(mine, minlength=size)[:, None]
    expected = np.maximum(_summed(prior[telling], mine, size) / np.maximum(count, 1), 1e-12)
    posterior = weights(prior[telling], loglik[telling])
    ratio = np.ones_like(expected)
    for _ in range(ROUNDS):
        found = posterior * ratio[mine]
        found = _summed(found / found.sum(-1, keepdims=True), mine, size)
        ratio = (PRIOR_WEIGHT + found / expected) / (PRIOR_WEIGHT + count)
    moved = prior * ratio[group]
    return moved / moved.sum(-1, keepdims=True)


def _summed(values, group, size):
    """Return the sums [size, columns] of the rows of ``values`` by ``group``."""
    total = np.zeros((size, values.shape[1]))
    np.add.at(total, group, values)
    return total


def weights(prior, loglik):
    """Return the posterior [rows, hypotheses]: ``prior`` times exp(``loglik``), rows sum to 1."""
    raised = loglik - loglik.max(-1, keepdims=True)
    posterior = prior * np.exp(raised)
    return posterior / posterior.sum(-1, keepdims=True)
