"""Slips of the finger in the words around a number, and in number words: "mintes", "twnety"."""

import re
from functools import cache

from trainer.engine.units import UNITS
from trainer.reading.language.related_words import is_word
from trainer.reading.language.word_forms import known_words
from trainer.reading.numbers import spoken

SHORTEST, LONG = 4, 8  # letters: from which a word is mended, and from which two slips are


def mended(plain: str, asked: str) -> str:
    """Return ``plain`` with each word that is none spelt as the number word, unit or word of ``asked`` near it.

    >>> mended("twnety mintes", "")
    'twenty minutes'
    """
    wanted = _words() | frozenset(re.findall("[a-z]+", asked.casefold()))
    return " ".join(_nearest(word, wanted) if _is_strange(word, wanted) else word for word in plain.split(" "))


def _is_strange(word, wanted):
    plain = word.isascii() and word.isalpha() and len(word) >= SHORTEST
    return plain and not (word in wanted or is_word(word) or word in known_words())


@cache
def _words():
    """Return the number words and the words of units."""
    units = (spelling for unit in UNITS.values() for spelling in unit.spellings)
    numbers = (*spoken.DIGITS, *spoken.TEENS, *spoken.TENS, *spoken.POINT, "hundred", "thousand")
    return frozenset(word for text in (*units, *numbers) for word in text.split() if word.isalpha() and len(word) > 2)


def _nearest(word, wanted):
    from rapidfuzz.distance import OSA

    allowed = 2 if len(word) >= LONG else 1
    near = {one: OSA.distance(word, one, score_cutoff=allowed) for one in wanted if len(one) >= SHORTEST}
    best = min(near.values(), default=allowed + 1)
    found = [one for one, slips in near.items() if slips == best]
    kept = len(word) > SHORTEST or sorted(word) == sorted(found[0])  # in so short a word no letter may be another
    return found[0] if best <= allowed and len(found) == 1 and kept else word
