"""What was typed, read as an answer to a question.

What can't be read raises ``AnswerError``: it is asked again and never graded.
"""

import re

from trainer.drills import recitation
from trainer.drills.tolerances import is_inside
from trainer.errors import AnswerError
from trainer.patterns import Late
from trainer.reading.freetext import facts, judge, rules
from trainer.reading.freetext.asking_back import Unsure, decide, hedges, settled
from trainer.reading.language.opposites import NEGATIONS
from trainer.reading.language.plain_text import LONGEST_RECITATION, normalise, quoted
from trainer.reading.numbers import values
from trainer.reading.numbers.spelled_out import in_figures
from trainer.reading.numbers.values import read_number

__all__ = ["normalise", "read", "read_number", "read_word"]

_SAME_WORDS = (
    ("right", "starboard", "r", "stbd"),
    ("left", "port", "l"),
    ("yes", "y", "true"),
    ("no", "n", "false"),
)
_ROMAN = {"i": "1", "ii": "2", "iii": "3"}
_YES_OR_NO = ("yes", "no")
# Politeness around what is meant; in calls every word counts.
_POLITE = Late(
    r"^(?:well|erm?|uh?m|i (?:think|believe|guess|reckon|would say)|i'd say)[, ]+(?=\S)"
    r"|(?<=\S)[, ]+(?:please|sir|i (?:think|believe|guess|reckon))$"
)
_ACCEPTED = 1  # no text, so that no refused text can take its place: "right" is one
_NOT_KNOWN = frozenset(("?", "dunno", "don't know", "dont know", "i don't know", "no idea", "pass", "idk", "-"))


def read(text, question, drill, library=None):
    """Return the value that ``text`` gives as an answer to ``question``.

    A number in the question's unit, the code of a word, a text of a recall drill, or a list of step ids.
    Raises ``AnswerError`` (``Unsure`` where the person should be asked what was meant).
    """
    longest = LONGEST_RECITATION if question.form == "recite" else 200
    # Of a call that was heard "?; ?; ?" is an answer: nothing of it was copied.
    plain = normalise(re.sub("[?？]", "-", text) if question.form == "listen" else text, longest=longest)
    if plain in _NOT_KNOWN:
        raise AnswerError("that is no answer", hint="s shows the solution, h gives a hint")
    if not plain:
        raise AnswerError("nothing was typed", hint="s shows the solution")
    if question.form in ("compute", "recall"):
        while plain != (less := _POLITE.sub("", plain)):
            plain = text = less
    return _READERS[question.form](text, plain, question, drill)


def read_word(text, words):
    """Return the code of the word that ``text`` means among ``words`` ({1: "right", -1: "left"}).

    Initial letters, port and starboard, and numerals for a Case are understood; raises ``AnswerError``.

    >>> read_word("stbd", {1: "right", -1: "left"}), read_word("II", {1: "Case I", 2: "Case II"})
    (1, 2)
    """
    typed = _plain_word(re.sub(r"n['’]?t\b", " not", normalise(text)))
    plain = {code: _plain_word(normalise(word)) for code, word in words.items()}
    exact = [code for code, word in plain.items() if word == typed]
    begun = [code for code, word in plain.items() if typed and word.startswith(typed)]
    near = exact or begun or [code for code, word in plain.items() if _one_slip_apart(typed, word)]
    near = near or [code for code, word in plain.items() if _is_said(word, typed)]
    if len(near) != 1:
        raise AnswerError(f"I can't read {quoted(text)}", hint=f"type {' or '.join(words.values())}")
    return near[0]


def _plain_word(word):
    """Return ``word`` in the spelling that is compared: port is left, Case II is 2."""
    word = re.sub(r"(?<!case )\bi (?=[a-z])", "", word)  # "i think case ii"
    word = in_figures(word.replace("case", " ").replace("-", " "))
    word = " ".join(_ROMAN.get(part) or part for part in word.split())
    return next((same[0] for same in _SAME_WORDS if word in same), word)


def _is_said(word, typed):
    """Return whether a sentence says ``word`` and does not deny it: "to the right", "no, that is not allowed"."""
    said = re.findall(r"[^\W_]+", typed)
    at = [next((at for at, one in enumerate(said) if _means(one, part)), -1) for part in word.split()]
    denied = any(one in NEGATIONS for one in said) and word not in _YES_OR_NO
    return min(at) >= 0 and not denied


def _means(one, part):
    plain = re.sub("wards?$", "", one)
    return part in (plain, _plain_word(plain)) or _one_slip_apart(one, part)


def _one_slip_apart(typed, word):
    from rapidfuzz.distance import OSA

    same_figures = re.findall(r"\d", typed) == re.findall(r"\d", word)
    return len(typed) >= 4 and same_figures and OSA.distance(typed, word, score_cutoff=1) <= 1


def _read_computed(text, plain, question, drill):
    from trainer.drills.computed import result_of

    words = result_of(drill).words
    return float(read_word(text, words)) if words else _number(text, question, drill)


def _number(text, question, drill):
    """Return the number that ``text`` gives; asked back where it can be read in two ways of different verdict."""
    found = values.readings(text, question.unit, question.truth, question.text)
    right = [is_inside(one.value, question, drill) for one in found]
    if any(right) and not all(right):
        ways = " or ".join(dict.fromkeys(one.written for one in found))
        raise AnswerError(f"{quoted(text)} can be read in two ways", hint=f"type {ways}")
    return found[0].value


def _read_recall(text, plain, question, drill):
    if drill.value is not None:
        return _number(text, question, drill)
    if question.choices:
        return question.choices[_choice(text, plain, question)]
    return _words(text, drill)


def _words(text, drill):
    """Return the accepted wording that ``text`` means, else the words themselves: a wrong answer."""
    right = facts.is_right(text, drill.accept, drill.refuse, drill.ask)
    return drill.accept[0] if right else " ".join(text.split())[:200]


def _choice(text, plain, question):
    """Return the index of the choice that was typed by its number or in words."""
    choices = question.choices
    if plain.isdigit() and not any(plain == normalise(choice) for choice in choices):
        if not 1 <= int(plain) <= len(choices):
            raise AnswerError(f"there is no line {plain[:6]}", hint=f"type 1 to {len(choices)}")
        return int(plain) - 1
    begun = [at for at, choice in enumerate(choices) if normalise(choice).startswith(plain)]
    if len(begun) == 1:
        return begun[0]
    if hedges(text, choices):
        raise decide()
    try:
        found = rules.find(text, {at: (choice,) for at, choice in enumerate(choices)})
    except Unsure as unsure:
        raise settled(unsure, text, "; ".join((question.text, *choices))) from None
    if found.key == "":
        raise AnswerError(f"I can't read {quoted(text)}", hint=f"type 1 to {len(choices)}")
    return found.key


def _read_step(text, plain, question, drill):
    """Return the id of one step: of the line with the number typed, or the step that the words mean."""

    shown = question.inputs.get("shown", ())
    if plain.isdigit() and question.form != "missing":
        return shown[_choice(text, plain, question)]
    if plain.isdigit():
        raise AnswerError("the missing step has no number", hint="type it in words")
    options = recitation.wordings(drill)
    strangers = {one: (line,) for one, line in zip(shown, question.choices, strict=True) if one not in options}
    screen = "; ".join((question.text, *question.choices)) if question.form == "missing" else ""
    found = judge.find(text, options | strangers, recitation.about(drill), drill, screen=screen)
    if found.opposite and not found.key:
        return f"opposite of {found.opposite}"
    if not found.key:
        raise AnswerError(f"I can't tell which step {quoted(text)} is", hint="type its number or other words")
    return found.key


def _read_before(text, plain, question, drill):
    from trainer.drills import step_order

    step = _read_step(text, plain, question, drill)
    needs = step_order.needs_of(drill.steps)
    if step in needs[question.inputs["step"]] and step not in question.truth and not plain.isdigit():
        raise AnswerError("true, but that comes earlier", hint="what is the last thing before it?")
    return step


def _read_order(text, plain, question, drill):
    """Return the step ids in the order of the numbers typed: 3 1 4 2, 3142, 3,1,4,2."""
    shown = question.inputs["shown"]
    numbers = re.findall(r"[0-9]+", plain) if re.search(r"[^0-9]", plain) else list(plain)
    wanted = [str(at + 1) for at in range(len(shown))]
    if re.fullmatch(r"[0-9 ,;.>-]+", plain) is None or sorted(numbers) != sorted(wanted):
        raise AnswerError(
            f"I can't read {quoted(text)} as an order",
            hint=f"type each of {' '.join(wanted)} once, like {_shuffled(wanted)}",
        )
    return [shown[int(number) - 1] for number in numbers]


def _shuffled(wanted):
    return " ".join([*wanted[2:], *wanted[:2]])


def _read_recite(text, plain, question, drill):
    return recitation.read_lines(text, drill)


def _read_call(text, plain, question, drill):
    from trainer.drills import calls

    reader = calls.read_heard if question.form == "listen" else calls.read_call
    return reader(text, plain, question, drill)


_READERS = {
    "call": _read_call,
    "listen": _read_call,
    "compute": _read_computed, "recall": _read_recall, "next": _read_step, "before": _read_before,
    "order": _read_order, "missing": _read_step, "misplaced": _read_step, "recite": _read_recite,
}  # fmt: skip
