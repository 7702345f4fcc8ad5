"""A sortie that was left: kept in the store, so that it can be taken up again where it was; its clock stands."""

import hashlib
from dataclasses import asdict
from pathlib import Path

from trainer.frozen import frozen
from trainer.practice.night.prepare import Flown, Order
from trainer.practice.night.sortie.log import Event
from trainer.store import cold_read
from trainer.store.shapes import fits
from trainer.store.store import Store

SETTING = "left sortie"
SHAPE = {
    "order": dict[str, object], "standard": str, "answers": list[dict], "seconds": float, "questions": int,
    "digest": str,
}  # fmt: skip


@frozen
class Given:
    """One answer given before: the text, None where it was given up, and the seconds that it took."""

    typed: str | None
    seconds: float | None
    asked_back: str = ""


@frozen
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
    if store.setting(SETTING):
        store.set_setting(SETTING, {})


def last(home: Path) -> LeftSortie | None:
    """Return the sortie that was left, None where there is none or it is not as it was written."""
    found = cold_read.setting(home, SETTING)
    if not isinstance(found, dict) or not all(fits(found.get(name), shape) for name, shape in SHAPE.items()):
        return None
    try:
        order, answers = Order(**found["order"]), tuple(Given(**answer) for answer in found["answers"])
    except TypeError:
        return None
    if not (_sound_order(order) and all(map(_sound_answer, answers))):
        return None
    return LeftSortie(**{**found, "order": order, "answers": answers})


def _sound_order(order):
    return (
        all(type(text) is str for text in (order.seed, order.first, order.last, order.day))
        and order.case in (None, 1, 2, 3)
        and (order.given is None or fits(order.given, dict[str, float]))
        and fits(order.weakness, dict[str, float])
    )


def _sound_answer(answer):
    typed = answer.typed is None or type(answer.typed) is str
    return typed and (answer.seconds is None or fits(answer.seconds, float)) and type(answer.asked_back) is str
