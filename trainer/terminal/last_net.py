"""The last net: what nobody foresaw ends in one line too, and a file holds what whoever mends it will need."""

import os
import platform
import sys
import tempfile
import traceback

from trainer import __version__
from trainer.terminal.complaint import complain

PREFIX = "trainer-fault-"  # of the file's name


def caught(error: BaseException) -> int:
    """Say that ``error`` was not foreseen and where its details lie; return the exit code."""
    try:
        kept = _kept(error)
    except (OSError, ValueError):
        complain(f"a mistake of this program ({type(error).__name__}), and its details can't be written")
    else:
        complain(
            f"a mistake of this program ({type(error).__name__}) – what was stored before is safe; the details,"
            f" which may name your files, are in {kept}"
        )
    return 1


def _kept(error):
    # mkstemp makes the file anew, for its owner alone, and follows no link.
    handle, path = tempfile.mkstemp(prefix=PREFIX, suffix=".txt")
    with os.fdopen(handle, "w", encoding="utf-8", errors="backslashreplace") as file:
        file.write(f"trainer {__version__}, Python {platform.python_version()}, {platform.platform()}\n")
        file.write(f"arguments: {sys.argv[1:]!r}\n\n")
        file.writelines(traceback.format_exception(error))
    return path
