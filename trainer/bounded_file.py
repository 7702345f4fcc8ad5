"""A file that may come from anybody, read whole up to a limit.

A pipe or a device is refused before it is opened: the one waits for ever, the other never ends.
"""

import os
import stat
from pathlib import Path


class Unfit(Exception):
    """A file that is not read; the message goes on after its name ("is larger than …")."""


class TooLarge(Unfit):
    """A file beyond the limit."""


def read(path: str | os.PathLike, most: int) -> bytes:
    """Return what the file ``path`` holds, at most ``most`` bytes; raises ``Unfit``."""
    path = Path(path)
    try:
        found = path.stat()
        if not stat.S_ISREG(found.st_mode):
            raise Unfit("can't be read: it is a folder" if stat.S_ISDIR(found.st_mode) else "is no ordinary file")
        with path.open("rb") as file:
            data = file.read(most + 1)
    except FileNotFoundError:
        raise Unfit("can't be read: there is no such file") from None
    except (OSError, ValueError) as error:
        raise Unfit(f"can't be read: {getattr(error, 'strerror', None) or error}") from None
    if len(data) > most:
        raise TooLarge(f"is larger than {most:,} bytes")
    return data
