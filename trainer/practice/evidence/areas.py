"""The record of each area: what was answered lately, what to expect at the event, what is demanded."""

from trainer.practice.evidence import course
from trainer.practice.evidence.intervals import wilson

RECENT_DAYS = 28
TREND_DAYS, TREND_FEWEST = 14, 8


def of_areas(history, forecast, minutes, kept=()):
    """Return a record per area of ``forecast`` (a ``forecast.Forecast``), in the order of a sortie.

    ``minutes`` are those that meeting the standard takes, by area (``practice/minutes_needed``); ``kept`` are the
    ``AreaForecast`` if the plan is kept to.
    """
    planned = {one.area: one for one in kept}
    home = {drill.id: drill.area for drill in forecast.drills.values()}
    homes = history.area_rows(lambda name: home.get(name, ""))
    return [
        _area(one, homes.is_(one.area), history, forecast, minutes) | {"kept": _kept(planned.get(one.area))}
        for one in forecast.areas
    ]


def mask(history, forecast, area):
    """Return a mask of the answers of the last weeks of practice to drills of ``area`` that count."""
    home = {drill.id: drill.area for drill in forecast.drills.values()}
    return history.area_rows(lambda name: home.get(name, "")).is_(area) & history.recent(RECENT_DAYS)


def _kept(one):
    if one is None or one.right is None:
        return None
    return {"share": one.right, "in_time": one.in_time, "verdict": one.verdict}


def _trend(mine, history):
    """Return how much the share right and in time rose over the last two weeks of practice, None for too few answers.

    They are compared with the two weeks before them.
    """
    clean, late = history.right & ~history.late, mine & history.recent(TREND_DAYS)
    early = mine & history.recent(2 * TREND_DAYS) & ~late
    if min(late.sum(), early.sum()) < TREND_FEWEST:
        return None
    return float(clean[late].mean() - clean[early].mean())


def _area(one, mine, history, forecast, minutes):
    recent = mine & history.recent(RECENT_DAYS)
    asked, right = int(recent.sum()), int((recent & history.right).sum())
    low, high = wilson(right, asked)
    return {
        "area": one.area,
        "answers": int(mine.sum()),
        "recent": {"asked": asked, "right": right, "share": right / asked if asked else None, "low": low, "high": high},
        "drills": one.of,
        "met": one.met,
        "forecast": None if one.right is None else {
            "now": forecast.share_now(one.area), "share": one.right, "low": one.low, "high": one.high,
            "odds": one.chance_right, "in_time": one.in_time, "chance": one.chance,
        },
        "demanded": {"share": one.demand.share, "in_time": one.demand.in_time, "met": one.demand.met},
        "flows": [
            {"id": flow.id, "title": flow.title, "right": flow.whole, "answers": flow.answers} for flow in one.flows
        ],
        "verdict": one.verdict,
        "why": one.why,
        "minutes": minutes[one.area],
        "trend": _trend(mine, history),
        "weeks": course.of_area(history, mine),
    }  # fmt: skip
