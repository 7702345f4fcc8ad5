"""What the shelf holds for each part of a sortie: ``python -m tests.decks.coverage`` writes ``coverage.md``."""

from pathlib import Path

from trainer.decks import library
from trainer.model import PHASES, CallDrill

PAGE = Path(__file__).with_name("coverage.md")
COLUMNS = ("computed", "flows", "recall", "calls made", "calls heard")
HEAD = """# What there is to practise in each part of a sortie

Written by `python -m tests.decks.coverage`; do not edit. Every drill is counted once, under the `phase` that it
names. Where a kind of drill is missing, the last column says why.

| phase | computed | flows | recall | calls made | calls heard | drills | what is missing, and why |
|---|---|---|---|---|---|---|---|
"""

# Why a phase has no drill of a kind.  A line that is no longer true fails the test.
CALLS = COLUMNS[3:]
WHY_NOT = {
    "brief": dict.fromkeys(CALLS, "it is spoken in the ready room"),
    "man-up": dict.fromkeys(CALLS, "no radio before there is power")
    | {"computed": "nothing is reckoned at the ladder; weights stand under the catapult"},
    "start-up": dict.fromkeys(CALLS, "hands and wands speak"),
    "catapult": {"calls heard": "hands, wands and lights speak"},
    "departure": dict.fromkeys(CALLS, "they stand under the Case in which they are made"),
    "departure-1": dict.fromkeys(CALLS, "by day in the clear nobody speaks"),
    "departure-2": {
        "computed": "below the cloud as in Case I, above it as in Case III",
        "calls heard": "none that Case III does not have",
    },
    "recovery-2": dict.fromkeys(CALLS, "those of Case III until the ship is seen, of Case I after it"),
    "pattern": {"calls heard": "the LSO alone speaks, and stands under lso"},
    "lso": {
        "computed": "a call is answered with the hand, nothing is reckoned",
        "flows": "a call is answered, not recited; the order of the ball call stands under the pattern",
    },
    "after-trap": dict.fromkeys(CALLS, "hands and wands speak")
    | {"computed": "nothing is reckoned between the wires and the chocks"},
    "shutdown": dict.fromkeys(CALLS, "hands and wands speak") | {"computed": "nothing is reckoned any more"},
    "emergency": {"computed": "arithmetic never comes first; divert and bingo stand under fuel"},
    "debrief": dict.fromkeys(CALLS, "it is spoken in the ready room"),
    "comms": dict.fromkeys(("flows", *CALLS), "whole calls stand under the phase in which they are made"),
    "other": dict.fromkeys(("flows", *CALLS), "nothing is left over"),
}


def column(drill):
    """Return the column of ``COLUMNS`` in which ``drill`` is counted."""
    if isinstance(drill, CallDrill):
        return "calls heard" if drill.hear else "calls made"
    return {"computed": "computed", "flow": "flows", "recall": "recall"}[drill.kind]


def counts(drills):
    """Return {phase: {column: number of drills}}; drills without a phase are left out."""
    table = {phase: dict.fromkeys(COLUMNS, 0) for phase in PHASES}
    for drill in drills:
        if drill.phase:
            table[drill.phase][column(drill)] += 1
    return table


def reasons(phase, row, why_not=None):
    """Return {column that is empty: why, "" where nobody said} of ``row``."""
    said = WHY_NOT if why_not is None else why_not
    return {name: said.get(phase, {}).get(name, "") for name in COLUMNS if not row[name]}


def page(drills):
    """Return the whole page."""
    table = counts(drills)
    lines = [_line(phase, table[phase]) for phase in PHASES]
    total = {name: sum(row[name] for row in table.values()) for name in COLUMNS}
    lines.append(f"| **all** | {' | '.join(str(total[name]) for name in COLUMNS)} | {sum(total.values())} | |\n")
    return HEAD + "".join(lines)


def _line(phase, row):
    missing = {}
    for name, why in reasons(phase, row).items():
        missing.setdefault(why or "not yet written", []).append(name)
    told = "; ".join(f"{', '.join(names)}: {why}" for why, names in missing.items())
    return f"| {phase} | {' | '.join(str(row[name]) for name in COLUMNS)} | {sum(row.values())} | {told} |\n"


if __name__ == "__main__":
    PAGE.write_text(page(library.load().drills.values()), encoding="utf-8", newline="\n")
