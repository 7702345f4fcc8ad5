"""Tables of the bench in Markdown: what each rule kept, by family, and how honest the forecasts were."""

import numpy as np

from tests.bench.simulation.baselines import BASELINES
from trainer.memory.items import KINDS

TWO_SIDED_95 = 1.96
SIMPLE = tuple(rule.name for rule in BASELINES)


def paired(ours, theirs):
    """Return (mean, half width of the 95 % interval) of the difference between the same learners, in points."""
    difference = 100.0 * (np.asarray(ours) - np.asarray(theirs))
    return difference.mean(), TWO_SIDED_95 * difference.std(ddof=1) / np.sqrt(len(difference))


def kept_lines(rows, measured):
    """Yield the tables of one scenario and worth; ``rows`` is {(family, rule): row}, see ``rows``."""
    rules = [rule for rule in (*SIMPLE, "plan alone", "trainer", "oracle") if any(key[1] == rule for key in rows)]
    families = list(dict.fromkeys(family for family, _ in rows))
    for when, day in enumerate(measured):
        yield f"Day {day:.0f}, percent of all worth kept:"
        yield ""
        yield f"| family | {' | '.join(rules)} | trainer against the best simple rule |"
        yield f"|---|{'---|' * len(rules)}---|"
        for family in families:
            kept = {rule: np.array(rows[family, rule]["kept"][when]) for rule in rules if (family, rule) in rows}
            best = max(SIMPLE, key=lambda rule: kept[rule].mean())
            mean, half = paired(kept["trainer"], kept[best])
            verdict = "ahead" if mean > half else "behind" if mean < -half else "level"
            cells = " | ".join(f"{100 * kept[rule].mean():.1f}" for rule in rules)
            yield f"| {family} | {cells} | {mean:+.1f} ± {half:.1f} {best} ({verdict}) |"
        if "oracle" in rules:
            ours, oracle = (
                np.mean([rows[one, rule]["kept"][when] for one in families]) for rule in ("trainer", "oracle")
            )
            yield f"| all together | {'| ' * len(rules)} | {100 * ours / oracle:.1f} % of the oracle |"
        yield ""


def honesty_lines(rows):
    """Yield how the trainer's answers were foretold, and what it kept of each kind."""
    yield f"| family | right on the day: {', '.join(KINDS)} | first answers: foretold, right | forecast: error, bias |"
    yield "|---|---|---|---|"
    for (family, rule), row in rows.items():
        if rule != "trainer":
            continue
        first = " , ".join(f"{100 * share:.0f} %" for share in row["first"] or ())
        told = "; ".join(f"{one['label']}: {one['error']:.3f}, {one['bias']:+.3f}" for one in row["forecasts"])
        yield f"| {family} | {', '.join(f'{100 * share:.0f}' for share in row['by_kind'])} % | {first} | {told} |"
    yield ""
