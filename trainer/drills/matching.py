"""Free text compared with known wordings: the same, perhaps the same, something else, or the opposite.

Word order, plurals, slips of the finger and other words for the same thing make no difference; up for
down, a negation or another number does.  When the text says too little the person is asked, never graded.
"""

import math
import re
from dataclasses import dataclass
from functools import lru_cache

from trainer.drills.cleaning import normalise
from trainer.drills.comparing import ALL_MEANT, ENOUGH_SAID, compare, together_of, weight_of
from trainer.drills.sense import sense
from trainer.drills.spelling import plain_form
from trainer.errors import AnswerError

__all__ = ["Found", "Unsure", "find", "vocabulary_of", "weight_of"]

WORTH_ASKING = 0.30  # likeness from which the person is asked
ENOUGH_TURNED = 0.5  # likeness from which a wording counts as turned round
MARGIN = 0.08


class Unsure(AnswerError):
    """What was typed may be ``meant``; the person is asked and nothing is graded until they answer."""

    def __init__(self, meant, *, other=""):
        question = f'did you mean "{meant}"?' if not other else f'did you mean "{meant}" or "{other}"?'
        super().__init__(question, hint="y for yes, or type it in other words" if not other else "type one of them")
        self.meant = "" if other else meant


@dataclass(frozen=True, kw_only=True)
class Found:
    """``key`` is the option that was meant ("" for none), ``opposite`` one that the text turns round."""

    key: str = ""
    opposite: str = ""


def find(text, options):
    """Return the ``Found`` for ``text`` among ``options`` ({key: wordings, the one to show first}).

    Raises ``Unsure`` where the text may mean one of them but does not say so, ``AnswerError`` for no text.
    """
    plain = normalise(text, longest=6000)
    if not plain:
        raise AnswerError("nothing was typed")
    for key, wordings in options.items():
        if plain in {normalise(wording) for wording in wordings}:
            return Found(key=key)
    frozen = tuple((key, tuple(wordings)) for key, wordings in options.items())
    return _decided(_ranked(plain, frozen), options)


def _ranked(plain, frozen):
    """Return [(key, comparison)], the best first."""
    weights, senses, vocabulary = _prepared(frozen)
    typed = sense(plain, vocabulary)
    best = [(key, _best(typed, senses[key], weights)) for key, _ in frozen]
    return sorted(best, key=lambda pair: (pair[1].accepted, pair[1].score), reverse=True)


def _best(typed, senses, weights):
    """Return the comparison that counts for an option: one that turns it round outweighs a vague likeness.

    A denial is compared with wordings that deny something themselves, where there are such.
    """
    alike = [one for one in senses if bool(one.denials) == bool(typed.denials)] or senses
    compared = [compare(typed, one, weights, together_of(tuple(alike), senses)) for one in alike]
    best = max(compared, key=lambda one: (one.accepted, one.score))
    turned = [one for one in compared if one.opposed and one.overlap >= ENOUGH_TURNED]
    worst = max(turned, key=lambda one: (bool(one.against - best.axes), one.overlap), default=best)
    if worst.overlap >= best.overlap or not best.accepted or worst.against - best.axes:
        return worst
    return best


def _rivals(other, best):
    """Return whether ``other`` fits about as well as ``best``; where little was said, a partial fit is enough."""
    near = other.score > best.score - MARGIN
    return near and (other.accepted or (best.said < ENOUGH_SAID and not other.opposed))


def _decided(ranked, options):
    key, best = ranked[0]
    if best.accepted:
        rivals = [k for k, c in ranked[1:] if _rivals(c, best)]
        if rivals:
            raise Unsure(options[key][0], other=options[rivals[0]][0])
        return Found(key=key)
    turned = max(ranked, key=lambda pair: pair[1].overlap if pair[1].opposed else 0.0)
    if turned[1].opposed and turned[1].overlap >= max(ENOUGH_TURNED, best.score):
        return Found(opposite=turned[0])
    if not best.opposed and (best.score >= WORTH_ASKING or best.meant >= ALL_MEANT):
        raise Unsure(options[key][0])
    return Found()


@lru_cache(maxsize=256)
def _prepared(frozen):
    """Return (weights of words, {key: senses of its wordings}, vocabulary) of a set of options."""
    texts = [wording for _, wordings in frozen for wording in wordings]
    vocabulary = frozenset(vocabulary_of(texts))
    senses = {key: tuple(sense(wording, vocabulary) for wording in wordings) for key, wordings in frozen}
    count = {}
    for several in senses.values():
        for word in {word for one in several for word in one.words}:
            count[word] = count.get(word, 0) + 1
    # A word that many options share says less about which one is meant.
    return {word: 1.0 / math.sqrt(number) for word, number in count.items()}, senses, vocabulary


def vocabulary_of(texts):
    """Yield the plain forms of the words of ``texts``, which count as spelt right."""
    for text in texts:
        for word in re.findall(r"[^\W\d_]+", normalise(text, longest=6000)):
            yield plain_form(word)
