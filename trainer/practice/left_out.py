"""What is not asked: drills that the user switched off, flagged questions, and what other kinds of aircraft fly.

A flag lasts until it is lifted; flags themselves are never removed.
"""

from collections.abc import Iterable
from typing import Any

from trainer.errors import UsageError
from trainer.model import WINGS
from trainer.practice import finding
from trainer.store.records import Flag
from trainer.store.store import Store

OFF, LIFTED = "switched off", "lifted flags"  # settings: names of decks and drills; numbers of flags


def ids(store: Store, library: Any) -> frozenset[str]:
    """Return the ids of the drills of ``library`` that are not asked."""
    off, flagged = switched_off(store), {flag.drill_id for flag in flags(store)}
    others = set(WINGS) - {library.notes.get("airframe.wings", "")} if library.notes.get("airframe.wings") else set()
    return frozenset(
        name
        for name, drill in library.outlines.items()
        if name in off or drill.deck in off or name in flagged or others & set(name.split("-"))
    )


def switched_off(store: Store) -> tuple[str, ...]:
    """Return the names of the decks and drills that are switched off."""
    found = store.setting(OFF)
    return tuple(name for name in found if isinstance(name, str)) if isinstance(found, list) else ()


def switch_off(store: Store, names: Iterable[str]) -> None:
    """Ask the decks and drills called ``names`` no more."""
    store.set_setting(OFF, list(dict.fromkeys((*switched_off(store), *names))))
    store.set_opening(None)  # it may be one of them


def switch_on(store: Store, names: Iterable[str]) -> None:
    """Ask the decks and drills called ``names`` again."""
    gone = set(names)
    store.set_setting(OFF, [name for name in switched_off(store) if name not in gone])


def flags(store: Store) -> list[Flag]:
    """Return the flags that were not lifted, the newest first."""
    found = store.setting(LIFTED)
    lifted = {one for one in found if type(one) is int} if isinstance(found, list) else set()
    return [flag for flag in store.flags() if flag.id not in lifted]


def lift(store: Store, drill_ids: Iterable[str]) -> int:
    """Lift every flag of the drills ``drill_ids``; return how many there were."""
    wanted = set(drill_ids)
    gone = [flag.id for flag in flags(store) if flag.drill_id in wanted]
    kept = store.setting(LIFTED)
    store.set_setting(LIFTED, [*(kept if isinstance(kept, list) else ()), *gone])
    return len(gone)


def meant(text: str, library: Any) -> str:
    """Return the name of the deck, or the id of the drill, that ``text`` means: a name, or words of one drill alone.

    Raises ``UsageError`` where it means none, or several.
    """
    name = text.strip().lower().replace(" ", "-").removesuffix(".toml")
    if name in library.decks or name in library.outlines:
        return name
    found = finding.drills([text], library)
    if len(found) == 1:
        return found[0]
    if found:
        raise UsageError(
            f"{text[:60]!r} may be {len(found)} drills", hint=f"`trainer deck find {text[:60]}` lists them"
        )
    raise UsageError(f"there is no deck or drill {text[:60]!r}", hint="`trainer deck find WORDS` looks for one")
