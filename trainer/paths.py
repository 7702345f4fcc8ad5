"""Where things lie: the user's data, the user's own decks, and the shipped decks."""

import os
import sys
from pathlib import Path

from trainer.errors import UsageError

PACKAGE = Path(__file__).resolve().parent
DEEPEST = 200  # folders in a path; making deeper ones ends in an error of Python's own


def default_home(environ=os.environ, platform=sys.platform):
    """Return the folder that holds the user's data when neither ``--home`` nor ``TRAINER_HOME`` is given.

    Windows: the local (never synced) application data; macOS: Application Support; elsewhere the XDG
    data folder (XDG Base Directory Specification 0.8).
    """
    if environ.get("TRAINER_HOME"):
        return expanded(environ["TRAINER_HOME"])
    if platform == "win32":
        base = environ.get("LOCALAPPDATA")
        return Path(base) / "trainer" if base else _own_folder() / "AppData" / "Local" / "trainer"
    if platform == "darwin":
        return _own_folder() / "Library" / "Application Support" / "trainer"
    base = environ.get("XDG_DATA_HOME", "")
    require_shallow(base)
    # The specification tells readers to ignore a relative XDG_DATA_HOME.
    return Path(base) / "trainer" if base.startswith("/") else _own_folder() / ".local" / "share" / "trainer"


def expanded(text):
    """Return the path in ``text`` with ``~`` as the user's own folder.

    Raises ``UsageError`` where nobody knows that folder, or where it lies too deep.
    """
    require_shallow(text)
    try:
        return Path(text).expanduser()
    except RuntimeError:
        raise UsageError(f"nobody knows which folder {text!r} is", hint="write it without ~") from None


def require_shallow(text):
    """Raise ``UsageError`` where a path in ``text`` leads through more than ``DEEPEST`` folders."""
    if text.replace("\\", "/").count("/") > DEEPEST:
        raise UsageError(f"{text[:40]} … leads through too many folders", hint=f"name one at most {DEEPEST} deep")


def _own_folder():
    try:
        return Path.home()
    except RuntimeError:
        raise UsageError(
            "it is not known where your data lie", hint="name their folder with --home, or set TRAINER_HOME"
        ) from None


def database(home):
    """Return the path of the database inside ``home``."""
    return Path(home) / "reviews.db"


def own_decks(home):
    """Return the folder for the user's own decks, airframes and ships."""
    return Path(home) / "decks"


def shipped_decks():
    """Return the folder of the shipped decks: inside an installed package, or beside it in a checkout."""
    installed = PACKAGE / "shipped"
    return installed if installed.is_dir() else PACKAGE.parent / "decks"
