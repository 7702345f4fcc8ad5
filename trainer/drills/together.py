"""What the wordings of one option name between them, and how much a word says."""

from dataclasses import dataclass
from functools import lru_cache

from trainer.drills import everyday, lexicon

FULL_WEIGHT = 0.7  # the weight from which a word is telling


@dataclass(frozen=True, kw_only=True)
class Together:
    """What several wordings of one option name between them; ``every`` is what all of its wordings name."""

    words: frozenset
    every: frozenset
    main: tuple
    numbers: frozenset
    measured: frozenset
    ranges: frozenset
    poles: tuple
    loose: frozenset
    denied: frozenset
    doers: frozenset
    divided: tuple

    @property
    def axes(self):
        """Return the axes that are named."""
        return {axis for axis, _ in self.poles}


@lru_cache(maxsize=4096)
def together_of(senses, every):
    """Return what the wordings ``senses`` of one option name between them, and what ``every`` one denies."""
    return Together(
        words=frozenset(word for one in senses for word in one.words),
        every=frozenset(word for one in every for word in one.words),
        main=every[0].words,
        numbers=frozenset(number for one in senses for number in one.numbers),
        divided=tuple(one for one in every if one.divided),
        measured=frozenset(pair for one in every for pair in one.measured),
        ranges=frozenset(pair for one in every for pair in one.ranges),
        doers=frozenset(one.doer for one in every if one.doer),
        denied=frozenset(word for one in every for word in one.denied)
        - frozenset(word for one in every for word in one.words if word not in one.denied),
        loose=frozenset(one for several in senses for one in several.loose),
        poles=tuple({(axis, end) for one in senses for axis, ends in one.poles.items() for end in ends}),
    )


def weight_of(word, weights=None):
    """Return how much ``word`` says: little for units and everyday verbs, less where many options share it."""
    return (weights.get(word, 1.0) if weights else 1.0) * everyday.LIGHT.get(word, 1.0)


def ends_by_axis(pairs):
    found = {}
    for axis, end in pairs:
        found.setdefault(axis, set()).add(end)
    return found


def with_kin(ends):
    """Return ``ends`` with those of a kindred axis where it is not named itself: down to 800 is a descent."""
    return {axis: ends[kin] for axis, kin in lexicon.KIN.items() if kin in ends} | ends


def unknown_numbers(typed, together):
    """Return the numbers that no wording has, nor a range of one."""
    new = set(typed.numbers) - together.numbers
    return {number for number in new if not any(low <= number <= high for low, high in together.ranges)}
