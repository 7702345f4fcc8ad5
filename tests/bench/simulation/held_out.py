"""Two more families, written after the planner was finished: none of its constants has seen them.

Equations and values are from memory (the classes name the publications); the centres are ours, set once so that
learners start and end about where those of the other families do.
"""

import numpy as np

from tests.bench.simulation.spread import spread


class Fluctuation:
    """Stimulus sampling with fluctuating contexts (Estes 1955; Mensink and Raaijmakers 1988; Raaijmakers 2003).

    An item is bound to elements of the context.  Some are present, others not, and they change places at a
    constant rate; a practice binds a share of those present.  What is recalled is what is bound among the present.
    So spacing helps because other elements have come in, and forgetting stops at what is bound of all.
    """

    name = "fluctuation"
    time_tells, draws = True, False
    after_error = 0.7  # an error with feedback binds so much of what a right answer binds

    def parameters(self, rng, learners, kind):
        """Return the parameters of ``learners``, [learners * drills]."""
        return {
            "binding": np.clip(spread(rng, learners, kind, (0.75, 0.65, 0.50), 0.06, 0.08), 0.1, 0.97),
            "present": np.clip(spread(rng, learners, kind, 0.25, 0.03, 0.04), 0.08, 0.6),  # share of all elements
            "change": spread(rng, learners, kind, (0.25, 0.30, 0.40), 0.30, 0.30, ratio=True),  # per day
        }

    def nothing(self, rows):
        """Return the memory of ``rows`` drills never practised: the shares bound of those present and absent."""
        return {"here": np.zeros(rows), "away": np.zeros(rows), "last": np.zeros(rows)}

    def compact(self, memory, ahead):
        """Return ``memory``: it is of constant size."""
        return memory

    def _mixed(self, memory, part, day):
        """Return (here, away): the shares bound after the elements have changed places for a while."""
        gone = np.maximum(day - memory["last"], 0.0)
        kept = np.exp(-part["change"] * gone)
        whole = part["present"] * memory["here"] + (1.0 - part["present"]) * memory["away"]
        return whole + kept * (memory["here"] - whole), whole + kept * (memory["away"] - whole)

    def knowing(self, memory, part, day):
        """Return the probability of knowing."""
        return self._mixed(memory, part, day)[0]

    def practised(self, memory, part, day, success, draw=None):
        """Return the memory after one more practice."""
        here, away = self._mixed(memory, part, day)
        bound = part["binding"] * (self.after_error + (1.0 - self.after_error) * success)
        here = here + bound * (1.0 - here)
        return {"here": here, "away": away, "last": day * np.ones(here.shape)}


class TwoSpeeds:
    """A fast and a slow process that learn from the same error (Smith, Ghazizadeh and Shadmehr 2006).

    The fast one learns much and forgets within days, the slow one little and keeps it for months; what is missing
    to their sum drives both.  It was made for movements; here its sum is the log-odds of a right answer, scaled.
    """

    name = "two speeds"
    time_tells, draws = True, False
    goal, least, sharpness = 1.0, 0.55, 0.11

    def parameters(self, rng, learners, kind):
        """Return the parameters of ``learners``, [learners * drills]."""
        return {
            "fast": np.clip(spread(rng, learners, kind, (0.45, 0.40, 0.35), 0.05, 0.06), 0.05, 0.9),
            "slow": np.clip(spread(rng, learners, kind, (0.28, 0.25, 0.21), 0.03, 0.035), 0.05, 0.5),
            "fast_days": spread(rng, learners, kind, (2.5, 2.0, 1.6), 0.25, 0.3, ratio=True),
            "slow_days": spread(rng, learners, kind, (120.0, 100.0, 80.0), 0.25, 0.3, ratio=True),
        }

    def nothing(self, rows):
        """Return the memory of ``rows`` drills never practised."""
        return {"quick": np.zeros(rows), "steady": np.zeros(rows), "last": np.zeros(rows)}

    def compact(self, memory, ahead):
        """Return ``memory``: it is of constant size."""
        return memory

    def _faded(self, memory, part, day):
        gone = np.maximum(day - memory["last"], 0.0)
        return memory["quick"] * np.exp(-gone / part["fast_days"]), memory["steady"] * np.exp(-gone / part["slow_days"])

    def knowing(self, memory, part, day):
        """Return the probability of knowing."""
        quick, steady = self._faded(memory, part, day)
        return 1.0 / (1.0 + np.exp(-(quick + steady - self.least) / self.sharpness))

    def practised(self, memory, part, day, success, draw=None):
        """Return the memory after one more practice."""
        quick, steady = self._faded(memory, part, day)
        missing = np.maximum(self.goal - quick - steady, 0.0)
        return {
            "quick": quick + part["fast"] * missing,
            "steady": steady + part["slow"] * missing,
            "last": day * np.ones(quick.shape),
        }
