"""A file that a person asked for, written whole or not at all."""

import contextlib
import os
import tempfile
from pathlib import Path

from trainer.errors import StorageError


def write_whole(path: Path | str, data: bytes | str, *, hint: str = "choose another file") -> Path:
    """Write ``data`` (a text as UTF-8, its line ends as they are) as the file ``path``; return the path.

    What was there stays until the new file is whole.  The part lies beside it under a name that nobody can have taken
    before.  Raises ``StorageError`` with ``hint`` where it can't be written.
    """
    path = Path(path)
    part = None
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        data = data.encode("utf-8") if isinstance(data, str) else data
        if path.exists() and not path.is_file():
            path.write_bytes(data)  # a device or a pipe is written to; a file in its place would be a surprise
            return path
        handle, part = tempfile.mkstemp(prefix=f".{path.name[:40]}.", suffix=".part", dir=path.parent)
        with open(handle, "wb") as file:
            file.write(data)
        os.replace(part, path)
    except (OSError, ValueError) as error:
        if part is not None:
            with contextlib.suppress(OSError):
                os.unlink(part)
        why = getattr(error, "strerror", None) or error
        raise StorageError(f"{path} can't be written: {why}", hint=hint) from None
    return path
