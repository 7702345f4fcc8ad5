"""Whether a text leaves a doubt about a wording: something added, left out, or put in the place of another."""

from trainer.reading.freetext.meaning import FULL_WEIGHT, ends_by_axis, unknown_numbers, weight_of, with_kin
from trainer.reading.language import opposites
from trainer.reading.language.word_forms import is_end, is_harmless

MANY = 3  # telling words said, after which the end of an axis may be left out
IMPLIED_WORDS = frozenset(axis + end for axis, ends in opposites.IMPLIED.items() for end in ends)


def partial(typed, wording, together, telling):
    """Return whether an end, a number or a doer is added or left out; ``telling`` counts the words they share."""
    named = with_kin(ends_by_axis(together.poles))
    return bool(
        _added(typed, named, together)
        or (wording.strong - set(typed.poles) and telling < MANY)
        or unknown_numbers(typed, together)
        or any(len(ends) == 2 and len(named.get(axis, ends)) == 1 for axis, ends in typed.poles.items())
        or _other_doer(typed, together)
        or opposites.DOUBTFUL & set(typed.words) - together.every
        or any(_mixed(typed, one) for one in together.divided)
    )


def _added(typed, named, together):
    """Return the axes that are named without need; both ends of one that no wording names say nothing."""
    minus = {word[:-1] for word in typed.words if word[-1] == "-"} - opposites.PLAIN_MINUS
    return {
        axis
        for axis in (typed.strong | minus) - opposites.ADDED_FREELY
        if axis != "before" or axis not in named
        if typed.poles[axis] - named.get(axis, _implied(axis, typed, together))
        if axis in named or len(typed.poles[axis]) == 1
    }


def _other_doer(typed, together):
    """Return whether somebody else is said to do it."""
    if typed.doer == "pilot":
        return bool(together.doers)
    called = opposites.CALLED.get(typed.doer, frozenset()) | {typed.doer}
    return bool(typed.doer) and not called & together.every


def _mixed(typed, wording):
    """Return whether one clause takes words from two: "short: dump it" for "surplus: dump it; short: say so"."""
    several = wording.clauses
    own = [clause.difference(*several[:at], *several[at + 1 :]) for at, clause in enumerate(several)]
    return len(typed.clauses) > 1 and any(sum(bool(said & clause) for clause in own) > 1 for said in typed.clauses)


def replaced(typed, wording, together, weights):
    """Return whether a telling word stands where the wording has another: "near the nose" for "near the wing tip"."""
    if _other_quality(typed, together):
        return True
    other = [
        word
        for word in set(typed.words) - together.words
        if weight_of(word) >= FULL_WEIGHT and (word in weights or not is_harmless(word))
    ]
    lacking = [word for word in set(wording.words) - set(typed.words) if weight_of(word) >= FULL_WEIGHT]
    return bool(other and lacking)


def _implied(axis, typed, together):
    """Return the ends of an axis that go without saying; rates of the trade are mostly rates of descent."""
    if axis == "in" and "clear" in typed.words:
        return {"-"}
    if axis in ("climb", "up") and "fpm" in together.every:
        return {"-"}
    return opposites.IMPLIED.get(axis, set())


def _other_quality(typed, together):
    """Return whether a quality tells another thing of the kind: "a normal profile" for the bingo profile."""
    other = any(is_end(word) and word[:-1] in opposites.QUALITIES for word in set(typed.words) - together.every)
    return other and any(weight_of(word) >= FULL_WEIGHT for word in set(together.main) - set(typed.words))
