"""Two senses compared: how much of a wording was said, how much of it was meant, and whether it is turned round."""

from dataclasses import dataclass
from functools import lru_cache

from trainer.drills import lexicon
from trainer.drills.sense import is_end

ENOUGH_SAID = 0.60  # share of a wording's weight that must be said
ENOUGH_MEANT = 0.52  # share of what was said that must belong to the wording
ENOUGH_BESIDE = 0.65  # of both, where a telling word stands in place of another
HALF_SAID = 0.50  # is enough where nothing else was said and two telling words were
ALL_MEANT = 0.9  # so much of what was said belongs to the wording that it is asked for the rest
FULL_WEIGHT = 0.7  # the weight from which a word is telling
IMPLIED_WORDS = frozenset(axis + end for axis, ends in lexicon.IMPLIED.items() for end in ends)


@dataclass(frozen=True, kw_only=True)
class Together:
    """What several wordings of one option name between them."""

    words: frozenset
    numbers: frozenset
    poles: tuple
    loose: frozenset
    denied: frozenset

    @property
    def axes(self):
        """Return the axes that are named."""
        return {axis for axis, _ in self.poles}


@dataclass(frozen=True, kw_only=True)
class Compared:
    """How a text stands to a wording.

    ``said`` and ``meant`` are shares of 1; ``opposed`` that it is turned round (on the axes ``against``),
    ``partial`` that an end of an axis is lacking or added; ``telling`` counts the telling words they share.
    """

    said: float
    meant: float
    opposed: bool = False
    partial: bool = False
    telling: int = 0
    replaced: bool = False
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
    def accepted(self):
        """Return whether this is what was meant, beyond doubt."""
        if self.opposed or self.partial or self.meant < ENOUGH_MEANT:
            return False
        if self.replaced and min(self.said, self.meant) < ENOUGH_BESIDE:
            return False
        return self.said >= ENOUGH_SAID or (self.said > HALF_SAID and self.meant >= ALL_MEANT and self.telling > 1)


@lru_cache(maxsize=4096)
def together_of(senses, every):
    """Return what the wordings ``senses`` of one option name between them, and what ``every`` one denies."""
    return Together(
        words=frozenset(word for one in senses for word in one.words),
        numbers=frozenset(number for one in senses for number in one.numbers),
        denied=frozenset(word for one in every for word in one.denied)
        - frozenset(word for one in every for word in one.words if word not in one.denied),
        loose=frozenset(one for several in senses for one in several.loose),
        poles=tuple({(axis, end) for one in senses for axis, ends in one.poles.items() for end in ends}),
    )


def compare(typed, wording, weights, together):
    """Return how ``typed`` stands to ``wording`` (two senses), one of several that stand ``together``."""
    shared = {word for word in set(wording.words) & set(typed.words) if weight_of(word) >= FULL_WEIGHT}
    telling = [word for word in shared if not is_end(word)]
    meant = _with_kin(_ends_by_axis(together.poles))
    added = {
        axis
        for axis in typed.strong
        if axis != "before" or axis not in meant
        if typed.poles[axis] - meant.get(axis, lexicon.IMPLIED.get(axis, set()))
    }
    opposed = _opposed(typed, wording, together)
    # Words of other wordings must not make one that is turned round look more alike than it is.
    known = set(wording.words) if opposed else together.words
    return Compared(
        said=_share(wording.words, typed.words, weights),
        meant=_share(set(typed.words) - (IMPLIED_WORDS - together.words), known, None),
        opposed=opposed,
        partial=bool(added or wording.strong - set(typed.poles)),
        telling=len(telling),
        replaced=_replaced(typed, wording, together),
        against=_axes_against(typed, wording),
        axes=frozenset(wording.poles),
    )


def _replaced(typed, wording, together):
    """Return whether a telling word stands where the wording has another: "near the nose" for "near the wing tip"."""
    other = [word for word in set(typed.words) - together.words if weight_of(word) >= FULL_WEIGHT]
    lacking = [word for word in set(wording.words) - set(typed.words) if weight_of(word) >= FULL_WEIGHT]
    return bool(other and lacking)


def _share(of, among, weights):
    """Return the share of the weight of the words ``of`` that also stand ``among`` the others."""
    total = sum(weight_of(word, weights) for word in set(of))
    shared = sum(weight_of(word, weights) for word in set(of) & set(among))
    return shared / total if total else 0.0


def weight_of(word, weights=None):
    """Return how much ``word`` says: little for units and everyday verbs, less where many options share it."""
    return (weights.get(word, 1.0) if weights else 1.0) * lexicon.LIGHT.get(word, 1.0)


def _opposed(typed, wording, together):
    """Return whether ``typed`` turns ``wording`` round: other end, other number, other colour, a negation."""
    if typed.denials % 2 != wording.denials % 2 or bool(typed.denials) != bool(wording.denials):
        return True
    shared = set(typed.words) & set(wording.words)
    if any((word in typed.denied) != (word in wording.denied) for word in shared & (typed.denied | wording.denied)):
        return True
    if not typed.denials and together.denied & set(typed.words) and together.words != together.denied:
        return True  # it affirms what the wordings only deny: "brakes good" for "no brakes"
    if _loosely_opposed(typed, together) or _other_end(typed, together) or _axes_against(typed, wording):
        return True
    if "-" in typed.poles.get("on", ()) and "on" in typed.strong and "on" not in together.axes:
        return True
    if any(number not in together.numbers for number in typed.numbers):
        return True
    if any(typed.counted.get(noun, number) != number for noun, number in wording.counted.items()):
        return True
    return any(_excluded(kind, typed, together) for kind in lexicon.EXCLUSIVE)


def _turned_order(typed, wording):
    """Return whether what comes first in one comes second in the other: "turn before the climb"."""
    (first, second), (earlier, later) = _sides(typed), _sides(wording)
    return bool((first & later or second & earlier) and not (first & earlier or second & later))


def _sides(one):
    """Return (what comes first, what comes second) around before or after; two empty sets where neither is said."""
    for at, word in enumerate(one.words):
        if word in ("before+", "before-"):
            sides = (
                {w for w in one.words[:at] if weight_of(w) > 0.3},
                {w for w in one.words[at + 1 :] if weight_of(w) > 0.3},
            )
            return sides if word == "before+" else sides[::-1]
    return set(), set()


def _axes_against(typed, wording):
    """Return the axes on which both name other ends, other ends of the same things, or another order."""
    order = frozenset(("before",)) if _turned_order(typed, wording) else frozenset()
    return order | frozenset(
        axis
        for axis, ends in wording.poles.items()
        if axis != "before" and axis in typed.poles and _ends_differ(axis, typed, wording, ends)
    )


def _loosely_opposed(typed, together):
    """Return whether one says on, in and the other off, out – be it as a mere preposition."""
    meant = _ends_by_axis((*together.loose, *together.poles))
    said = _ends_by_axis((*typed.loose, *((axis, end) for axis, ends in typed.poles.items() for end in ends)))
    loose = {axis for axis, _ in typed.loose | together.loose}
    return any(axis in said and axis in meant and not said[axis] & meant[axis] for axis in loose)


def _with_kin(ends):
    """Return ``ends`` with those of a kindred axis where it is not named itself: down to 800 is a descent."""
    return {axis: ends[kin] for axis, kin in lexicon.KIN.items() if kin in ends} | ends


def _ends_by_axis(pairs):
    found = {}
    for axis, end in pairs:
        found.setdefault(axis, set()).add(end)
    return found


def _ends_differ(axis, typed, wording, ends):
    if not ends & typed.poles[axis]:
        return True
    if len(ends) == 1 and len(typed.poles[axis]) == 1:
        return False
    said, meant = _bound(axis, typed), _bound(axis, wording)
    return any(said.get(noun, end) != end for noun, end in meant.items())


def _bound(axis, one):
    """Return {noun: end of the axis that it is said to be at}: "gear up, flaps down"."""
    marks, words = (axis + "+", axis + "-"), one.words
    first = next((at for at, word in enumerate(words) if word in marks), 0)
    found, waiting, end = {}, [], ""
    if first == 0:
        for word in words:
            end = word[-1] if word in marks else end
            found.setdefault(word, end)
        return {noun: end for noun, end in found.items() if noun not in marks}
    for word in words:
        if word in marks:
            found.update((noun, word[-1]) for noun in waiting)
            waiting, end = [], word[-1]
        else:
            waiting.append(word)
    return found | {noun: end for noun in waiting if end and noun not in found}


def _other_end(typed, together):
    """Return whether an axis is named at none of the ends at which any wording names it."""
    meant = _with_kin(_ends_by_axis(together.poles))
    return any(axis in meant and not meant[axis] & ends for axis, ends in typed.poles.items() if axis != "before")


def _excluded(kind, typed, together):
    """Return whether both name one of a ``kind`` (colours, quarters) and not the same."""
    said, meant = kind & set(typed.words), kind & together.words
    return bool(said and meant and not said & meant)
