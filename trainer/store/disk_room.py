"""Whether an answer could be stored, found out before the first question is asked.

Nothing is opened as a database, so that it costs a cold start next to nothing.
"""

import contextlib
import errno
import os

from trainer.store import faults

ROOM_BYTES = 131_072  # an answer with all that it changes takes a third of it
_NO_ROOM = (errno.ENOSPC, errno.EFBIG, getattr(errno, "EDQUOT", errno.ENOSPC))
_FORBIDDEN = (errno.EACCES, errno.EPERM, errno.EROFS)


def require(path):
    """Raise ``StorageError`` unless ``path`` and its folder can be written and the disk has room for an answer."""
    if path.exists() and not os.access(path, os.W_OK):
        raise faults.unwritable(path)
    try:
        _fill(path.with_name(f"{path.name}.0.part"), bytes(ROOM_BYTES))
    except OSError as error:
        if error.errno in _NO_ROOM:
            raise faults.full(path) from error
        if error.errno in _FORBIDDEN:
            raise faults.unwritable(path) from error
        raise faults.file_error(error, path) from error


def _fill(probe, content):
    """Write ``content`` to the file ``probe`` and take it away again: free bytes are counted differently everywhere."""
    with contextlib.suppress(FileNotFoundError):
        os.unlink(probe)  # of a window that was killed, or a link that somebody put there
    try:
        with open(probe, "xb", buffering=0) as file:
            # A file system may take a part of what is asked for.
            while content:
                content = content[file.write(content) :]
    except FileExistsError:
        return  # another window is finding it out at this moment
    finally:
        with contextlib.suppress(OSError):  # another window may have taken it away, or have it open
            os.unlink(probe)
