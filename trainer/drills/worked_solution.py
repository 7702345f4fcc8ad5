"""The worked solution: the numbers put in, the way done in the head, the exact way, and the source."""

import re
from textwrap import shorten

from trainer.decks import placeholders
from trainer.drills import question_text
from trainer.drills.shown_table import shown, tables_of
from trainer.engine import display, picture_text
from trainer.patterns import Late

_WORD = Late(r"[a-z][a-z0-9_]*(?![a-z0-9_]*\()")
_SUM = Late(r"-?[a-z][a-z0-9_]*( [+*-] [a-z][a-z0-9_]*)+")  # a relation that reads as well as it reckons
WHOLE_FLOW = ("order", "recite")
OWN_FILES = ("ship", "airframe", "airwing")
SIGNED = ", right positive"  # in a title: the number's sign is told as a side
COARSE = 5  # an answer stated to so many or more is told with what it was before
LONGEST_RULE = 70  # characters of the line that says where a rule stands
UNPUBLISHED = {"common practice": "common practice", "memory": "from memory, no page", "invented": "invented"}


def worked(question, drill, library, *, ascii_only=False, drawn=True):
    """Return the lines of the worked solution of ``question``, the source and all that is to be said of it last.

    Its picture is among them unless it is ``drawn`` elsewhere (False; see ``picture``).
    """
    lines = [*_solved(question, drill, library, ascii_only, drawn), *founded(question, drill, library)]
    return [display.plain_ascii(line) for line in lines] if ascii_only else lines


def beside_a_verdict(question, drill, library, *, ascii_only=False, drawn=True):
    """Return the worked solution with one short line of where its rule stands; the rest ``worked`` tells."""
    lines = [*_solved(question, drill, library, ascii_only, drawn), rule_line(_source(question, drill))]
    return [display.plain_ascii(line) for line in lines] if ascii_only else lines


def _solved(question, drill, library, ascii_only, drawn=True):
    lines = _BODIES[question.kind](question, drill, library)
    if drawn and (found := picture(question, drill, library)):
        at = next((at for at, line in enumerate(lines) if line.startswith("answer: ")), len(lines))
        lines[at:at] = picture_text.lines(found, ascii_only=ascii_only)
    return [*lines, _why(question, drill)] if drill.why else lines


def rule_line(source):
    """Return in a few words where a rule stands: publication and page, or that it stands nowhere.

    >>> from trainer.model import Source
    >>> rule_line(Source(text="P-1, A manual of it", section="p. 23 for the call; p. 52", status="published"))
    'rule: P-1, p. 23 for the call'
    >>> rule_line(Source(text="Usage of the trade; no publication", status="memory"))
    'rule: from memory, no page'
    """
    if source.status in UNPUBLISHED:
        return f"rule: {UNPUBLISHED[source.status]}"
    first = source.text.partition(";")[0]
    name, _, title = first.partition(", ")
    place = source.section.partition(";")[0]
    # A publication is known by its number; what has none keeps its words.
    text = name if re.search(r"\d", name) and title else first
    return shorten(f"rule: {text}{f', {place}' if place and place not in text else ''}", LONGEST_RULE, placeholder=" …")


def brief_truth(question):
    """Return the right answer alone: "27 nm"."""
    return question.truth_text


def picture(question, drill, library):
    """Return the ``Picture`` of what ``question`` asked to compute, None where there is none."""
    from trainer.drills import computed
    from trainer.engine.quantities import QUANTITIES

    quantity = QUANTITIES.get(getattr(drill, "quantity", ""))
    if quantity is None or quantity.picture is None:
        return None
    return quantity.picture(**computed.arguments(drill, library, question.inputs))


def source_line(source):
    """Return where a fact comes from and how well it is founded."""
    section = f", {source.section}" if source.section else ""
    return f"source: {source.text}{section} – {source.status}"


def _computed(question, drill, library):
    from trainer.drills import computed
    from trainer.engine.quantities import QUANTITIES

    lines = _numbers_put_in(question, drill, computed)
    lines += [f"the table: {'; '.join(shown(name, library))}" for name in tables_of(drill, library)]
    if not drill.quantity:
        lines += [computed.filled(text, drill, question.inputs, question.truth_text) for text in drill.steps]
        return [*filter(None, lines), f"answer: {question.truth_text}{_rounded(question, drill, library)}"]
    quantity, given = QUANTITIES[drill.quantity], computed.arguments(drill, library, question.inputs)
    lines += quantity.mental(**given)
    lines += [f"exactly: {line}" if at == 0 else line for at, line in enumerate(_exact(quantity, given))]
    return [*filter(None, lines), f"answer: {question.truth_text}{_rounded(question, drill, library)}"]


def _rounded(question, drill, library):
    """Return how the answer was rounded where that is seen: " (5,550 lb, up to 100)"."""
    from trainer.drills import computed

    truth = computed.solve(drill, library, question.inputs)
    if truth.result.words or truth.result.round_to < COARSE:
        return ""
    exact, way = display.value(float(truth.exact), truth.unit, 0.1), truth.result.rounding
    if exact == display.value(question.truth, truth.unit, 0.1):
        return ""
    return f" ({exact}, {'to the nearest' if way == 'nearest' else f'{way} to'} {truth.result.round_to:g})"


def _exact(quantity, given):
    return quantity.exact(**given) if quantity.exact else ()


def _numbers_put_in(question, drill, computed):
    """Return the lines that tell the numbers of the question, each with its name, and what follows from them.

    What was drawn but stands nowhere in the question is not given: to find it is the first step.
    """
    from trainer.engine.quantities import QUANTITIES

    quantity = QUANTITIES.get(drill.quantity)
    titles = {spec.name: spec.title for spec in quantity.inputs} if quantity else {}
    drawn, named = {draw.name: draw for draw in drill.draws}, _named(drill.ask)
    # What nobody asked about and stands at its usual value (the empty stations of a loading) only hides the rest.
    usual = {spec.name: spec.default for spec in quantity.inputs if spec.name not in drawn} if quantity else {}
    texts = {
        name: _titled(titles.get(name) or question_text.title_of(name), computed.shown_input(drill, name, value))
        for name, value in question.inputs.items()
        if (not quantity or name in titles or name in named)
        and usual.get(name, ...) != value
        and not isinstance(value, str)
        and not (name in drawn and drawn[name].formula.removeprefix("-") in named)
    }
    hidden = [name for name in texts if name in drawn and name not in named and _relation(name, drawn)]
    given = [text for name, text in texts.items() if name not in hidden]
    lines = ["given: " + ", ".join(given)] if given else []
    told = named - {spec.name for spec in (quantity.inputs if quantity else ()) if spec.words}  # a code is no number
    return lines + [_found_first(name, texts[name], drawn, told, titles) for name in hidden]


def _named(text):
    """Return the names of the inputs that ``text`` shows."""
    return {part.name for part in placeholders.split(text) if not isinstance(part, str)}


def _relation(name, drawn):
    """Return (name of the left side, formula) of what the deck says about ``name``, None where it says nothing."""
    for other in (name, *drawn):
        if drawn[other].formula and name in (other, *_WORD.findall(drawn[other].formula)):
            return other, drawn[other].formula
    return None


def _found_first(name, text, drawn, told, titles):
    """Return a number that must be found first, with the relation that leads to it where a person can read it.

    All else in it must be ``told`` (names of inputs), and it must be a sum or a product of more than one thing.
    """
    relation = _relation(name, drawn)
    if relation is None:
        return f"first: {text}"
    left, formula = relation
    plain = formula.removeprefix("wrap360(").removesuffix(")") if formula.startswith("wrap360(") else formula
    if {left, *_WORD.findall(formula)} - {name} - told or not _SUM.fullmatch(plain):
        return f"first: {text}"

    def called(word):
        return titles.get(word) or question_text.title_of(word)

    words = _WORD.sub(lambda found: called(found[0]), plain.replace(" * ", " × "))
    return f"first: {text} ({called(left)} = {words})"


def _titled(title, text):
    """Return an input with its name before it, once: "angels 12", "catapult 4", "wind off the bow 4° left"."""
    if text.startswith(title):
        return text
    if title.endswith(SIGNED):
        return f"{title.removesuffix(SIGNED)} {text.removeprefix('-')} {'left' if text.startswith('-') else 'right'}"
    return f"{title}{':' if ',' in title else ''} {text}"


def _flow(question, drill, library):
    """Return the whole flow, numbered; the steps asked for are marked."""
    from trainer.drills import flow

    asked = set(question.truth) if question.form not in WHOLE_FLOW else set()
    lines = [f"{drill.title} – {drill.cue}"]
    for at, step in enumerate(drill.steps, start=1):
        mark = ">" if step.id in asked else " "
        lines.append(f"{mark}{at:2} {flow.shown_step(step)}" + (" – where it applies" if step.optional else ""))
        if step.id in asked and step.skipped:
            lines.append(f"    if skipped: {step.skipped}")
    return lines


def _recall(question, drill, library):
    lines = [f"heard: {question.inputs['hear']}"] if question.form == "listen" else []
    lines.append(f"answer: {question.truth_text}")
    if question.form == "call":
        from trainer.drills import calls

        lines.append(f"spoken: {calls.as_spoken(question, drill)}")
        lines.append("items: " + ", ".join(item.name for item in drill.items))
        lines += [f"order: {drill.order}"] if drill.ordered else ["the order is free"]
    return lines


def founded(question, drill, library):
    """Return what an answer rests on: the source with its status, and the invented numbers that were used."""
    invented = dict.fromkeys(f"invented: {label}" for label in _invented(question, drill, library))
    return [source_line(_source(question, drill)), *_less_founded(question, drill), *invented]


def _less_founded(question, drill):
    """Yield a line for the steps of a whole flow that do not rest on the source of the flow."""
    if question.kind != "flow" or question.form not in WHOLE_FLOW:
        return
    asked = [step for step in drill.steps if step.id in question.truth and step.source]
    for status in dict.fromkeys(step.source.status for step in asked if step.source.status != drill.source.status):
        yield f"{status}: " + "; ".join(step.do for step in asked if step.source.status == status)


def _why(question, drill):
    if not hasattr(drill, "draws"):
        return drill.why
    from trainer.drills import computed

    return computed.filled(drill.why, drill, question.inputs, question.truth_text)


def _source(question, drill):
    """Return the source of the step that was asked for where it has its own, else that of the drill."""
    if question.kind == "flow" and question.form not in WHOLE_FLOW:
        own = [step.source for step in drill.steps if step.id == question.truth[0]]
        return own[0] or drill.source if own else drill.source
    return drill.source


def _invented(question, drill, library):
    """Yield the labels of what the numbers came from, where it is invented: the user's files, a deck's own fact.

    Numbers drawn by chance are a question's, and claim nothing.
    """
    deck = library.decks.get(drill.deck)
    if deck is not None and deck.invented and _source(question, drill).status == "invented":
        yield deck.invented
    for file in OWN_FILES:
        label = library.notes.get(file, "")
        if isinstance(label, str) and label and uses(file, drill):
            yield label


def uses(file, drill):
    """Return whether a number of the user's ``file`` ("ship") went into the question."""
    from trainer.engine.quantities import QUANTITIES

    draws = getattr(drill, "draws", ())
    quantity = QUANTITIES.get(getattr(drill, "quantity", ""))
    drawn = {draw.name for draw in draws}
    taken = [draw.take or draw.formula for draw in draws] + [getattr(drill, "formula", "")]
    taken += [spec.take for spec in (quantity.inputs if quantity else ()) if spec.name not in drawn]
    return any(f"{file}." in reference for reference in taken)


_BODIES = {"computed": _computed, "flow": _flow, "recall": _recall}
