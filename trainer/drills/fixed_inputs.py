"""A question whose numbers are given, not drawn: the rehearsal asks the same drills with those of its evening."""

import random
from dataclasses import replace

from trainer.drills import calls, computed
from trainer.drills.computed import DECIMALS
from trainer.drills.drawing import left_out
from trainer.engine.quantities import QUANTITIES
from trainer.model import CallDrill, Question


def question(drill, library, inputs, *, text="", seed=""):
    """Return the ``Question`` of the computed drill or call ``drill`` for ``inputs``; ``text`` asks it in other words.

    Inputs of the quantity that are not given come from the user's files.  Raises ``DomainError`` outside the
    range of the quantity.
    """
    if isinstance(drill, CallDrill):
        return _call(drill, dict(inputs), text, seed)
    quantity = QUANTITIES[drill.quantity]
    missing = {spec.name for spec in quantity.inputs} - set(inputs)
    taken = left_out(drill, quantity, set(inputs), library) if missing else {}
    inputs = {name: _plain(value) for name, value in {**taken, **inputs}.items()}
    truth = computed.solve(drill, library, inputs)
    return Question(
        drill_id=drill.id, kind="computed", form="compute", seed=seed,
        text=text or computed.filled(drill.ask, drill, inputs), inputs=inputs,
        truth=round(float(truth.value), DECIMALS), truth_text=computed.truth_text(truth), unit=truth.unit,
        limit_s=drill.limit_s, area=drill.area,
    )  # fmt: skip


def _plain(value):
    return value if isinstance(value, str) else float(value)


def _call(drill, inputs, text, seed):
    if drill.hear:
        asked = calls.heard(drill, inputs, random.Random(f"{drill.id} {seed}"))
    else:
        asked = calls.made(drill, inputs)
    return replace(asked, text=text or asked.text, seed=seed, area=drill.area)
