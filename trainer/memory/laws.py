"""The ways memory may work besides the traces, side by side: in stages, by tallies, by a stretching half-life.

Their states lie one after another in the last axis of one array, their hypotheses likewise, so that the rest
of the model need not know how many there are.  The last hypothesis is that the item was known before the
first question, for good.
"""

import numpy as np

from trainer.memory import half_life, stages, tallies

_STAGED = slice(0, 2 * stages.STAGES)
_TALLIES = slice(_STAGED.stop, _STAGED.stop + tallies.WIDTH)
_HALVES = slice(_TALLIES.stop, _TALLIES.stop + half_life.WIDTH)
WIDTH = _HALVES.stop

_OF_TALLIES = slice(stages.STAGES, stages.STAGES + tallies.HYPOTHESES)
_OF_HALVES = slice(_OF_TALLIES.stop, _OF_TALLIES.stop + half_life.HYPOTHESES)
KNOWN_BEFORE = _OF_HALVES.stop  # the last hypothesis
HYPOTHESES = KNOWN_BEFORE + 1
KNOWN_CHANCE = 0.985
# Which of the laws each hypothesis follows; hypotheses of one law differ in how hard the item is.
LAW_OF = np.concatenate((
    np.arange(stages.STAGES),
    stages.STAGES + tallies.LAW_OF,
    stages.STAGES + tallies.LAWS + half_life.LAW_OF,
    [stages.STAGES + tallies.LAWS + half_life.LAWS],
))  # fmt: skip

# The hypotheses of each of the three; ``which`` of them are worked with, where some weigh next to nothing.
FAMILIES = (slice(0, stages.STAGES), _OF_TALLIES, _OF_HALVES)
ALL = (True,) * len(FAMILIES)

# How likely each is before the first answer; the traces have the rest. Chosen on the bench (tuning seeds).
STAGE_SHARE, TALLY_SHARE, STRETCH_SHARE = 0.15, 0.15, 0.10
SHARE = STAGE_SHARE + TALLY_SHARE + STRETCH_SHARE


def prior(kind, extra_steps, known_before):
    """Return how likely each hypothesis is [rows, HYPOTHESES]; rows sum to ``SHARE`` and what was known before.

    ``known_before`` [rows] is the probability of having known the item before the first question.
    """
    parts = (
        np.full((len(kind), stages.STAGES), STAGE_SHARE / stages.STAGES),
        TALLY_SHARE * tallies.prior(kind, extra_steps),
        STRETCH_SHARE * half_life.prior(kind, extra_steps),
    )
    fresh = np.concatenate(parts, -1) * (1.0 - known_before[:, None])
    return np.concatenate((fresh, known_before[:, None]), -1)


def start(known_before):
    """Return the states [rows, WIDTH] of items never asked, known before with probability [rows]."""
    rows = len(known_before)
    return _joined(stages.start(known_before), tallies.start(rows), half_life.start(rows))


def fade(state, days, which=ALL):
    """Return ``state`` [..., WIDTH] after ``days`` [...] without practice."""
    staged, tally, halves = _staged(state), state[..., _TALLIES], state[..., _HALVES]
    return _joined(
        stages.fade(staged, days) if which[0] else staged,
        tallies.fade(tally, days) if which[1] else tally,
        half_life.fade(halves, days) if which[2] else halves,
    )


def known(state, which=ALL):
    """Return the probability of knowing [..., HYPOTHESES]; 0 under those that are left out."""
    chance = np.zeros((*state.shape[:-1], HYPOTHESES))
    if which[0]:
        chance[..., : stages.STAGES] = stages.known(_staged(state))
    if which[1]:
        chance[..., _OF_TALLIES] = tallies.known(state[..., _TALLIES])
    if which[2]:
        chance[..., _OF_HALVES] = half_life.known(state[..., _HALVES])
    chance[..., KNOWN_BEFORE] = KNOWN_CHANCE
    return chance


def log_odds(known, typical):
    """Return the log-odds of ``known`` [..., HYPOTHESES]; ``typical`` for stages, where knowing has no degrees."""
    inside = np.clip(known, 1e-6, 1.0 - 1e-6)
    odds = np.log(inside / (1.0 - inside))
    odds[..., : stages.STAGES] = typical
    return odds


def seen(state, guess, slip, score):
    """Return ``state`` [rows, WIDTH] in the light of an answer: it tells in which stage the item was."""
    return _joined(stages.seen(_staged(state), guess, slip, score), state[..., _TALLIES], state[..., _HALVES])


def practise(state, gap_days, success, by_law, which=ALL):
    """Return ``state`` after a practice ``gap_days`` [...] after the last.

    ``success`` [...] is the degree to which it was right; ``by_law`` [..., HYPOTHESES] the same under each
    hypothesis, which differs where an answer is only expected.
    """
    staged, tally, halves = _staged(state), state[..., _TALLIES], state[..., _HALVES]
    return _joined(
        stages.practise(staged, gap_days) if which[0] else staged,
        tallies.practise(tally, gap_days, success) if which[1] else tally,
        half_life.practise(halves, by_law[..., _OF_HALVES]) if which[2] else halves,
    )


def _staged(state):
    return state[..., _STAGED].reshape(*state.shape[:-1], stages.STAGES, 2)


def _joined(staged, tally, halves):
    return np.concatenate((staged.reshape(*staged.shape[:-2], 2 * stages.STAGES), tally, halves), -1)
