"""The last card, kept: what was given for it, so that it can be questioned, flown and printed again."""

from dataclasses import asdict, dataclass, field
from pathlib import Path

from trainer.practice.night.evening.tonight import BY_NAME
from trainer.store import cold_read
from trainer.store.store import Store

SETTING = "last card"


@dataclass(frozen=True, kw_only=True)
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
    if not isinstance(found, dict) or not isinstance(found.get("given"), dict):
        return None
    given = {
        name: float(value) for name, value in found["given"].items()
        if name in BY_NAME and isinstance(value, int | float) and BY_NAME[name].low <= value <= BY_NAME[name].high
    }  # fmt: skip
    files = found.get("files") if isinstance(found.get("files"), dict) else {}
    return KeptCard(
        given=given, day=str(found.get("day", "")), buttons=_texts(found.get("buttons")),
        notes=_texts(found.get("notes")), files={str(key): str(name) for key, name in files.items()},
    )  # fmt: skip


def _texts(found: object) -> tuple[str, ...]:
    return tuple(text for text in found if isinstance(text, str)) if isinstance(found, list) else ()
