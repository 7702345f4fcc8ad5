"""Finding out quickly what is known already of a stage: asked is what tells most, and one answer speaks for its rule.

Of the drills that practise one rule (one quantity of the engine) the hardest is asked first; who is right at once
knows the easier ones, and they go to the end of the stage: asked last, once, like everything else.
"""

from collections.abc import Iterable, Mapping

from trainer.model import Outline
from trainer.practice import knowledge
from trainer.practice.choosing import Choosing
from trainer.store.store import Store

SPOKEN_FOR = "spoken for"  # the setting: ids of drills that an answer to a harder one spoke for
SECONDS = {"recall": 6.0, "computed": 14.0, "flow": 16.0}  # that a question to somebody who knows it takes, by kind
GUESSED = 0.26  # whose answer may be hit by a guess as often as that speaks for nothing but itself


def rule_of(outline: Outline) -> str:
    """Return what a drill practises: its quantity, else itself."""
    return outline.quantity or outline.id


def in_order(ids: Iterable[str], outlines: Mapping[str, Outline]) -> list[str]:
    """Return ``ids`` with the hardest of every rule first, those in front of which a second tells most.

    That is the more drills share a rule the more, and the quicker it is answered.  The easier drills of a rule come
    behind, for whoever misses the hardest.
    """
    by_rule: dict[str, list[str]] = {}
    for name in ids:
        by_rule.setdefault(rule_of(outlines[name]), []).append(name)
    rules = [sorted(names, key=lambda name: -outlines[name].level) for names in by_rule.values()]
    rules.sort(key=lambda names: (-len(names) / SECONDS[outlines[names[0]].kind], outlines[names[0]].level))
    return [names[0] for names in rules] + [name for names in rules for name in names[1:]]


def speaks_for(outline: Outline, ids: Iterable[str], outlines: Mapping[str, Outline]) -> list[str]:
    """Return those of ``ids`` for which a right answer to ``outline`` speaks: no harder, of the same rule."""
    if outline.choice_count and 1.0 / outline.choice_count >= GUESSED:
        return []
    rule = rule_of(outline)
    return [
        name for name in ids
        if name != outline.id and rule_of(outlines[name]) == rule and outlines[name].level <= outline.level
    ]  # fmt: skip


def spoken_for(store: Store) -> frozenset[str]:
    """Return the ids that an answer has spoken for."""
    found = store.setting(SPOKEN_FOR)
    return frozenset(name for name in found if isinstance(name, str)) if isinstance(found, list) else frozenset()


def speak_for(store: Store, names: Iterable[str]) -> None:
    """Note that an answer has spoken for ``names``."""
    store.set_setting(SPOKEN_FOR, sorted(spoken_for(store) | set(names)))


def told_of(store: Store, ids: Iterable[str]) -> int:
    """Return of how many of ``ids`` it is told whether they are known: asked, or spoken for."""
    asked = knowledge.known(store)[0].keys()
    return len(set(ids) & (asked | spoken_for(store)))


class FindingOut(Choosing):
    """The choice of a series that finds out: each drill of ``order`` once, but those that were spoken for."""

    def __init__(self, drills, store, *, order, **how):
        self._core = tuple(order)
        super().__init__(drills, store, order=in_order(order, drills), **how)
        self._done_with = set(self._met)

    def pick(self):
        """Return the next drill of the series, None at its end."""
        following = (one for one in self._new if one not in self._done_with | self._flagged)
        drill_id = next(following, None)
        if drill_id is not None and not self.beliefs.has(drill_id):
            self._ahead = len(self._new)
            self._plan_anew(self._plan.prices)
        return drill_id

    def answered(self, drill_id, *, right):
        """Note the answer; a right one speaks for the easier drills of its rule."""
        super().answered(drill_id, right=right)
        self._done_with.add(drill_id)
        if right:
            names = speaks_for(self._drills[drill_id], self._core, self._drills)
            self._done_with.update(names)
            speak_for(self._store, names)
