"""The forecast as a JSON record, for `trainer outlook --json`; shares and chances are 0 to 1."""

from typing import Any

from trainer.memory.outlook import LEVEL
from trainer.practice.forecast import AreaForecast, Forecast
from trainer.practice.honesty import Past


def of(forecast: Forecast) -> dict[str, Any]:
    """Return ``forecast`` as a record."""
    verdict, words = forecast.verdict
    return {
        "made": forecast.now.isoformat(),
        "on": forecast.on.isoformat(),
        "standard": forecast.standard.name,
        "verdict": verdict,
        "verdict_words": words,
        "interval": LEVEL,
        "beyond_longest_gap": forecast.beyond or None,
        "overall": _shares(forecast.overall),
        "areas": [_area(one) for one in forecast.areas],
        "ten_minutes": [
            {"area": one.area, "drills": list(one.ids), "share_gain": one.share_gain, "chance_gain": one.chance_gain}
            for one in forecast.ten_minutes
        ],
        "past_forecasts": _past(forecast.past),
    }


def _area(one: AreaForecast):
    return {
        "area": one.area, "met": one.met, "of": one.of, "verdict": one.verdict, "why": one.why,
        "demanded": {"right": one.demand.share, "in_time": one.demand.in_time, "met": one.demand.met},
        "flows": [{"id": flow.id, "title": flow.title, "whole": flow.whole} for flow in one.flows],
        **(_shares(one) or {}), "chance": one.chance if one.right is not None else None,
    }  # fmt: skip


def _shares(one: AreaForecast):
    if one.right is None:
        return None
    return {"right": one.right, "low": one.low, "high": one.high, "in_time": one.in_time}


def _past(past: Past):
    found = past.reliability
    return {
        "answers": found.count, "brier": found.brier, "brier_of_the_average": found.brier_constant,
        "calibration_error": found.calibration_error, "bias": found.bias,
        "first_answers": past.first_answers, "first_right": past.first_right,
    }  # fmt: skip
