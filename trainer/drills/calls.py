"""Radio calls: made from a drawn scenario, or heard and then asked about.

A call that is made is graded on its items and, where the deck says so, on their order in the list that it
names.  Numbers may be typed in figures or as they are spoken.
"""

import re

from trainer.decks import placeholders
from trainer.drills import chance, computed, question_text, step_order
from trainer.drills.drawing import chances, draw_once, kept, same_numbers
from trainer.errors import AnswerError, DomainError
from trainer.model import ON_THE_NUMBER, OUTSIDE_LIMITS, Grade, Question
from trainer.reading.calls.tokens import Number, tokens_of, unit_before
from trainer.reading.calls.understood import Part, understand
from trainer.reading.freetext import facts
from trainer.reading.language.plain_text import normalise, quoted
from trainer.reading.numbers import spoken
from trainer.reading.numbers.values import read_number

MOST_DRAWS = 400
NOT_COPIED = ("?", "-", "x", "")


def make(drill, library, rng, *, avoid=()):
    """Return the ``Question`` of the call ``drill``: form "call" (to be made) or "listen" (to be copied)."""
    inputs = _inputs(drill, library, rng, avoid)
    return heard(drill, inputs, rng) if drill.hear else made(drill, inputs)


def filled(text, drill, inputs):
    """Return a text of the call with the drawn values in it."""
    return computed.filled(text, drill, inputs)


def said(text, drill, inputs):
    """Return a text of the call with the drawn values in it as they are spoken."""
    units = {draw.name: draw.unit for draw in drill.draws}
    return question_text.filled(text, lambda name, step: spoken.said(inputs[name], units.get(name) or "count"))


def _inputs(drill, library, rng, avoid):
    fallback = None
    for _ in range(MOST_DRAWS):
        inputs = draw_once(drill, library, rng)
        if kept(drill, inputs, library):
            if chances(drill, library) == 1 or not same_numbers(drill, inputs, avoid):
                return inputs
            fallback = inputs
    if fallback is None:
        raise DomainError(f'drill "{drill.id}": no draw meets its conditions', hint="widen [call.draw]")
    return fallback


def made(drill, inputs):
    """Return the ``Question`` for a call to be made with ``inputs``."""
    items = [filled(item.say, drill, inputs) for item in drill.items if not item.optional]
    return _question(drill, "call", filled(drill.ask, drill, inputs), inputs, items, ", ".join(items))


def as_spoken(question, drill):
    """Return the whole call with its numbers in words, as it goes out on the radio."""
    return ", ".join(said(item.say, drill, question.inputs) for item in drill.items if not item.optional)


def heard(drill, inputs, rng):
    """Return the ``Question`` for a call to be copied with ``inputs``; ``rng`` chooses the items asked."""
    items = chance.sample(rng, range(len(drill.items)), drill.count)
    asked = sorted(items)
    hear = said(drill.hear, drill, inputs)
    lines = [f"{at}. {filled(drill.items[index].ask, drill, inputs)}" for at, index in enumerate(asked, start=1)]
    text = "\n".join(
        [filled(drill.ask, drill, inputs) or "Copy what you hear; answers on one line, parted by ;", *lines]
    )
    truth = [_heard_truth(drill.items[index], drill, inputs) for index in asked]
    shown = [_heard_text(drill.items[index], drill, inputs) for index in asked]
    extra = {"hear": hear, "hear_s": spoken.seconds_of(hear), "asked": asked}
    return _question(drill, "listen", text, inputs | extra, truth, "; ".join(shown))


def _question(drill, form, text, inputs, truth, truth_text):
    return Question(
        drill_id=drill.id,
        kind="recall",
        form=form,
        seed="",
        text=text,
        inputs=inputs,
        truth=tuple(truth),
        truth_text=truth_text,
        unit="",
        limit_s=drill.limit_s,
        hint=filled(drill.hint, drill, inputs) or (_item_names(drill) if form == "call" else ""),
    )


def _item_names(drill):
    return "items, in their order: " + ", ".join(item.name for item in drill.items if not item.optional)


def _heard_truth(item, drill, inputs):
    return inputs[item.value] if item.value else filled(item.say, drill, inputs)


def _heard_text(item, drill, inputs):
    if not item.value:
        return filled(item.say, drill, inputs)
    return computed.shown_input(drill, item.value, inputs[item.value])


def read_call(text, plain, question, drill):
    """Return the call that was typed, as one line of text; raises ``AnswerError`` where a word can't be placed."""
    found = _understood(text, drill, question.inputs)
    if not (found.places or found.blamed):
        raise AnswerError(f"I can't read {quoted(text)} as a call", hint="type it as you would say it")
    if found.strange and not _faults(found, drill):
        raise AnswerError(f"I can't place {quoted(found.strange[0])} in this call", hint="say its items alone")
    return " ".join(text.split())[:200]


def read_heard(text, plain, question, drill):
    """Return the answers to the items asked, in their order; None for one that was not copied."""
    # A question mark that ends the line would be taken for punctuation.
    plain = normalise(re.sub("[?？]", "-", text))
    separator = r"[;\n]" if re.search(r"[;\n]", plain) else r",(?!\d{3}(?:\D|$))"
    parts = [part.strip() for part in re.split(separator, plain)]
    asked = question.inputs["asked"]
    if len(parts) != len(asked):
        raise AnswerError(f"{len(asked)} answers are asked", hint="part them by ; and type ? for one that you missed")
    return [
        None if part in NOT_COPIED else _read_item(part, drill.items[index], truth, drill, question.inputs)
        for part, index, truth in zip(parts, asked, question.truth, strict=True)
    ]


def _read_item(part, item, truth, drill, inputs):
    """Return what ``part`` answers to ``item``: the words of its question and of the call may stand around it."""
    around = " ".join((filled(item.ask, drill, inputs), item.name, *_constant(item.say), *_constant(drill.hear)))
    if item.value:
        return read_number(part, item.unit or "count", about=truth, asked=around)
    ways = [filled(way, drill, inputs) for way in item.ways]
    others = [one for one in _other_draws(item, drill, inputs) if one not in (truth, *ways)]
    return truth if facts.is_right(part, (truth, *ways), (*item.refuse, *others), around=around) else part


def _other_draws(item, drill, inputs):
    """Return what ``item`` would have said had other words been drawn: "left" for "right"."""
    names = {piece.name for piece in placeholders.split(item.say) if not isinstance(piece, str)}
    drawn = [(draw.name, value) for draw in drill.draws if draw.name in names for value in draw.any_of]
    return [filled(item.say, drill, inputs | {name: value}) for name, value in drawn if isinstance(value, str)]


def _constant(text):
    """Return the pieces of ``text`` between its drawn values."""
    return [piece for piece in placeholders.split(text) if isinstance(piece, str)]


def grade_call(value, question, drill, library):
    """Return the ``Grade`` of a call made: items missing, wrong, or out of the order of the list."""
    found = _understood(value, drill, question.inputs)
    faults = _faults(found, drill)
    items = {item.name: item for item in drill.items}
    lines = [_fault_line(items[name], fault, drill, question) for name, fault in faults.items()]
    wanted = [item.name for item in drill.items if not item.optional or item.name in found.places]
    return Grade(
        verdict=OUTSIDE_LIMITS if faults else ON_THE_NUMBER,
        score=max(0.0, 1.0 - len(faults) / len(wanted)),
        value=value,
        parts={name: 0.0 if name in faults else 1.0 for name in wanted},
        said=tuple(lines),
    )


MISSING = "missing or wrong"


def _faults(found, drill):
    """Return {item: what is wrong with it}, in the order of the list."""
    names = [item.name for item in drill.items]
    faults = {item.name: MISSING for item in drill.items if item.name not in found.places and not item.optional}
    if not faults:  # else a word too many is most likely the wrong one
        faults |= found.blamed
    if drill.ordered:
        fixed = [item.name for item in drill.items if not item.anywhere]
        chain = {name: frozenset(fixed[:at]) for at, name in enumerate(fixed)}
        order = sorted((name for name in found.places if name in chain), key=found.places.get)
        for fault in step_order.misplacements(order, chain):
            faults.setdefault(fault.blame, f"out of order: {fault.step} before {fault.other}; the list: {drill.order}")
    return {name: faults[name] for name in names if name in faults}


def _fault_line(item, fault, drill, question):
    if fault != MISSING:
        return fault if fault.startswith("out of order") else f"{item.name}: {fault}"
    harm = f" ({item.skipped})" if item.skipped else ""
    return f'{MISSING}: {item.name} – "{filled(item.say, drill, question.inputs)}"{harm}'


def _understood(text, drill, inputs):
    """Return what the call ``text`` says of the items of ``drill``."""
    parts = [
        Part(
            name=item.name,
            ways=tuple(_tokens(way, drill, inputs) for way in (item.say, *item.ways)),
            never=tuple(_tokens(way, drill, inputs) for way in item.refuse),
        )
        for item in drill.items
    ]
    scene = " ".join(
        one for text in (drill.ask, drill.order) for one in placeholders.split(text) if isinstance(one, str)
    )
    others = [value for draw in drill.draws for value in draw.any_of if isinstance(value, str)]
    foreign = {token for value in others for token in tokens_of(value) if isinstance(token, str)}
    return understand(text, parts, scene, foreign)


def _tokens(text, drill, inputs):
    """Return ``text`` of an item as tokens, with its drawn numbers and their units."""
    units, out = {draw.name: draw.unit for draw in drill.draws}, []
    for piece in placeholders.split(text):
        value = piece if isinstance(piece, str) else inputs[piece.name]
        if isinstance(piece, str) or isinstance(value, str):
            out += tokens_of(value, behind=out[-1] if out else None)
        else:
            unit = unit_before(out.pop()) if out and unit_before(out[-1]) else units[piece.name] or "count"
            out.append(Number(value=float(value), unit=unit))
    return tuple(out)


def grade_heard(value, question, drill, library):
    """Return the ``Grade`` of a call copied: each item asked is right or wrong."""
    parts, lines = {}, []
    for index, got, truth in zip(question.inputs["asked"], value, question.truth, strict=True):
        item = drill.items[index]
        right = got is not None and _copied(got, truth, item)
        parts[item.name] = float(right)
        if not right:
            lines.append(f"{item.name}: {_heard_text(item, drill, question.inputs)}")
    score = sum(parts.values()) / len(parts)
    return Grade(
        verdict=ON_THE_NUMBER if score == 1.0 else OUTSIDE_LIMITS,
        score=score,
        value=value,
        parts=parts,
        said=tuple(lines),
    )


def _copied(got, truth, item):
    from trainer.drills.slips import deviation, hair_of

    if not item.value:
        return got == truth
    return abs(deviation(got, float(truth), item.unit or "count")) <= hair_of(float(truth))
