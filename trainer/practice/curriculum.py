"""In which order drills are met for the first time where no stage says so: those of a whole deck, area or file.

Left to gain per second alone, five minutes a day would go to facts for months: there are many, and each
costs a few seconds.  New drills are therefore met in a mixed order, area by area as a sortie goes.
"""

from itertools import count

from trainer.model import AREAS

# Of six new drills: three facts or calls, two computed, one flow.  A choice of ours, not a finding.
MIX = {"recall": 3, "computed": 2, "flow": 1}


def order(drills):
    """Return the ids of ``drills`` in the order in which they are met for the first time."""
    queues = {kind: _by_area([drill for drill in drills if drill.kind == kind]) for kind in MIX}
    taken = dict.fromkeys(MIX, 0)
    met = []
    while any(queues.values()):
        kind = min((kind for kind in MIX if queues[kind]), key=lambda kind: (taken[kind] + 1) / MIX[kind])
        met.append(queues[kind].pop(0))
        taken[kind] += 1
    return _prerequisites_first(met, {drill.id: drill for drill in drills})


def _by_area(drills):
    """Return ids taken from each area in turn, in the order of a sortie; the easier ones of an area first."""
    queues = {area: sorted((d for d in drills if d.area == area), key=lambda d: d.level) for area in AREAS}
    turns = [(turn, AREAS.index(area), drill.id) for area in AREAS for turn, drill in zip(count(), queues[area])]
    return [drill_id for _, _, drill_id in sorted(turns)]


def _prerequisites_first(ids, drills):
    """Return ``ids`` with everything that a drill comes after moved in front of it."""
    placed = {}

    def place(drill_id):
        if drill_id not in drills or drill_id in placed:
            return
        placed[drill_id] = None
        for earlier in drills[drill_id].after:
            place(earlier)
        # Taken out and put back: now it stands behind what it comes after.
        placed.pop(drill_id)
        placed[drill_id] = None

    for drill_id in ids:
        place(drill_id)
    return list(placed)
