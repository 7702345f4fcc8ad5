"""Orders that dependencies allow: circles among "comes after", and what a circle makes unreachable."""


def circles(after):
    """Return the circles in ``after`` ({id: ids that come before it}), each as a tuple of ids in order.

    Ids that are not keys are ignored.  No recursion: thousands of ids in one chain are fine.
    """
    left = remaining(after)
    found, seen = [], set()
    for start in left:
        path, at = [], start
        while at not in seen:
            seen.add(at)
            path.append(at)
            at = next(before for before in after[at] if before in left)
        if at in path:
            found.append(tuple(path[path.index(at) :]))
    return found


def remaining(after):
    """Return the ids that can never come up, in file order: those in a circle and those that wait for one."""
    waiting = {item: {before for before in befores if before in after} for item, befores in after.items()}
    followers = {item: [] for item in after}
    for item, befores in waiting.items():
        for before in befores:
            followers[before].append(item)
    ready = [item for item, befores in waiting.items() if not befores]
    while ready:
        done = ready.pop()
        for item in followers[done]:
            waiting[item].discard(done)
            if not waiting[item]:
                ready.append(item)
    return {item: None for item, befores in waiting.items() if befores}
