"""Trying a drill with drawn numbers on thousands of draws before anybody practises it.

Proven: the conditions leave enough draws, every truth is finite and in range, answers differ from draw to
draw, and the slips can be told from the right answer.
"""

import random
from dataclasses import dataclass, field, replace

import numpy as np

from trainer.decks.drawing import chosen, columns, numbers
from trainer.decks.formula import compile_formula
from trainer.decks.read_computed import EITHER, FEWEST_SLIPS, own_slips
from trainer.decks.words import quoted
from trainer.engine.quantities import QUANTITIES
from trainer.engine.quantity import EXACT, Result, stated
from trainer.engine.units import UNITS
from trainer.errors import DomainError, FormulaError

LEAST_KEPT = 0.05
MOST_ALIKE = 0.60
ROWS_ONE_BY_ONE = 300  # for slips that can't be worked out for all draws at once
REFUSALS = (DomainError, FormulaError, ArithmeticError, ValueError)


@dataclass(kw_only=True)
class Trial:
    """What the draws of one drill showed; ``faults`` are pairs (place in the drill, message).

    ``kept`` is the share of draws that meet the conditions, ``answers`` how many different truths there
    are, ``alike`` the share of the commonest, ``separated`` {slip: share of draws in which it is clearly
    outside limits}.
    """

    kept: float = 0.0
    answers: int = 0
    alike: float = 0.0
    separated: dict = field(default_factory=dict)
    faults: list = field(default_factory=list)


def try_drill(drill, library, *, draws=10_000, seed=1, draw=None):
    """Return the ``Trial`` of a ``ComputedDrill`` that has no other faults; of a call only what is drawn.

    ``draw(drill, library, rng, count)`` may stand in for the drawing here; it is given the drill without
    its conditions.
    """
    trial = Trial()
    rng = random.Random(f"{seed} {drill.id}")
    try:
        values = _drawn(drill, library, rng, draws, draw)
        rows = _kept(drill, library, values, draws)
    except REFUSALS as error:
        trial.faults.append((("draw",), f"a draw can't be worked out: {error}"))
        return trial
    trial.kept = float(np.mean(rows))
    if trial.kept < LEAST_KEPT:
        message = f"only {trial.kept:.1%} of the draws meet the conditions; at least {LEAST_KEPT:.0%} must"
        trial.faults.append((("keep",), message))
    if rows.any() and drill.kind == "computed":
        _judge(drill, library, chosen(values, rows), int(rows.sum()), trial)
    return trial


def _drawn(drill, library, rng, count, draw):
    if draw is None:
        return columns(drill, library, rng, count)
    drawn = draw(replace(drill, keep=()), library, rng, count)
    return {name: library.tables[value] if isinstance(value, str) else value for name, value in drawn.items()}


def _kept(drill, library, values, count):
    """Return a mask of the draws that meet every condition."""
    rows = np.ones(count, dtype=bool)
    given = numbers(values)
    for text in drill.keep:
        condition = compile_formula(text, list(given), condition=True)
        rows &= condition.evaluate(given, library.tables, library.values)
    return rows


def _judge(drill, library, values, count, trial):
    """Work out truths and slips of the kept draws and note what is wrong with them."""
    result = result_of(drill)
    try:
        truths = stated_truths(drill, library, values, count, result)
    except REFUSALS as error:
        row = _failing_row(drill, library, values, count, result)
        trial.faults.append((("draw",), f"no answer for {_told(chosen(values, row))}: {error}"))
        return
    _check_range(truths, values, result, trial)
    _check_spread(truths, result, trial)
    _check_slips(drill, library, values, truths, result, trial)


def result_of(drill):
    """Return the engine's ``Result`` of the drill, or one made of what the deck says."""
    if drill.quantity:
        return QUANTITIES[drill.quantity].result(drill.result)
    step = drill.round_to or 10.0 ** -UNITS[drill.unit].decimals
    return Result(name="answer", title="answer", unit=drill.unit, tolerance=drill.tolerance, round_to=step)


def stated_truths(drill, library, values, count, result):
    """Return the ``count`` stated truths for ``values`` (arrays and tables by name)."""
    if drill.quantity:
        quantity = QUANTITIES[drill.quantity]
        inputs = {spec.name: values[spec.name] for spec in quantity.inputs}
        method = EXACT if drill.method == EITHER else drill.method
        exact = quantity.compute(inputs, method=method)[result.name]
    else:
        given = numbers(values)
        exact = compile_formula(drill.formula, list(given)).evaluate(given, library.tables, library.values)
    return np.broadcast_to(np.asarray(stated(result, exact), dtype=float), (count,))


def _failing_row(drill, library, values, count, result):
    """Return the index of a draw that has no answer, found by halving."""
    low, high = 0, count
    while high - low > 1:
        middle = (low + high) // 2
        try:
            stated_truths(drill, library, chosen(values, slice(low, middle)), middle - low, result)
        except REFUSALS:
            high = middle
        else:
            low = middle
    return low


def _told(values):
    """Return drawn values as "angels = 3, side = 1"."""
    return ", ".join(f"{name} = {float(value):g}" for name, value in numbers(values).items())


def _check_range(truths, values, result, trial):
    """Note a truth that is no number, no word of a coded result, or outside the circle of its unit."""
    cycle = UNITS[result.unit].cycle
    good = np.isfinite(truths)
    if result.words:
        good &= np.isin(truths, tuple(result.words))
    elif cycle:
        good &= (truths >= 0) & (truths <= cycle)
    if not good.all():
        row = int(np.flatnonzero(~good)[0])
        told = _told(chosen(values, row))
        trial.faults.append((("draw",), f"the answer is {truths[row]:g} for {told}: out of range"))


def _check_spread(truths, result, trial):
    """Note a drill whose answer could be learnt without looking at the numbers."""
    found, counts = np.unique(truths, return_counts=True)
    trial.answers, trial.alike = len(found), float(counts.max() / counts.sum())
    most = 1.0 if result.words else MOST_ALIKE
    if trial.alike > most or trial.answers == 1:
        common = result.words.get(int(found[counts.argmax()]), f"{found[counts.argmax()]:g}")
        trial.faults.append((("draw",), f"the answer is {common} in {trial.alike:.0%} of the draws"))


def _check_slips(drill, library, values, truths, result, trial):
    """Measure how often each slip is clearly wrong; note a slip of the deck that never is."""
    inside = (drill.tolerance or result.tolerance).inside
    slips = [(slip.name, None, _own(slip, drill, values)) for slip in _quantity_slips(drill)]
    slips += [
        (slip.name, index, lambda rows, slip=slip: _by_formula(slip.formula, library, chosen(values, rows)))
        for index, slip in enumerate(drill.slips)
    ]
    for name, index, wrong in slips:
        share = _separated(wrong, truths, result, inside)
        trial.separated[name] = share
        if share == 0 and index is not None:
            message = f"the slip {quoted(name)} can never be told from the right answer"
            trial.faults.append((("slip", index), message))
    told = sum(share > 0 for share in trial.separated.values())
    if told < FEWEST_SLIPS:
        message = f"only {told} of the slips can be told from the right answer with these draws; name more"
        trial.faults.append(((), message))


def _quantity_slips(drill):
    return own_slips(QUANTITIES[drill.quantity], drill.result) if drill.quantity else []


def _own(slip, drill, values):
    names = [spec.name for spec in QUANTITIES[drill.quantity].inputs]

    def wrong(rows):
        given = chosen(values, rows)
        return slip.wrong(**{name: given[name] for name in names})

    return wrong


def _by_formula(text, library, values):
    given = numbers(values)
    return compile_formula(text, list(given)).evaluate(given, library.tables, library.values)


def _separated(wrong, truths, result, inside):
    """Return the share of draws in which ``wrong(rows)`` gives an answer that is clearly not the truth."""
    try:
        with np.errstate(all="ignore"):
            slip = np.broadcast_to(np.asarray(stated(result, wrong(slice(None))), dtype=float), truths.shape)
    except (*REFUSALS, TypeError):
        # Some draws have no such slip, or its function takes one draw at a time.
        truths = truths[:ROWS_ONE_BY_ONE]
        slip = np.array([_one(wrong, row, result) for row in range(len(truths))])
    if result.words:
        return float(np.mean(np.isin(slip, tuple(result.words)) & (slip != truths)))
    difference, cycle = np.abs(slip - truths), UNITS[result.unit].cycle
    if cycle:
        difference = np.minimum(np.mod(difference, cycle), np.mod(-difference, cycle))
    return float(np.mean(np.isfinite(slip) & (difference > inside)))


def _one(wrong, row, result):
    try:
        return float(stated(result, wrong(row)))
    except REFUSALS:
        return np.nan
