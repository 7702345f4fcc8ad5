"""Two senses compared: how much of a wording was said, how much of it was meant, and whether it is turned round."""

from math import fsum

from trainer.frozen import frozen
from trainer.reading.freetext.added_or_missing import IMPLIED_WORDS, partial, replaced
from trainer.reading.freetext.meaning import FULL_WEIGHT, weight_of
from trainer.reading.freetext.reversed import axes_against, certainly, opposed
from trainer.reading.language.word_forms import is_end, is_number, is_strange

ENOUGH_SAID = 0.60  # share of a wording's weight that must be said
ENOUGH_MEANT = 0.52  # share of what was said that must belong to the wording
STRANGE = 0.6  # the weight of a word that belongs to no option
ALL_SAID = 0.99
MOST_SAID = 0.7  # where a word was typed that nobody knows
LEAST_MEANT = 0.3  # of what was said, where a wording was said in full
ENOUGH_ALONE = 0.45  # likeness that is enough where no other option comes into question
ENOUGH_BESIDE = 0.75  # of both, where a telling word stands in place of another
HALF_SAID = 0.50  # is enough where nothing else was said and two telling words were
MUCH_LESS = 0.6  # another option has at most this share of what the best one has
SOMETHING = 0.3  # the weight from which a word says something
LONG_NUMBER = 1000
ALL_MEANT = 0.9  # so much of what was said belongs to the wording that it is asked for the rest


@frozen
class Compared:
    """How a text stands to a wording.

    ``said`` and ``meant`` are shares of 1.  ``opposed``: it is turned round (on the axes ``against``; ``certain``
    where by a number, a negation or an end named in earnest; ``denying`` where both deny something).
    ``partial``: something is added or lacking; ``replaced``: a word stands in place of another; ``strange``: a
    word was typed of which nothing is known.  ``telling`` counts the telling words that they share, ``pieces``
    the words, numbers and ends that say something and belong to any wording of the option.
    """

    said: float
    meant: float
    opposed: bool = False
    partial: bool = False
    denying: bool = False
    telling: int = 0
    pieces: int = 0
    replaced: bool = False
    certain: bool = False
    strange: bool = False
    against: frozenset = frozenset()
    axes: frozenset = frozenset()

    @property
    def overlap(self):
        """Return how alike the words are, 0 to 1."""
        return 2 * self.said * self.meant / (self.said + self.meant or 1)

    @property
    def score(self):
        """Return the overlap, nothing for what is turned round."""
        return 0.0 if self.opposed else self.overlap

    @property
    def _strangely_little(self):
        """Return whether little was said beside a word of which nothing is known: "my dog is brown"."""
        return self.strange and (self.said < MOST_SAID or self.pieces < 2)

    @property
    def clear(self):
        """Return whether enough was said where no other option comes into question."""
        if self.opposed or self.partial or self.replaced:
            return False
        if self._strangely_little:
            return False
        in_full = self.said >= ALL_SAID and self.meant >= LEAST_MEANT
        return in_full or (self.pieces > 1 and self.overlap >= ENOUGH_ALONE)

    @property
    def accepted(self):
        """Return whether this is what was meant, beyond doubt."""
        if self.opposed or self.partial or self.meant < ENOUGH_MEANT:
            return False
        if self._strangely_little:
            return False
        if self.replaced and min(self.said, self.meant) < ENOUGH_BESIDE:
            return False
        return self.said >= ENOUGH_SAID or (self.said > HALF_SAID and self.meant >= ALL_MEANT and self.telling > 1)


def compare(typed, wording, weights, together):
    """Return how ``typed`` stands to ``wording`` (two senses), one of several that stand ``together``."""
    shared = {word for word in set(wording.words) & set(typed.words) if weight_of(word) >= FULL_WEIGHT}
    telling = [word for word in shared if not is_end(word)]
    turned = opposed(typed, wording, together)
    # Words of other wordings must not make one that is turned round look more alike than it is.
    known = set(wording.words) if turned else together.words
    return Compared(
        said=_share(wording.words, typed.words, weights),
        meant=_meant(typed, known, weights, IMPLIED_WORDS - together.words),
        opposed=turned,
        partial=partial(typed, wording, together, len(telling)),
        telling=len(telling),
        denying=bool(typed.denials and wording.denials),
        strange=any(is_strange(word) for word in set(typed.words) - set(weights)),
        certain=certainly(typed, wording, together),
        pieces=sum(_pieces(word) for word in set(typed.words) & together.words),
        replaced=replaced(typed, wording, together, weights),
        against=axes_against(typed, wording),
        axes=frozenset(wording.poles),
    )


def _share(of, among, weights):
    """Return the share of the weight of the words ``of`` that also stand ``among`` the others."""
    total = fsum(weight_of(word, weights) for word in set(of))
    shared = fsum(weight_of(word, weights) for word in set(of) & set(among))
    return shared / total if total else 0.0


def _meant(typed, known, weights, implied):
    """Return the share of what was ``typed`` that is ``known``; words of no option at all count for less."""
    heavy = {word: weight_of(word) * (1.0 if word in weights else STRANGE) for word in set(typed.words) - implied}
    total = fsum(heavy.values())
    return fsum(weight for word, weight in heavy.items() if word in known) / total if total else 0.0


def _pieces(word):
    """Return for how many pieces of an answer ``word`` counts; a long number is as good as two."""
    if is_number(word):
        return 2 if float(word) >= LONG_NUMBER else 1
    return int(weight_of(word) >= SOMETHING)


def only_one(typed, senses, weights):
    """Return the one option of ``senses`` ({key: its senses}) that comes into question for ``typed``, None for none.

    All that was typed and belongs to any of them belongs to it, and another has at most a small part of that.
    """
    if typed.denials:
        return None
    shares = {}
    for key, several in senses.items():
        own = {word for one in several for word in one.words}
        shares[key] = fsum(weight_of(word, weights) for word in set(typed.words) & own)
    every = fsum(weight_of(word, weights) for word in set(typed.words) if word in weights)
    best, second = (
        sorted(shares, key=shares.__getitem__, reverse=True)[:2] if len(shares) > 1 else (next(iter(shares)), None)
    )
    if every < FULL_WEIGHT or shares[best] < 0.99 * every:
        return None
    return best if second is None or shares[second] <= MUCH_LESS * every else None
