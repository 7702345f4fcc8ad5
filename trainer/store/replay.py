"""Computes the states again from the reviews that they came from."""

from trainer.store import history, rows
from trainer.store.records import Rebuilt


class Replay:
    """The states after the reviews fed so far.  ``last`` is the review that last changed each item."""

    def __init__(self, update):
        self.update = update
        self.states = {}
        self.last = {}
        self.learner = None

    def feed(self, review_id, items, review):
        """Let one review change the states of its ``items``."""
        old = {item: self.states.get(item) for item in items}
        states, self.learner = self.update(old, self.learner, review)
        check_states(items, states, self.learner)
        self.states.update(states)
        self.last.update(dict.fromkeys(items, review_id))

    def rebuilt(self):
        """Return what stands now."""
        return Rebuilt(states=dict(self.states), learner=self.learner)


def check_states(items, states, learner):
    """Raise TypeError unless an update gave bytes for exactly ``items`` and for the learner."""
    if set(states) != set(items):
        raise TypeError(f"update gave states of {sorted(states)}, not of {sorted(items)}")
    if not all(isinstance(state, bytes) for state in (*states.values(), learner)):
        raise TypeError("update must give states as bytes")


def replay(read, update):
    """Return the ``Replay`` of all reviews that were not withdrawn, in the order of their numbers."""
    running = Replay(update)
    for piece in history.pieces(read, rows.COLUMNS):
        for review_id, items, *row in piece:
            running.feed(review_id, rows.items_of(items), rows.from_row(row))
    return running
