"""The verdict on an area, case by case."""

import pytest

from trainer.practice.evidence.areas import CLOSE, READY, SHORT, UNKNOWN, overall, verdict


def area(**changed):
    usual = {
        "area": "fuel",
        "met": 10,
        "drills": 20,
        "forecast": {"share": 0.9, "low": 0.8, "high": 1.0, "odds": 0.9, "in_time": 0.9},
        "demanded": {"share": 0.8, "in_time": 0.75, "met": 0.25},
        "flows": [],
    }
    found = usual | {key: value for key, value in changed.items() if key in usual}
    found["forecast"] = found["forecast"] and found["forecast"] | {
        k: v for k, v in changed.items() if k in ("odds", "in_time")
    }
    return found


@pytest.mark.parametrize(
    ("record", "expected", "why"),
    [
        (area(), READY, "90% likely to reach 80%"),
        (area(odds=0.75), READY, "75% likely"),
        (area(odds=0.74), CLOSE, "74% likely"),
        (area(odds=0.26), CLOSE, "26% likely"),
        (area(odds=0.25), SHORT, "25% likely"),
        (area(in_time=0.7), CLOSE, "70% of right answers in time; 75% is demanded"),
        (area(in_time=0.7, odds=0.1), SHORT, "10% likely"),
        (area(met=4), SHORT, "4 of 20 drills asked; 5 are demanded"),
        (area(met=5), READY, ""),
        (area(met=2), UNKNOWN, "only 2 of 20"),
        (area(forecast=None), UNKNOWN, "only 10 of 20"),
        (area(flows=[{"title": "Bingo", "right": False}]), SHORT, "flow not right yet: Bingo"),
        (area(flows=[{"title": "Bingo", "right": True}]), READY, ""),
    ],
)
def test_the_verdict_and_its_reason(record, expected, why):
    found, reason = verdict(record)
    assert found == expected and why in reason


def test_the_worst_area_decides_and_all_are_named():
    judged = [{"area": name, "verdict": told} for name, told in
              (("deck", READY), ("fuel", CLOSE), ("marshal", SHORT), ("comms", UNKNOWN))]  # fmt: skip
    assert overall(judged) == (SHORT, "short in marshal; close in fuel; not known in comms; ready in deck")
    assert overall(judged[:2])[0] == CLOSE and overall(judged[:1])[0] == READY
    assert overall([judged[0], judged[3]])[0] == UNKNOWN
