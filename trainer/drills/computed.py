"""Computed drills: chance draws the inputs (``make``), the engine gives the truth (``solve``).

The two are apart, so that a stored question can be solved again.
"""

import math
from typing import Any

from trainer.drills import question_text, slips
from trainer.drills.drawing import chances, draw_once, evaluate, kept, numeric, same_numbers, words_of
from trainer.engine import display
from trainer.engine.quantities import QUANTITIES
from trainer.engine.quantity import EXACT, Result, stated
from trainer.engine.units import UNITS
from trainer.errors import DomainError, FormulaError
from trainer.frozen import frozen
from trainer.model import Question, Slip, Tolerance

EITHER = "either"
DECIMALS = 9  # 61.3, not the 61.300000000000004 of 613 times a tenth


@frozen
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
        round_to=drill.round_to or spec.round_to, rounding=spec.rounding, words=spec.words, table=spec.table,
    )  # fmt: skip


def unit_asked(drill, library):
    """Return the name of the unit that ``drill`` asks for: that of its table where the result is read from one."""
    result = result_of(drill)
    take = next((draw.take for draw in drill.draws if result.table and draw.name == result.table), "")
    return library.units.get(take) or result.unit


def solve(drill, library, inputs):
    """Return the ``Truth`` of ``drill`` for ``inputs`` (floats, or arrays of one length).

    Raises ``DomainError`` outside the range of the quantity and ``FormulaError`` where a formula fails.
    """
    result = result_of(drill)
    result = result.of(arguments(drill, library, inputs)) if result.table else result
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
    for slip, wrong in wrong_answers(drill, library, inputs):
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


def wrong_answers(drill, library, inputs):
    """Yield (Slip, function that gives the wrong answer): those of the quantity, then those of the deck."""
    if drill.quantity:
        quantity, given = QUANTITIES[drill.quantity], arguments(drill, library, inputs)
        asked, first = result_of(drill).name, quantity.results[0].name
        for slip in quantity.slips:
            if (slip.result or first) == asked:
                yield Slip(name=slip.name, words=slip.words), lambda slip=slip: slip.wrong(**given)
    for slip in drill.slips:
        wrong = lambda slip=slip: evaluate(slip.formula, numeric(inputs), library)  # noqa: E731
        yield Slip(name=slip.name, words=slip.words), wrong


MOST_DRAWS = 400  # conditions that one draw in a hundred meets are still met
CLEAR_DRAWS = 8  # how often a draw in which slips can't be told apart is drawn again


def make(drill, library, rng, *, avoid=()):
    """Return a ``Question`` whose numbers differ from every mapping in ``avoid``.

    Raises ``DomainError`` when no draw meets the conditions of the drill.
    """
    fallback, unclear = None, 0
    for _ in range(MOST_DRAWS):
        inputs = _attempt(drill, library, rng)
        if inputs is None:
            continue
        if same_numbers(drill, inputs, avoid) and chances(drill, library) > 1:
            fallback = fallback or inputs
            continue
        if separable(drill, library, inputs) or unclear == CLEAR_DRAWS:
            return _question(drill, library, inputs)
        fallback, unclear = inputs, unclear + 1
    if fallback is None:
        raise DomainError(f'drill "{drill.id}": no draw meets its conditions', hint="widen [computed.draw]")
    return _question(drill, library, fallback)


def truth_text(truth):
    """Return the stated truth as it is shown: "27 nm", "right"."""
    if truth.result.words:
        return display.coded(truth.value, truth.result.words)
    return display.value(float(truth.value), truth.unit, truth.result.round_to or None)


def separable(drill, library, inputs):
    """Return whether this draw tells mistakes apart: every slip clearly wrong, no two of them the same number.

    Of a question with words for answers: whether there is a slip that leads to a wrong one.
    """
    truth = solve(drill, library, inputs)
    wrongs = slip_values(drill, library, inputs)
    if truth.result.words:
        return not wrongs or any(wrong != truth.value for _, wrong in wrongs)
    accepted = (float(truth.value), *other_values(drill, library, inputs))
    return len(slips.nameable(wrongs, accepted, truth.unit, truth.result.tolerance)) == len(wrongs)


def shown_input(drill, name, value, step=None):
    """Return one input of a question as text; coded inputs by their word."""
    quantity = QUANTITIES.get(getattr(drill, "quantity", ""))
    units = {spec.name: spec.unit for spec in quantity.inputs} if quantity else {}
    units |= {draw.name: draw.unit for draw in drill.draws if draw.unit}
    return question_text.input_text(value, units.get(name, "count"), words=words_of(quantity, name), step=step)


def filled(text, drill, inputs, answer=""):
    """Return a text of the drill with the drawn numbers (and the ``answer``) in it."""

    def shown_as(name, step):
        return answer if name == "answer" else shown_input(drill, name, inputs[name], step)

    return question_text.filled(text, shown_as)


def _attempt(drill, library, rng):
    """Return one draw that meets the conditions and has a finite truth, or None."""
    try:
        inputs = draw_once(drill, library, rng)
        if kept(drill, inputs, library) and math.isfinite(float(solve(drill, library, inputs).value)):
            return inputs
    except (DomainError, FormulaError):
        return None
    return None


def _question(drill, library, inputs):
    truth = solve(drill, library, inputs)
    return Question(
        drill_id=drill.id, kind="computed", form="compute", seed="",
        text=filled(drill.ask, drill, inputs), inputs=inputs,
        truth=round(float(truth.value), DECIMALS), truth_text=truth_text(truth), unit=truth.unit, limit_s=drill.limit_s,
        hint=filled(drill.hint, drill, inputs) or _hint(drill, library, inputs, truth),
    )  # fmt: skip


def _hint(drill, library, inputs, truth):
    """Return the first line of the mental way, unless it gives the answer away."""
    if not drill.quantity:
        return ""
    lines = QUANTITIES[drill.quantity].mental(**arguments(drill, library, inputs))
    return lines[0] if len(lines) > 1 and truth_text(truth) not in lines[0] else ""
