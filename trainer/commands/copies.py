"""What is copied and taken in of itself: the daily copy, and answers kept beside a database that was taken away."""

import sys

from trainer.errors import StorageError


def keep(world):
    """Copy the data once a day; raise ``StorageError`` that says that the answers themselves are safe."""
    from trainer.store import backup
    from trainer.terminal.progress import Progress

    try:
        backup.daily(world.home, clock=world.clock, progress=Progress)
    except StorageError as error:
        raise StorageError(
            f"your answers are saved, but not today's automatic copy: {error.message}", hint=error.hint
        ) from error


def take_in(store):
    """Take in the answers that a session kept beside when its database was taken away, and say how many."""
    from trainer.store import beside

    if not beside.waiting(store.path.parent):
        return
    from trainer.practice.knowledge import after_review, model

    taken = beside.take_in(store, after_review, model())
    if taken:
        kept = "1 answer kept beside was" if taken == 1 else f"{taken} answers kept beside were"
        print(f"trainer: {kept} taken in", file=sys.stderr)
