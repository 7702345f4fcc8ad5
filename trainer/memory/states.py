"""What is remembered of each item, as rows of constant size, and what one answer changes.

A row holds the traces and the log-likelihood of every hypothesis, the times of the answers, and nothing
of the history.  All functions take many rows at once and change none in place, so that replaying the same
answers gives the same bytes.
"""

import numpy as np

from trainer.memory import laws, traces
from trainer.memory import learner as learners
from trainer.model import is_right

# Layout of a row: eight numbers, then traces [DYNAMICS, SCALES], then the other laws, then the
# log-likelihoods of all hypotheses, those of the traces [DYNAMICS, READOUTS] before those of the laws.
HEAD = 8
LAST_DAY, FIRST_DAY, COUNT, SCORE, RIGHT_TIMES, RIGHT_LN, WRONG_TIMES, WRONG_LN = range(HEAD)
OF_TRACES = traces.DYNAMICS * traces.READOUTS
HYPOTHESES = OF_TRACES + laws.HYPOTHESES
_TRACES = slice(HEAD, HEAD + traces.DYNAMICS * traces.SCALES)
_LAWS = slice(_TRACES.stop, _TRACES.stop + laws.WIDTH)
_LOGLIK = slice(_LAWS.stop, _LAWS.stop + HYPOTHESES)
WIDTH = _LOGLIK.stop

KNOWN_BEFORE = np.array((0.08, 0.08, 0.04))  # share of items known before the first question, by kind
TIME_DEVIATION = 0.45  # of ln seconds between two right answers to one drill
TIME_PER_LOG_ODDS = 0.12  # ln seconds that an answer gets faster per unit of log-odds of knowing
LOG_ODDS_OF_TYPICAL = 1.5  # where the typical time stands
LOG_ODDS_RANGE = (-3.0, 4.0)  # beyond, an answer gets neither slower nor faster
WIDEST_TIME = 2.5  # deviations beyond which a time tells nothing more
TIME_WEIGHT = 0.5  # tempered: times depend on the numbers drawn as well as on memory
ITEM_TIMES = 3.0  # the kind's mean counts as three answers against the item's own
LEAST_CHANCE = 1e-4  # no single answer rules a hypothesis out


def empty(count):
    """Return rows [count, WIDTH] of items that have not been asked."""
    return np.zeros((count, WIDTH))


def traces_of(rows):
    """Return the traces [rows, DYNAMICS, SCALES] as they stood at LAST_DAY."""
    return rows[:, _TRACES].reshape(len(rows), traces.DYNAMICS, traces.SCALES)


def laws_of(rows, table):
    """Return the state of the other laws [rows, laws.WIDTH] as it stood at LAST_DAY."""
    return np.where((rows[:, COUNT] > 0)[:, None], rows[:, _LAWS], laws.start(KNOWN_BEFORE[table.kind]))


def loglik_of(rows):
    """Return the log-likelihoods [rows, HYPOTHESES]."""
    return rows[:, _LOGLIK]


def right_chances(strengths, known, table):
    """Return the probability of a right answer [rows, HYPOTHESES].

    ``strengths`` [rows, DYNAMICS] are those of the traces, ``known`` [rows, laws.HYPOTHESES] the laws' chance.
    """
    share = traces.known_share(strengths).reshape(len(strengths), OF_TRACES)
    share = np.concatenate((share, known), axis=-1)
    return table.guess[:, None] + (1.0 - table.guess - table.slip)[:, None] * share


def faded(rows, table, day):
    """Return (traces, laws) of ``rows`` on ``day`` (a number or [rows]) without practice in between."""
    days = since(rows, day)
    return traces.fade(traces_of(rows), days), laws.fade(laws_of(rows, table), days)


def typical_ln(rows, table, learner_rows, *, wrong=False):
    """Return ln(seconds / design seconds) [rows] of a right (or wrong) answer: the item's, leaning on the kind's."""
    what, count, mean = (
        (learners.WRONG_LN, WRONG_TIMES, WRONG_LN) if wrong else (learners.RIGHT_LN, RIGHT_TIMES, RIGHT_LN)
    )
    of_kind = learner_rows[np.arange(len(rows)), learners.column(table.kind, what)]
    own = rows[:, count]
    return (ITEM_TIMES * of_kind + own * rows[:, mean]) / (ITEM_TIMES + own)


def answered(rows, table, learner_rows, *, day, score, seconds):
    """Return (rows, learner_rows) after one answer to each row.

    ``table`` is the ``ItemTable`` of the rows; ``learner_rows`` [rows, learner width] the learner of each;
    ``day`` (float days), ``score`` (0 to 1) and ``seconds`` (NaN: not measured) are arrays [rows].
    """
    gap = np.where(rows[:, COUNT] > 0, since(rows, day), np.nan)
    trace, law = faded(rows, table, day)
    strengths = traces.strength(trace)
    known = laws.known(law)
    chance = right_chances(strengths, known, table)
    ln_time = learners.ln_ratio(seconds, table.design_s)
    after = rows.copy()
    after[:, _LOGLIK] += _said(chance, score)
    after[:, _LOGLIK] += _timed(rows, table, learner_rows, strengths, known, score, ln_time)
    after[:, _TRACES] = traces.practise(trace, traces.gain_of(score[:, None])).reshape(len(rows), -1)
    law = laws.seen(law, table.guess, table.slip, score)
    after[:, _LAWS] = laws.practise(law, np.nan_to_num(gap), score, score[:, None] * np.ones(laws.HYPOTHESES))
    _note(after, day, score, ln_time)
    noted = learners.noted(learner_rows, kind=table.kind, day=day, gap_days=gap, score=score, ln_time=ln_time)
    return after, noted


def since(rows, day):
    """Return the days since the last practice; a clock that was set back counts as no time passed."""
    return np.maximum(0.0, day - rows[:, LAST_DAY])


def _said(chance, score):
    """Return what right or wrong says for each hypothesis [rows, HYPOTHESES]."""
    chance, degree = np.clip(chance, LEAST_CHANCE, 1.0 - LEAST_CHANCE), score[:, None]
    return degree * np.log(chance) + (1.0 - degree) * np.log1p(-chance)


def _timed(rows, table, learner_rows, strengths, known, score, ln_time):
    """Return what the time of a right answer says for each hypothesis; the first answer's time says nothing."""
    odds = traces.log_odds(strengths).reshape(len(rows), OF_TRACES)
    odds = np.concatenate((odds, laws.log_odds(known, LOG_ODDS_OF_TYPICAL)), axis=-1)
    expected = expected_ln(typical_ln(rows, table, learner_rows)[:, None], odds)
    away = np.clip((ln_time[:, None] - expected) / TIME_DEVIATION, -WIDEST_TIME, WIDEST_TIME)
    timed = is_right(score) & (rows[:, COUNT] > 0) & ~np.isnan(ln_time)
    return np.where(timed[:, None], -0.5 * TIME_WEIGHT * away**2, 0.0)


def expected_ln(typical, odds):
    """Return ln(seconds / design seconds) of a right answer where the log-odds of knowing are ``odds``."""
    return typical - TIME_PER_LOG_ODDS * (np.clip(odds, *LOG_ODDS_RANGE) - LOG_ODDS_OF_TYPICAL)


def _note(after, day, score, ln_time):
    """Note day, count, score and time of one answer in the heads of the rows ``after`` (in place)."""
    first = after[:, COUNT] == 0
    after[:, FIRST_DAY] = np.where(first, day, after[:, FIRST_DAY])
    after[:, LAST_DAY] = np.where(first, day, np.maximum(after[:, LAST_DAY], day))
    after[:, COUNT] += 1.0
    after[:, SCORE] += score
    right, measured, each = is_right(score), ~np.isnan(ln_time), np.arange(len(after))
    counts = np.where(right, RIGHT_TIMES, WRONG_TIMES)
    means = np.where(right, RIGHT_LN, WRONG_LN)
    seen = np.minimum(after[each, counts], learners.MOST_TIMES) + 1.0
    after[each, means] += np.where(measured, (np.nan_to_num(ln_time) - after[each, means]) / seen, 0.0)
    after[each, counts] += measured
