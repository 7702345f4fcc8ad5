"""Whole flows: one step missing, one out of order, or all of it recited – and which steps are weak."""

import re
from dataclasses import replace

from trainer.drills import chance, step_order
from trainer.errors import AnswerError
from trainer.reading.freetext.asking_back import Unsure
from trainer.reading.language.plain_text import LONGEST_RECITATION, normalise

MOST_SHOWN = 9
SECONDS_PER_STEP = 8.0
FADING = 0.7  # how much less each older answer says about a step
WEAK_SHARE = 0.25
MOVES = 30
MERE_CUE = 3  # words
SEPARATORS = (r";|->| then ", ",")


def make_missing(question, drill, library, rng, weak):
    """Return a question that shows (a part of) the flow without one step, None for a flow too short."""
    ids = [step.id for step in drill.steps]
    if len(ids) < 4:
        return None
    inner = [step.id for step in drill.steps[1:-1] if not step.optional]
    if not inner:
        return None
    known = [one for one in weak if one in inner]
    missing = known[0] if known and rng.random() < 0.75 else chance.choice(rng, inner)
    start = min(max(0, ids.index(missing) - MOST_SHOWN // 2), max(0, len(ids) - MOST_SHOWN))
    shown = [one for one in ids[start : start + MOST_SHOWN] if one != missing]
    text = f"{drill.title}. One step is left out between the first and the last of these. Which?"
    before = shown.index(ids[ids.index(missing) - 1]) + 1
    hint = f"it belongs between {before} and {before + 1}"
    return question(drill, "missing", text, {"shown": shown}, [missing], choices=_lines(drill, shown), hint=hint)


def make_misplaced(question, drill, library, rng, weak):
    """Return a question that shows (a part of) the flow with one step moved to a place that is not allowed."""
    needs, ids = step_order.needs_of(drill.steps), [step.id for step in drill.steps]
    start = chance.index(rng, max(1, len(ids) - MOST_SHOWN + 1))
    part = ids[start : start + MOST_SHOWN]
    for _ in range(MOVES):
        moved = next((one for one in weak if one in part and rng.random() < 0.5), None) or chance.choice(rng, part)
        rest = [one for one in part if one != moved]
        at = chance.index(rng, len(part))
        order = [*rest[:at], moved, *rest[at:]]
        suspects = [one for one in order if step_order.is_allowed([x for x in order if x != one], needs)]
        if not step_order.is_allowed(order, needs):
            truth = [moved, *(one for one in suspects if one != moved)]
            text = f"{drill.title}. One step stands in the wrong place. Which?"
            half = "first" if order.index(moved) < len(order) / 2 else "second"
            return question(
                drill, "misplaced", text, {"shown": order}, truth, choices=_lines(drill, order),
                hint=f"it stands in the {half} half",
            )  # fmt: skip
    return None


def make_recite(question, drill, library, rng, weak):
    """Return the question that asks for the whole flow, a step a line; its truth are the steps that must be said."""
    ids = [step.id for step in drill.steps if not step.optional]
    text = f"{drill.title}. {drill.cue.rstrip('.')}. Recite the flow, a step a line; an empty line ends it."
    made = question(drill, "recite", text, {"shown": []}, ids, hint=f"{len(ids)} steps; it begins: {drill.steps[0].do}")

    return replace(made, limit_s=max(drill.limit_s, SECONDS_PER_STEP * len(ids)))


def wordings(drill):
    """Return {step id: its wordings, the full one first} for the reading of free text."""
    return {step.id: (step.do, *step.short, *_with_actor(step), *_with_cue(step)) for step in drill.steps}


def about(drill):
    """Return what a question on ``drill`` says by itself: its title, its cues and who acts in it."""
    return "; ".join([drill.title, drill.cue, *(f"{step.actor}; {step.cue}" for step in drill.steps)])


def _with_cue(step):
    """Return the wording with the cue, where the cue is a mere number: "call platform at 5,000 ft"."""
    mere = len(step.cue.split()) <= MERE_CUE and any(letter.isdigit() for letter in step.cue)
    return (f"{step.do} at {step.cue}",) if mere else ()


def _with_actor(step):
    return () if step.actor == "pilot" else (f"{step.do} ({step.actor})", f"{step.actor} {step.do}")


def read_line(text, drill):
    """Return the id of the step that ``text`` means, None when it is not in this flow.

    Raises ``Unsure`` where it may mean one and ``AnswerError`` where nothing was typed.
    """
    from trainer.reading.freetext import judge

    return judge.find(text, wordings(drill), about(drill), drill).key or None


def get_ready(drill):
    """Read how people say the steps of ``drill`` before anything is typed: some tenths of a second for a long flow."""
    from trainer.reading.freetext import judge

    judge.get_ready(wordings(drill), drill)


def read_lines(text, drill):
    """Return the steps that ``text`` recites: ids, and the words themselves where no step is meant.

    Steps stand on lines of their own or are parted by ; or -> or then; by commas where a line is no one step.
    """
    lines = normalise(text, longest=LONGEST_RECITATION).split("\n")
    entries = [entry for line in lines if line for entry in _entries(_without_number(line), drill, SEPARATORS)]
    if not entries:
        raise AnswerError("nothing was typed", hint="type the steps, a step a line")
    return entries


def _without_number(line):
    """Return ``line`` without a leading "3." or "3)"."""
    number, _, rest = line.partition(" ")
    return rest if rest and number.rstrip(".)").isdigit() and number[-1] in ".)" else line


def _entries(text, drill, separators):
    """Return the steps in ``text``, taken as one step, or parted by the first of ``separators`` that is there."""
    from trainer.reading.freetext import judge

    if judge.is_wording(text, wordings(drill), drill):
        return [read_line(text, drill)]
    for at, separator in enumerate(separators):
        parts = [part.strip(" ,;") for part in re.split(separator, text)]
        parts = [part for part in parts if part]
        if len(parts) > 1:
            return _one_or_several(text, parts, drill, separators[at + 1 :])
    return [read_line(text, drill) or text]


def _one_or_several(text, parts, drill, separators):
    """Return the steps of ``parts`` where they are different steps, else the one step that ``text`` is."""

    separate = _separately(parts, drill)
    if separate and len(set(separate)) == len(parts):
        return separate
    try:
        whole = read_line(text, drill)
    except Unsure:
        # Parts that are steps, some of them twice, are told as such; anything else is asked back.
        if separate:
            return separate
        raise
    return [whole] if whole else [entry for part in parts for entry in _entries(part, drill, separators)]


def _separately(parts, drill):
    """Return the step of each of ``parts``, None when one of them is not clearly a step."""

    try:
        entries = [read_line(part, drill) for part in parts]
    except Unsure:
        return None
    return None if None in entries else entries


def fault_line(fault, drill):
    """Return the sentence about one fault, with what goes wrong."""
    steps = {step.id: step for step in drill.steps}
    if fault.kind == step_order.NOT_HERE:
        return f'not in this flow: "{fault.step}"'
    step = steps[fault.step]
    if fault.kind == step_order.REPEATED:
        return f'repeated: "{step.do}"'
    if fault.kind == step_order.MISSED:
        return f'missed: "{step.do}"' + _harm(step)
    other = steps[fault.other]
    places = _exchanged(fault, steps)
    return f'too early: "{step.do}" before "{other.do}"' + places + _harm(other if other.skipped else step)


def _exchanged(fault, steps):
    """Return which steps have changed places, where the two named already do not say it."""
    if not fault.exchanged or set(fault.exchanged) == {fault.step, fault.other}:
        return ""
    early, late = (steps[one].do for one in fault.exchanged)
    return f' ("{early}" has changed places with "{late}")'


def _harm(step):
    return f" – {step.skipped}" if step.skipped else ""


def weak_steps(parts_newest_first):
    """Return the ids of the steps that went wrong lately, the weakest first.

    ``parts_newest_first`` are the ``parts`` of a flow's reviews; every older answer counts less.
    """
    missed, weight = {}, {}
    for parts in parts_newest_first:
        for step, right in parts.items():
            share = FADING ** weight.setdefault(step, [0, 0.0])[0]
            weight[step][0] += 1
            weight[step][1] += share
            missed[step] = missed.get(step, 0.0) + share * (1.0 - right)
    shares = {step: missed[step] / weight[step][1] for step in missed}
    return tuple(sorted((s for s in shares if shares[s] > WEAK_SHARE), key=lambda s: (-shares[s], s)))


def known_steps(parts_newest_first):
    """Return the ids of the steps that were right when they were last asked."""
    last = {}
    for parts in parts_newest_first:
        for step, right in parts.items():
            last.setdefault(step, right)
    return tuple(sorted(step for step, right in last.items() if right >= 1.0))


def _lines(drill, ids):
    lines = {step.id: step.do if step.actor == "pilot" else f"{step.do} ({step.actor})" for step in drill.steps}
    return [lines[one] for one in ids]
