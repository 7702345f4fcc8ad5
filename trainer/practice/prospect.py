"""The outlook on a date: per area and overall, how sure it is, and how honest earlier forecasts were."""

from dataclasses import dataclass
from typing import Any

from trainer.memory import outlook as forecast
from trainer.memory.belief import Beliefs
from trainer.model import AREAS
from trainer.practice import honesty, knowledge

USUAL_SHARE = 0.8  # demanded where no standard is given
QUESTIONS = 10  # that a board asks of an area


@dataclass(frozen=True, kw_only=True)
class AreaProspect:
    """One area: drills met of all, the forecast over those met (None where none is), what is demanded."""

    area: str
    met: int
    of: int
    demanded: float
    demanded_met: float
    outlook: Any

    @property
    def enough_met(self):
        """Return whether as many drills were met as the standard asks for."""
        return self.met >= self.demanded_met * self.of and self.met > 0


@dataclass(frozen=True, kw_only=True)
class Prospect:
    """The outlook for ``on``; ``outlook`` is that of the memory model (None before anything was answered)."""

    now: Any
    on: Any
    areas: tuple[AreaProspect, ...]
    outlook: Any
    past: Any


def prospect(store, drills, clock, *, on, standard=None):
    """Return the ``Prospect`` over ``drills`` (by id) on the instant ``on`` without further practice.

    ``standard`` is a ``standards.Standard`` or None: then every area with drills is asked for the usual share.
    """
    states, learner = knowledge.known(store)
    met = [drill for drill in drills.values() if drill.id in states]
    demanded = {area: (one.share, one.met) for area, one in standard.areas.items()} if standard else {}
    areas = [area for area in AREAS if any(drill.area == area for drill in drills.values())]
    areas = [area for area in areas if area in demanded] if demanded else areas
    found = None
    if met:
        found = forecast.outlook(
            Beliefs(knowledge.specs(met), states, learner),
            day=knowledge.day_of(clock.now()),
            on=knowledge.day_of(on),
            standards=[_standard(area, demanded) for area in areas],
            correction=honesty.correction(store, clock.now()),
        )
    by_area = {one.area: one for one in found.areas} if found else {}
    return Prospect(
        now=clock.now(),
        on=on,
        areas=tuple(_area(area, drills, met, demanded, by_area.get(area)) for area in areas),
        outlook=found,
        past=honesty.past(store),
    )


def _standard(area, demanded):
    share = demanded.get(area, (USUAL_SHARE, 0.0))[0]
    return forecast.AreaStandard(area=area, share=share, questions=QUESTIONS)


def _area(area, drills, met, demanded, outlook):
    share, least = demanded.get(area, (USUAL_SHARE, 0.0))
    return AreaProspect(
        area=area,
        met=sum(drill.area == area for drill in met),
        of=sum(drill.area == area for drill in drills.values()),
        demanded=share,
        demanded_met=least,
        outlook=outlook,
    )


def as_json(prospect):
    """Return ``prospect`` as a JSON record; shares and chances are 0 to 1."""
    past_ones = prospect.past.reliability
    return {
        "made": prospect.now.isoformat(),
        "on": prospect.on.isoformat(),
        "interval": forecast.LEVEL,
        "beyond_longest_gap": prospect.outlook.beyond if prospect.outlook else None,
        "overall": _numbers(prospect.outlook.overall) if prospect.outlook else None,
        "areas": [
            {
                "area": one.area, "met": one.met, "of": one.of, "demanded": one.demanded,
                "demanded_met": one.demanded_met, "enough_met": one.enough_met, **(_numbers(one.outlook) or {}),
            }
            for one in prospect.areas
        ],
        "ten_minutes": [
            {"area": one.area, "drills": list(one.ids), "share_gain": one.share_gain, "chance_gain": one.chance_gain}
            for one in (prospect.outlook.ten_minutes if prospect.outlook else ())
        ],
        "past_forecasts": {
            "answers": past_ones.count, "brier": past_ones.brier, "brier_of_the_average": past_ones.brier_constant,
            "calibration_error": past_ones.calibration_error, "bias": past_ones.bias,
            "first_answers": prospect.past.first_answers, "first_right": prospect.past.first_right,
        },
    }  # fmt: skip


def _numbers(outlook):
    if outlook is None:
        return None
    return {"share": outlook.share, "low": outlook.low, "high": outlook.high, "chance": outlook.chance}
