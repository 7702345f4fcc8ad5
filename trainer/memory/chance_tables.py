"""The chance of a right answer as a function of strength, tabulated for quick reading."""

import numpy as np

from trainer.memory import costs, states, traces

# The grid on which chances are tabulated: fine enough that reading between its points errs below 0.001.
GRID_LN = np.linspace(np.log(traces.LEAST_STRENGTH), np.log(12.0), 72)
COARSE_LN = np.linspace(GRID_LN[0], GRID_LN[-1], 19)  # for the share in time, which is smoother
_FINER = np.stack([np.interp(GRID_LN, COARSE_LN, point) for point in np.eye(len(COARSE_LN))])


class Curves:
    """The probability of a right answer as a function of strength, for a block of items.

    A plan reads some hundred and fifty strengths of each item under each dynamics; summing over all
    read-outs each time would be most of its work.  So the sum is made once on a grid of ln(strength) and
    read off in between.  Of the dynamics only ``which`` are there.
    """

    def __init__(self, table, weights, which: slice | np.ndarray = traces.ALL):
        by_dynamics = weights[:, : states.OF_TRACES].reshape(len(table), traces.DYNAMICS, traces.READOUTS)[:, which]
        self._by_law = weights[:, states.OF_TRACES :]
        self._guess, self._span = table.guess[:, None], (1.0 - table.guess - table.slip)[:, None]
        self.likely = by_dynamics.sum(-1)
        inside = by_dynamics / np.maximum(self.likely, 1e-300)[..., None]
        known = inside @ traces.known_share(np.exp(GRID_LN)).T
        self._inside = inside
        self._curve = table.guess[:, None, None] + (1.0 - table.guess - table.slip)[:, None, None] * known
        self._start = (np.arange(self.likely.size) * len(GRID_LN)).reshape(len(table), 1, -1)

    def in_time(self, table, typical):
        """Return the curve of right answers within the limit, for ``typical`` ln times [items]."""
        odds, share = traces.log_odds(np.exp(COARSE_LN)), traces.known_share(np.exp(COARSE_LN))
        soon = costs.in_time(table, states.expected_ln(typical[:, None, None], odds[None]))
        both = np.einsum("icr,igr->icg", self._inside, share * soon)
        fraction = both / np.maximum(self._inside @ share.T, 1e-12)
        return self._curve * (fraction @ _FINER)

    def right(self, strengths, curve=None):
        """Return the probability of a right answer [items, nodes, DYNAMICS] at ``strengths`` of that shape.

        ``curve`` replaces the curve of right answers, for instance by that of right answers ``in_time``.
        """
        place = (np.log(np.maximum(strengths, traces.LEAST_STRENGTH)) - GRID_LN[0]) / (GRID_LN[1] - GRID_LN[0])
        place = np.minimum(place, len(GRID_LN) - 1.001)
        below = place.astype(np.intp)
        index = below + self._start
        flat = (self._curve if curve is None else curve).reshape(-1)
        low = flat[index]
        return low + (place - below) * (flat[index + 1] - low)

    def share(self, right, known, soon=1.0):
        """Return the probability of a right answer [items, nodes] over all hypotheses.

        ``right`` [items, nodes, DYNAMICS] is that under each dynamics, ``known`` [items, nodes, laws] the
        probability of knowing under the other laws, ``soon`` ([items, 1]) a factor on the latter's right answers.
        """
        knowing = np.matmul(known, self._by_law[..., None])[..., 0]
        of_laws = (self._guess * self._by_law.sum(-1, keepdims=True) + self._span * knowing) * soon
        return np.einsum("inc,ic->in", right, self.likely) + of_laws
