"""One word of an answer in the place of another: the thing next to it is never taken for the thing itself."""

import random
import re

import pytest

from trainer.decks import library as libraries
from trainer.drills import grading, questions, recitation
from trainer.errors import AnswerError
from trainer.model import ON_THE_NUMBER, RecallDrill
from trainer.reading.freetext.meaning import FULL_WEIGHT, sense, weight_of
from trainer.reading.language import opposites
from trainer.reading.language.everyday_words import STOP
from trainer.reading.language.word_forms import canonical_words, plain_form

WORD = re.compile(r"[A-Za-z]{3,}")
THINGS_TRIED = 6
FLOWS_TRIED = 9
MOST_TAKEN = 2  # the attitude held on the stroke for its angle of attack; a wing tip near the wing tip


@pytest.fixture(scope="module")
def shipped():
    return libraries.load()


def plain(word):
    form = plain_form(word.lower())
    return canonical_words().get(form, form)


def standing_alone(text):
    """Return the matches of the telling words of ``text`` that are no part of a compound ("wave off")."""
    meant = set(sense(text.lower()).words)
    found = [match for match in WORD.finditer(text) if match[0].lower() not in STOP and plain(match[0]) in meant]
    return [match for match in found if weight_of(plain(match[0])) >= FULL_WEIGHT]


def exchanged(text, words):
    """Yield ``text`` with one telling word exchanged for one of ``words``."""
    for match in standing_alone(text):
        for word in words:
            yield text[: match.start()] + word + text[match.end() :]


def test_no_recall_answer_is_accepted_with_a_word_of_a_refused_one(shipped):
    wrong, tried = [], 0
    for drill in [one for one in shipped.drills.values() if isinstance(one, RecallDrill) and one.accept]:
        question = questions.make(drill, shipped, "1")
        own = {plain(word) for wording in drill.accept for word in WORD.findall(wording)}
        refused = {match[0].lower() for wording in drill.refuse for match in standing_alone(wording)}
        words = sorted(word for word in refused if plain(word) not in own)
        for text in {text for wording in drill.accept for text in exchanged(wording, words)}:
            tried += 1
            if accepted(question, drill, shipped, text):
                wrong.append((drill.id, text))
    assert tried > 2000 and wrong == []


def accepted(question, drill, library, typed):
    try:
        return grading.grade(question, drill, library, typed, 1.0).verdict == ON_THE_NUMBER
    except AnswerError:
        return False


def test_no_step_is_accepted_with_another_thing_of_the_trade(shipped):
    flows = [one for one in shipped.drills.values() if one.kind == "flow"]
    wrong, tried = swept_steps(random.Random(5).sample(flows, FLOWS_TRIED))
    assert tried > 150 and len(wrong) <= MOST_TAKEN, wrong


def swept_steps(flows):
    """Return ([(flow, text)] accepted though a thing was exchanged, how many were tried)."""
    rng, wrong, tried = random.Random(5), [], 0
    things = sorted(opposites.THINGS)
    for drill in flows:
        known = {plain(word) for word in WORD.findall(recitation.about(drill))}
        for step in drill.steps:
            known_here = known | {plain(word) for text in (step.do, *step.short) for word in WORD.findall(text)}
            words = [word for word in rng.sample(things, THINGS_TRIED) if plain(word) not in known_here]
            of_things = [m for m in standing_alone(step.do) if plain(m[0]) in map(plain, things)]
            for match in of_things:
                for word in words:
                    text = step.do[: match.start()] + word + step.do[match.end() :]
                    tried += 1
                    wrong += [(drill.id, text)] if meant(text, drill) == step.id else []
    return wrong, tried


def meant(text, drill):
    try:
        return recitation.read_line(text, drill)
    except AnswerError:
        return None
