"""Pass or not, reckoned from answers made up here."""

from dataclasses import dataclass

from trainer.decks.standards import Demand, Standard
from trainer.model import AREAS
from trainer.practice.night.result import judge


@dataclass(frozen=True, kw_only=True)
class Answer:
    area: str = "fuel"
    kind: str = "recall"
    drill_id: str = "x"
    score: float = 1.0
    seconds: float | None = None
    limit_s: float = 10.0


def standard(required=(), **demand):
    return Standard(
        name="s", title="S", path="s.toml", demands=dict.fromkeys(AREAS, Demand(**demand)), required=tuple(required)
    )


def answers(right, wrong, **fields):
    return [Answer(**fields)] * right + [Answer(score=0.0, **fields)] * wrong


def test_the_share_is_reached_on_the_number():
    assert judge(answers(4, 1), standard(share=0.8)).passed
    assert not judge(answers(3, 1), standard(share=0.8)).passed
    assert "4 right wanted" in judge(answers(3, 1), standard(share=0.8)).areas[0].why


def test_one_area_that_fails_fails_the_whole():
    both = answers(5, 0) + answers(0, 5, area="marshal")
    result = judge(both, standard())
    assert [(area.area, area.passed) for area in result.areas] == [("marshal", False), ("fuel", True)]
    assert not result.passed


def test_late_answers_are_right_but_not_in_time():
    late = [Answer(seconds=11.0)] * 2 + [Answer(seconds=10.0)] * 2
    assert judge(late, standard(in_time=0.5)).passed
    assert not judge(late, standard(in_time=0.75)).passed
    assert judge(late, standard(in_time=1.0, time_factor=1.1)).passed
    assert judge(late, standard(in_time=0.75)).areas[0].right == 4


def test_time_that_was_not_measured_is_not_judged():
    assert judge(answers(4, 0), standard(in_time=1.0)).passed


def test_an_area_asked_too_little_is_not_judged_and_passes_nothing():
    result = judge(answers(1, 0), standard(fewest=2))
    assert result.areas[0].passed is None and not result.passed
    assert judge(answers(1, 0) + answers(2, 0, area="deck"), standard(fewest=2)).passed


def test_a_required_flow_must_be_wholly_right():
    flow = [Answer(kind="flow", drill_id="bingo", score=0.8)]
    assert judge(flow, standard()).passed
    result = judge(flow, standard(required=["bingo"]))
    assert result.failed_flows == ("bingo",) and not result.passed


def test_nothing_answered_is_no_pass():
    assert not judge([], standard()).passed
