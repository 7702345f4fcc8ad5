"""Whether a file can be written, found out before anything is asked."""

from pathlib import Path

from trainer.errors import StorageError


def check(path: Path) -> None:
    """Raise ``StorageError`` unless ``path`` can be written; nothing is left behind, and nothing is changed."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        there = path.exists()
        with path.open("ab"):
            pass
        if not there:
            path.unlink()
    except OSError as error:
        raise StorageError(
            f"{path} can't be written: {error.strerror or error}", hint="choose another file"
        ) from None  # fmt: skip
