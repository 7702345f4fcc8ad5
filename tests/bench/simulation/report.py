"""Tables of the bench: what each rule kept, by family, and how honest the forecasts were."""

import numpy as np

from tests.bench.simulation.baselines import BASELINES
from trainer.memory.items import KINDS
from trainer.memory.reliability import binned

TWO_SIDED_95 = 1.96


def paired(ours, theirs):
    """Return (mean, half width of the 95 % interval) of the difference between the same learners, in points."""
    difference = 100.0 * (ours - theirs)
    return difference.mean(), TWO_SIDED_95 * difference.std(ddof=1) / np.sqrt(len(difference))


def kept_lines(results, families, measured):
    """Yield the table of one scenario and worth; ``results[family, rule name]`` are ``Result``."""
    rules = [rule.name for rule in BASELINES]
    share = {when: [] for when in range(len(measured))}
    for when, day in enumerate(measured):
        yield f"  day {day:.0f}, percent of all worth kept"
        names = "".join(f"{name:>13s}" for name in (*rules, "trainer", "oracle"))
        yield f"    {'family':12s}{names}  trainer against the best simple rule"
        for family in families:
            kept = {name: results[family, name].kept[when] for name in (*rules, "trainer", "oracle")}
            best = max(rules, key=lambda name: kept[name].mean())
            mean, half = paired(kept["trainer"], kept[best])
            verdict = "ahead" if mean > half else "behind" if mean < -half else "level"
            yield (
                f"    {family:12s}"
                + "".join(f"{100 * kept[name].mean():13.1f}" for name in (*rules, "trainer", "oracle"))
                + f"  {mean:+5.1f} ± {half:.1f} {best} ({verdict})"
            )
            share[when].append((kept["trainer"].mean(), kept["oracle"].mean()))
        ours, oracle = np.array(share[when]).sum(0)
        yield f"    all together: {100 * ours / oracle:.1f} % of the oracle"
    for family in families:
        result = results[family, "trainer"]
        parts = [f"{100 * result.chances[0][:, result.kind == kind].mean():.0f}" for kind in range(len(KINDS))]
        yield f"    {family:12s} right on the day, {' / '.join(KINDS)}: {' / '.join(parts)} %"


def forecast_lines(results, families):
    """Yield how honest the trainer's forecasts were: calibration error, bias, cover of the 90 % interval."""
    for family in families:
        for forecast in results[family, "trainer"].forecasts:
            bins = binned(forecast.predicted.reshape(-1), forecast.true.reshape(-1))
            count = sum(one.count for one in bins)
            error = sum(one.count * abs(one.predicted - one.observed) for one in bins) / count
            kind = results[family, "trainer"].kind
            share = np.stack([forecast.true[:, kind == which].mean(-1) for which in range(len(KINDS))], -1)
            cover = ((forecast.low <= share) & (share <= forecast.high)).mean()
            bias = (forecast.predicted - forecast.true).mean()
            yield (
                f"    {family:12s} calibration error {error:.3f}  bias {bias:+.3f}  "
                f"90 % interval covers {100 * cover:3.0f} %  ({forecast.label})"
            )
