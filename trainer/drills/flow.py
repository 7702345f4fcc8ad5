"""Flow drills: the order of things asked in several ways, graded against what depends on what.

Forms: "next" (what comes next), "before" (what must be done last before a step), "order" (put in order),
and those of ``recitation``.  The steps asked are weak ones first.
"""

from trainer.drills import chance, hints, recitation, step_order
from trainer.model import Question

MOST_REDRAWS = 12
OFFERED = 4
FORMS = {"next": 3.0, "before": 2.0, "order": 2.0, "missing": 1.5, "misplaced": 1.5, "recite": 0.8}
# The share of the steps that must have been right before a form is asked: nobody recites what he has never seen.
MET_FIRST = {"missing": 0.3, "recite": 0.6}
# The share of the drill's limit that a form gets: one step is sooner found than an order.
SHARES = {"next": 0.45, "before": 0.45, "missing": 0.7, "misplaced": 0.7}
SHORTEST_LIMIT_S = 10.0


def make(drill, library, rng, *, avoid=(), weak=(), known=(), form=""):
    """Return a ``Question`` on the flow ``drill``; ``weak`` are step ids, the weakest first, ``known`` those right.

    ``form`` asks for one form; a flow too small for it is asked for its next step.
    """
    question = None
    for _ in range(MOST_REDRAWS):
        chosen = form or _form(drill, rng, weak, known)
        question = _MAKERS[chosen](drill, library, rng, _weak_first(drill, weak)) or _next(drill, library, rng, weak)
        if dict(question.inputs) not in [dict(last) for last in avoid]:
            break
    return question


def forms_of(drill, known=None):
    """Return the forms in which ``drill`` can be asked; of somebody who has only ``known`` steps right, if given."""
    count, needs = len(drill.steps), step_order.needs_of(drill.steps)
    dependent = sum(bool(before) for before in needs.values())
    return tuple(
        form
        for form in FORMS
        if known is None or len(set(known)) >= MET_FIRST.get(form, 0.0) * count
        if not (form == "order" and count < 4)
        and not (form == "missing" and count < 5)
        and not (form in ("before", "order", "misplaced") and not dependent)
        and not (form in ("misplaced", "recite") and count < 3)
    )


def shown_step(step):
    """Return the line of a step: what is done, and by whom where it is not the pilot."""
    return step.do if step.actor == "pilot" else f"{step.do} ({step.actor})"


def truth_lines(drill, step_ids):
    """Return the lines of the steps named by ``step_ids``."""
    lines = {step.id: shown_step(step) for step in drill.steps}
    return [lines[one] for one in step_ids]


def optional(drill):
    """Return the ids of the steps that may be left out."""
    return frozenset(step.id for step in drill.steps if step.optional)


def _form(drill, rng, weak, known):
    """Return a form drawn by weight; the whole flow is seldom recited when weak steps can be asked."""
    forms = forms_of(drill, {step.id for step in drill.steps} & set(known))
    weights = [0.3 if form == "recite" and weak else FORMS[form] for form in forms]
    return chance.weighted(rng, forms, weights)


def _weak_first(drill, weak):
    known = {step.id for step in drill.steps}
    return tuple(one for one in weak if one in known)


def _pick(rng, options, weak):
    """Return one of ``options``: three times in four the weakest of them, where one is weak."""
    for one in weak:
        if one in options and rng.random() < 0.75:
            return one
    return chance.choice(rng, options)


def _question(drill, form, text, inputs, truth, *, choices=(), hint=""):
    return Question(
        drill_id=drill.id, kind="flow", form=form, seed="", text=text, inputs={"form": form, **inputs},
        truth=tuple(truth), truth_text=_joins(form).join(truth_lines(drill, truth)), unit="",
        limit_s=_limit_s(drill, form), choices=tuple(choices), hint=drill.hint or hint,
    )  # fmt: skip


def _limit_s(drill, form):
    """Return the limit of a form, in whole five seconds."""
    return max(SHORTEST_LIMIT_S, 5.0 * round(drill.limit_s * SHARES[form] / 5.0)) if form in SHARES else drill.limit_s


def _joins(form):
    return "; " if form in ("order", "recite") else " – or: "


def _next(drill, library, rng, weak):
    """Ask for the step after one, for the first on the cue of the flow, or for the one on a step's own cue."""
    target = _pick(rng, [step.id for step in drill.steps], weak)
    at = next(i for i, step in enumerate(drill.steps) if step.id == target)
    step, needs = drill.steps[at], step_order.needs_of(drill.steps)
    done = tuple(one.id for one in drill.steps[:at])
    if step.cue and rng.random() < 0.6:
        text, truth = f"{drill.title}. {_sentence(step.cue)} What comes now?", (step.id,)
    else:
        truth = step_order.possible_next(done, needs, optional(drill))
        truth = (target, *(one for one in truth if one != target))
        text = f"{drill.title}. {_so_far(drill, at)} What comes next?"
    later = [one.id for one in drill.steps if one.id not in truth and one.id not in done]
    # What stands in the question as just done is no temptation; what was done before it is a weak one.
    wrong = later if len(later) >= 2 else [*later, *done[:-1]]
    lines, shown = _offered(drill, library, rng, target, wrong)
    return _question(
        drill, "next", text, {"step": target, "done": list(done), "shown": shown}, truth, choices=lines,
        hint=hints.one_of_two(rng, shown.index(target), len(shown)),
    )  # fmt: skip


def _so_far(drill, at):
    if at == 0:
        return _sentence(drill.cue)
    return f'You have come to "{shown_step(drill.steps[at - 1])}", and it is done.'


def _sentence(text):
    text = text.strip()
    return text if text.endswith((".", "!", "?")) else text + "."


def _before(drill, library, rng, weak):
    """Ask for the last thing that must be done before a step."""
    needs = step_order.needs_of(drill.steps)
    dependent = [step.id for step in drill.steps if needs[step.id]]
    if not dependent:
        return None
    target = _pick(rng, dependent, weak)
    last = step_order.last_before(target, needs, optional(drill))
    truth = [step.id for step in drill.steps if step.id in last]
    right, ids = truth[-1], [step.id for step in drill.steps]
    # What merely may come before it is no wrong answer: a jet in which it does would be marked down.
    later = [one for one in ids[ids.index(target) + 1 :] if one not in needs[target]]
    wrong = [*later, *(one for one in ids if one in needs[target] and one not in truth)]
    lines, shown = _offered(drill, library, rng, right, wrong)
    text = f'{drill.title}. What is the last thing that must be done before "{truth_lines(drill, [target])[0]}"?'
    truth = (right, *(one for one in truth if one != right))
    return _question(
        drill, "before", text, {"step": target, "shown": shown}, truth, choices=lines,
        hint=hints.one_of_two(rng, shown.index(right), len(shown)),
    )  # fmt: skip


def _offered(drill, library, rng, right, wrong):
    """Return (lines, ids) with ``right`` among up to three of ``wrong``; steps of other flows fill up."""
    chosen = chance.sample(rng, wrong, OFFERED - 1)
    lines = dict(zip(chosen, truth_lines(drill, chosen), strict=True))
    own = {shown_step(step) for step in drill.steps}
    if len(lines) < 2:
        for other in _other_flows(drill, library):
            for step in chance.sample(rng, other.steps, OFFERED - 1 - len(lines)):
                if shown_step(step) not in own and shown_step(step) not in lines.values():
                    lines.setdefault(f"{other.id}/{step.id}", shown_step(step))
            if len(lines) >= OFFERED - 1:
                break
    lines[right] = truth_lines(drill, [right])[0]
    shown = chance.sample(rng, list(lines), len(lines))
    return [lines[one] for one in shown], shown


def _other_flows(drill, library):
    flows = [one for one in library.outlines.values() if one.kind == "flow" and one.id != drill.id]
    for one in sorted(flows, key=lambda one: (one.area != drill.area, one.id)):
        yield library.drills[one.id]


def _order(drill, library, rng, weak):
    """Ask to put four to six steps in order."""
    needs = step_order.needs_of(drill.steps)
    ids = [step.id for step in drill.steps]
    if len(ids) < 4:
        return None
    for _ in range(MOST_REDRAWS):
        start = chance.sample(rng, [one for one in ids if one in weak[:2]], 2)
        rest = chance.sample(rng, [one for one in ids if one not in start], 4 + chance.index(rng, 3) - len(start))
        chosen = [one for one in ids if one in (*start, *rest)]
        shown = chance.sample(rng, chosen, len(chosen))
        if not step_order.is_allowed(shown, needs):
            text = f"{drill.title}. Put these in order: type their numbers."
            return _question(
                drill, "order", text, {"shown": shown}, chosen, choices=truth_lines(drill, shown),
                hint=f"it begins with {shown.index(chosen[0]) + 1}",
            )  # fmt: skip
    return None


_MAKERS = {
    "next": _next,
    "before": _before,
    "order": _order,
    "missing": lambda *a: recitation.make_missing(_question, *a),
    "misplaced": lambda *a: recitation.make_misplaced(_question, *a),
    "recite": lambda *a: recitation.make_recite(_question, *a),
}
