"""Free text compared with known wordings: the same, perhaps the same, something else, or the opposite.

Word order, plurals, slips of the finger and other words for the same thing make no difference; up for
down, a negation or another number does.  When the text says too little the person is asked, never graded.
"""

import math
import re
from functools import lru_cache

from trainer.errors import AnswerError
from trainer.frozen import frozen
from trainer.reading.freetext.asking_back import Unsure
from trainer.reading.freetext.compare import ALL_MEANT, ENOUGH_SAID, compare, only_one
from trainer.reading.freetext.meaning import sense, together_of, weight_of
from trainer.reading.freetext.swapped_words import exchanged
from trainer.reading.language.opposites import SUBORDINATE
from trainer.reading.language.plain_text import normalise
from trainer.reading.language.spelling import vocabulary_of
from trainer.reading.language.word_forms import is_end, plain_form

__all__ = ["Found", "Unsure", "find", "vocabulary_of", "weight_of"]

WORTH_ASKING = 0.30  # likeness from which the person is asked
ENOUGH_TURNED = 0.5  # likeness from which a wording counts as turned round
PARTLY_TURNED = 0.35
SURELY_TURNED = 0.7  # to be told that one has it the wrong way round is worse than to be asked
MARGIN = 0.08
SURE = 0.9  # likeness that no other option turned round calls into question


@frozen
class Found:
    """``key`` is the option that was meant ("" for none), ``opposite`` one that the text turns round."""

    key: str = ""
    opposite: str = ""


def find(text, options, about=""):
    """Return the ``Found`` for ``text`` among ``options`` ({key: wordings, the one to show first}).

    ``about`` is what the question itself says, of which the text may speak too.

    Raises ``Unsure`` where the text may mean one of them but does not say so, ``AnswerError`` for no text.
    """
    plain = normalise(text, longest=6000)
    if not plain:
        raise AnswerError("nothing was typed")
    for key, wordings in options.items():
        if plain in {normalise(wording) for wording in wordings}:
            return Found(key=key)
    frozen = tuple((key, tuple(wordings)) for key, wordings in options.items())
    weights, senses, vocabulary = _prepared(frozen)
    typed = sense(plain, vocabulary)
    ranked = _ranked(typed, frozen, weights, senses)
    try:
        found = _told(typed, ranked, senses, weights, options)
    except Unsure:
        found = _main_clause(plain, ranked, senses, weights, vocabulary, options)
    if found.key and _doubtful(plain, typed, found.key, senses, vocabulary, about, options[found.key]):
        raise Unsure(options[found.key])
    return found


def _doubtful(plain, typed, key, senses, vocabulary, about, wordings):
    """Return whether ``plain`` says something that the option ``key`` does not account for."""
    known = frozenset(sense(normalise(about, longest=6000), vocabulary).words) if about else frozenset()
    known |= {plain_form(word) for text in wordings for word in re.findall("[a-z]+", text.lower())}
    elsewhere = {word for other, several in senses.items() if other != key for one in several for word in one.words}
    return bool(_is_bare_end(typed, senses[key]) or exchanged(typed, senses[key], known, elsewhere))


def _is_bare_end(typed, senses):
    """Return whether nothing but ends of axes is said ("up") where every wording says more."""
    words = set(typed.words)
    return all(is_end(word) for word in words) and not any(set(one.words) <= words for one in senses)


def _main_clause(plain, ranked, senses, weights, vocabulary, options):
    """Return what the main clause of ``plain`` means, where the rest only says when or about what.

    Raises ``Unsure`` where there is no other clause or the whole is at odds with what the main one means.
    """
    cut = re.split(rf"[,;]? (?:{'|'.join(sorted(SUBORDINATE))}) ", plain, maxsplit=1)[0]
    typed = sense(cut, vocabulary)
    frozen = tuple((key, ()) for key in options)
    found = _told(typed, _ranked(typed, frozen, weights, senses), senses, weights, options) if cut != plain else None
    if found is None or not found.key or dict(ranked)[found.key].opposed or dict(ranked)[found.key].partial:
        return _told(sense(plain, vocabulary), ranked, senses, weights, options)
    return found


def _told(typed, ranked, senses, weights, options):
    only = only_one(typed, senses, weights)
    if only is not None and not ranked[0][1].accepted and dict(ranked)[only].clear:
        return Found(key=only)
    return _decided(ranked, options)


def _ranked(typed, frozen, weights, senses):
    """Return [(key, comparison)], the best first."""
    best = [(key, _best(typed, senses[key], weights)) for key, _ in frozen]
    return sorted(best, key=lambda pair: (pair[1].accepted, pair[1].score), reverse=True)


def _best(typed, senses, weights):
    """Return the comparison that counts for an option: one that turns it round outweighs a vague likeness.

    A denial is compared with wordings that deny something themselves, where there are such.
    """
    alike = [one for one in senses if bool(one.denials) == bool(typed.denials)] or senses
    # A wording that denies one thing and tells more ("not in sight: break off") shares its words with the others.
    tells_more = typed.denials and any(len(one.words) > len(one.denied) + 1 for one in alike)
    named = together_of(senses if tells_more else tuple(alike), senses)
    compared = [compare(typed, one, weights, named) for one in alike]
    best = max(compared, key=lambda one: (one.accepted, one.score))
    turned = [one for one in compared if one.opposed and _turns(one, best)]
    worst = max(turned, key=lambda one: (bool(one.against - best.axes), one.overlap), default=best)
    if worst.overlap >= best.overlap or not best.accepted or worst.against - best.axes:
        return worst
    return best


def _turns(one, best):
    """Return whether ``one`` is alike enough to count as turned round; less is enough where it names another end."""
    return one.overlap >= (PARTLY_TURNED if one.against - best.axes else ENOUGH_TURNED)


def _rivals(other, best):
    """Return whether ``other`` fits about as well as ``best``; where little was said, a partial fit is enough."""
    near = other.score > best.score - MARGIN
    return near and (other.accepted or (best.said < ENOUGH_SAID and not other.opposed))


def _decided(ranked, options):
    key, best = ranked[0]
    if best.accepted:
        turned = [k for k, c in ranked[1:] if c.opposed and c.overlap > best.overlap + MARGIN]
        if turned and best.overlap < SURE:
            raise Unsure(options[key])
        rivals = [k for k, c in ranked[1:] if _rivals(c, best)]
        if rivals:
            raise Unsure(options[key], options[rivals[0]])
        return Found(key=key)
    turned = max(ranked, key=lambda pair: pair[1].overlap if pair[1].opposed else 0.0)
    if turned[1].opposed and turned[1].overlap >= max(ENOUGH_TURNED, best.score):
        if turned[1].certain or (turned[1].overlap >= SURELY_TURNED and not turned[1].denying):
            return Found(opposite=turned[0])
        raise Unsure(options[turned[0]])
    if not best.opposed and (best.score >= WORTH_ASKING or best.meant >= ALL_MEANT):
        raise Unsure(options[key])
    return Found()


@lru_cache(maxsize=256)
def _prepared(frozen):
    """Return (weights of words, {key: senses of its wordings}, vocabulary) of a set of options."""
    texts = [wording for _, wordings in frozen for wording in wordings]
    vocabulary = vocabulary_of(texts)
    senses = {key: tuple(sense(wording, vocabulary) for wording in wordings) for key, wordings in frozen}
    count = {}
    for several in senses.values():
        for word in {word for one in several for word in one.words}:
            count[word] = count.get(word, 0) + 1
    # A word that many options share says less about which one is meant.
    return {word: 1.0 / math.sqrt(number) for word, number in count.items()}, senses, vocabulary
