"""What an item gives and what it costs: chances and seconds of many items at once."""

import numpy as np

from trainer.memory import laws, states, traces
from trainer.memory.items import FEEDBACK_S, OVERHEAD_S

_RATIONAL = (0.3275911, 0.254829592, -0.284496736, 1.421413741, -1.453152027, 1.061405429)


def chance(rows, table, weights, day):
    """Return the probability of a right answer [rows] on ``day``, over all hypotheses."""
    return np.einsum("rh,rh->r", chances(rows, table, day), weights)


def chances(rows, table, day):
    """Return the probability of a right answer [rows, HYPOTHESES] on ``day``."""
    trace, law = states.faded(rows, table, day)
    return states.right_chances(traces.strength(trace), laws.known(law), table)


def pass_chance(rows, table, learner_rows, weights, day):
    """Return the probability of a right answer within ``limit_s`` [rows] on ``day``."""
    both = chances(rows, table, day) * soon(rows, table, learner_rows, day)
    return np.einsum("rh,rh->r", both, weights)


def soon(rows, table, learner_rows, day):
    """Return the probability [rows, HYPOTHESES] that a right answer on ``day`` comes within ``limit_s``."""
    trace, _ = states.faded(rows, table, day)
    odds = traces.log_odds(traces.strength(trace)).reshape(len(rows), states.OF_TRACES)
    typical = np.full((len(rows), laws.HYPOTHESES), states.LOG_ODDS_OF_TYPICAL)
    odds = np.concatenate((odds, typical), axis=-1)
    return in_time(table, states.expected_ln(states.typical_ln(rows, table, learner_rows)[:, None], odds))


def in_time(table, expected_ln):
    """Return the probability [rows, ...] that a right answer comes within ``limit_s``.

    ``expected_ln`` [rows, ...] is ln(seconds / design seconds) of a right answer.
    """
    room = np.log(table.limit_s / table.design_s).reshape(-1, *(1,) * (expected_ln.ndim - 1)) - expected_ln
    return normal_share(room / states.TIME_DEVIATION)


def seconds(rows, table, learner_rows):
    """Return (right_s, wrong_s): seconds in all of a right and of a wrong answer [rows]."""
    spread = np.exp(0.5 * states.TIME_DEVIATION**2)  # mean over median of a lognormal time
    right_ln = states.typical_ln(rows, table, learner_rows)
    wrong_ln = states.typical_ln(rows, table, learner_rows, wrong=True)
    # Whoever answers slowly also reads the feedback slowly; nobody measures that.
    feedback = np.asarray(FEEDBACK_S)[table.kind] * np.exp(right_ln)
    right = table.design_s * np.exp(right_ln) * spread + OVERHEAD_S
    return right, table.design_s * np.exp(wrong_ln) * spread + feedback + OVERHEAD_S


def normal_share(deviations):
    """Return the standard normal distribution function, to 1e-7.

    Source: Abramowitz and Stegun, Handbook of Mathematical Functions, 7.1.26 (numpy has no error function).
    """
    size = np.abs(deviations) / np.sqrt(2.0)
    step, *factors = _RATIONAL
    term = 1.0 / (1.0 + step * size)
    series = np.zeros_like(term)
    for factor in reversed(factors):
        series = (series + factor) * term
    upper = 1.0 - series * np.exp(-(size**2))
    return np.where(deviations >= 0, 0.5 * (1.0 + upper), 0.5 * (1.0 - upper))
