"""The minutes that it takes to meet the standard, worked out by the planner that will be followed.

The plan towards the date is asked what it would do at one price of a second after another; at the first price at which
an area meets its standard, the seconds that it spends on that area are what the area takes.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np

from trainer.memory.event_plan import EventPlan
from trainer.practice import standard_met
from trainer.practice.forecast import Forecast

PRICES = 25
CHEAPEST = 1e-4  # of the dearest price: what is worth less is not worth a second
# An area is practised until so many deviations lie between what is expected and what is demanded.
MARGIN_DEVIATIONS = 0.6745
MOST_SHARE = 0.95  # no practice is expected to make an area surer than this


@dataclass(frozen=True, kw_only=True)
class Needed:
    """Minutes ``by_area``, None where no practice until the date is expected to be enough.

    ``planned`` are the minutes until then that are meant for it (None: no event is set); ``beyond`` names the areas
    that these minutes do not reach.
    """

    by_area: Mapping[str, float | None] = field(default_factory=dict)
    planned: float | None = None

    @property
    def total(self) -> float:
        """Return the minutes of all areas that can be brought to the standard."""
        return sum(minutes for minutes in self.by_area.values() if minutes is not None)

    @property
    def out_of_reach(self) -> tuple[str, ...]:
        """Return the areas that no practice until the date is expected to bring to the standard."""
        return tuple(area for area, minutes in self.by_area.items() if minutes is None)

    @property
    def dropped(self) -> tuple[str, ...]:
        """Return the areas to leave, so that the rest fits into the minutes planned; emergencies are the last to go."""
        if self.planned is None or self.total <= self.planned:
            return ()
        asked = {area: minutes for area, minutes in self.by_area.items() if minutes}
        left, dropped = self.planned, []
        for area in sorted(asked, key=lambda one: (one != "emergency", asked[one])):
            left -= asked[area]
            if left < 0:
                left += asked[area]
                dropped.append(area)
        return tuple(area for area in self.by_area if area in dropped)


def told(needed: Needed) -> list[str]:
    """Return in sentences what it takes, beside what is planned, and what to leave."""
    if not needed.total and not needed.out_of_reach:
        return ["Every area meets its standard: no more practice is needed for it."]
    each = ", ".join(f"{area} {_minutes(one)}" for area, one in needed.by_area.items() if one)
    lines = [f"To meet the standard: about {_minutes(needed.total)}"] if needed.total else []
    if needed.total and needed.planned is not None:
        lines[0] += f"; {_minutes(needed.planned)} are planned until then"
        lines[0] += f": drop {', '.join(needed.dropped)}" if needed.dropped else ", which is enough"
    if lines:
        lines[0] += f" ({each})."
    if needed.out_of_reach:
        lines.append(f"No practice until then is expected to be enough for {', '.join(needed.out_of_reach)}.")
    return lines


def _minutes(value):
    return f"{value:.0f} min" if value < 90 else f"{value / 60:.1f} h"


def of(forecast: Forecast, *, planned: float | None = None) -> Needed:
    """Return what every area of ``forecast`` takes until its date; ``planned`` minutes are meant for it."""
    short = [one for one in forecast.areas if one.verdict != standard_met.READY]
    by_area: dict[str, float | None] = {one.area: 0.0 for one in forecast.areas}
    if short and forecast.day > forecast.today:
        by_area |= _searched(forecast, short)
    elif short:
        by_area |= dict.fromkeys([one.area for one in short])
    return Needed(by_area=by_area, planned=planned)


def _searched(forecast, short):
    plan = EventPlan(
        forecast.beliefs, day=forecast.today, event_day=forecast.day, budgets_s=60.0, ids=_ids(forecast, short),
        correction=forecast.correction,
    )  # fmt: skip
    areas = np.array([spec.area for spec in plan.beliefs.specs])
    found: dict[str, float | None] = dict.fromkeys(one.area for one in short)
    dearest = plan.dearest()
    for price in (*np.geomspace(dearest, dearest * CHEAPEST, PRICES), 0.0):
        bought = plan.at_price(price)
        for one in forecast.kept(bought, [area for area, minutes in found.items() if minutes is None]):
            if _is_enough(one):
                found[one.area] = max(1.0, float(bought.seconds[areas == one.area].sum()) / 60.0)
        if None not in found.values():
            break
    return found


def _ids(forecast, short):
    """Return what there is to practise: drills met, required flows, and as many new drills as the standard wants."""
    wanted = {one.area: max(standard_met.FEWEST_MET, math.ceil(one.demand.met * one.of)) - one.met for one in short}
    flows = {flow.id for one in short for flow in one.flows if not flow.whole}
    found = []
    for drill in forecast.drills.values():
        new = not forecast.beliefs.seen(drill.id)
        if drill.area in wanted and (not new or drill.id in flows or wanted[drill.area] > 0):
            found.append(drill.id)
            wanted[drill.area] -= new and drill.id not in flows
    return found


def _is_enough(one):
    """Return whether the ``AreaForecast`` of a plan that is kept is enough to call the area ready."""
    margin = MARGIN_DEVIATIONS * one.deviation if one.right is not None else 0.0
    return (
        one.right is not None
        and one.met >= max(standard_met.FEWEST_MET, math.ceil(one.demand.met * one.of))
        and all(flow.whole for flow in one.flows)
        and one.right >= min(MOST_SHARE, one.demand.share + margin)
        and one.in_time >= one.demand.in_time
    )
