"""The last rehearsal and the last flights: what happened when it was all put together."""

from collections import namedtuple
from datetime import UTC, datetime

import numpy as np

from trainer.practice.evidence.history import as_date
from trainer.practice.night import result
from trainer.practice.night.flight_items import PHASES

PAUSE_MIN = 180  # longer than this between two answers, and it was another rehearsal
MOST_FLIGHTS, MOST_MISSED = 3, 6
_COLUMNS = ("mode", "drill_id", "area", "kind", "score", "seconds", "limit_s")
_Answer = namedtuple("_Answer", _COLUMNS)


def last_rehearsal(history, store, standard, outlines):
    """Return the record of the newest rehearsal, judged by ``standard`` as on the night; None where there is none."""
    mine = np.flatnonzero(history.modes.is_("rehearsal")) if len(history) else np.zeros(0, dtype=int)
    if not len(mine):
        return None
    pauses = np.flatnonzero(np.diff(history.minutes[mine]) > PAUSE_MIN)
    first = mine[pauses[-1] + 1] if len(pauses) else mine[0]
    began = datetime.fromtimestamp(int(history.minutes[first]) * 60, tz=UTC)
    answers = [one for one in map(_Answer._make, store.table(_COLUMNS, since=began)) if one.mode == "rehearsal"]
    judged = result.judge(answers, standard)
    missed = dict.fromkeys(one.drill_id for one in answers if one.score < 1.0)
    return {
        "day": as_date(history.days[first]).isoformat(),
        "asked": judged.asked,
        "right": judged.right,
        "in_time": sum(area.in_time for area in judged.areas),
        "passed": judged.passed,
        "failed_flows": [_label(one, outlines) for one in judged.failed_flows],
        "areas_failed": [f"{area.area}: {area.why}" for area in judged.areas if area.passed is False],
        "missed": [_label(one, outlines) for one in missed][:MOST_MISSED],
    }


def flights(store, outlines, most: int | None = MOST_FLIGHTS):
    """Return records of the last flights (``most``, None for all) told in a debrief, the newest first."""
    words = {item.drill_id: item.words for items in PHASES.values() for item in items}
    told = sorted(store.debriefs(), key=lambda one: one.flown, reverse=True)
    return [_flight(one, words, outlines) for one in told[:most]]


def _flight(debrief, words, outlines):
    phases = {phase: told for phase, told in debrief.phases.items() if isinstance(told, dict)}
    each = [(drill, one.get("how", "")) for told in phases.values() for drill, one in told.items()]
    flown = [(drill, how) for drill, how in each if how != "not flown"]
    wrong = [f"{words.get(drill) or _label(drill, outlines)} ({how})" for drill, how in flown if how != "right"]
    return {
        "day": debrief.flown,
        "told": len(flown),
        "right": sum(how == "right" for _, how in flown),
        "wrong": wrong[:MOST_MISSED],
        "remarks": "",  # they stay with the pilot; older readers of version 1 want the field
    }


def _label(drill_id, outlines):
    return outlines[drill_id].label if drill_id in outlines else drill_id
