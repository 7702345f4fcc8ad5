"""Whether a text puts another thing in the place of the one that is meant: "the ramp" for "the fix".

Nobody could list all such pairs; so a thing of the trade must be explained by the wordings, by what the question
is about, or stand beside them as a mere addition.
"""

from collections import Counter
from functools import cache

from trainer.reading.freetext.added_or_missing import IMPLIED_WORDS
from trainer.reading.freetext.meaning import FULL_WEIGHT, weight_of
from trainer.reading.language import opposites
from trainer.reading.language.related_words import related
from trainer.reading.language.word_forms import ends_of, is_end, is_harmless, is_number, is_thing, plain_form

SLIGHT = 0.35  # the weight up to which a word may be left out
CLOSE = 0.5  # likeness from which a text follows a wording word by word
CLOSER = 0.6  # from which it may say nothing of its own
_FREE_AXES = opposites.PLAIN_MINUS | opposites.ADDED_FREELY


def exchanged(typed, wordings, known, elsewhere):
    """Return the words that ``typed`` puts in the place of words of ``wordings`` (senses), the main one first.

    ``known`` are the words that need no explaining; a thing of ``elsewhere``, another option, is no mere addition.
    """
    own = frozenset(word for one in wordings for word in one.words) | {word for word in known if not is_end(word)}
    said = [as_own(word, own) for word in typed.words]
    new = {word for word in said if word not in own and not is_number(word) and weight_of(word) > SLIGHT}
    new = {word for word in new - IMPLIED_WORDS if not is_end(word) or word[:-1] not in _FREE_AXES}
    if "clear" in said:
        new.discard("in-")  # "clear of it"
    if not _lost(wordings[0].words, said):
        return set()
    things = {word for word in new if is_thing(word)} | _other_things(said, wordings)
    alike = {one.words: _likeness(said, one.words) for one in wordings}
    best = max(alike, key=alike.__getitem__)
    placed, main = _in_place(said, best), wordings[0].words
    telling_new = {word for word in new if not is_harmless(word)}
    telling = placed & (telling_new if alike[best] >= CLOSE else things)
    beside_main = _in_place(said, main) if alike[main] >= CLOSE else set()
    also = beside_main & (things | telling_new if alike[main] >= CLOSER else things)
    if alike[main] >= CLOSER and any(weight_of(word) >= FULL_WEIGHT for word in _lost(main, said)):
        also |= telling_new
    return telling | also | things & elsewhere


def _other_things(said, wordings):
    """Return the things that ``said`` names though no wording does, be they what the question is about."""
    own = {word for one in wordings for word in one.words}
    lacks = any(weight_of(word) >= FULL_WEIGHT for word in wordings[0].words if word not in said)
    return {word for word in said if lacks and is_thing(word) and word not in own}


def as_own(word, own):
    """Return the word of ``own`` that ``word`` stands near, else ``word`` itself."""
    near = set() if word in own else _near(word) & own
    return min(near) if near else word


@cache
def _near(word):
    by_meaning = () if is_thing(word) else related(word)  # no thing of the trade stands near another
    return kindred(word) | frozenset(one for near in by_meaning for one in (near, *ends_of(near)))


@cache
def kindred(word):
    """Return the words that may stand for ``word`` though they are not the same: the state is fuel."""
    return frozenset(
        other for kind in opposites.KINDRED for other in map(plain_form, kind) if word in map(plain_form, kind)
    )


def _likeness(said, words):
    """Return the share of weight that two lists of words have in common in the same order."""
    from rapidfuzz.distance import LCSseq

    equal = [step for step in LCSseq.opcodes(said, words) if step.tag == "equal"]
    common = sum(weight_of(word) for step in equal for word in words[step.dest_start : step.dest_end])
    return 2 * common / (sum(map(weight_of, said)) + sum(map(weight_of, words)) or 1)


def _in_place(said, words):
    """Return those of ``said`` that stand where ``words`` have another telling word."""
    from rapidfuzz.distance import LCSseq

    gaps = list(_gaps(LCSseq.opcodes(said, words), said, words))
    moved = [word for typed, _ in gaps for word in typed]
    return {word for typed, meant in gaps if _lost(meant, moved) for word in typed}


def _lost(words, said):
    """Return the words that were not ``said``, without those that may be left out."""
    lacking = Counter(words) - Counter(said)
    return [word for word in lacking if is_end(word) or weight_of(word) > SLIGHT]


def _gaps(steps, said, words):
    """Yield what stands in ``said`` and what in ``words`` between the words that they share."""
    at = (0, 0)
    for step in [one for one in steps if one.tag == "equal"]:
        yield said[at[0] : step.src_start], words[at[1] : step.dest_start]
        at = (step.src_end, step.dest_end)
    yield said[at[0] :], words[at[1] :]
