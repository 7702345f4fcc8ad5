"""Simple rules for what to ask next, for many learners at once; the planner has to beat them.

A rule is told the time (``begin`` a session on a day), picks a drill for each active learner, and hears
how the answer was.  Times are days.  All rules see the same drills in the same deck order.
"""

import numpy as np

from tests.bench.simulation.kinds import FLUENT_S, OVERHEAD_S

NEVER = np.inf


class Rule:
    """What all rules share: per learner and drill when it was last asked, and no drill twice in a row."""

    name = ""

    def __init__(self, people, items, rng):
        self.rng, self.drills = rng, len(items)
        self.last = np.full((people.learners, self.drills), -NEVER)
        self.previous = np.full(people.learners, -1)

    def begin(self, day, minutes):
        """A session starts on ``day``."""

    def pick(self, who, day):
        """Return the drill to ask each of the learners ``who`` at ``day`` [learners]."""
        score = self.score(who, day).astype(float)
        asked_before = self.previous[who] >= 0
        score[np.flatnonzero(asked_before), self.previous[who][asked_before]] = -NEVER
        return score.argmax(-1)

    def hear(self, who, drill, day, right, answer_s):
        """Take note of the answers."""
        self.last[who, drill] = day
        self.previous[who] = drill

    def score(self, who, day):
        """Return how much each drill ought to be asked now [who, drills]."""
        raise NotImplementedError


class AtRandom(Rule):
    """Any drill, all alike."""

    name = "random"

    def score(self, who, day):
        """Return a fresh random number for each drill."""
        return self.rng.random((len(who), self.drills))


class RoundRobin(Rule):
    """All drills in turn, in deck order."""

    name = "round robin"

    def score(self, who, day):
        """Return the time since each was asked, the deck order for those never asked."""
        waited = day[:, None] - self.last[who]
        return np.where(np.isinf(waited), 1e9 - np.arange(self.drills), waited)


class Due(Rule):
    """What all rules with a date share: the most overdue first, then a new drill, then the soonest due."""

    def __init__(self, people, items, rng):
        super().__init__(people, items, rng)
        self.due = np.full(self.last.shape, NEVER)

    def score(self, who, day):
        """Return overdue drills above new ones above those not due yet."""
        ahead = self.due[who] - day[:, None]
        new = np.isinf(ahead)
        known = np.where(ahead <= 0, 1e6 - ahead, -ahead)
        return np.where(new, 1e3 - np.arange(self.drills), known)


class Ladder(Due):
    """A fixed ladder of 1-3-7-16-35 days: right climbs a rung, wrong goes back to the first."""

    name = "ladder"
    rungs = np.array((1.0, 3.0, 7.0, 16.0, 35.0))

    def __init__(self, people, items, rng):
        super().__init__(people, items, rng)
        self.rung = np.full(self.last.shape, -1)

    def hear(self, who, drill, day, right, answer_s):
        """Set the next date: the start of the day that lies the rung's days ahead."""
        super().hear(who, drill, day, right, answer_s)
        up = np.minimum(self.rung[who, drill] + 1, len(self.rungs) - 1)
        self.rung[who, drill] = np.where(right, up, 0)
        self.due[who, drill] = np.floor(day) + self.rungs[self.rung[who, drill]]


class FiveBoxes(Ladder):
    """Five boxes looked at every 1-2-4-8-16 days: right moves a box up, wrong to the first."""

    name = "five boxes"
    rungs = np.array((1.0, 2.0, 4.0, 8.0, 16.0))


class DueBelowNinety(Due):
    """An exponential half-life, doubled when right and halved when wrong; due below 90 %."""

    name = "due 90 %"
    first_half_life, shortest = 1.0, 0.1
    share_due = -np.log2(0.9)  # of a half-life

    def __init__(self, people, items, rng):
        super().__init__(people, items, rng)
        self.half_life = np.full(self.last.shape, self.first_half_life)

    def hear(self, who, drill, day, right, answer_s):
        """Move the half-life and set the date at which recall falls to 90 %."""
        super().hear(who, drill, day, right, answer_s)
        factor = np.where(right, 2.0, 0.5)
        self.half_life[who, drill] = np.maximum(self.shortest, self.half_life[who, drill] * factor)
        self.due[who, drill] = day + self.share_due * self.half_life[who, drill]


class Thrifty(Due):
    """Among what is due, the most worth per second; it knows how long each kind of drill takes, and its worth."""

    def __init__(self, people, items, rng):
        super().__init__(people, items, rng)
        worth = np.array([spec.worth for spec in items])
        self.per_second = worth / (FLUENT_S[people.kind] + OVERHEAD_S)

    def score(self, who, day):
        """Return what is due by its worth per second, above the rest as before."""
        due = self.due[who] <= day[:, None]
        return np.where(due, 1e6 + self.per_second, np.minimum(super().score(who, day), 1e5))


class ThriftyLadder(Thrifty, Ladder):
    """The ladder, thrifty."""

    name = "thrifty ladder"


class ThriftyBoxes(Thrifty, FiveBoxes):
    """The five boxes, thrifty."""

    name = "thrifty boxes"


BASELINES = (AtRandom, RoundRobin, Ladder, FiveBoxes, DueBelowNinety, ThriftyLadder, ThriftyBoxes)
