"""How far off numbers are: the signed errors where answers miss most.

Drills that ask for the same result of the same quantity are looked at together.
"""

import numpy as np

from trainer.drills import grading
from trainer.engine.units import UNITS
from trainer.practice.evidence import retold
from trainer.practice.evidence.history import as_date

MOST_PLOTS, MOST_POINTS, FEWEST_POINTS = 4, 40, 5
WORST = 5.0  # times the limits: one wild answer must not decide which plots are shown


def most_off(history, drills):
    """Return records of what is answered furthest outside its limits, the worst first."""
    groups = {}
    for place, name in enumerate(history.drills.names):
        drill = drills.get(name)
        limits = grading.tolerance(drill) if drill is not None else None
        if limits is not None:
            key = (drill.quantity, drill.result) if getattr(drill, "quantity", "") else (name, "")
            groups.setdefault(key, []).append((place, drill, max(limits.inside, limits.on)))
    measured = ~np.isnan(history.deviation)
    found = [_spread(members, history, measured) for members in groups.values()]
    return sorted(filter(None, found), key=lambda one: -one["badness"])[:MOST_PLOTS]


def _spread(members, history, measured):
    inside_of = {place: inside for place, _, inside in members}
    rows = np.flatnonzero(measured & np.isin(history.drills.rows, list(inside_of)))[-MOST_POINTS:]
    if len(rows) < FEWEST_POINTS:
        return None
    off, inside = history.deviation[rows], np.array([inside_of[place] for place in history.drills.rows[rows]])
    outside = np.abs(off) > inside + 1e-6
    if not outside.any():
        return None
    drill, unit = members[0][1], _unit(members[0][1])
    return {
        "id": drill.id,
        "title": retold.title_of(drill) or drill.ask,
        "area": drill.area,
        "unit": retold.DIFFERENCE_UNITS.get(unit, unit),
        "compass": UNITS[unit].cycle == 360,
        "inside": float(inside.max()),
        "median": float(np.median(off)),
        "outside": int(outside.sum()),
        "high": int((outside & (off > 0)).sum()),
        "low": int((outside & (off < 0)).sum()),
        "badness": float(np.minimum(np.abs(off) / np.maximum(inside, 1e-9), WORST).mean()),
        "points": [
            {"day": as_date(day).isoformat(), "off": float(one), "outside": bool(is_out)}
            for day, one, is_out in zip(history.days[rows], off, outside, strict=True)
        ],
    }


def _unit(drill):
    if drill.kind == "computed":
        from trainer.drills import computed

        return computed.result_of(drill).unit
    return drill.unit
