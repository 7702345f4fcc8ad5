"""Families far from all others: one who comes back to what he once knew, one who sees it at once, one of bad habits.

All are ours; each is described in its class.  None of the planner's constants was chosen with them.
"""

import numpy as np

from tests.bench.simulation.pools import PowerLaw
from tests.bench.simulation.spread import spread


class Returning(PowerLaw):
    """Half of all drills was known before and has been fading for months; what comes back comes back quickly.

    Relearning is faster than learning (Ebbinghaus's savings): one practice brings most of what was there, and it
    fades as flatly as it did before.
    """

    name = "returning"
    begins = 20_000.0  # the day on which the bench begins
    knew, once, flat = 0.5, 0.97, 0.35

    def parameters(self, rng, learners, kind):
        """Return the parameters of ``learners``, [learners * drills]."""
        count = learners * len(kind)
        return {
            **super().parameters(rng, learners, kind),
            "knew": rng.random(count) < self.knew,
            "away": 60.0 * np.exp(0.8 * rng.standard_normal(count)),  # days since it was last used
        }

    def knowing(self, memory, part, day):
        """Return the probability of knowing."""
        gone = part["away"] + day - self.begins
        before = part["knew"] * self.once * (1.0 + part["rate"] * gone) ** -(part["fall"] * self.flat)
        return np.where(memory["level"] > 0, super().knowing(memory, part, day), before)

    def practised(self, memory, part, day, success, draw=None):
        """Return the memory after one more practice; the first of what was known before brings it back."""
        after = super().practised(memory, part, day, success)
        back = (memory["level"] <= 0) & part["knew"]
        return {
            **after,
            "level": np.where(back, 0.9, after["level"]),
            "flat": np.where(back, self.flat, after["flat"]),
        }


class Insight:
    """Nothing for some tries, then all of it at once: each practice adds to a count until the drill's own is full.

    What is seen through is kept for long; what is not yet is not known at all, and the count runs back in idle weeks.
    """

    name = "insight"
    time_tells, draws = False, False
    sharpness, idle_days = 0.35, 20.0

    def parameters(self, rng, learners, kind):
        """Return the parameters of ``learners``, [learners * drills]."""
        return {
            "needs": np.clip(spread(rng, learners, kind, (2.2, 2.8, 3.6), 0.3, 0.35, ratio=True), 0.8, 9.0),
            "keeps": spread(rng, learners, kind, (150.0, 120.0, 90.0), 0.3, 0.4, ratio=True),  # days
        }

    def nothing(self, rows):
        """Return the memory of ``rows`` drills never practised."""
        return {name: np.zeros(rows) for name in ("tries", "last")}

    def compact(self, memory, ahead):
        """Return ``memory``: it is of constant size."""
        return memory

    def _seen(self, memory, part, day):
        """Return (seen through, tries left): beyond the need a try more only lasts longer."""
        gone = np.maximum(day - memory["last"], 0.0)
        above = np.maximum(memory["tries"] / part["needs"], 1.0)
        full = memory["tries"] >= part["needs"]
        return memory["tries"] * np.exp(-gone / np.where(full, part["keeps"] * above**2, self.idle_days))

    def knowing(self, memory, part, day):
        """Return the probability of knowing."""
        tries = self._seen(memory, part, day)
        return 1.0 / (1.0 + np.exp(-(tries / part["needs"] - 0.85) / (0.1 * self.sharpness)))

    def practised(self, memory, part, day, success, draw=None):
        """Return the memory after one more practice; a try in the same sitting counts half."""
        gone = np.where(memory["tries"] > 0, np.maximum(day - memory["last"], 0.0), 1.0)
        tries = self._seen(memory, part, day) + 0.5 + 0.5 * np.minimum(gone / 0.5, 1.0)
        return {"tries": np.minimum(tries, 4.0 * part["needs"]), "last": day * np.ones(tries.shape)}


class Habit:
    """Right and wrong answers compete, and an error is practice of the error.

    A right answer strengthens the right response, an error the wrong one, and its feedback the right one a little;
    the stronger is likelier.  Both last the longer the more they were used.  Whoever is asked far more than he can
    answer learns his mistakes.
    """

    name = "habit"
    time_tells, draws = True, False
    slip_in = 0.35  # what an error adds to the wrong response
    first = 0.25  # strength of the wrong one at the beginning

    def parameters(self, rng, learners, kind):
        """Return the parameters of ``learners``, [learners * drills]."""
        return {
            "told": np.clip(spread(rng, learners, kind, (0.75, 0.60, 0.50), 0.06, 0.10), 0.1, 1.5),  # by feedback
            "used": np.clip(spread(rng, learners, kind, (0.90, 0.80, 0.70), 0.06, 0.10), 0.1, 2.0),  # by success
            "fades": spread(rng, learners, kind, (0.55, 0.60, 0.65), 0.15, 0.15, ratio=True),
        }

    def nothing(self, rows):
        """Return the memory of ``rows`` drills never practised."""
        return {"right": np.zeros(rows), "wrong": np.full(rows, self.first), "last": np.zeros(rows)}

    def compact(self, memory, ahead):
        """Return ``memory``: it is of constant size."""
        return memory

    def _faded(self, memory, part, day):
        gone = np.where(memory["right"] > 0, np.maximum(day - memory["last"], 0.0), 0.0)
        slower = part["fades"] / (1.0 + 0.3 * memory["right"])
        return memory["right"] * (1.0 + gone) ** -slower, memory["wrong"] * (1.0 + gone) ** (-0.5 * slower)

    def knowing(self, memory, part, day):
        """Return the probability that the right response wins."""
        right, wrong = self._faded(memory, part, day)
        return right**2 / (right**2 + wrong**2 + 0.05)

    def practised(self, memory, part, day, success, draw=None):
        """Return the memory after one more practice."""
        right, wrong = self._faded(memory, part, day)
        gained = part["told"] + (part["used"] - part["told"]) * success
        return {
            "right": right + gained / (1.0 + 0.6 * right),
            "wrong": wrong + self.slip_in * (1.0 - success) / (1.0 + wrong),
            "last": day * np.ones(right.shape),
        }
