"""What it means to meet a standard: one definition for outlook, cram, report, roster and rehearsal.

An area meets its ``Demand`` where the share right, and of what is right the share in time, both reach what is demanded,
and the required flows are whole.  Answers counted in one night are judged as they are (``lacking``); what is forecast
is judged by how likely it is (``verdict``).
"""

import math

from trainer.frozen import frozen
from trainer.model import is_right

READY, CLOSE, SHORT, UNKNOWN = "ready", "close", "short", "not known"
VERDICTS = (READY, CLOSE, SHORT, UNKNOWN)
FEWEST_MET = 3  # drills of an area below which nothing can be said of it; all where it has no more
SURE, DOUBTFUL = 0.75, 0.25  # chances of meeting the standard from which an area is ready, or short
FLOW_ANSWERS = 3  # latest answers to a required flow that must be whole
FLOWN_WHOLE = 0.9  # what a debrief gives a flow that was flown as it should be: hindsight weighs less
EPSILON = 1e-9


@frozen
class RequiredFlow:
    """A flow that the standard demands: how many of its latest answers there are, and whether all were whole."""

    id: str
    title: str
    answers: int
    whole: bool


@frozen
class Counts:
    """Answers to questions of one area: ``timed`` of the ``right`` ones were measured, ``in_time`` of these in time."""

    asked: int
    right: int
    timed: int
    in_time: int


def counted(answers, demand):
    """Return the ``Counts`` of ``answers``, records with score, seconds and limit_s; reviews are such records."""
    answers = list(answers)
    right = [one for one in answers if is_right(one.score)]
    timed = [one for one in right if one.seconds is not None]
    in_time = sum(one.seconds <= one.limit_s * demand.time_factor for one in timed)
    return Counts(asked=len(answers), right=len(right), timed=len(timed), in_time=in_time)


def lacking(counts, demand):
    """Return what is lacking in ``counts`` against ``demand``, a text each; () where it is met."""
    found = []
    if counts.right < demand.share * counts.asked - EPSILON:
        found.append(f"{_wanted(demand.share, counts.asked)} right wanted")
    if counts.timed and counts.in_time < demand.in_time * counts.timed - EPSILON:
        found.append(f"{_wanted(demand.in_time, counts.timed)} in time wanted")
    return tuple(found)


def is_whole(score, mode=""):
    """Return whether an answer of that ``score`` (0 to 1), given in that ``mode``, shows the whole flow right."""
    return score >= (FLOWN_WHOLE if mode == "debrief" else 1.0) - EPSILON


def drills_wanted(area):
    """Return how many drills of ``area`` (a ``forecast.AreaForecast``) must have been met."""
    return max(min(FEWEST_MET, area.of), math.ceil(area.demand.met * area.of - EPSILON))


def verdict(area):
    """Return (verdict, reason) of one ``forecast.AreaForecast`` against what is demanded of it."""
    demand, wanted_met = area.demand, drills_wanted(area)
    if area.right is None or area.met < min(FEWEST_MET, area.of):
        return UNKNOWN, f"only {area.met} of {area.of} drills asked so far"
    if area.met < wanted_met:
        return SHORT, f"{area.met} of {area.of} drills asked; {wanted_met} are demanded"
    broken = [flow.title for flow in area.flows if not flow.whole]
    if broken:
        return SHORT, f"flow not right yet: {', '.join(broken)}"
    reason = f"{area.chance:.0%} likely to reach {demand.share:.0%} right"
    if area.chance_in_time < area.chance_right:
        reason = f"{area.in_time:.0%} in time, {demand.in_time:.0%} demanded"
    if area.chance <= DOUBTFUL:
        return SHORT, reason
    return (READY if area.chance >= SURE else CLOSE), reason


def overall(areas):
    """Return (verdict, sentence) over ``areas``, pairs of (name, verdict)."""
    by = {name: [area for area, one in areas if one == name] for name in VERDICTS}
    parts = [f"{name} in {_listed(by[name])}" for name in (SHORT, CLOSE, UNKNOWN) if by[name]]
    if not parts:
        return (READY, "ready in every area") if by[READY] else (UNKNOWN, "nothing is known yet")
    if by[READY]:
        parts.append(f"ready in {_listed(by[READY])}")
    worst = SHORT if by[SHORT] else UNKNOWN if by[UNKNOWN] else CLOSE
    return worst, "; ".join(parts)


def _wanted(share, count):
    """Return how many of ``count`` make up ``share``: a count leaves no doubt where 85 % is almost reached."""
    return math.ceil(share * count - EPSILON)


def _listed(names):
    return " and ".join(filter(None, [", ".join(names[:-1]), names[-1]]))
