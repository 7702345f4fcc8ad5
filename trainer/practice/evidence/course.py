"""How practice went over the weeks, and how honest the forecasts were that it was planned by."""

import numpy as np

from trainer.practice.evidence.history import as_date
from trainer.practice.evidence.intervals import wilson

MOST_WEEKS, AREA_WEEKS = 26, 8


def weeks(history):
    """Return a record per week (Monday to Sunday, local) up to the newest review, the oldest first."""
    if not len(history):
        return []
    mondays = (history.days + 3) // 7 * 7 - 3  # 1970-01-01 was a Thursday
    last = int(mondays.max())
    first = max(int(mondays.min()), last - 7 * (MOST_WEEKS - 1))
    return [_week(history, mondays == monday, monday) for monday in range(first, last + 1, 7)]


def of_area(history, mine):
    """Return records (share right, answers) of the last weeks over the reviews of the mask ``mine``, old ones first."""
    if not len(history):
        return []
    mondays = (history.days + 3) // 7 * 7 - 3
    last = int(mondays.max())
    found = []
    for monday in range(last - 7 * (AREA_WEEKS - 1), last + 1, 7):
        week = mine & (mondays == monday)
        asked = int(week.sum())
        share = float(history.right[week].mean()) if asked else None
        found.append({"from": as_date(monday).isoformat(), "asked": asked, "share": share})
    return found


def _week(history, mine, monday):
    asked, right = int(mine.sum()), int((mine & history.right).sum())
    clean = int((mine & history.right & ~history.late).sum())
    low, high = wilson(clean, asked)
    return {
        "from": as_date(monday).isoformat(),
        "days": len(np.unique(history.days[mine])),
        "asked": asked,
        "right": right,
        "in_time": clean,
        "share": clean / asked if asked else None,
        "low": low,
        "high": high,
        "minutes": float(np.nansum(history.seconds[mine]) / 60.0),
    }


def honesty(past):
    """Return ``past`` (a ``honesty.Past``) as a record, None for too few answers."""
    found = past.reliability
    if found.too_early:
        return None
    return {
        "answers": found.count,
        "said": sum(one.count * one.predicted for one in found.bins) / found.count,
        "came": sum(one.count * one.observed for one in found.bins) / found.count,
        "brier": found.brier,
        "brier_constant": found.brier_constant,
        "error": found.calibration_error,
        "bins": [_bin(one) for one in found.bins],
    }


def _bin(one):
    low, high = wilson(one.observed * one.count, one.count)
    return {"answers": one.count, "said": one.predicted, "came": one.observed, "low": low, "high": high}
