"""Quantities of the grades: average, boarding rate, qualified or not, grade of the stage."""

import numpy as np

from trainer.engine import pattern
from trainer.engine.quantities.carrier_sources import CQ_STAGE, CQ_STANDARD, GRADES
from trainer.engine.quantities.entries import YES_NO, get, give, num, slip, verdict
from trainer.engine.quantity import EXACT, Quantity

KINDS = {"underlined": ("OK underlined", 5), "ok": ("OK", 4), "fair": ("fair", 3), "bolter": ("bolter", 2.5),
         "no_grade": ("no grade", 2), "waveoff": ("waveoff", 1), "cut": ("cut", 0)}  # fmt: skip
GPA = give("gpa", "grade average", "points", 0, 5)
TRAPS, PASSES = give("traps", "traps", "count", 0, 500), give("passes", "passes", "count", 1, 500)


def _average_lines(**grades):
    flown = [(label, grades[name], grades[f"points_{name}"]) for name, (label, _) in KINDS.items() if grades[name]]
    passes = sum(count for _, count, _ in flown)
    points = sum(count * worth for _, count, worth in flown)
    return (
        "; ".join(f"{num(count)} {label} x {num(worth, 2)} = {num(count * worth, 2)}" for label, count, worth in flown),
        f"{num(points, 2)} points over {num(passes)} passes = {num(points / passes, 2)}",
    )


def _without_bolters(**grades):
    counts = {name: grades[name] for name in KINDS}
    others = sum(np.asarray(count, dtype=float) for name, count in counts.items() if name != "bolter")
    points = sum(
        np.asarray(count, dtype=float) * grades[f"points_{name}"] for name, count in counts.items() if name != "bolter"
    )
    return np.where(others > 0, points / np.maximum(others, 1), 0.0)[()]


AVERAGE = Quantity(
    name="grade_point_average",
    title="grade average of the passes",
    area="pattern",
    words=("grades", "gpa", "greenie board", "qualification"),
    inputs=(
        *(give(name, f"passes graded {label}", "count", 0, 50, default=0) for name, (label, _) in KINDS.items()),
        *(give(f"points_{name}", f"points of a pass graded {label}", "points", 0, 5,
               take=f"airwing.points_{name}", default=worth) for name, (label, worth) in KINDS.items()),
    ),
    results=(get("gpa", "grade average", "points", 0.005, 0.05, round_to=0.01),),
    methods={EXACT: pattern.grade_average},
    mental=_average_lines,
    slips=(
        slip("left the bolters out", "a bolter is a pass and has points of its own", _without_bolters),
        slip("three for a no grade", "a no grade has fewer points than a fair pass",
             lambda **grades: pattern.grade_average(**{**grades, "points_no_grade": grades["points_fair"]})),
        slip("nought for a bolter", "a bolter has points: it is not a cut",
             lambda **grades: pattern.grade_average(**{**grades, "points_bolter": 0.0})),
    ),
    source=GRADES,
)  # fmt: skip

BOARDING_RATE = Quantity(
    name="boarding_rate",
    title="boarding rate",
    area="pattern",
    words=("boarding rate", "traps", "passes", "qualification"),
    inputs=(TRAPS, PASSES),
    results=(get("rate_percent", "boarding rate", "%", 0.5, 1, round_to=1),),
    methods={EXACT: pattern.boarding_rate_percent},
    mental=lambda traps, passes: (
        "traps over passes, every bolter and waveoff counted as a pass (whether a waveoff counts is local)",
        f"{num(traps)} / {num(passes)} = {num(traps / passes * 100)} per cent",
    ),
    slips=(
        slip("missed passes as the share", "that is the share that did not end in a trap",
             lambda traps, passes: 100 - np.asarray(traps) * 100.0 / passes),
        slip("traps to misses", "traps over all passes, not over the passes that missed",
             lambda traps, passes:
             np.asarray(traps) * 100.0 / np.maximum(np.asarray(passes) - np.asarray(traps), 1)),
    ),
    source=CQ_STANDARD,
)  # fmt: skip

QUALIFIED = Quantity(
    name="qualified",
    title="qualified or not",
    area="pattern",
    words=("qualification", "gpa", "boarding rate", "standard"),
    inputs=(
        GPA,
        TRAPS,
        PASSES,
        give("least_gpa", "least grade average", "points", 0, 5, take="airwing.qualify_gpa", default=2.5),
        give("least_boarding_percent", "least boarding rate", "%", 0, 100, take="airwing.qualify_percent", default=60),
    ),
    results=(
        verdict("qualified", "qualified", YES_NO),
        get("rate_percent", "boarding rate", "%", 0.5, 1, round_to=1),
    ),
    methods={EXACT: pattern.qualified},
    mental=lambda gpa, traps, passes, least_gpa, least_boarding_percent: (
        f"both must be met: average {num(gpa, 2)} against {num(least_gpa, 2)}; boarding rate {num(traps)} / "
        f"{num(passes)} = {num(traps / passes * 100)} per cent against {num(least_boarding_percent)}",
        f"qualified: {YES_NO[int(pattern.qualified(gpa, traps, passes, least_gpa, least_boarding_percent)[0])]}",
    ),
    slips=(
        slip("average only", "the boarding rate must be met as well",
             lambda gpa, traps, passes, least_gpa, least_boarding_percent:
             np.where(np.asarray(gpa) >= least_gpa, 1.0, 0.0)[()]),
        slip("boarding rate only", "the average must be met as well",
             lambda gpa, traps, passes, least_gpa, least_boarding_percent:
             np.where(np.asarray(traps) * 100.0 / passes >= least_boarding_percent, 1.0, 0.0)[()]),
        slip("missed passes as the share", "that is the share that did not end in a trap",
             lambda gpa, traps, passes, least_gpa, least_boarding_percent: 100 - np.asarray(traps) * 100.0 / passes,
             "rate_percent"),
    ),
    source=CQ_STANDARD,
)  # fmt: skip

STAGE = Quantity(
    name="stage_grade",
    title="grade of the qualification stage",
    area="pattern",
    words=("grades", "field", "ship", "qualification", "stage"),
    inputs=(
        give("field_gpa", "average at the field", "points", 0, 5),
        give("ship_gpa", "average at the ship", "points", 0, 5),
    ),
    results=(get("stage_gpa", "stage grade", "points", 0.005, 0.05, round_to=0.01),),
    methods={EXACT: pattern.stage_grade},
    mental=lambda field_gpa, ship_gpa: (
        "field and ship count the same: half of the sum",
        f"({num(field_gpa, 2)} + {num(ship_gpa, 2)}) / 2 = {num((field_gpa + ship_gpa) / 2, 3)}",
    ),
    slips=(
        slip("did not halve", "the mean is half of the sum",
             lambda field_gpa, ship_gpa: np.asarray(field_gpa, dtype=float) + ship_gpa),
        slip("ship only", "the field average counts as much as the ship's", lambda field_gpa, ship_gpa: ship_gpa),
        slip("field only", "the ship's average counts as much as the field's", lambda field_gpa, ship_gpa: field_gpa),
    ),
    source=CQ_STAGE,
)  # fmt: skip

QUANTITIES = (AVERAGE, BOARDING_RATE, QUALIFIED, STAGE)
