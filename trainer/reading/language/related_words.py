"""Everyday words that stand near a word of the decks: "declare" near "report".

The table ``related.txt`` is drawn from WordNet, whose notice stands in its head.
"""

from functools import cache
from pathlib import Path

_TABLE = Path(__file__).with_name("related_words.txt")


@cache
def _table():
    lines = _TABLE.read_text(encoding="utf-8").splitlines()
    words = (line.split() for line in lines if not line.startswith("#"))
    return {word: frozenset(near) for word, *near in words}


def is_word(word):
    """Return whether ``word`` is spelt like a word of the decks or one near them, and no slip for another."""
    return word in _table()


def related(word):
    """Return the plain words of the decks near which the everyday ``word`` stands, none where it is not known."""
    return _table().get(word, frozenset())
