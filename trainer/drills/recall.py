"""Recall drills: a limit, a call, a signal, a definition – an answer known by heart."""

from trainer.drills import chance, hints
from trainer.engine import display
from trainer.model import Question


def make(drill, library, rng, *, avoid=()):
    """Return the ``Question`` of the recall drill ``drill``; only the order of its choices is left to chance."""
    choices = tuple(chance.sample(rng, drill.choices, len(drill.choices)))
    return Question(
        drill_id=drill.id, kind="recall", form="recall", seed="", text=drill.ask,
        inputs={"shown": list(choices)} if choices else {}, truth=truth(drill), truth_text=truth_text(drill),
        unit=drill.unit if drill.value is not None else "", limit_s=drill.limit_s, choices=choices,
        hint=drill.hint or _hint(drill, choices, rng),
    )  # fmt: skip


def truth(drill):
    """Return the answer: a number in the drill's unit, or the text shown as the answer."""
    return float(drill.value) if drill.value is not None else drill.accept[0]


def truth_text(drill):
    """Return the answer as it is shown."""
    return display.exact(drill.value, drill.unit) if drill.value is not None else drill.accept[0]


def _hint(drill, choices, rng):
    """Return how the answer begins, or which two of the choices it is one of; how a number is typed the screen says."""
    if drill.value is not None:
        return ""
    if choices:
        return hints.one_of_two(rng, choices.index(drill.accept[0]), len(choices))
    return "it begins: " + " ".join(f"{word[0]}…" for word in drill.accept[0].split()[:3])
