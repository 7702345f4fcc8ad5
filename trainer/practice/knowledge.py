"""Joins drills to memory: which items there are, and how a stored review changes what is believed.

What a review does to a belief depends on the review alone, never on today's decks, so that replaying all
reviews gives the same states after a deck was edited or removed.
"""

import contextlib
import hashlib
from functools import cache

from trainer.errors import StorageError
from trainer.memory.belief import Beliefs, ItemSpec, check, fingerprint, update

SECONDS_PER_DAY = 86_400.0
# A flow is asked in many forms, mostly one step at a time.  An answer is as quick or slow as its own form lets it be:
# fluent seconds by form, our own choice (bare numbers typed for a choice, a line a step in a recitation).
FORM_S = {"next": 8.0, "before": 8.0, "missing": 10.0, "misplaced": 12.0, "order": 18.0}
RECITED_STEP_S = 4.0
# What a plan expects of a flow whose form is not drawn yet: the means over the forms, as often as each is drawn.
FLOW_S, FLOW_LIMIT_SHARE, FLOW_GUESS = 12.0, 0.67, 0.15


def day_of(instant):
    """Return ``instant`` (aware) as float days since 1970-01-01 UTC."""
    return instant.timestamp() / SECONDS_PER_DAY


def specs(drills):
    """Return the ``ItemSpec`` of each drill (or its outline), in the order of the library."""
    return tuple(
        ItemSpec(
            id=drill.id,
            kind=drill.kind,
            steps=drill.step_count,
            guess=1 / drill.choice_count if drill.choice_count > 1 else FLOW_GUESS if drill.kind == "flow" else None,
            design_s=FLOW_S if drill.kind == "flow" else None,
            limit_s=round(drill.limit_s * FLOW_LIMIT_SHARE) if drill.kind == "flow" else drill.limit_s,
            worth=drill.worth,
            area=drill.area,
            group=drill.group,
            after=drill.after,
            deck_order=order,
        )
        for order, drill in enumerate(drills)
    )


def beliefs(drills, store):
    """Return the ``Beliefs`` over ``drills`` with the states that the store holds."""
    return Beliefs(specs(drills), *known(store))


def known(store):
    """Return (states, learner) of ``store``.

    Where they are damaged, or another version of the memory made them, they are computed again from the reviews.
    """
    if store.outdated(model()):
        _copy_first(store)
        return _computed_again(store)
    try:
        states, learner = store.states(), store.learner()
        check(states, learner)
    except (ValueError, TypeError, StorageError):  # damage may have made text of them, or what is no text of a name
        return _computed_again(store)
    return states, learner


def _computed_again(store):
    try:
        rebuilt = store.repair(after_review, model())
    except StorageError:  # a file that can only be read, perhaps; if the reviews are damaged too, this says so
        rebuilt = store.rebuild(after_review)
    return {item: state for item, state in rebuilt.states.items() if state is not None}, rebuilt.learner


def _copy_first(store):
    from trainer.store import backup

    # The reviews themselves are not touched; what keeps a copy from being made is told at the end of the session.
    with contextlib.suppress(StorageError):
        if store.writable:
            backup.daily(store.path.parent, clock=store.clock, progress=store.progress)


@cache
def model():
    """Return the name of the memory model as it is today: what the store keeps beside the states that it made."""
    return hashlib.sha256(f"{fingerprint()} {FORM_S} {RECITED_STEP_S} {FLOW_S}".encode()).hexdigest()[:32]


def after_review(states, learner, review):
    """Return (states, learner) after ``review``: bytes by item, None for an item never met.

    The callback that the store needs to record, to withdraw, to verify and to rebuild.  Raises ``StorageError``
    for a review or a state that makes no sense, as only damage leaves it.
    """
    try:
        spec = ItemSpec(
            id=review.drill_id,
            kind=review.kind,
            guess=review.guess,
            design_s=_usual_s(review),
            limit_s=review.limit_s,
        )
        state, learner = update(
            states[review.drill_id],
            learner,
            spec,
            day=day_of(review.at),
            score=review.score,
            seconds=review.seconds,
        )
    except (ValueError, KeyError) as error:
        raise StorageError(
            f"what is stored of {review.drill_id!r} is damaged ({error})",
            hint="`trainer data verify` tells more, `trainer data salvage` saves all the others",
        ) from error
    return {review.drill_id: state}, learner


def _usual_s(review):
    """Return the seconds that a fluent answer takes in the form of ``review``, None for the usual of its kind."""
    if review.kind != "flow":
        return None
    if review.form == "recite" and isinstance(review.truth, tuple | list):
        return RECITED_STEP_S * max(1, len(review.truth))
    return FORM_S.get(review.form, FLOW_S)


def guess(choices):
    """Return the chance of hitting the answer blindly among ``choices``, None where nothing is offered."""
    return 1 / len(choices) if len(choices) > 1 else None
