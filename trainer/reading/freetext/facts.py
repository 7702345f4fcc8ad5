"""An answer known by heart – a limit, a call, a name – read as right, wrong, or as nothing that can be graded."""

import re
from collections.abc import Sequence
from itertools import dropwhile

from trainer.errors import AnswerError
from trainer.reading.freetext import rules
from trainer.reading.freetext.asking_back import Unsure, decide, hedges, repeats, settled
from trainer.reading.freetext.meaning import sense, weight_of
from trainer.reading.freetext.swapped_words import SLIGHT, as_own
from trainer.reading.language import everyday_words
from trainer.reading.language.plain_text import normalise, quoted
from trainer.reading.language.related_words import is_word
from trainer.reading.language.spelling import nearest, phrases_of, vocabulary_of
from trainer.reading.language.word_forms import canonical_words, is_strange, is_thing, plain_form

_RIGHT = "right"
_ARTICLES = frozenset("a an the".split())
_DENIALS = frozenset("no not never".split())


def is_right(text: str, accept: Sequence[str], refuse: Sequence[str] = (), asked: str = "") -> bool:
    """Return whether ``text`` is one of ``accept``; ``refuse`` are look-alikes, ``asked`` is the question.

    Words of the question prove nothing.  Raises ``AnswerError`` for what says nothing, or two things, and
    ``Unsure`` for what may be right but does not say so.
    """
    plain = normalise(text)
    for wordings, answer in ((accept, True), (refuse, False)):
        if plain in {normalise(wording) for wording in wordings}:
            return answer
    _must_say_something(plain, accept, refuse, asked)
    if _without_echo(plain, asked) in {_bare(normalise(wording).split()) for wording in accept}:
        return True
    if hedges(re.sub(r"(?<=[a-z]) ?/ ?(?=[a-z])", " or ", plain), accept):
        raise decide()
    try:
        right = _by_rules(plain, accept, refuse, asked)
    except Unsure as unsure:
        if all(wordings != tuple(accept) for wordings in unsure.likely):
            return False  # it is like something wrong
        raise settled(unsure, text, asked) from None
    if right and not _is_direct(plain, accept):
        raise Unsure(accept, text=text)
    return right


def _by_rules(plain, accept, refuse, asked):
    options = {_RIGHT: tuple(accept)} | {wrong: (wrong,) for wrong in refuse}
    return rules.find(plain, options, asked, strict=True).key == _RIGHT


def _is_direct(plain, accept):
    """Return whether ``plain`` says all telling words of a wording, and one of them in a word that stands for it alone.

    "stop" is not "stop fuelling", and "the book" is not "hold" though one may book or hold a seat.
    """
    vocabulary = vocabulary_of(accept)
    typed, direct = set(sense(plain, vocabulary).words), _canonical(plain, vocabulary)
    for wording in accept:
        own = sense(normalise(wording), vocabulary).words
        lacking = [word for word in own if weight_of(word) > SLIGHT and as_own(word, typed) not in typed]
        if not lacking and direct & _canonical(normalise(wording), vocabulary):
            return True
    return False


def _canonical(plain, vocabulary):
    words = [plain_form(word) for word in re.findall(r"[a-z]+|\d[\d.,]*", plain) if word not in everyday_words.STOP]
    return {canonical_words().get(one, one) for word in words for one in (word, nearest(word, word, (), vocabulary))}


def _must_say_something(plain, accept, refuse, asked):
    """Raise ``AnswerError`` where ``plain`` only repeats the question, or holds no word of which anything is known."""
    if repeats(plain, asked):
        raise AnswerError("those are words of the question", hint="say what it asks for")
    vocabulary = vocabulary_of([*accept, *refuse])
    words = [word for phrase in phrases_of(plain, vocabulary) for word in phrase]
    if not words or all(is_strange(word) and word not in vocabulary and not is_word(word) for word in words):
        raise AnswerError(f"I can't read {quoted(plain)}", hint="s shows the solution, h gives a hint")


def _without_echo(plain, asked):
    """Return the words of ``plain`` behind those that the question has: "the ball" of "you do not see the ball"."""
    known = {plain_form(word) for word in re.findall(r"[a-z]+", asked.casefold())} | everyday_words.LEADING
    words = _bare(plain.replace("can't", "not").replace("cannot", "not").split())
    if words and words[0] not in everyday_words.LEADING | everyday_words.STOP | {"not"}:
        return words  # "fuel stores" is no "stores", though the question speaks of fuel
    left = tuple(dropwhile(lambda word: plain_form(word) in known and not is_thing(plain_form(word)), words))
    # "not the brakes" denies the brakes, though the question has a "not" of its own.
    return words if set(words[: len(words) - len(left)]) <= _DENIALS else left


def _bare(words):
    return tuple(word for word in words if word not in _ARTICLES)
