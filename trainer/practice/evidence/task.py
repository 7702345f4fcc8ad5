"""A task handed back: what is weak, as a stage file that the pilot puts in with `trainer stage FILE`."""

import json
import re
from collections import Counter
from collections.abc import Iterable, Mapping
from typing import Any

MOST = 40  # drills of a task; more is no task
FORMAT = 1


def weak_ids(report: Mapping[str, Any]) -> list[str]:
    """Return the ids of what is weak in ``report``, the most urgent first: flows not whole, weak drills, slips."""
    flows = [flow["id"] for area in report["areas"] for flow in area["flows"] if not flow["right"]]
    weakest = [drill["id"] for drill in report["weakest"]]
    slow = [drill["id"] for drill in report["slow"]]
    slips = [slip["drills"][0] for slip in report["slips"] if slip["drills"]]
    return list(dict.fromkeys((*flows, *weakest, *slips, *slow)))[:MOST]


def shared_ids(reports: Iterable[Mapping[str, Any]], fewest: int = 2) -> list[str]:
    """Return the ids that are weak with at least ``fewest`` of the pilots, what most share first."""
    lists = [weak_ids(report) for report in reports]
    count = Counter(drill for ids in lists for drill in ids)
    best = {drill: min(ids.index(drill) for ids in lists if drill in ids) for drill in count}
    shared = [drill for drill in count if count[drill] >= fewest]
    return sorted(shared, key=lambda drill: (-count[drill], best[drill], drill))[:MOST]


def stage_text(name: str, ids: Iterable[str], *, title: str, standard: str) -> str:
    """Return the stage file called ``name`` (its file is NAME.toml) that asks for the drills ``ids`` in this order."""
    lines = [
        "# A task: what is weak. Put it in with `trainer stage FILE`.",
        f"format = {FORMAT}",
        f"name = {_quoted(name)}",
        f"title = {_quoted(title[:118])}",
        *([f"standard = {_quoted(standard)}"] if standard else []),
        "",
        "core = [",
        *[f"    {_quoted(drill)}," for drill in ids],
        "]",
    ]
    return "\n".join(lines) + "\n"


def _quoted(text):
    """Return ``text`` as a basic string of TOML, which escapes as JSON does; what steers a screen is left out."""
    return json.dumps(re.sub(r"[\x00-\x1f\x7f]", " ", text), ensure_ascii=False)
