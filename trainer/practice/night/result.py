"""Pass or not, area by area, against a standard."""

from trainer.frozen import frozen
from trainer.model import AREAS
from trainer.practice import standard_met


@frozen
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


@frozen
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
    required = [one for one in answers if one.kind == "flow" and one.drill_id in standard.required]
    failed = tuple(dict.fromkeys(one.drill_id for one in required if not standard_met.is_whole(one.score)))
    judged = [area.passed for area in areas if area.passed is not None]
    return Result(areas=areas, failed_flows=failed, passed=bool(judged) and all(judged) and not failed)


def _area(area, answers, demand):
    counts = standard_met.counted(answers, demand)
    enough = counts.asked >= demand.fewest
    lacking = standard_met.lacking(counts, demand)
    return AreaResult(
        area=area, asked=counts.asked, right=counts.right, timed=counts.timed, in_time=counts.in_time,
        passed=not lacking if enough else None,
        why="; ".join(lacking) if enough else f"not judged: fewer than {demand.fewest:g} questions",
    )  # fmt: skip
