"""Pass or not, area by area, against a standard."""

import math
from dataclasses import dataclass

from trainer.model import AREAS

RIGHT = 0.5  # more than this much of an answer right counts as right, as in a session
WHOLE = 1.0
EPSILON = 1e-9


@dataclass(frozen=True, kw_only=True)
class AreaResult:
    """``asked``, ``right`` and ``in_time`` are counts; ``timed`` of the right answers were measured.

    ``passed`` is None where too little was asked to judge.  ``why`` says what is lacking.
    """

    area: str
    asked: int
    right: int
    timed: int
    in_time: int
    passed: bool | None
    why: str = ""


@dataclass(frozen=True, kw_only=True)
class Result:
    """``failed_flows`` are required flows that were not wholly right; ``passed`` is the whole verdict."""

    areas: tuple[AreaResult, ...]
    failed_flows: tuple[str, ...]
    passed: bool

    @property
    def asked(self):
        """Return how many questions were answered."""
        return sum(area.asked for area in self.areas)

    @property
    def right(self):
        """Return how many of them were right."""
        return sum(area.right for area in self.areas)


def judge(answers, standard):
    """Return the ``Result`` of ``answers``: records with area, kind, drill_id, score, seconds and limit_s.

    Reviews are such records.  An area that was asked too little is not judged; nothing judged is no pass.
    """
    answers = list(answers)
    areas = tuple(
        _area(area, chosen, standard.demand(area))
        for area in AREAS
        if (chosen := [answer for answer in answers if answer.area == area])
    )
    failed = tuple(
        dict.fromkeys(
            answer.drill_id
            for answer in answers
            if answer.kind == "flow" and answer.drill_id in standard.required and answer.score < WHOLE - EPSILON
        )
    )
    judged = [area.passed for area in areas if area.passed is not None]
    return Result(areas=areas, failed_flows=failed, passed=bool(judged) and all(judged) and not failed)


def _wanted(share, answers):
    """Return how many of ``answers`` make up ``share``: a count leaves no doubt where 85 % is almost reached."""
    return math.ceil(share * len(answers) - EPSILON)


def _area(area, answers, demand):
    right = [answer for answer in answers if answer.score > RIGHT]
    timed = [answer for answer in right if answer.seconds is not None]
    in_time = sum(answer.seconds <= answer.limit_s * demand.time_factor for answer in timed)
    lacking = []
    if len(right) < demand.share * len(answers) - EPSILON:
        lacking.append(f"{_wanted(demand.share, answers)} right wanted")
    if timed and in_time < demand.in_time * len(timed) - EPSILON:
        lacking.append(f"{_wanted(demand.in_time, timed)} in time wanted")
    enough = len(answers) >= demand.fewest
    return AreaResult(
        area=area, asked=len(answers), right=len(right), timed=len(timed), in_time=in_time,
        passed=not lacking if enough else None,
        why="; ".join(lacking) if enough else f"not judged: fewer than {demand.fewest:g} questions",
    )  # fmt: skip
