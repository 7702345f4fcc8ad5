"""What a person asked for: how long, over which drills, and in which order new ones are met."""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from trainer.errors import UsageError
from trainer.frozen import frozen
from trainer.model import AREAS, Outline
from trainer.practice import curriculum

if TYPE_CHECKING:  # reading stages takes time that the first question has not
    from trainer.practice.stage import Syllabus


@frozen
class Wish:
    """What the person asked for: how long, and over which drills.

    ``files`` of ``decks`` stand instead of all other decks; ``areas``, ``deck_names``, ``drills`` (ids) and ``case``
    (1 to 3, 0 for any) narrow down what is asked.
    """

    minutes: float = 5.0
    questions: int | None = None
    areas: tuple[str, ...] = ()
    decks: tuple[Any, ...] = ()
    deck_names: tuple[str, ...] = ()
    drills: tuple[str, ...] = ()
    case: int = 0
    seed: str | None = None
    mode: str = "practice"
    find_out: bool = False  # a series over the chosen stage that finds out what is known already

    @property
    def narrowed(self) -> bool:
        """Return whether only some drills were asked for."""
        return bool(self.areas or self.decks or self.deck_names or self.drills or self.case)

    @property
    def plain(self) -> bool:
        """Return True for an ordinary day's session, which may start with the question kept for it."""
        return not (self.narrowed or self.seed or self.find_out) and self.mode == "practice"


def wanted(wish: Wish, drills: Mapping[str, Outline]) -> dict[str, Outline]:
    """Return those of ``drills`` that ``wish`` is about, by id.

    Raises ``UsageError`` for an area that does not exist and where nothing is left.
    """
    unknown = [area for area in wish.areas if area not in AREAS]
    if unknown:
        raise UsageError(f"{unknown[0]!r} is not an area", hint=f"areas are {', '.join(AREAS)}")
    found = {name: drill for name, drill in drills.items() if _is_meant(wish, drill)}
    if not found:
        raise UsageError("no drill matches", hint="`trainer deck list` shows decks and areas")
    return found


def _is_meant(wish: Wish, drill: Outline) -> bool:
    return (
        (not wish.areas or drill.area in wish.areas)
        and (not wish.deck_names or drill.deck in wish.deck_names)
        and (not wish.drills or drill.id in wish.drills)
        and (not wish.case or case_of(drill) in (0, wish.case))
    )


def case_of(drill: Outline) -> int:
    """Return the Case that ``drill`` is bound to by its phase ("departure-2"), 0 for none.

    >>> from types import SimpleNamespace
    >>> case_of(SimpleNamespace(phase="recovery-3")), case_of(SimpleNamespace(phase="marshal"))
    (3, 0)
    """
    number = drill.phase.rpartition("-")[2]
    return int(number) if number in ("1", "2", "3") else 0


def in_order(
    wish: Wish, syllabus: "Syllabus", drills: Mapping[str, Outline], spoken_for: frozenset[str] = frozenset()
) -> tuple[str, ...]:
    """Return the ids of ``drills`` that may be met for the first time, in their order.

    On an ordinary day that is what the chosen stage says, of its core those ``spoken_for`` last.  Where only some
    drills were asked for, those that stand in no stage ahead come after those that do; what is only for reference
    comes when nothing else was asked for.
    """
    members = syllabus.members()
    if wish.find_out:
        return tuple(name for name in members.core or members.all if name in drills)
    staged = [name for name in syllabus.order(last=spoken_for) if name in drills]
    if not wish.narrowed:
        return tuple(staged)
    asked_by_name = wish.drills or wish.deck_names or wish.decks
    others = [name for name in drills if asked_by_name or not staged or name not in syllabus.reference]
    return tuple(dict.fromkeys((*staged, *curriculum.order([drills[name] for name in others]))))


def resting(wish: Wish, syllabus: "Syllabus") -> frozenset[str]:
    """Return the drills that are not asked even if they were met: on ordinary days what is only for reference."""
    if wish.narrowed or syllabus.chosen is None:
        return frozenset()
    return syllabus.reference - set(syllabus.members().all)
