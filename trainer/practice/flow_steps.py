"""Which steps of a flow went wrong lately, and which went right."""

from trainer.drills.recitation import known_steps, weak_steps
from trainer.store.store import Store

RECENT = 12  # answers to a flow that tell which of its steps are weak


def lately(drill_id: str, store: Store) -> dict[str, tuple[str, ...]]:
    """Return {"weak": ids of steps, the weakest first, "known": ids of those right} of the flow ``drill_id``."""
    recent = store.reviews(drill=drill_id, newest_first=True)
    parts = [review.parts for _, review in zip(range(RECENT), recent, strict=False)]
    return {"weak": weak_steps(parts), "known": known_steps(parts)}
