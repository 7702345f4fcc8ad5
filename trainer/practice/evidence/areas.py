"""The record of each area: what was answered lately, what to expect at the event, what is demanded."""

from trainer.practice.evidence.intervals import wilson

RECENT_DAYS = 28


def of_areas(history, forecast, minutes):
    """Return a record per area of ``forecast`` (a ``forecast.Forecast``), in the order of a sortie.

    ``minutes`` are those that meeting the standard takes, by area (``practice/minutes_needed``).
    """
    home = {drill.id: drill.area for drill in forecast.drills.values()}
    homes = history.area_rows(lambda name: home.get(name, ""))
    return [_area(one, homes.is_(one.area), history, forecast, minutes) for one in forecast.areas]


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
    }  # fmt: skip
