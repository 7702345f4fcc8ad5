"""Families whose memory is of constant size.

Equations and values: the project's notes on memory, sections 2 and 9, where the publications are named;
what is ours is said in the class.
"""

import numpy as np

from tests.bench.simulation.kinds import GUESS, SLIP
from tests.bench.simulation.spread import spread


class MultiscaleContext:
    """The multiscale context model: pools at 24 time scales.  The trainer's own traces are its relatives."""

    name = "MCM"
    time_tells, draws = True, False
    pools, ratio = 24, 1.9

    def parameters(self, rng, learners, kind):
        """Return the parameters of ``learners``, [learners * drills]."""
        of_kind = np.tile(kind, learners)
        return {
            "first_days": spread(rng, learners, kind, (0.004, 0.004, 0.0032), 0.35, 0.35, ratio=True),
            "fall": np.minimum(0.98, spread(rng, learners, kind, (0.90, 0.89, 0.875), 0.008, 0.010)),
            "gain_right": np.array((4.0, 3.5, 3.0))[of_kind],
            "gain_wrong": np.array((1.0, 0.9, 0.8))[of_kind],
        }

    def nothing(self, rows):
        """Return the memory of ``rows`` drills never practised."""
        return {"pool": np.zeros((rows, self.pools)), "last": np.zeros(rows)}

    def compact(self, memory, ahead):
        """Return ``memory``: it is of constant size."""
        return memory

    def _faded(self, memory, part, day):
        scale = part["first_days"][..., None] * self.ratio ** np.arange(self.pools)
        return memory["pool"] * np.exp(-np.maximum(day - memory["last"], 0.0)[..., None] / scale)

    def _held(self, pool, part):
        weight = part["fall"][..., None] ** np.arange(self.pools)
        return np.cumsum(weight * pool, -1) / np.cumsum(weight, -1)

    def knowing(self, memory, part, day):
        """Return the probability of knowing."""
        return np.clip(self._held(self._faded(memory, part, day), part)[..., -1], 0.0, 1.0)

    def practised(self, memory, part, day, success, draw=None):
        """Return the memory after one more practice."""
        pool = self._faded(memory, part, day)
        gain = part["gain_wrong"] + (part["gain_right"] - part["gain_wrong"]) * success
        room = np.maximum(0.0, 1.0 - self._held(pool, part))
        return {"pool": pool + gain[..., None] * room, "last": day * np.ones(memory["last"].shape)}


class PowerLaw:
    """Wickelgren's power law, lambda (1 + beta t)**-psi; each practice raises lambda and flattens psi.

    The flattening is the larger, the more had been forgotten: spacing.  How lambda and psi change is ours.
    """

    name = "power law"
    time_tells, draws = True, False

    def parameters(self, rng, learners, kind):
        """Return the parameters of ``learners``, [learners * drills]."""
        of_kind = np.tile(kind, learners)
        return {
            "rate": spread(rng, learners, kind, 5.0, 0.4, 0.4, ratio=True),  # per day
            "fall": spread(rng, learners, kind, (0.36, 0.40, 0.45), 0.18, 0.22, ratio=True),
            "learning": np.array((0.70, 0.60, 0.45))[of_kind],
            "flattening": np.clip(spread(rng, learners, kind, 0.55, 0.06, 0.08), 0.1, 0.9),
        }

    def nothing(self, rows):
        """Return the memory of ``rows`` drills never practised."""
        return {"level": np.zeros(rows), "flat": np.ones(rows), "last": np.zeros(rows)}

    def compact(self, memory, ahead):
        """Return ``memory``: it is of constant size."""
        return memory

    def knowing(self, memory, part, day):
        """Return the probability of knowing."""
        gone = np.maximum(day - memory["last"], 0.0)
        return memory["level"] * (1.0 + part["rate"] * gone) ** -(part["fall"] * memory["flat"])

    def practised(self, memory, part, day, success, draw=None):
        """Return the memory after one more practice; an error teaches six tenths as much."""
        before = self.knowing(memory, part, day)
        degree = 0.6 + 0.4 * success
        seen = memory["level"] > 0
        flat = memory["flat"] * np.where(seen, 1.0 - degree * part["flattening"] * (1.0 - before), 1.0)
        level = memory["level"] + degree * part["learning"] * (1.0 - memory["level"])
        return {"level": level, "flat": flat, "last": day * np.ones(level.shape)}


class AllOrNone:
    """Unknown, temporary or permanent (Atkinson 1972), with a permanent state that only time lets set.

    A drill is known for certain or not at all.  ``share`` holds the true state as three zeros and ones; the
    oracle, which knows the parameters but sees only answers, holds probabilities there.
    """

    name = "all-or-none"
    time_tells, draws = True, True

    def parameters(self, rng, learners, kind):
        """Return the parameters of ``learners``, [learners * drills]."""
        return {
            "learning": np.clip(spread(rng, learners, kind, (0.75, 0.65, 0.50), 0.06, 0.08), 0.1, 0.95),
            "forgetting": spread(rng, learners, kind, (0.22, 0.26, 0.32), 0.30, 0.30, ratio=True),  # per day
            "setting": np.clip(spread(rng, learners, kind, (0.40, 0.35, 0.30), 0.05, 0.07), 0.05, 0.9),
            "losing": spread(rng, learners, kind, 1 / 250, 0.3, 0.3, ratio=True),  # per day
            "guess": np.tile(GUESS[kind], learners),
            "slip": np.tile(SLIP[kind], learners),
        }

    def nothing(self, rows):
        """Return the memory of ``rows`` drills never practised."""
        return {"share": np.tile((1.0, 0.0, 0.0), (rows, 1)), "last": np.zeros(rows)}

    def compact(self, memory, ahead):
        """Return ``memory``: it is of constant size."""
        return memory

    def _faded(self, memory, part, day):
        gone = np.maximum(day - memory["last"], 0.0)
        temporary = memory["share"][..., 1] * np.exp(-part["forgetting"] * gone)
        permanent = memory["share"][..., 2] * np.exp(-part["losing"] * gone)
        return np.stack((1.0 - temporary - permanent, temporary, permanent), -1), gone

    def knowing(self, memory, part, day):
        """Return the probability of knowing."""
        return 1.0 - self._faded(memory, part, day)[0][..., 0]

    def practised(self, memory, part, day, success, draw=None):
        """Return the memory after one more practice; ``draw`` [rows, 2] settles what is in truth certain."""
        share, gone = self._faded(memory, part, day)
        share = self._answered(share, part, success)
        share = share if draw is None else _settled(share, draw[:, 0])
        learned = part["learning"] * share[..., 0]
        settled = part["setting"] * (1.0 - np.exp(-gone)) * share[..., 1]
        after = np.stack((share[..., 0] - learned, share[..., 1] + learned - settled, share[..., 2] + settled), -1)
        after = after if draw is None else _settled(after, draw[:, 1])
        return {"share": after, "last": day * np.ones(memory["last"].shape)}

    def _answered(self, share, part, success):
        """Return ``share`` in the light of an answer that was right to the degree ``success``."""
        right = share * np.stack((part["guess"], 1.0 - part["slip"], 1.0 - part["slip"]), -1)
        wrong = share - right
        degree = np.asarray(success)[..., None]
        right, wrong = (part_ / np.maximum(part_.sum(-1, keepdims=True), 1e-12) for part_ in (right, wrong))
        return degree * right + (1.0 - degree) * wrong


def _settled(share, draw):
    """Return one state for certain, drawn from the probabilities ``share`` [rows, states]."""
    return np.eye(share.shape[-1])[(draw[:, None] > np.cumsum(share, -1)[:, :-1]).sum(-1)]


class HalfLife:
    """An exponential with a half-life that each practice stretches, more after a longer wait; held out of tuning.

    Right answers stretch it by the time waited, wrong ones shrink it towards its first value; what is new is
    learned at once but for a share.
    """

    name = "half-life"
    time_tells, draws = True, False

    def parameters(self, rng, learners, kind):
        """Return the parameters of ``learners``, [learners * drills]."""
        return {
            "first_days": spread(rng, learners, kind, (1.6, 1.2, 0.8), 0.3, 0.4, ratio=True),
            "stretch": np.clip(spread(rng, learners, kind, 2.0, 0.2, 0.3), 0.4, 4.0),
            "level": np.clip(spread(rng, learners, kind, (0.95, 0.92, 0.88), 0.02, 0.03), 0.5, 0.99),
        }

    def nothing(self, rows):
        """Return the memory of ``rows`` drills never practised."""
        return {"days": np.zeros(rows), "last": np.zeros(rows)}

    def compact(self, memory, ahead):
        """Return ``memory``: it is of constant size."""
        return memory

    def knowing(self, memory, part, day):
        """Return the probability of knowing."""
        gone = np.maximum(day - memory["last"], 0.0)
        seen = memory["days"] > 0
        return np.where(seen, part["level"] * 2.0 ** -(gone / np.maximum(memory["days"], 1e-9)), 0.0)

    def practised(self, memory, part, day, success, draw=None):
        """Return the memory after one more practice."""
        gone = np.maximum(day - memory["last"], 0.0)
        waited = np.minimum(gone / np.maximum(memory["days"], 1e-9), 2.0)  # in half-lives; more adds nothing
        right = memory["days"] * (1.0 + part["stretch"] * waited)
        wrong = np.maximum(part["first_days"], memory["days"] * (1.0 + 0.3 * part["stretch"] * waited) * 0.7)
        after = success * right + (1.0 - success) * wrong
        days = np.where(memory["days"] > 0, after, part["first_days"])
        return {"days": days, "last": day * np.ones(days.shape)}
