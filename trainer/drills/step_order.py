"""The order that a flow demands: what must come before what, and the fewest faults that explain a wrong order.

Steps are named by id; ``needs`` is {step: all steps that must be done before it}, directly or not.
"""

from itertools import combinations, product

from trainer.frozen import frozen

MISSED = "missed"
TOO_EARLY = "too early"
REPEATED = "repeated"
NOT_HERE = "not in this flow"
MOST_CHOICES = 512  # ways to read a sequence with repeated steps that are tried


@frozen
class Fault:
    """One fault.  ``step`` is the step (or, for ``NOT_HERE``, the words); ``blame`` the step to practise.

    For ``TOO_EARLY``, ``other`` is the prerequisite that was not done yet, and ``exchanged`` the two steps
    that have changed places, where that explains it all.
    """

    kind: str
    step: str
    other: str = ""
    blame: str = ""
    exchanged: tuple[str, ...] = ()


def needs_of(steps):
    """Return {step id: frozenset of every step before it} of the ``after`` of ``steps``; cycles are cut."""
    direct = {step.id: tuple(before for before in step.after) for step in steps}
    found = {}

    def closure(step, path):
        if step in found:
            return found[step]
        above = set()
        for before in direct.get(step, ()):
            if before not in path:
                above |= {before} | closure(before, path | {before})
        found[step] = frozenset(above)
        return found[step]

    return {step: closure(step, {step}) for step in direct}


def last_before(step, needs, optional=()):
    """Return those prerequisites of ``step`` that nothing else, save ``optional`` steps, stands between."""
    between = needs[step] - set(optional)
    return frozenset(one for one in needs[step] if not any(one in needs[other] for other in between))


def possible_next(done, needs, optional=()):
    """Return the steps that may be done when exactly ``done`` are done; nothing waits for ``optional`` steps."""
    done = set(done)
    return tuple(step for step in needs if step not in done and needs[step] <= done | set(optional))


def is_allowed(order, needs):
    """Return whether no step of ``order`` stands before one that it needs."""
    return not violations(order, needs)


def violations(order, needs):
    """Return [(early, late)]: ``early`` stands before ``late`` but needs it."""
    return [(early, late) for at, early in enumerate(order) for late in order[at + 1 :] if late in needs[early]]


def faults(typed, needs, all_steps=None):
    """Return the smallest list of ``Fault`` that explains ``typed``, a sequence of step ids.

    Entries that are not in ``needs`` are faults by themselves.  ``all_steps`` are the steps that had to be
    there, by default every step.
    """
    wanted = tuple(needs if all_steps is None else all_steps)
    strangers = [Fault(kind=NOT_HERE, step=entry) for entry in typed if entry not in needs]
    known = [entry for entry in typed if entry in needs]
    missed = [Fault(kind=MISSED, step=step, blame=step) for step in wanted if step not in known]
    order, misplaced = _best_reading(known, needs)
    repeats = [Fault(kind=REPEATED, step=step, blame=step) for step in _surplus(known)]
    return [*missed, *misplaced, *repeats, *strangers]


def _surplus(known):
    seen, surplus = set(), []
    for step in known:
        surplus += [step] if step in seen else []
        seen.add(step)
    return surplus


def _best_reading(known, needs):
    """Return (order, faults) of the reading with the fewest faults: which of the repeated entries counts."""
    places = {}
    for at, step in enumerate(known):
        places.setdefault(step, []).append(at)
    best = None
    for count, kept in enumerate(product(*places.values())):
        order = [known[at] for at in sorted(kept)]
        found = misplacements(order, needs)
        if best is None or len(found) < len(best[1]):
            best = order, found
        if not best[1] or count >= MOST_CHOICES:
            break
    return best or ([], [])


def misplacements(order, needs):
    """Return the fewest ``TOO_EARLY`` faults that explain ``order``, in which no step is repeated."""
    wrong = violations(order, needs)
    if not wrong:
        return []
    cover = _smallest_cover(wrong, order)
    if len(cover) > 1:
        swapped = _swap(order, wrong, needs)
        if swapped:
            return [swapped]
    return [_fault(step, wrong, cover) for step in cover]


def _fault(step, wrong, cover):
    """Return the fault of the misplaced ``step``: too early itself, or so late that another was too early."""
    waits_for = [late for early, late in wrong if early == step]
    if waits_for:
        return Fault(kind=TOO_EARLY, step=step, other=waits_for[0], blame=step)
    early = next(early for early, late in wrong if late == step)
    return Fault(kind=TOO_EARLY, step=early, other=step, blame=step)


def _swap(order, wrong, needs):
    """Return the one fault of two steps that have changed places, None where no exchange explains all.

    Exchanges of a step with one that it needs are tried first.
    """
    for early, late in (*wrong, *combinations(order, 2)):
        a, b = order.index(early), order.index(late)
        exchanged = list(order)
        exchanged[a], exchanged[b] = late, early
        if is_allowed(exchanged, needs):
            step, other = next(((x, y) for x, y in wrong if x == early), None) or next(
                (x, y) for x, y in wrong if y == late
            )
            return Fault(kind=TOO_EARLY, step=step, other=other, blame=early, exchanged=(early, late))
    return None


def _smallest_cover(wrong, order):
    """Return the fewest steps that have part in every pair of ``wrong``; the steps that came early first."""
    early = {step for step, _ in wrong}
    steps = sorted({step for pair in wrong for step in pair}, key=lambda s: (s not in early, order.index(s)))
    for size in range(1, min(len(steps), 4) + 1):
        for some in combinations(steps, size):
            if all(a in some or b in some for a, b in wrong):
                return some
    return _large_cover(wrong, order)


def _large_cover(wrong, order):
    """Return a smallest cover of many pairs (König: as many as pairs can be matched, early with late).

    "Stands before and needs it" runs through, so the steps outside a smallest cover are a largest set in
    which no two are out of order; matching early places with late places finds it.
    """
    pairs = {}
    for early, late in wrong:
        pairs.setdefault(early, []).append(late)
    taken = {}

    def place(early, seen):
        for late in pairs.get(early, ()):
            if late not in seen:
                seen.add(late)
                if late not in taken or place(taken[late], seen):
                    taken[late] = early
                    return True
        return False

    for early in order:
        place(early, set())
    free = [early for early in pairs if early not in taken.values()]
    reached, queue = set(free), list(free)
    reached_late = set()
    while queue:
        for late in pairs.get(queue.pop(), ()):
            if late not in reached_late:
                reached_late.add(late)
                if late in taken and taken[late] not in reached:
                    reached.add(taken[late])
                    queue.append(taken[late])
    cover = (set(pairs) - reached) | reached_late
    return tuple(step for step in order if step in cover)
