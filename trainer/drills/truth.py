"""What a computed drill comes to: the stated truth, what other methods give, and what each slip leads to."""

import math
from dataclasses import dataclass
from typing import Any

from trainer.drills.drawing import evaluate, numeric
from trainer.engine.quantities import QUANTITIES
from trainer.engine.quantity import EXACT, Result, stated
from trainer.engine.units import UNITS
from trainer.errors import DomainError, FormulaError
from trainer.model import Slip, Tolerance

EITHER = "either"
DECIMALS = 9  # 61.3, not the 61.300000000000004 of 613 times a tenth


@dataclass(frozen=True, kw_only=True)
class Truth:
    """``value`` is the truth as the trade states it, ``exact`` the same before rounding, both in ``unit``.

    ``result`` is the engine's record of the result (rounding, tolerance, words of a coded one).
    """

    value: Any
    exact: Any
    unit: str
    result: Result


def result_of(drill):
    """Return the ``Result`` of a computed drill; the drill's own tolerance and rounding go first."""
    if not drill.quantity:
        step = drill.round_to or 10.0 ** -UNITS[drill.unit].decimals
        tolerance = drill.tolerance or Tolerance(on=step / 2, inside=step)
        return Result(name="answer", title="answer", unit=drill.unit, tolerance=tolerance, round_to=step)
    spec = QUANTITIES[drill.quantity].result(drill.result)
    return Result(
        name=spec.name, title=spec.title, unit=spec.unit, tolerance=drill.tolerance or spec.tolerance,
        round_to=drill.round_to or spec.round_to, rounding=spec.rounding, words=spec.words,
    )  # fmt: skip


def solve(drill, library, inputs):
    """Return the ``Truth`` of ``drill`` for ``inputs`` (floats, or arrays of one length).

    Raises ``DomainError`` outside the range of the quantity and ``FormulaError`` where a formula fails.
    """
    result = result_of(drill)
    exact = _by_method(drill, library, inputs, EXACT if drill.method == EITHER else drill.method)
    return Truth(value=stated(result, exact), exact=exact, unit=result.unit, result=result)


def other_values(drill, library, inputs):
    """Return what the other methods of an "either" drill state; inside limits of one is accepted too."""
    if drill.method != EITHER:
        return ()
    others = [name for name in QUANTITIES[drill.quantity].methods if name != EXACT]
    return tuple(float(stated(result_of(drill), _by_method(drill, library, inputs, name))) for name in others)


def arguments(drill, library, inputs):
    """Return the keyword arguments of the quantity: its own inputs, with tables in place of their names."""
    names = [spec.name for spec in QUANTITIES[drill.quantity].inputs]
    return {name: library.tables[inputs[name]] if isinstance(inputs[name], str) else inputs[name] for name in names}


def slip_values(drill, library, inputs):
    """Return [(Slip, value)] for one draw: the wrong answer that each slip leads to, as the trade states it.

    A slip that leads to no number here (outside the range, divided by zero) is left out.
    """
    result, found = result_of(drill), []
    for slip, wrong in _slips(drill, library, inputs):
        try:
            value = round(float(stated(result, wrong())), DECIMALS)
        except (DomainError, FormulaError, ArithmeticError, ValueError):
            continue
        if math.isfinite(value) and (not result.words or int(value) in result.words):
            found.append((slip, value))
    return found


def _by_method(drill, library, inputs, method):
    if drill.quantity:
        values = QUANTITIES[drill.quantity].compute(arguments(drill, library, inputs), method=method)
        return values[result_of(drill).name]
    return evaluate(drill.formula, numeric(inputs), library)


def _slips(drill, library, inputs):
    """Yield (Slip, function that gives the wrong answer)."""
    if drill.quantity:
        quantity, given = QUANTITIES[drill.quantity], arguments(drill, library, inputs)
        asked, first = result_of(drill).name, quantity.results[0].name
        for slip in quantity.slips:
            if (slip.result or first) == asked:
                yield Slip(name=slip.name, words=slip.words), lambda slip=slip: slip.wrong(**given)
    for slip in drill.slips:
        wrong = lambda slip=slip: evaluate(slip.formula, numeric(inputs), library)  # noqa: E731
        yield Slip(name=slip.name, words=slip.words), wrong
