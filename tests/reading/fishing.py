"""Texts that fish for an answer: words of the question and the screen, phrases about nothing, other answers, hedges.

None of them may bring the answer to the screen, and none may be taken for it.
"""

import re

from trainer.drills import grading, questions, recitation
from trainer.errors import AnswerError
from trainer.model import ON_THE_NUMBER, CallDrill
from trainer.reading.language import everyday_words
from trainer.reading.language.plain_text import normalise

UNRELATED = (
    "up", "down", "on", "off", "left", "yes", "no idea really", "the usual", "something else", "as briefed", "stop",
    "power", "look around", "the other one", "call it", "asdfgh",
)  # fmt: skip


def in_words(library):
    """Return the drills whose answers are words: recall drills without choices, and flows."""
    recall = [one for one in library.drills.values() if one.kind == "recall" and not isinstance(one, CallDrill)]
    recall = [one for one in recall if one.value is None and not one.choices]
    return recall, [one for one in library.drills.values() if one.kind == "flow"]


def accepted(drill, question):
    """Return the wordings that are right for ``question``."""
    if drill.kind == "recall":
        return list(drill.accept)
    wordings = recitation.wordings(drill)
    return [one for step in question.truth[:1] for one in wordings[step]]


def texts_for(question, others, rights):
    """Yield (kind, text) of what somebody may fish with who does not know the answer."""
    screen = " ".join((question.text, *question.choices))
    for word in dict.fromkeys(re.findall(r"[a-z]+|\d[\d.,]*\d|\d", screen.casefold())):
        if word not in everyday_words.STOP and not word.isdigit():
            yield "a word of the screen", word
    for text in UNRELATED:
        yield "unrelated", text
    for text in others:
        yield "another answer", text
        for right in rights[:1]:
            yield "this or that", f"{text} or {right}"
            yield "this or that", f"{right} or {text}"


def reaction(text, question, drill, library):
    """Return ("right" | "wrong" | "asked", what the screen then says beside the text itself)."""
    try:
        grade = grading.grade(question, drill, library, text, 1.0)
    except AnswerError as error:
        return "asked", f"{error.message} {error.hint or ''}".replace(f'"{text}"', "")
    return "right" if grade.verdict == ON_THE_NUMBER else "wrong", ""


def reveals(text, shown, rights):
    """Return whether ``shown`` holds an accepted wording that is not in ``text`` itself."""
    typed, shown = f" {normalise(text)} ", normalise(shown)
    said = re.findall(r'"([^"]*)"', shown)
    return any(wording in said and f" {wording} " not in typed for wording in map(normalise, rights))


def fished(drill, library, others):
    """Return ([(kind, drill, text, "accepted" or what was revealed)] of one drill, how many texts were tried)."""
    form = {"form": "missing"} if drill.kind == "flow" and len(drill.steps) >= 4 else {}
    question = questions.make(drill, library, "fishing", **form)
    rights, found, tried = accepted(drill, question), [], 0
    known = {normalise(one) for one in rights}
    for kind, text in texts_for(question, others, rights):
        if normalise(text) in known or (kind == "another answer" and _is_alike(text, rights)):
            continue
        tried += 1
        got, shown = reaction(text, question, drill, library)
        if got == "right":
            found.append((kind, drill.id, text, "accepted"))
        elif reveals(text, shown, rights):
            found.append((kind, drill.id, text, shown))
    return found, tried


def _is_alike(text, rights):
    words = set(normalise(text).split()) - everyday_words.STOP
    return any(words <= set(normalise(one).split()) or words >= set(normalise(one).split()) for one in rights)
