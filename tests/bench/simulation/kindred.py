"""Families in which drills that are alike touch each other: what is practised changes its siblings, too.

Both are ours; the classes name what they lean on.  ``siblings`` is the memory of drills of the same group (alike in
kind and subject, ``kinds.groups``) after one of them was practised.
"""

import numpy as np

from tests.bench.simulation.pools import PowerLaw
from tests.bench.simulation.spread import spread


class Interference(PowerLaw):
    """A power law in which alike drills push each other down, backwards and forwards.

    Retroactive and proactive interference (Underwood 1957, from memory): practice of one weakens its siblings, an
    error more than a right answer; and a drill is learned the less, the more its siblings were in work lately.  So a
    group that is finished before the next is begun is learned better than one that is opened whole.
    """

    name = "interference"
    pushes_right, pushes_wrong = 0.01, 0.05  # of the level of each sibling
    load_days = 3.0  # in which the work on siblings is forgotten but for a third
    hinders = 0.05  # of what is learned, for each recent error on a sibling

    def nothing(self, rows):
        """Return the memory of ``rows`` drills never practised."""
        return {**super().nothing(rows), "load": np.zeros(rows), "loaded": np.zeros(rows)}

    def _load(self, memory, day):
        return memory["load"] * np.exp(-np.maximum(day - memory["loaded"], 0.0) / self.load_days)

    def practised(self, memory, part, day, success, draw=None):
        """Return the memory after one more practice, which the load of the siblings hinders."""
        load = self._load(memory, day)
        hindered = {**part, "learning": part["learning"] * np.exp(-self.hinders * load)}
        after = super().practised(memory, hindered, day, success)
        return {**after, "load": memory["load"] * np.ones(load.shape), "loaded": memory["loaded"] * np.ones(load.shape)}

    def siblings(self, memory, part, day, success):
        """Return the memory of siblings after a practice that was right to the degree ``success``."""
        pushed = self.pushes_wrong + (self.pushes_right - self.pushes_wrong) * success
        load = self._load(memory, day) + 1.0 - 0.7 * success
        return {**memory, "level": memory["level"] * (1.0 - pushed), "load": load, "loaded": day}


class Skill:
    """One rule behind all drills of a group, and numbers that go wrong now and then however well it is known.

    The rule is learned from success far more than from errors, and each right use makes it last longer; practice of
    one drill is practice of all its siblings but for a little that is its own.  How often the arithmetic comes out
    hangs on the drill (its level) and rises a little with its own practice.
    """

    name = "skill"
    time_tells, draws = True, False
    carried = 0.85  # of a practice reaches the siblings
    stretch, most_days = 0.9, 400.0

    def parameters(self, rng, learners, kind):
        """Return the parameters of ``learners``, [learners * drills]."""
        return {
            "from_right": np.clip(spread(rng, learners, kind, (0.60, 0.50, 0.42), 0.05, 0.06), 0.1, 0.9),
            "from_wrong": np.clip(spread(rng, learners, kind, (0.30, 0.22, 0.16), 0.04, 0.04), 0.03, 0.6),
            "first_days": spread(rng, learners, kind, (6.0, 5.0, 4.0), 0.25, 0.25, ratio=True),
            "accuracy": np.clip(spread(rng, learners, kind, (0.93, 0.80, 0.82), 0.03, 0.09), 0.4, 0.99),
        }

    def nothing(self, rows):
        """Return the memory of ``rows`` drills never practised."""
        return {name: np.zeros(rows) for name in ("rule", "days", "own", "last")}

    def compact(self, memory, ahead):
        """Return ``memory``: it is of constant size."""
        return memory

    def _rule(self, memory, day):
        gone = np.maximum(day - memory["last"], 0.0)
        return memory["rule"] * np.exp2(-gone / np.maximum(memory["days"], 0.1)), gone

    def knowing(self, memory, part, day):
        """Return the probability of knowing: the rule, and the arithmetic with it."""
        slack = (1.0 - part["accuracy"]) * np.exp(-0.15 * memory["own"])
        return self._rule(memory, day)[0] * (1.0 - slack)

    def practised(self, memory, part, day, success, draw=None):
        """Return the memory after one more practice."""
        after = self._worked(memory, part, day, success, 1.0)
        return {**after, "own": memory["own"] + success}

    def siblings(self, memory, part, day, success):
        """Return the memory of siblings after a practice that was right to the degree ``success``."""
        return self._worked(memory, part, day, success, self.carried)

    def _worked(self, memory, part, day, success, share):
        rule, gone = self._rule(memory, day)
        gain = share * (part["from_wrong"] + (part["from_right"] - part["from_wrong"]) * success)
        waited = np.minimum(gone / np.maximum(memory["days"], 0.1), 1.5)
        longer = memory["days"] * (1.0 + share * success * self.stretch * waited)
        days = np.where(memory["days"] > 0, np.minimum(longer, self.most_days), part["first_days"])
        return {**memory, "rule": rule + gain * (1.0 - rule), "days": days, "last": day * np.ones(rule.shape)}
