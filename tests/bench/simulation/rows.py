"""One row of the bench, a rule with a family through a course: worked out once, kept as a file, read again."""

import json
from pathlib import Path

import numpy as np

from tests.bench.simulation.baselines import BASELINES
from tests.bench.simulation.course import SCENARIOS, run
from tests.bench.simulation.families import FAMILIES
from tests.bench.simulation.kinds import WORTHS
from tests.bench.simulation.planners import Oracle, Planned
from tests.bench.simulation.product import Product
from trainer.memory.items import KINDS
from trainer.memory.reliability import binned

RULES = {rule.name: rule for rule in (*BASELINES, Product, Planned, Oracle)}


def row(scenario, worth, family, rule, learners, seed, commit, folder):
    """Return the row as a dictionary of plain numbers; from the file in ``folder`` if it was worked out already."""
    name = (
        "-".join((scenario, worth, family, rule, str(learners), str(seed), commit)).replace(":", "").replace(" ", "_")
    )
    path = Path(folder) / f"{name}.json"
    if path.exists():
        return json.loads(path.read_text(encoding="utf-8"))
    found = run(RULES[rule], FAMILIES[family], SCENARIOS[scenario], WORTHS[worth], learners=learners, seed=seed)
    made = {
        "family": family,
        "rule": rule,
        "kept": np.round(found.kept, 5).tolist(),
        "by_kind": [round(float(found.chances[0][:, found.kind == kind].mean()), 3) for kind in range(len(KINDS))],
        "forecasts": [_honesty(one, found.kind) for one in found.forecasts],
        "first": found.first,
    }
    path.parent.mkdir(parents=True, exist_ok=True)
    part = path.with_suffix(".part")
    part.write_text(json.dumps(made), encoding="utf-8", newline="\n")
    part.replace(path)  # a run that is killed leaves no half a row
    return made


def _honesty(forecast, kind):
    """Return {"label", "error", "bias", "cover"} of a forecast; ``cover`` is of its 90 % interval, if any."""
    bins = binned(forecast.predicted.reshape(-1), forecast.true.reshape(-1))
    count = sum(one.count for one in bins)
    cover = None
    if forecast.low is not None:
        share = np.stack([forecast.true[:, kind == which].mean(-1) for which in range(len(KINDS))], -1)
        cover = float(((forecast.low <= share) & (share <= forecast.high)).mean())
    return {
        "label": forecast.label,
        "error": float(sum(one.count * abs(one.predicted - one.observed) for one in bins) / count),
        "bias": float((forecast.predicted - forecast.true).mean()),
        "cover": cover,
    }
