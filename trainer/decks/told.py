"""Whether a question can be answered: what the truth depends on is told, known, or follows from those."""

from trainer.decks.placeholders import Placeholder, split
from trainer.decks.words import listed, nearest, quoted


def check_told(table, draws, quantity, truth, texts):
    """Note inputs without a draw, draws that nothing uses, and inputs that the question keeps secret."""
    needed = list(draws.specs) if quantity else sorted(truth.names)
    check_missing(draws, needed)
    check_unused(draws, quantity, texts)
    told = names_in(texts["ask"])
    # A misspelt placeholder has its own fault, and the name it meant would be called secret here.
    if texts["ask"] and told is not None and told <= set(draws.shown):
        for name in needed:
            if name in draws.draws and not is_told(name, draws, told, set()):
                table.fault("ask", f"the answer depends on {{{name}}}, and the question does not tell it")


def names_in(text):
    """Return the names of the placeholders in ``text``, ``None`` for a faulty one (which is noted elsewhere)."""
    try:
        return {part.name for part in split(text) if isinstance(part, Placeholder)}
    except ValueError:
        return None


def check_missing(draws, needed):
    """Note inputs of the quantity that are neither drawn nor known."""
    for name in needed:
        spec = draws.specs.get(name)
        if name not in draws.table.data and spec and not spec.take and spec.default is None:
            draws.table.fault("", f'the input "{name}" ({spec.title}, {spec.unit}) has no draw', missing=True)


def check_unused(draws, quantity, texts):
    """Note draws that nothing uses: mostly a misspelt input of the quantity."""
    all_texts = (texts["ask"], texts["hint"], texts["why"], *texts["steps"])
    shown = set().union(*(names_in(text) or () for text in all_texts))
    for name in draws.draws:
        if name in draws.specs or name in draws.used or name in shown:
            continue
        if quantity:
            near = nearest(name, draws.specs)
            message = f"{quoted(name)} is no input of {quantity.name}{near} (allowed: {listed(draws.specs)})"
        else:
            message = f"{quoted(name)} is drawn and used by nothing"
        draws.table.fault(name, message)


def is_told(name, draws, told, seen):
    """Return whether the person knows the input ``name``: shown, constant, of the files, or made of such."""
    draw = draws.draws.get(name)
    if name in told or draw is None or name in seen:
        return True
    if draw.formula:
        compiled = draws.formulas.get(name)
        inner = compiled.names if compiled else ()
        return all(is_told(part, draws, told, seen | {name}) for part in inner)
    if any(name in draws.formulas[shown].names for shown in told if shown in draws.formulas):
        return True  # a told value was worked out from it, and can be worked back
    constant = len(set(draw.any_of)) == 1 or (draw.span and draw.span[0] == draw.span[1])
    # A faulty draw has neither; its own fault is enough.
    return bool(draw.take) or constant or not (draw.any_of or draw.span)
