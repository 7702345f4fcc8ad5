"""Trying a drill with drawn numbers on thousands of draws before anybody practises it.

Proven: the conditions leave enough draws, every truth is finite and in range, answers differ from draw to
draw, and the slips can be told from the right answer.  What is tried is what is asked: the truths and slips are
those of ``computed``.
"""

import random
from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np

from trainer.decks.library import Library
from trainer.decks.read_computed import FEWEST_SLIPS
from trainer.decks.words import quoted
from trainer.drills import computed
from trainer.drills.drawing import columns, kept, numeric, of_rows
from trainer.engine.quantity import Result, stated
from trainer.engine.units import UNITS
from trainer.errors import DomainError, FormulaError
from trainer.model import CallDrill, ComputedDrill

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
    separated: dict[str, float] = field(default_factory=dict)
    faults: list[tuple[tuple[str | int, ...], str]] = field(default_factory=list)


def try_drill(drill: ComputedDrill | CallDrill, library: Library, *, draws: int = 10_000, seed: int = 1) -> Trial:
    """Return the ``Trial`` of a drill that has no other faults; of a call only what is drawn."""
    trial = Trial()
    rng = random.Random(f"{seed} {drill.id}")
    try:
        values, trial.kept = drawn_and_kept(drill, library, rng, draws)
    except REFUSALS as error:
        trial.faults.append((("draw",), f"a draw can't be worked out: {error}"))
        return trial
    if trial.kept < LEAST_KEPT:
        message = f"only {trial.kept:.1%} of the draws meet the conditions; at least {LEAST_KEPT:.0%} must"
        trial.faults.append((("keep",), message))
    if trial.kept and isinstance(drill, ComputedDrill):
        _judge(drill, library, values, round(trial.kept * draws), trial)
    return trial


def drawn_and_kept(drill: ComputedDrill | CallDrill, library: Library, rng: random.Random, count: int):
    """Return ({input: array, a number, or a table's name} of the draws that meet ``keep``, their share of ``count``).

    Raises what a formula raises that fails for a draw.
    """
    values = columns(drill, library, rng, count)
    rows = np.broadcast_to(kept(drill, values, library), (count,))
    return of_rows(values, rows), float(np.mean(rows))


def stated_truths(drill: ComputedDrill, library: Library, values: dict, count: int) -> np.ndarray:
    """Return the ``count`` stated truths for ``values`` (see ``drawn_and_kept``)."""
    return np.broadcast_to(np.asarray(computed.solve(drill, library, values).value, dtype=float), (count,))


def _judge(drill, library, values, count, trial):
    """Work out truths and slips of the kept draws and note what is wrong with them."""
    result = computed.result_of(drill)
    try:
        truths = stated_truths(drill, library, values, count)
    except REFUSALS as error:
        row = _failing_row(drill, library, values, count)
        trial.faults.append((("draw",), f"no answer for {_told(of_rows(values, row))}: {error}"))
        return
    _check_range(truths, values, result, trial)
    _check_spread(truths, result, trial)
    _check_slips(drill, library, values, truths, result, trial)


def _failing_row(drill, library, values, count):
    """Return the index of a draw that has no answer, found by halving."""
    low, high = 0, count
    while high - low > 1:
        middle = (low + high) // 2
        try:
            stated_truths(drill, library, of_rows(values, slice(low, middle)), middle - low)
        except REFUSALS:
            high = middle
        else:
            low = middle
    return low


def _told(values):
    """Return drawn values as "angels = 3, side = 1"."""
    return ", ".join(f"{name} = {float(value):g}" for name, value in numeric(values).items())


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
        told = _told(of_rows(values, row))
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
    named = [slip.name for slip, _ in computed.wrong_answers(drill, library, values)]
    for at, name in enumerate(named):
        share = _separated(_wrong(drill, library, values, at), truths, result)
        trial.separated[name] = share
        index = at - len(named) + len(drill.slips)
        if share == 0 and index >= 0:
            message = f"the slip {quoted(name)} can never be told from the right answer"
            trial.faults.append((("slip", index), message))
    told = sum(share > 0 for share in trial.separated.values())
    if told < FEWEST_SLIPS:
        message = f"only {told} of the slips can be told from the right answer with these draws; name more"
        trial.faults.append(((), message))


def _wrong(drill, library, values, at) -> Callable:
    """Return a function of rows that gives the answers to which the slip number ``at`` leads."""
    return lambda rows: list(computed.wrong_answers(drill, library, of_rows(values, rows)))[at][1]()


def _separated(wrong, truths, result: Result) -> float:
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
    return float(np.mean(np.isfinite(slip) & (difference > result.tolerance.inside)))


def _one(wrong, row, result):
    try:
        return float(stated(result, wrong(row)))
    except REFUSALS:
        return np.nan
