"""How far off numbers are: the signed errors where answers miss most.

Drills that ask for the same result of the same quantity are looked at together.
"""

import numpy as np

from trainer.drills import computed, grading
from trainer.engine.units import UNITS
from trainer.model import ComputedDrill
from trainer.practice.evidence import retold
from trainer.practice.evidence.history import as_date

MOST_PLOTS, MOST_POINTS, FEWEST_POINTS = 4, 40, 5
# The axis reaches so many times the limits, and at least to this share of the answers: one wild answer sets no scale.
REACH, REACH_SHARE = 3.0, 0.8
WORST = 5.0  # times the limits: one wild answer must not decide which plots are shown


def most_off(history, library, *, answers=True):
    """Return records of what is answered furthest outside its limits, the worst first.

    Without ``answers`` they hold counts only: neither the single errors nor a middle one.
    """
    groups = {}
    for place, name in enumerate(history.drills.names):
        drill = library.drills.get(name)
        limits = grading.tolerance(drill) if isinstance(drill, ComputedDrill) else None
        if (
            isinstance(drill, ComputedDrill) and limits is not None
        ):  # what is known by heart is known or not: how far off it is says nothing
            key = (drill.quantity, drill.result) if drill.quantity else (name, "")
            groups.setdefault(key, []).append((place, drill, max(limits.inside, limits.on)))
    measured = ~np.isnan(history.deviation)
    found = [_spread(members, history, measured, library) for members in groups.values()]
    worst = sorted(filter(None, found), key=lambda one: -one["badness"])[:MOST_PLOTS]
    return worst if answers else [one | {"points": [], "median": None, "badness": 0.0} for one in worst]


def _spread(members, history, measured, library):
    inside_of = {place: inside for place, _, inside in members}
    rows = np.flatnonzero(measured & np.isin(history.drills.rows, list(inside_of)))[-MOST_POINTS:]
    if len(rows) < FEWEST_POINTS:
        return None
    off, inside = history.deviation[rows], np.array([inside_of[place] for place in history.drills.rows[rows]])
    outside = np.abs(off) > inside + 1e-6
    if not outside.any():
        return None
    drill = members[0][1]
    unit = computed.unit_asked(drill, library)
    factor, shown = grading.difference(1.0, unit)
    off, inside = off * factor, inside * factor
    compass = UNITS[unit].cycle == 360
    reach = max(REACH * float(inside.max()), float(np.quantile(np.abs(off), REACH_SHARE)))
    return {
        "id": drill.id,
        "title": retold.title_of(drill) or drill.ask,
        "area": drill.area,
        "unit": shown,
        "compass": compass,
        "ways": list(grading.OFF.get(UNITS[unit].form, ("too high", "too low"))),
        "reach": 180.0 if compass else reach,
        "beyond": 0 if compass else int((np.abs(off) > reach).sum()),
        "reciprocal": int((np.abs(np.abs(off) - 180.0) <= grading.RECIPROCAL_WITHIN_DEG).sum()) if compass else 0,
        "answers": len(rows),
        "inside": float(inside.max()),
        "median": None if compass else float(np.median(off)),
        "outside": int(outside.sum()),
        "high": int((outside & (off > 0)).sum()),
        "low": int((outside & (off < 0)).sum()),
        "badness": float(np.minimum(np.abs(off) / np.maximum(inside, 1e-9), WORST).mean()),
        "points": [
            {"day": as_date(day).isoformat(), "off": float(one), "outside": bool(is_out)}
            for day, one, is_out in zip(history.days[rows], off, outside, strict=True)
        ],
    }
