"""A text held against what people have said for the steps of a flow, right and wrong: which step, and how alike.

Likeness is the cosine between bags of words (with pairs of words) and of letters (in fours), where what few texts
hold counts for more.
"""

import math
from collections import Counter
from dataclasses import field
from functools import cache
from itertools import pairwise

from trainer.decks.said import RIGHT, SORTS, WRONG
from trainer.frozen import frozen
from trainer.reading.language import opposites
from trainer.reading.language.related_words import is_word
from trainer.reading.language.spelling import nearest
from trainer.reading.language.tokens import raw_tokens
from trainer.reading.language.word_forms import canonical_words, is_thing, plain_form

LETTERS = 4
SMOOTHING = 0.3  # of the balance of a word between right and wrong texts
NEAREST = 3
MORE_ENDS = (
    ("in", "out"), ("full", "idle"), ("set lock", "release"), ("green amber", "red"), ("always", "never"),
    ("everyone all", "nobody no none"),
)  # fmt: skip
DENIALS = ("not", "no", "never")
# A text that is so like an example once a word is turned round, and by so much liker than as it is, is its opposite;
# where it is then the very example, in whatever order, by as little as you like.
THE_SAME, FURTHER, EXACTLY = 0.8, 0.1, 0.99
AGREED = 0.3  # of the right examples hold a word that counts as needed


@frozen
class Alike:
    """How a text stands to the examples: ``key`` is the step whose right ones it is most like.

    ``measures`` {name: float}: likeness (0 to 1) to the nearest and the mean of the three nearest examples of each
    sort, of that step and of others, by words and by letters; what of the text no right example explains, and what of
    them it lacks; how its words are spread between right and wrong examples.
    """

    key: str
    measures: dict = field(default_factory=dict)


class Examples:
    """The examples of a flow, made ready to be compared with.

    ``right``, ``wrong`` and ``near`` (too little said) are {step: texts}.
    """

    def __init__(self, right, wrong, near):
        texts = [
            (key, sort, text)
            for sort, examples in zip(SORTS, (right, wrong, near), strict=True)
            for key, several in examples.items()
            for text in several
        ]
        self._places = {}
        for place, (key, sort, _) in enumerate(texts):
            self._places.setdefault(sort, {}).setdefault(key, []).append(place)
        tokens = [_tokens(text) for _, _, text in texts]
        self._spelt = {token for several in tokens for token in several if token.isalpha()}
        self._denying = {place for place, several in enumerate(tokens) if _denies(several)}
        words = [_words(several) for several in tokens]
        self._words, self._letters = _Index(words), _Index([_letters(several) for several in tokens])
        self._holding = {(key, sort): Counter() for key in right for sort in SORTS}
        self._count = Counter()
        for (key, sort, _), held in zip(texts, words, strict=True):
            self._holding[key, sort].update(set(held))
            self._count[key, sort] += 1

    def alike(self, text, key=None):
        """Return the ``Alike`` of ``text`` to the step ``key``, or to the one whose right examples it is most like."""
        tokens = self._as_spelt(text)
        words = _words(tokens)
        by_words, by_letters = self._words.likeness(words), self._letters.likeness(_letters(tokens))
        best = {
            key: max(by_words[place] + by_letters[place] for place in places)
            for key, places in self._places[RIGHT].items()
        }
        key = max(best, key=best.__getitem__) if key is None else key
        measures = {"margin": best[key] - max((best[one] for one in best if one != key), default=0.0)}
        for name, likeness in (("words", by_words), ("letters", by_letters)):
            for sort in SORTS:
                places = self._places.get(sort, {})
                own = [likeness[place] for place in places.get(key, ())]
                others = [likeness[place] for other, several in places.items() if other != key for place in several]
                for of, chosen in ((sort, own), (f"other_{sort}", others)):
                    closest = sorted(chosen, reverse=True)[:NEAREST] or [0.0]
                    measures[f"{of}_{name}"] = closest[0]
                    measures[f"{of}_{name}_{NEAREST}"] = math.fsum(closest) / len(closest)
        return Alike(key=key, measures=measures | self._spread(key, words))

    def is_another(self, key, text, about):
        """Return whether ``text`` turns the step ``key`` round, or names a thing that nobody names for it.

        A thing of the trade that ``about``, what the question says, names is none.
        """
        words = {word for word in _words(self._as_spelt(text)) if is_thing(word)}
        strange = {word for word in words if word not in self._holding[key, RIGHT]}
        return bool(strange - set(_words(_tokens(about)))) or self.turned_round(key, text)

    def turned_round(self, key, text):
        """Return whether ``text`` with one word turned into its opposite is what people say for the step ``key``."""
        tokens = self._as_spelt(text)
        as_it_is = self._nearest_right(key, tokens)
        enough = max(THE_SAME, as_it_is + FURTHER)
        found = max((self._nearest_right(key, turned, _denies(turned)) for turned in _turned(tokens)), default=0.0)
        return found > enough or found > max(EXACTLY, as_it_is)

    def _as_spelt(self, text):
        return [_mended(token, self._spelt) for token in _tokens(text)]

    def _nearest_right(self, key, tokens, denying=None):
        """Return the likeness by words to the nearest right example; of those that deny something, or of the others."""
        words = self._words.likeness(_words(tokens))
        places = self._places[RIGHT][key]
        places = places if denying is None else [place for place in places if (place in self._denying) == denying]
        return max((words[place] for place in places), default=0.0)

    def _spread(self, key, words):
        """Return how ``words`` are spread between the right and the wrong examples of ``key``."""
        right, wrong = self._holding[key, RIGHT], self._holding[key, WRONG]
        single = [word for word in words if " " not in word]
        weights = [self._words.weight(word) for word in single]
        strange = [weight for word, weight in zip(single, weights, strict=True) if word not in right]
        different, balance = set(words), []
        for word in different:
            if word in right or word in wrong:
                good = (right[word] + SMOOTHING) / (self._count[key, RIGHT] + 1.0)
                bad = (wrong[word] + SMOOTHING) / (self._count[key, WRONG] + 1.0)
                balance.append(math.log(good / bad))
        return {
            "unexplained": math.fsum(strange) / (math.fsum(weights) or 1.0),
            "strangest": max(strange, default=0.0),
            "only_wrong": float(sum(word in wrong and word not in right for word in different)),
            "balance": math.fsum(balance),
            "balance_each": math.fsum(balance) / (len(different) or 1),
            "length": float(len(single)),
            "lacking": self._lacking(key, set(words)),
        }

    def _lacking(self, key, words):
        """Return the share (0 to 1) of what the right examples of ``key`` agree on that ``words`` do not say."""
        right, count = self._holding[key, RIGHT], self._count[key, RIGHT]
        agreed = {word: number / count for word, number in right.items() if number >= AGREED * count}
        heavy = {word: share * self._words.weight(word) for word, share in agreed.items()}
        lacking = math.fsum(value for word, value in heavy.items() if word not in words)
        return lacking / (math.fsum(heavy.values()) or 1.0)


@cache
def _opposites():
    """Return {word: words of the other end of an axis}."""
    found = {}
    for ends in (*opposites.AXES.values(), *MORE_ENDS):
        one, other = ([plain_form(word) for word in words.split()] for words in ends)
        for mine, theirs in ((one, other), (other, one)):
            for word in mine:
                found.setdefault(word, set()).update(theirs)
    return {word: sorted(others) for word, others in found.items()}


def _denies(tokens):
    return not opposites.NEGATIONS.isdisjoint(tokens)


def _turned(tokens):
    """Yield ``tokens`` with one of them turned into its opposite, with a denial more, and with one less."""
    for place, token in enumerate(tokens):
        before, after = tokens[:place], tokens[place + 1 :]
        yield from ([*before, other, *after] for other in _opposites().get(plain_form(token), ()))
        if token in DENIALS:
            yield [*before, *after]
    if not _denies(tokens):
        yield from ([*tokens, denial] for denial in DENIALS)


def _tokens(text):
    return [token for token in raw_tokens(text) if token[0].isalnum()]


def _words(tokens):
    """Return the words and pairs of words of ``tokens``, forms and synonyms made one."""
    canonical = canonical_words()
    plain = [plain_form(token) for token in tokens]
    plain = [canonical.get(word, word) for word in plain]
    return plain + [f"{one} {other}" for one, other in pairwise(plain)]


def _letters(tokens):
    """Return the runs of letters of ``tokens``."""
    joined = f" {' '.join(tokens)} "
    return [joined[at : at + LETTERS] for at in range(len(joined) - LETTERS + 1)]


def _mended(token, spelt):
    """Return ``token``, or the word of ``spelt`` for which it is a slip of the finger where it is no word."""
    if token in spelt or not token.isalpha() or is_word(token):
        return token
    return nearest(token, token, (), spelt)


class _Index:
    """Bags of terms, each of length 1, to be compared with another by an inverted index."""

    def __init__(self, bags):
        self._bags = len(bags)
        found = Counter(term for bag in bags for term in set(bag))
        self._weight = {term: self._rarity(number) for term, number in found.items()}
        self._places = {term: [] for term in found}
        for place, bag in enumerate(bags):
            for term, share in self._shares(bag).items():
                self._places[term].append((place, share))

    def likeness(self, bag):
        """Return the cosine [bags] between ``bag`` and each."""
        total = [0.0] * self._bags
        for term, share in self._shares(bag).items():
            for place, other in self._places.get(term, ()):
                total[place] += share * other
        return total

    def weight(self, term):
        """Return how much ``term`` tells: the fewer bags hold it, the more."""
        return self._weight.get(term) or self._rarity(0)

    def _rarity(self, number):
        return math.log((self._bags + 1.0) / (number + 0.5))

    def _shares(self, bag):
        raw = {term: (1.0 + math.log(number)) * self.weight(term) for term, number in Counter(bag).items()}
        length = math.sqrt(math.fsum(value * value for value in raw.values())) or 1.0
        return {term: value / length for term, value in raw.items()}
