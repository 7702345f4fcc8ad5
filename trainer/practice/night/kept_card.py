"""The last card, kept: what was given for it, so that it can be questioned, flown and printed again."""

import datetime
from dataclasses import asdict, field
from pathlib import Path

from trainer.frozen import frozen
from trainer.practice.night.evening.tonight import BY_NAME
from trainer.store import cold_read
from trainer.store.shapes import fits
from trainer.store.store import Store

SETTING = "last card"


@frozen
class KeptCard:
    """``given`` are the values by name; ``day`` is that of the card (YYYY-MM-DD); "" where no other file was named."""

    given: dict[str, float]
    day: str
    buttons: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    files: dict[str, str] = field(default_factory=dict)


def keep(store: Store, card: KeptCard) -> None:
    """Keep ``card`` in place of the last one."""
    store.set_setting(SETTING, asdict(card))


def last(home: Path) -> KeptCard | None:
    """Return the card that was kept last, None where there is none, or none that can be read."""
    found = cold_read.setting(home, SETTING)
    if not isinstance(found, dict) or not fits(found.get("given"), dict[str, float]):
        return None
    given = {
        name: float(value) for name, value in found["given"].items()
        if name in BY_NAME and BY_NAME[name].low <= value <= BY_NAME[name].high
    }  # fmt: skip
    files = found.get("files")
    return KeptCard(
        given=given, day=_day(found.get("day")), buttons=_texts(found.get("buttons")),
        notes=_texts(found.get("notes")), files={} if files is None or not fits(files, dict[str, str]) else dict(files),
    )  # fmt: skip


def _day(found: object) -> str:
    """Return a day as it is written, "" for anything else: then it is today's."""
    try:
        return datetime.date.fromisoformat(found).isoformat() if isinstance(found, str) else ""
    except ValueError:
        return ""


def _texts(found: object) -> tuple[str, ...]:
    return tuple(text for text in found if isinstance(text, str)) if isinstance(found, list) else ()
