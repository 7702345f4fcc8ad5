"""A sortie that was left: kept in the store, so that it can be taken up again where it was; its clock stands."""

import hashlib
from dataclasses import asdict, dataclass
from pathlib import Path

from trainer.practice.night.prepare import Flown, Order
from trainer.practice.night.sortie.log import Event
from trainer.store import cold_read
from trainer.store.store import Store

SETTING = "left sortie"


@dataclass(frozen=True, kw_only=True)
class Given:
    """One answer given before: the text, None where it was given up, and the seconds that it took."""

    typed: str | None
    seconds: float | None
    asked_back: str = ""


@dataclass(frozen=True, kw_only=True)
class LeftSortie:
    """``order`` makes the events again, ``standard`` names the one it is judged by, ``seconds`` is what has passed.

    ``questions`` and ``digest`` are those of the events: where decks were changed since, it can't be taken up.
    """

    order: Order
    standard: str
    answers: tuple[Given, ...]
    seconds: float
    questions: int
    digest: str

    def fits(self, flown: Flown) -> bool:
        """Return whether ``flown`` asks what was asked then."""
        return self.digest == digest_of(flown.events)


def digest_of(events: tuple[Event, ...]) -> str:
    """Return a digest of everything that is asked."""
    asked = "\n".join(f"{event.question.drill_id} {event.question.text}" for event in events if event.question)
    return hashlib.sha256(asked.encode("utf-8")).hexdigest()


def keep(store: Store, left: LeftSortie) -> None:
    """Keep ``left`` in place of any other."""
    store.set_setting(SETTING, asdict(left))


def forget(store: Store) -> None:
    """Keep none."""
    if store.setting(SETTING) is not None:
        store.set_setting(SETTING, None)


def last(home: Path) -> LeftSortie | None:
    """Return the sortie that was left, None where there is none or it is not as it was written."""
    found = cold_read.setting(home, SETTING)
    try:
        return LeftSortie(
            order=Order(**found["order"]), standard=str(found["standard"]),
            answers=tuple(Given(**answer) for answer in found["answers"]), seconds=float(found["seconds"]),
            questions=int(found["questions"]), digest=str(found["digest"]),
        )  # fmt: skip
    except (TypeError, KeyError, ValueError):
        return None
