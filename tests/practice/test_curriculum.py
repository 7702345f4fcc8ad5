"""The order in which drills are met for the first time."""

from collections import Counter
from dataclasses import dataclass

from trainer.model import AREAS
from trainer.practice import curriculum


@dataclass(frozen=True)
class Drill:
    id: str
    kind: str
    area: str = "fuel"
    level: int = 1
    after: tuple = ()


def many():
    """Return 300 facts, 60 computed drills and 30 flows over all areas."""
    kinds = ["recall"] * 300 + ["computed"] * 60 + ["flow"] * 30
    return [Drill(f"{kind}-{n}", kind, AREAS[n % 10], 1 + n % 3) for n, kind in enumerate(kinds)]


def test_every_drill_comes_once():
    drills = many()
    assert sorted(curriculum.order(drills)) == sorted(drill.id for drill in drills)


def test_cheap_facts_do_not_crowd_out_flows_and_computed_drills():
    kinds = Counter(drill_id.split("-")[0] for drill_id in curriculum.order(many())[:60])
    assert kinds == {"recall": 30, "computed": 20, "flow": 10}


def test_areas_take_turns():
    areas = {drill.id: drill.area for drill in many()}
    first = [areas[drill_id] for drill_id in curriculum.order(many()) if drill_id.startswith("recall")][:10]
    assert sorted(first) == sorted(AREAS)


def test_round_numbers_come_before_odd_ones():
    drills = [Drill("odd", "computed", level=2), Drill("round", "computed", level=1)]
    assert curriculum.order(drills) == ["round", "odd"]


def test_what_a_drill_comes_after_is_met_first():
    drills = [Drill("late", "recall", "deck", 1, ("early",)), Drill("early", "recall", "emergency", 3, ("first",)),
              Drill("first", "computed", "comms", 3)]  # fmt: skip
    assert curriculum.order(drills) == ["first", "early", "late"]
