"""What stands at the head of a card or a sheet: whose it is, when it was issued, for which event, from which files."""

from datetime import timedelta, timezone

from trainer.clock import StillClock, SystemClock
from trainer.decks.library import Library
from trainer.frozen import frozen
from trainer.practice import events
from trainer.practice.evidence import custody
from trainer.store.store import Store

UNNAMED = "__________"  # to be written in by hand


@frozen
class Heading:
    """Texts; ``event`` is "" where none is set."""

    pilot: str
    issued: str
    event: str
    aircraft: str
    ship: str

    @property
    def pairs(self) -> tuple[tuple[str, str], ...]:
        """Return (what, text) of everything that is known."""
        named = (
            ("pilot", self.pilot), ("issued", self.issued), ("event", self.event), ("aircraft", self.aircraft),
            ("ship", self.ship),
        )  # fmt: skip
        return tuple((what, text) for what, text in named if text)


def heading(library: Library, clock: SystemClock | StillClock, store: Store | None) -> Heading:
    """Return the ``Heading`` of what is made now; without a ``store`` the pilot writes their name in."""
    event = events.upcoming(store, clock) if store else None
    return Heading(
        pilot=_pilot(store) if store else UNNAMED,
        issued=f"{clock.local():%Y-%m-%d %H:%M}",
        event=_told(event) if event else "",
        aircraft=library.notes.get("airframe.title", ""),
        ship=library.notes.get("ship.title", ""),
    )  # fmt: skip


def _pilot(store):
    return str(store.setting(custody.CALL_SIGN, "") or store.setting(custody.NAME, "") or UNNAMED)


def _told(event):
    there = event.at.astimezone(timezone(timedelta(minutes=event.offset_min)))
    return f"{event.name}, {there:%Y-%m-%d %H:%M}"
