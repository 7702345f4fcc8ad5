"""python -m tests.reading.weigh [--tell]: fit the weights of ``reading/freetext/judge`` anew, and say how they do.

The texts of ``decks/said`` stand there author after author.  They are cut into fourteen parts, about one an author;
each part is judged by the examples of the others, and the weights that are told of were fitted without it.  The early
sets ``unseen_*.toml`` are judged by all examples.  The shipped weights are fitted to all of that together.
``--tell`` fits nothing: it tells how the late sets, which no weight was fitted to, are read as a session reads them.
"""

import argparse
import json
import tomllib
from collections import Counter
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path

import numpy as np

from tests.reading.held_back import LATE, SETS, number_of, taken_for
from trainer.decks import library as libraries
from trainer.decks.said import SORTS, read_said
from trainer.drills import recitation
from trainer.model import FlowDrill
from trainer.reading.freetext import judge, rules
from trainer.reading.freetext.asking_back import Unsure
from trainer.reading.freetext.example_index import Examples

PARTS = 14
STRICT, LOOSER = "unseen, early", "unseen, looser"
COUNTS = {STRICT: 2.0, LOOSER: 3.0}  # of a text of each source, 1 elsewhere
BENDS = (0.15, 0.4, 0.65, 0.9)  # quantiles where the slope may change
MEASURES = (
    "balance", "balance_each", "unexplained", "strangest", "only_wrong", "length", "lacking", "margin",
    "right_words", "right_letters", "right_words_3", "right_letters_3",
    "wrong_words", "wrong_letters", "wrong_words_3", "wrong_letters_3", "near_words", "near_letters", "near_letters_3",
    "other_right_words", "other_right_letters", "other_wrong_letters", "other_wrong_letters_3", "other_near_letters",
)  # fmt: skip
RIDGE = 10.0  # keeps weights small
NEWTON_STEPS = 12
TARGET = Path(judge.__file__).with_suffix(".json")


def main():
    """Judge everything, fit, report and write; or tell how the late sets are read."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--tell", action="store_true")
    tell = parser.parse_args().tell
    library = libraries.load()
    with ProcessPoolExecutor() as pool:
        flows = [one for one in library.drills.values() if isinstance(one, FlowDrill) and Path(one.said).exists()]
        if tell:
            told(sum(pool.map(read, flows), Counter()))
            return
        rows = [row for part in pool.map(judged, flows) for row in part]
    source, sort, hit, outcome, measures = (np.array(column) for column in zip(*rows, strict=True))
    design, layout = spread_out(measures, outcome)
    right = (sort == "right") & hit
    counts = np.array([COUNTS.get(one, 1.0) for one in source])
    chance = np.zeros(len(rows))
    for held_back in np.unique(source):
        fit = source != held_back
        chance[~fit] = chances(design[~fit], fitted(design[fit], right[fit], counts[fit]))
    report(source, sort, hit, outcome, chance)
    TARGET.write_text(json.dumps(named(fitted(design, right, counts), layout), indent=1) + "\n", encoding="utf-8")


def judged(drill):
    """Return [(source, sort, whether the right step comes first, what the rules say, measures)] of a flow's texts."""
    options, about = recitation.wordings(drill), recitation.about(drill)
    texts = read_said(drill.said)
    parts = {
        (sort, step, text): f"part {place * PARTS // len(several)}"
        for sort in SORTS
        for step, several in getattr(texts, sort).items()
        for place, text in enumerate(several)
    }
    asked = [(source, *which) for which, source in parts.items()]
    asked += [(source, *which) for source, *which in _unseen(drill.id)]
    rows = []
    for held_back in sorted({source for source, *_ in asked}):
        examples = _without(held_back, options, parts)
        for source, sort, step, text in asked:
            if source == held_back:
                alike = examples.alike(text)
                outcome = _by_rules(text, options, about, alike.key)
                rows.append((source, sort, alike.key == step, outcome, [alike.measures[name] for name in MEASURES]))
    return rows


def read(drill):
    """Return a ``Counter`` of (sort, whether accepted) over the texts of a flow in the late sets."""
    asked = recitation.wordings(drill), recitation.about(drill), drill
    return Counter((sort, taken_for(asked, text) == step) for _, sort, step, text in _unseen(drill.id, late=True))


def told(counts):
    """Print what of the late sets is accepted."""
    for sort in SORTS:
        accepted, every = counts[sort, True], counts[sort, True] + counts[sort, False]
        print(f"unseen, late     {sort:5s} accepted: {accepted} of {every}, {accepted / every:.1%}")


def _unseen(flow, *, late=False):
    for path in [one for one in SETS if (number_of(one) >= LATE) == late]:
        source = LOOSER if number_of(path) > 11 else STRICT
        for step, texts in tomllib.loads(path.read_text(encoding="utf-8")).get(flow, {}).items():
            for sort, key in (("right", "right"), ("wrong", "opposite"), ("near", "near")):
                yield from ((source, sort, step, text) for text in texts.get(key, ()))


def _without(held_back, options, parts):
    kept = {sort: {step: [] for step in options} for sort in SORTS}
    kept["right"] = {step: list(wordings) for step, wordings in options.items()}
    for (sort, step, text), source in parts.items():
        if source != held_back:
            kept[sort][step].append(text)
    return Examples(*(kept[sort] for sort in SORTS))


def _by_rules(text, options, about, key):
    try:
        return judge.outcome_of(rules.find(text, options, about), None, key)
    except Unsure as error:
        return judge.outcome_of(None, error, key)


def spread_out(measures, outcome):
    """Return (inputs of the model, [(name, knot or None)]): each measure, what of it lies above each knot, outcomes."""
    columns, layout = [np.ones(len(measures))], [("always", None)]
    for name, values in zip(MEASURES, measures.T, strict=True):
        columns.append(values)
        layout.append((name, None))
        for knot in np.unique(np.quantile(values, BENDS)):
            columns.append(np.maximum(0.0, values - knot))
            layout.append((name, float(knot)))
    for one in judge.OUTCOMES:
        columns.append((outcome == one).astype(float))
        layout.append((one, None))
    return np.stack(columns, -1), layout


def fitted(design, right, counts):
    """Return the weights of a logistic regression with a ridge, by Newton's method on scaled inputs."""
    scale = np.maximum(design.std(0), 1e-9)
    scale[0] = 1.0
    inputs, weights = design / scale, np.zeros(design.shape[1])
    ridge = np.full(len(weights), RIDGE)
    ridge[0] = 1e-6
    for _ in range(NEWTON_STEPS):
        chance = chances(inputs, weights)
        slope = inputs.T @ (counts * (right - chance)) - ridge * weights
        bend = (inputs.T * (counts * chance * (1.0 - chance))) @ inputs + np.diag(ridge)
        weights = weights + np.linalg.solve(bend, slope)
    return weights / scale


def chances(design, weights):
    """Return the probability of right."""
    return 1.0 / (1.0 + np.exp(-np.clip(design @ weights, -50.0, 50.0)))


def named(weights, layout):
    """Return ``weights`` as ``judge`` reads them."""
    found = {"always": 0.0, "outcomes": {}, "measures": {}}
    for weight, (name, knot) in zip(weights, layout, strict=True):
        weight = round(float(weight), 4)
        if name == "always":
            found["always"] = weight
        elif name in judge.OUTCOMES:
            found["outcomes"][name] = weight
        elif knot is None:
            found["measures"][name] = {"slope": weight, "bends": []}
        else:
            found["measures"][name]["bends"].append([round(knot, 5), weight])
    return found


def report(source, sort, hit, outcome, chance):
    """Print what is accepted of each source: by the rules alone, and by rules and examples."""
    enough = np.array([judge.LIKELY_ENOUGH.get(one, judge.LIKELY_ENOUGH_ELSE) for one in outcome])
    by = {"rules alone": outcome == judge.ACCEPTED, "with examples": chance >= enough}
    groups = {
        "fourteen authors": np.char.startswith(source, "part"),
        STRICT: source == STRICT,
        LOOSER: source == LOOSER,
    }
    for name, mine in groups.items():
        for how, accepted in by.items():
            told = []
            for one in SORTS:
                of = mine & (sort == one)
                good = accepted & hit if one == "right" else accepted
                told.append(f"{one} {100 * (of & good).sum() / max(1, of.sum()):5.1f} % of {of.sum():,}")
            print(f"{name:16s} {how:14s} accepted: {' · '.join(told)}")
        sure = {one: (chance[mine & (sort == one)] < judge.SURELY_WRONG).mean() for one in ("wrong", "right")}
        print(f"{'':16s} surely wrong: {sure['wrong']:.1%} of the wrong, {sure['right']:.2%} of the right")


if __name__ == "__main__":
    main()
