"""Ways to practise one item over the days ahead, and what each would give and cost.

A template is a set of slots (days ahead) in which the item is practised.  Templates share their beginnings,
so they form a tree: a node is "practised in these slots so far".  Each node is computed once, from its
parent, for many items at a time.
"""

import numpy as np

from trainer.frozen import frozen
from trainer.memory import costs, laws, states, traces
from trainer.memory.chance_tables import Curves

BLOCK_NODES = 2048  # items times nodes computed together: few enough for the processor's cache


@frozen
class Tree:
    """Templates over slots at ``offsets`` (days from now).

    Node 0 is "not at all"; node n is practised last in slot ``slot[n]`` after what its ``parent[n]`` was.
    Every node is also a template, so templates are numbered as nodes.  ``levels`` are the node numbers by
    count of practices; ``member[n, t]`` is 1 where node n is a beginning of template t; ``first_today[t]``
    says whether template t practises in slot 0.
    """

    offsets: np.ndarray
    slot: np.ndarray
    parent: np.ndarray
    levels: tuple[np.ndarray, ...]
    member: np.ndarray
    today: np.ndarray

    @property
    def last_offset(self):
        """Days from now of each node's latest practice (0 for the root)."""
        return np.where(self.slot >= 0, self.offsets[self.slot], 0.0)


def tree_of(offsets, templates):
    """Return the ``Tree`` of ``templates`` (tuples of slot numbers, ascending) and all their beginnings."""
    nodes = {()}
    for template in templates:
        nodes.update(template[:length] for length in range(1, len(template) + 1))
    ordered = sorted(nodes, key=lambda node: (len(node), node))
    number = {node: place for place, node in enumerate(ordered)}
    slot = np.array([node[-1] if node else -1 for node in ordered])
    parent = np.array([number[node[:-1]] if node else 0 for node in ordered])
    depth = np.array([len(node) for node in ordered])
    member = np.zeros((len(ordered), len(ordered)))
    for node, place in number.items():
        for length in range(1, len(node) + 1):
            member[number[node[:length]], place] = 1.0
    return Tree(
        offsets=np.asarray(offsets, dtype=float),
        slot=slot,
        parent=parent,
        levels=tuple(np.flatnonzero(depth == level) for level in range(1, depth.max() + 1)),
        member=member,
        today=np.array([bool(node) and node[0] == 0 for node in ordered]),
    )


def subsets(count):
    """Return all subsets of ``count`` slots as tuples."""
    return [tuple(slot for slot in range(count) if bits >> slot & 1) for bits in range(2**count)]


@frozen
class Horizons:
    """When knowing counts: ``days`` ahead of now, their ``weight``, and whether only ``in_time`` counts.

    ``weight`` is [days], or [purposes, days] where items differ in what they are kept for.
    """

    days: np.ndarray
    weight: np.ndarray
    in_time: bool = False


def reading(tree, horizons):
    """Return (node, horizon, matrix): which node is read at which horizon, and how the readings add up.

    A template is read at a horizon as it stands after its last practice before it.  ``matrix[u, p, t]`` is
    the weight of reading p in the reward of template t for purpose u.
    """
    pairs, entries = {}, []
    for template in range(len(tree.slot)):
        for place, days in enumerate(horizons.days):
            node = template
            while node and tree.last_offset[node] >= days:
                node = tree.parent[node]
            entries.append((pairs.setdefault((int(node), place), len(pairs)), template, place))
    weight = np.atleast_2d(horizons.weight)
    matrix = np.zeros((len(weight), len(pairs), len(tree.slot)))
    for pair, template, place in entries:
        matrix[:, pair, template] += weight[:, place]
    node, place = np.array(list(pairs), dtype=int).T
    return node, place, matrix


@frozen
class Outlay:
    """What each template gives and costs: ``reward`` [items, templates], ``seconds`` [items, nodes].

    ``by_purpose`` [purposes, items, templates] is what it gives for each purpose, before wishes.
    """

    reward: np.ndarray
    seconds: np.ndarray
    by_purpose: np.ndarray

    def rows(self, index):
        """Return the outlay of the items ``index``."""
        return Outlay(reward=self.reward[index], seconds=self.seconds[index], by_purpose=self.by_purpose[:, index])


def _parts(weights):
    """Return the columns of ``weights`` that are of each of the dynamics, then of each of ``laws.FAMILIES``."""
    of_traces = weights[:, : states.OF_TRACES].reshape(len(weights), traces.DYNAMICS, traces.READOUTS)
    of_laws = weights[:, states.OF_TRACES :]
    return [*(of_traces[:, one] for one in range(traces.DYNAMICS)), *(of_laws[:, family] for family in laws.FAMILIES)]


def alike(weights):
    """Return an order of the rows of ``weights`` in which those that follow the same laws stand together."""
    by_part = np.stack([part.sum(1) for part in _parts(weights)], axis=1)
    return np.lexsort((by_part.sum(1) - by_part.max(1), by_part.argmax(1)))


def weighty(weights, negligible):
    """Return (weights, dynamics, laws) without what weighs least, together below ``negligible`` in every row.

    ``weights`` is [rows, hypotheses] and sums to 1 in each row, before and after; ``dynamics`` are numbers, ``laws``
    tells of each of ``laws.FAMILIES`` whether it is there.  No chance changes by more than ``negligible``.
    """
    if not negligible:
        return weights, traces.ALL, laws.ALL
    kept = weights.copy()
    parts = _parts(kept)
    largest = np.array([part.sum(1).max() for part in parts])
    there = np.ones(len(parts), dtype=bool)
    lightest = largest.argsort(kind="stable")
    there[lightest[largest[lightest].cumsum() < negligible]] = False
    there[largest[: traces.DYNAMICS].argmax()] = True  # tables are made for one at least
    for place in np.flatnonzero(~there):
        parts[place][:] = 0.0
    dynamics, lawful = np.flatnonzero(there[: traces.DYNAMICS]), there[traces.DYNAMICS :]
    return kept / kept.sum(1, keepdims=True), dynamics, tuple(map(bool, lawful))


class Roller:
    """Rolls beliefs forward along every branch of a ``Tree`` and reads them at ``Horizons``.

    Laws of memory and dynamics of traces that together weigh less than ``negligible`` for all items that are rolled
    together are left out: after some hundred answers of a learner most do.
    """

    def __init__(self, tree, horizons, negligible=0.0):
        self.tree, self.horizons, self.negligible = tree, horizons, negligible
        self.readings = reading(tree, horizons)

    def outlay(self, rows, table, learner_rows, weights, now, wishes=None):
        """Return the ``Outlay`` of items.

        ``rows``, ``table``, ``learner_rows`` and ``weights`` have one row per item, ``now`` is a day or
        [items]; ``wishes`` [items, purposes] says how much each purpose counts (None: each of them once).
        """
        wishes = np.ones((len(rows), len(self.readings[2]))) if wishes is None else wishes
        now = np.broadcast_to(np.asarray(now, dtype=float), (len(rows),))
        order = alike(weights) if self.negligible else np.arange(len(rows))
        block = max(1, BLOCK_NODES // len(self.tree.slot))
        given = np.zeros((len(self.readings[2]), len(rows), len(self.tree.slot)))
        seconds = np.zeros((len(rows), len(self.tree.slot)))
        for start in range(0, len(rows), block):
            part = order[start : start + block]
            given[:, part], seconds[part] = self._block(
                rows[part], table.rows(part), learner_rows[part], weights[part], now[part]
            )
        return Outlay(reward=np.einsum("ip,pit->it", wishes, given), seconds=seconds, by_purpose=given)

    def _block(self, rows, table, learner_rows, weights, now):
        tree, (weights, which, lawful) = self.tree, weighty(weights, self.negligible)
        curves = Curves(table, weights, which)
        right_s, wrong_s = costs.seconds(rows, table, learner_rows)
        count = len(tree.slot)
        first, law_first = states.faded(rows, table, now)
        first = first[:, which]
        trace, law = np.empty((len(rows), count, *first.shape[1:])), np.empty((len(rows), count, laws.WIDTH))
        trace[:, 0], law[:, 0] = first, law_first
        asked = np.where(rows[:, states.COUNT] > 0, states.since(rows, now), 0.0)
        seconds = np.zeros((len(rows), count))
        for nodes in tree.levels:
            before = tree.parent[nodes]
            wait = tree.offsets[tree.slot[nodes]] - tree.last_offset[before]
            faded, later = traces.fade(trace[:, before], wait), laws.fade(law[:, before], wait, lawful)
            right = curves.right(traces.strength(faded, which))
            knowing = laws.known(later, lawful)
            share = curves.share(right, knowing)
            seconds[:, nodes] = share * right_s[:, None] + (1.0 - share) * wrong_s[:, None]
            trace[:, nodes] = traces.practise(faded, traces.gain_of(right, which), which)
            gap = wait + np.where(before > 0, 0.0, asked[:, None])
            law[:, nodes] = laws.practise(later, gap, share, knowing, lawful)
        read = self._read((trace, which), (law, lawful), rows, table, learner_rows, curves)
        return read @ self.readings[2], seconds

    def _read(self, of_traces, of_laws, rows, table, learner_rows, curves):
        """Return the chance [items, readings] at each reading."""
        (trace, which), (law, lawful), (node, place, _) = of_traces, of_laws, self.readings
        wait = self.horizons.days[place] - self.tree.last_offset[node]
        strengths = traces.strength_after(trace[:, node], wait, which)
        known = laws.known(laws.fade(law[:, node], wait, lawful), lawful)
        if not self.horizons.in_time:
            return curves.share(curves.right(strengths), known)
        typical = states.typical_ln(rows, table, learner_rows)
        in_time, usual = curves.in_time(table, typical), costs.in_time(table, typical[:, None])
        return curves.share(curves.right(strengths, in_time), known, usual)
