"""The verdict on each area: what was answered lately, what to expect at the event, what is demanded."""

import math

from trainer.model import AREAS
from trainer.practice.evidence.forecast import deviation, odds
from trainer.practice.evidence.intervals import wilson

READY, CLOSE, SHORT, UNKNOWN = "ready", "close", "short", "not known"
VERDICTS = (READY, CLOSE, SHORT, UNKNOWN)
RECENT_DAYS = 28
FEWEST_MET = 3  # drills of an area below which nothing can be said of it
SURE, DOUBTFUL = 0.75, 0.25  # probabilities of reaching the demanded share from which an area is ready, or short
SURE_DEVIATIONS, MOST_SHARE = 0.6745, 0.97  # normal deviate of SURE; no practice makes an area surer than this
FLOW_ANSWERS = 3  # latest answers to a required flow that must be right in whole


def of_areas(history, known, drills, *, only=(), today, event_day):
    """Return a record per area (of ``only``, where it names any), in the order of a sortie.

    ``known`` is a ``forecast.Knowledge``; days are float days since 1970 UTC.
    """
    homes = history.area_rows(lambda name: drills[name].area if name in drills else "")
    shown = [area for area in AREAS if known.rows(area)[1] and (not only or area in only)]
    now = {one.area: one.share for one in known.outlook(shown, today, today).areas}
    then = {one.area: one for one in known.outlook(shown, today, event_day).areas}
    days = (today, event_day)
    return [_area(area, homes.is_(area), history, known, days, now.get(area), then.get(area)) for area in shown]


def _area(area, mine, history, known, days, now, expected):
    demanded = known.standard.demand(area)
    rows, count = known.rows(area)
    recent = mine & history.recent(RECENT_DAYS)
    asked, right = int(recent.sum()), int((recent & history.right).sum())
    low, high = wilson(right, asked)
    record = {
        "area": area,
        "answers": int(mine.sum()),
        "recent": {"asked": asked, "right": right, "share": right / asked if asked else None, "low": low, "high": high},
        "drills": count,
        "met": len(rows),
        "forecast": None if expected is None else {
            "now": now, "share": expected.share, "low": expected.low, "high": expected.high,
            "odds": odds(expected, demanded.share), "in_time": known.in_time(area, days[1]),
        },
        "demanded": {"share": demanded.share, "in_time": demanded.in_time, "met": demanded.met},
        "flows": [_flow(flow, history, known) for flow in known.required(area)],
    }  # fmt: skip
    record["verdict"], record["why"] = verdict(record)
    record["minutes"] = 0.0 if record["verdict"] == READY else _minutes(record, known, demanded, expected, days)
    return record


def _minutes(record, known, demanded, expected, days):
    """Return the minutes until the event that would make the area ready, None where too few days are left."""
    width = deviation(expected) if expected else 0.0
    return known.minutes_to(
        record["area"],
        min(MOST_SHARE, demanded.share + SURE_DEVIATIONS * width),
        *days,
        new=max(0, math.ceil(demanded.met * record["drills"]) - record["met"]),
        flows=[flow["id"] for flow in record["flows"] if not flow["right"]],
    )


def _flow(flow, history, known):
    drill = known.drills.get(flow)
    scores = history.score[history.of(flow)][-FLOW_ANSWERS:]
    right = len(scores) > 0 and bool((scores >= 1.0).all())
    return {"id": flow, "title": getattr(drill, "title", flow), "right": right, "answers": len(scores)}


def verdict(record):
    """Return (verdict, reason) of one area's ``record`` against what is demanded of it."""
    expected, demanded = record["forecast"], record["demanded"]
    met, count = record["met"], record["drills"]
    if expected is None or met < FEWEST_MET:
        return UNKNOWN, f"only {met} of {count} drills asked so far"
    if met < demanded["met"] * count:
        return SHORT, f"{met} of {count} drills asked; {math.ceil(demanded['met'] * count)} are demanded"
    open_flows = [flow["title"] for flow in record["flows"] if not flow["right"]]
    if open_flows:
        return SHORT, f"flow not right yet: {', '.join(open_flows)}"
    likely = expected["odds"]
    reason = f"{likely:.0%} likely to reach {demanded['share']:.0%}"
    if likely <= DOUBTFUL:
        return SHORT, reason
    if expected["in_time"] < demanded["in_time"]:
        return CLOSE, f"{expected['in_time']:.0%} of right answers in time; {demanded['in_time']:.0%} is demanded"
    return (READY if likely >= SURE else CLOSE), reason


def overall(areas):
    """Return (verdict, sentence) over the records of all areas."""
    by = {name: [area["area"] for area in areas if area["verdict"] == name] for name in VERDICTS}
    parts = [f"{name} in {_listed(by[name])}" for name in (SHORT, CLOSE, UNKNOWN) if by[name]]
    if not parts:
        return READY, "ready in every area"
    if by[READY]:
        parts.append(f"ready in {_listed(by[READY])}")
    worst = SHORT if by[SHORT] else UNKNOWN if by[UNKNOWN] else CLOSE
    return worst, "; ".join(parts)


def _listed(names):
    return " and ".join(filter(None, [", ".join(names[:-1]), names[-1]]))
