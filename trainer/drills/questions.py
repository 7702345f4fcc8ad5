"""One question for a drill of any kind."""

import random
from dataclasses import replace

from trainer.errors import DomainError
from trainer.model import CallDrill


def make(drill, library, seed, *, avoid=(), weak=(), known=(), form=""):
    """Return the ``Question`` that ``seed`` (a text) draws for ``drill``; the same seed, the same question.

    ``avoid`` are the inputs of the last questions, ``weak`` the weak steps of a flow (the weakest first),
    ``known`` its steps that were right, ``form`` a form of a flow.
    Raises ``DomainError`` where the drill can't be drawn.
    """
    rng = random.Random(f"{drill.id} {seed}")
    if drill.kind == "computed":
        from trainer.drills import computed

        question = computed.make(drill, library, rng, avoid=avoid)
    elif drill.kind == "flow":
        from trainer.drills import flow

        question = flow.make(drill, library, rng, avoid=avoid, weak=weak, known=known, form=form)
    elif isinstance(drill, CallDrill):
        from trainer.drills import calls

        question = calls.make(drill, library, rng, avoid=avoid)
    else:
        from trainer.drills import recall

        question = recall.make(drill, library, rng, avoid=avoid)
    if question is None:
        raise DomainError(f"no question of {drill.id!r} can be made in the form {form!r}")
    return replace(question, seed=str(seed), area=drill.area)
