"""What is thought of an item before its first answer.

By kind, from the centres that the prototype's bench gave for learners who have never seen the material;
each learner's own answers then move the prior of the kind (``personal``): empirical Bayes, one step.
"""

import numpy as np

from trainer.memory.stages import STAGES
from trainer.memory.states import HYPOTHESES, KNOWN_BEFORE, OF_TRACES
from trainer.memory.traces import (
    CEILING_PRIOR,
    DYNAMICS,
    KNOWN_BEFORE_OF,
    LN_DIFFICULTY,
    READOUTS,
    SHARPNESS_PRIOR,
    SLOPE_PRIOR,
)

# ln difficulty ~ normal, centres by kind in the order of items.KINDS. The deviation was chosen on
# the bench (tuning seeds): 1.0 made too many items look hopeless, or known, before they had been tried.
LN_CENTRE = np.log((0.35, 0.40, 0.52))
LN_DEVIATION = 0.65
# So much of the belief goes to memory in stages, the rest to traces: at .30 learners who forget by a power
# law lost a point on the bench (tuning seeds), at 0 those who know all or nothing lost ten or more.
STAGE_SHARE = 0.15

# Procedures are forgotten faster the more steps they have (Shields, Goldberg and Dressel 1979; Rose et
# al., user's decision aid): the centre rises with every step past the eighth.
STEPS_WITHOUT_PENALTY = 8
LN_PER_STEP = 0.03

# Fitting the prior of a kind to the learner: the general prior counts as much as eight of the learner's own
# items, and sixteen rounds of expectation and maximisation come near enough to the end.  Both chosen on the
# bench (tuning seeds), by the distance between forecast and true chance.
PRIOR_WEIGHT = 8.0
ROUNDS = 16
FEWEST_ANSWERS = 2  # an item with fewer says nothing about the learner


def general(kind, steps):
    """Return the prior [rows, HYPOTHESES] of items of ``kind`` (index) with ``steps``; rows sum to 1."""
    kind = np.asarray(kind, dtype=int)
    extra = np.maximum(0.0, np.asarray(steps, dtype=float) - STEPS_WITHOUT_PENALTY)
    centre = LN_CENTRE[kind] + LN_PER_STEP * extra
    bell = np.exp(-0.5 * ((LN_DIFFICULTY - centre[:, None]) / LN_DEVIATION) ** 2)
    known = KNOWN_BEFORE[kind][:, None]
    sharp = np.repeat(SHARPNESS_PRIOR, READOUTS // len(SHARPNESS_PRIOR))
    readouts = bell * sharp * np.where(KNOWN_BEFORE_OF, known, 1.0 - known)
    dynamics = np.outer(SLOPE_PRIOR, CEILING_PRIOR).reshape(DYNAMICS)
    joint = np.empty((len(kind), HYPOTHESES))
    of_traces = (dynamics[None, :, None] * readouts[:, None, :]).reshape(len(kind), OF_TRACES)
    joint[:, :OF_TRACES] = (1.0 - STAGE_SHARE) * of_traces / of_traces.sum(-1, keepdims=True)
    joint[:, OF_TRACES:] = STAGE_SHARE / STAGES
    return joint


def personal(prior, kind, loglik, answers, owner=None):
    """Return ``prior`` moved towards what this learner's items of the same kind turned out to be.

    ``prior`` and ``loglik`` are [rows, hypotheses], ``kind`` and ``answers`` [rows].  ``owner`` [rows]
    numbers the learner of each row where there are several.  Rows sum to 1.
    """
    owner = np.zeros(len(kind), dtype=int) if owner is None else owner
    group = owner * (kind.max(initial=0) + 1) + kind
    telling = answers >= FEWEST_ANSWERS
    if not telling.any():
        return prior
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
