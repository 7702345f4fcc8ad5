"""The automatic copy of the data at the end of a session."""

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
