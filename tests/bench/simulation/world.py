"""The invented world of the bench: its drills, and learners whose memory is hidden from the planner."""

from dataclasses import dataclass

import numpy as np

from tests.bench.simulation.kinds import (
    ANSWER_DEVIATION,
    COUNT,
    FASTER_WITH_MEMORY,
    FEEDBACK_S,
    FLUENT_S,
    GUESS,
    KNOWN_BEFORE,
    OVERHEAD_S,
    SLIP,
    SPEED_DEVIATION,
    WRONG_LONGER,
    groups,
)
from trainer.memory.items import KINDS, ItemSpec
from trainer.model import AREAS

# In this world an answer counts when it is right, however long it took; so no limit may bind.
NO_LIMIT_S = 1e4


def specs(worth, order_seed=0):
    """Return the ``ItemSpec`` of every drill, kinds mixed as in a deck, with ``worth`` by kind."""
    kinds = np.repeat(np.arange(len(KINDS)), [COUNT[kind] for kind in KINDS])
    mixed = np.random.default_rng(order_seed).permutation(kinds)
    return tuple(
        ItemSpec(
            id=f"drill-{place}",
            kind=KINDS[which],
            limit_s=NO_LIMIT_S,
            worth=worth[which],
            area=AREAS[place % len(AREAS)],
            group=f"group-{group}",
            deck_order=place,
        )
        for place, (which, group) in enumerate(zip(mixed, groups(mixed), strict=True))
    )


@dataclass
class People:
    """Learners in a world: the family's hidden memory, their speed and what they knew before.

    Arrays are [learners, drills]; rows of the memory are learner * drills + drill.
    """

    family: object
    kind: np.ndarray
    parameters: dict
    memory: dict
    known: np.ndarray
    speed: np.ndarray
    pace: float  # the learners' days per day: 2 forgets twice as fast
    rng: np.random.Generator

    @classmethod
    def born(cls, family, items, learners, seed, pace=1.0):
        """Return ``learners`` new learners of ``family``; the same ``seed`` gives the same people."""
        rng = np.random.default_rng(seed)
        kind = np.array([KINDS.index(spec.kind) for spec in items])
        parameters = family.parameters(rng, learners, kind)
        known = rng.random((learners, len(items))) < KNOWN_BEFORE[kind]
        speed = np.exp(SPEED_DEVIATION * rng.standard_normal(learners))
        memory = family.nothing(learners * len(items))
        return cls(family, kind, parameters, memory, known.reshape(-1), speed, pace, rng)

    @property
    def learners(self):
        """How many there are."""
        return len(self.speed)

    @property
    def drills(self):
        """How many drills each has."""
        return len(self.kind)

    def chances(self, day):
        """Return the true probability of a right answer [learners, drills] on ``day``."""
        rows = np.arange(self.learners * self.drills)
        return self.chance(rows, np.full(len(rows), float(day))).reshape(self.learners, self.drills)

    def chance(self, rows, day):
        """Return the true probability of a right answer of ``rows`` at ``day`` [rows]."""
        part = {name: values[rows] for name, values in self.parameters.items()}
        memory = {name: values[rows] for name, values in self.memory.items()}
        return self.observed(rows, self.family.knowing(memory, part, day * self.pace))

    def observed(self, rows, knowing):
        """Return the probability of a right answer from that of ``knowing`` [rows, ...]."""
        kind = self.kind[rows % self.drills]
        extra = (slice(None),) + (None,) * (knowing.ndim - 1)
        guess, slip, known = GUESS[kind][extra], SLIP[kind][extra], self.known[rows][extra]
        return guess + (1.0 - guess - slip) * np.where(known, np.maximum(knowing, 0.98), knowing)

    def answer(self, rows, day):
        """Return (right, answer_s, whole_s) of one answer to each of ``rows`` at ``day``, and learn from it."""
        chance = self.chance(rows, day)
        right = self.rng.random(len(rows)) < chance
        kind, speed = self.kind[rows % self.drills], self.speed[rows // self.drills]
        odds = np.clip(np.log(chance / (1.0 - chance)), -3.0, 4.0) - 1.5
        telling = FASTER_WITH_MEMORY if self.family.time_tells else 0.0
        noise = ANSWER_DEVIATION * self.rng.standard_normal(len(rows))
        fluent_s = FLUENT_S[kind] * speed * np.exp(noise)
        answer_s = np.where(right, fluent_s * np.exp(-telling * odds), WRONG_LONGER * fluent_s)
        whole_s = answer_s + OVERHEAD_S + np.where(right, 0.0, FEEDBACK_S[kind] * speed)
        self.learn(rows, day, right.astype(float))
        return right, answer_s, whole_s

    def learn(self, rows, day, success):
        """Let the hidden memory of ``rows`` take a practice at ``day``."""
        draw = self.rng.random((len(rows), 2)) if self.family.draws else None
        self.practise(self.memory, rows, day * self.pace, success, draw)

    def practise(self, memory, rows, day, success, draw=None):
        """Let ``memory`` (theirs, or what somebody thinks of it) take one practice of each of ``rows``, in place."""
        self._changed(memory, rows, lambda *now: self.family.practised(*now, day, success, draw))
        if hasattr(self.family, "siblings"):
            kin = self.kin[rows % self.drills] + (rows // self.drills * self.drills)[:, None]
            each = np.repeat(np.arange(len(rows)), kin.shape[1])
            kin, day, success = kin.reshape(-1), np.broadcast_to(day, len(rows))[each], success[each]
            self._changed(memory, kin, lambda *now: self.family.siblings(*now, day, success))

    def _changed(self, memory, rows, change):
        now = {name: values[rows] for name, values in memory.items()}
        part = {name: values[rows] for name, values in self.parameters.items()}
        for name, values in change(now, part).items():
            memory[name][rows] = values

    @property
    def kin(self):
        """Return the places of the other drills of each drill's group [drills, others]."""
        number = groups(self.kind)
        return np.array([np.flatnonzero((number == number[one]) & (np.arange(self.drills) != one))
                         for one in range(self.drills)])  # fmt: skip

    def typical_s(self, rows):
        """Return (right_s, wrong_s): the true mean seconds in all of a right and a wrong answer of ``rows``."""
        kind, speed = self.kind[rows % self.drills], self.speed[rows // self.drills]
        fluent_s = FLUENT_S[kind] * speed * np.exp(0.5 * ANSWER_DEVIATION**2)
        return fluent_s + OVERHEAD_S, WRONG_LONGER * fluent_s + OVERHEAD_S + FEEDBACK_S[kind] * speed
