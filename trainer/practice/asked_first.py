"""What the next sessions ask first: drills that were missed in a rehearsal or in the air, each with its reason.

One list in the store's settings.  It is added to by the rehearsal and the debrief, read by practice, and a drill
leaves it when it was asked.
"""

from collections.abc import Iterable, Mapping

from trainer.store.store import Store

SETTING = "asked first"
MOST = 60  # more would crowd out everything else for a week


def add(store: Store, missed: Mapping[str, str]) -> None:
    """Put the drills ``missed`` ({id: reason, "missed in the rehearsal of 30 November"}) before all others.

    The latest come first; a drill that stands there already moves up.  Beyond ``MOST`` the oldest are dropped.
    """
    if not missed:
        return
    kept = {drill_id: reason for drill_id, reason in listed(store).items() if drill_id not in missed}
    _keep(store, dict(list({**missed, **kept}.items())[:MOST]))
    store.set_opening(None)  # the question kept for the next session would come before them


def listed(store: Store) -> dict[str, str]:
    """Return {drill id: reason} in the order in which they are to be asked; a list that is damaged is empty."""
    return dict(store.setting(SETTING) or [])


def asked(store: Store, drill_ids: Iterable[str]) -> None:
    """Take the drills off the list that were asked."""
    before, gone = listed(store), set(drill_ids)
    left = {drill_id: reason for drill_id, reason in before.items() if drill_id not in gone}
    if left != before:
        _keep(store, left)


def _keep(store: Store, reasons: Mapping[str, str]) -> None:
    store.set_setting(SETTING, [list(pair) for pair in reasons.items()])  # JSON objects may lose their order
