"""What a second is worth in each slot: prices that make the wishes of all items fit the minutes.

Every item takes the template that gives it most after paying for its seconds; where a slot is asked for
more seconds than it has, its price rises (a dual ascent on a Lagrangian of the budgets).
"""

import numpy as np

from trainer.frozen import frozen
from trainer.memory.practice_patterns import Tree

ROUNDS_COLD = 90  # from a first guess
ROUNDS_WARM = 40  # from yesterday's prices
STEP_FIRST, STEP_LAST = 0.5, 0.06  # large steps find the region, small ones settle in it
LARGEST_EXCESS = 1.5  # a slot asked for far too much does not throw the price off scale
LEAST_SECONDS = 1.0  # a slot without minutes still has a price, a prohibitive one
LEAST_PRICE = 1e-9
ROUNDING_S = 1e-9
# Prices fit the slots only on average.  So in the end the items choose in turn among what still has room, and again
# at these shares of the prices, until the minutes that were left over are used.
LOWERED = (1.0, 0.6, 0.3, 0.0)


@frozen
class Market:
    """The wishes of one or several learners' items.

    ``reward`` [learners, items, templates] is already multiplied by worth; ``seconds`` [learners, items,
    nodes]; ``budgets_s`` [learners, slots]; ``tree`` is theirs.
    """

    tree: Tree
    reward: np.ndarray
    seconds: np.ndarray
    budgets_s: np.ndarray

    def net(self, prices):
        """Return reward minus the price of the seconds [learners, items, templates] at ``prices``."""
        per_node = np.where(self.tree.slot >= 0, prices[:, self.tree.slot], 0.0)
        cost = self.seconds * per_node[:, None, :]
        for nodes in self.tree.levels:  # a template costs what its beginning does, and its last practice
            cost[..., nodes] += cost[..., self.tree.parent[nodes]]
        return self.reward - cost

    def used_s(self, chosen):
        """Return the seconds asked for [learners, slots] when items take the templates ``chosen``."""
        asked = (self.seconds * self.tree.member.T[chosen]).sum(1)
        used = np.zeros(self.budgets_s.shape)
        for node in range(1, len(self.tree.slot)):
            used[:, self.tree.slot[node]] += asked[:, node]
        return used

    def first_prices(self):
        """Return a first guess [learners, slots]: what all minutes could buy at best, shared evenly."""
        best = self.reward.max(-1) - self.reward[..., 0]
        seconds = np.maximum(self.budgets_s.sum(-1), LEAST_SECONDS)
        return np.repeat((best.sum(-1) / seconds)[:, None] + LEAST_PRICE, self.budgets_s.shape[1], axis=1)

    def settle(self, prices=None):
        """Return prices [learners, slots] at which the wishes fit the budgets; start from ``prices`` if given."""
        rounds = ROUNDS_COLD if prices is None else ROUNDS_WARM
        prices = self.first_prices() if prices is None else np.maximum(prices, LEAST_PRICE)
        budgets = np.maximum(self.budgets_s, LEAST_SECONDS)
        steps = np.geomspace(STEP_FIRST, STEP_LAST, rounds)
        late = []
        for step in steps:
            excess = (self.used_s(self.net(prices).argmax(-1)) - budgets) / budgets
            prices = np.maximum(prices * np.exp(step * np.clip(excess, -1.0, LARGEST_EXCESS)), LEAST_PRICE)
            late.append(np.log(prices))
        # Alike items change their minds together, so the last rounds swing about the answer: take their middle.
        return np.exp(np.mean(late[-rounds // 4 :], axis=0))

    def fitted(self, prices, learner=0, order=None):
        """Return a template for every item of one ``learner`` such that the seconds of each slot are kept.

        ``prices`` [learners, slots] are settled ones.  The best bargain chooses first; of equals, the one with the
        smaller ``order`` [items] (None: the earlier one).
        """
        reward, left = self.reward[learner], self.budgets_s[learner].copy()
        asked = self._asked(learner)
        chosen, each = np.zeros(len(reward), dtype=int), np.arange(len(reward))
        order = each if order is None else order
        for share in LOWERED:
            net = reward - np.einsum("s,ist->it", share * prices[learner], asked)
            gain, best = net.max(-1) - net[each, chosen], net.argmax(-1)
            movable = best != chosen  # who has the best of all already stays, whatever has room
            for item in (item for item in np.lexsort((order, -gain)) if movable[item]):
                room, taken = left + asked[item, :, chosen[item]] + ROUNDING_S, best[item]
                if (asked[item, :, taken] > room).any():
                    fits = (asked[item] <= room[:, None]).all(0)
                    taken = int(np.where(fits, net[item], -np.inf).argmax())
                left += asked[item, :, chosen[item]] - asked[item, :, taken]
                chosen[item] = taken
        return chosen

    def _asked(self, learner):
        """Return the seconds [items, slots, templates] that each template asks of each slot."""
        seconds, slots = self.seconds[learner], range(self.budgets_s.shape[1])
        of_slot = [self.tree.slot == slot for slot in slots]
        return np.stack([seconds[:, nodes] @ self.tree.member[nodes] for nodes in of_slot], axis=1)
