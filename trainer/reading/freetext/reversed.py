"""Whether a text turns a wording round: another end of an axis, another number, another order, a negation."""

from trainer.reading.freetext.meaning import ends_by_axis, unknown_numbers, weight_of, with_kin
from trainer.reading.language import opposites

KIND_OF_UNIT = {"fpm": "ft", "dme": "nm"}


def opposed(typed, wording, together):
    """Return whether ``typed`` turns ``wording`` round: other end, other number, other colour, a negation."""
    if typed.denials % 2 != wording.denials % 2 or bool(typed.denials) != bool(wording.denials):
        return True
    shared = set(typed.words) & set(wording.words)
    if typed.first_denied != wording.first_denied and any(
        (word in typed.denied) != (word in wording.denied) for word in shared & (typed.denied | wording.denied)
    ):
        return True
    if not typed.denials and together.denied & set(typed.words) - typed.denied and together.words != together.denied:
        return True  # it affirms what the wordings only deny: "brakes good" for "no brakes"
    if _loosely_opposed(typed, together) or _other_end(typed, together) or axes_against(typed, wording):
        return True
    if _other_number(typed, together):
        return True
    if any(not typed.counted.get(noun, numbers) & numbers for noun, numbers in wording.counted.items()):
        return True
    return any(_excluded(kind, typed, together) for kind in opposites.EXCLUSIVE)


def certainly(typed, wording, together):
    """Return whether what turns it round is a number, a negation, or an end of an axis named in earnest."""
    if bool(typed.denials) != bool(wording.denials) or _other_number(typed, together):
        return True
    return bool(axes_against(typed, wording) & (typed.strong | wording.strong))


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


def axes_against(typed, wording):
    """Return the axes on which both name other ends, other ends of the same things, or another order."""
    order = frozenset(("before",)) if _turned_order(typed, wording) else frozenset()
    loose, other = ends_by_axis(typed.loose), ends_by_axis(wording.loose)
    order |= {axis for axis in loose if axis in other and not loose[axis] & other[axis]}
    return order | frozenset(
        axis
        for axis, ends in wording.poles.items()
        if axis != "before" and axis in typed.poles and _ends_differ(axis, typed, wording, ends)
    )


def _loosely_opposed(typed, together):
    """Return whether one says on, in and the other off, out – be it as a mere preposition."""
    meant = ends_by_axis((*together.loose, *together.poles))
    said = ends_by_axis((*typed.loose, *((axis, end) for axis, ends in typed.poles.items() for end in ends)))
    loose = {axis for axis, _ in typed.loose | together.loose}
    return any(axis in said and axis in meant and not said[axis] & meant[axis] for axis in loose)


def _ends_differ(axis, typed, wording, ends):
    if not ends & typed.poles[axis]:
        return True
    if len(ends) == 1 and len(typed.poles[axis]) == 1:
        return False
    if len(ends) > 1 and any(
        typed.words.count(axis + end) > wording.words.count(axis + end) > 0 for end in typed.poles[axis]
    ):
        return True  # "plus lead inbound, minus lead inbound"
    said, meant = typed.bound.get(axis, {}), wording.bound.get(axis, {})
    return any(said.get(noun, end) != end for noun, end in meant.items())


def _other_end(typed, together):
    """Return whether an axis is named at none of the ends at which any wording names it."""
    meant = with_kin(ends_by_axis(together.poles))
    return any(axis in meant and not meant[axis] & ends for axis, ends in typed.poles.items() if axis != "before")


def _excluded(kind, typed, together):
    """Return whether both name one of a ``kind`` (colours, quarters) and not the same."""
    said, meant = kind & set(typed.words), kind & together.every
    return bool(said and meant and not said & meant)


def _other_number(typed, together):
    """Return whether a number stands in place of another one, or is meant in another unit."""
    if together.numbers and unknown_numbers(typed, together):
        return True
    units = {}
    for number, unit in together.measured:
        units.setdefault(number, set()).add(KIND_OF_UNIT.get(unit, unit))
    kinds = {KIND_OF_UNIT.get(unit, unit) for _, unit in together.measured}
    for number, unit in typed.measured:
        kind = KIND_OF_UNIT.get(unit, unit)
        ranged = any(low <= number <= high for low, high in together.ranges)
        if kind not in units.get(number, () if kind in kinds and not ranged else {kind}):
            return True
    return False
