"""Where things lie: the user's data, the user's own decks, and the shipped decks."""

import os
import sys
from pathlib import Path

PACKAGE = Path(__file__).resolve().parent


def default_home(environ=os.environ, platform=sys.platform):
    """Return the folder that holds the user's data when neither ``--home`` nor ``TRAINER_HOME`` is given.

    Windows: the local (never synced) application data; macOS: Application Support; elsewhere the XDG
    data folder (XDG Base Directory Specification 0.8).
    """
    if environ.get("TRAINER_HOME"):
        return Path(environ["TRAINER_HOME"]).expanduser()
    if platform == "win32":
        base = environ.get("LOCALAPPDATA")
        return Path(base) / "trainer" if base else Path.home() / "AppData" / "Local" / "trainer"
    if platform == "darwin":
        return Path.home() / "Library" / "Application Support" / "trainer"
    base = environ.get("XDG_DATA_HOME", "")
    # The specification tells readers to ignore a relative XDG_DATA_HOME.
    return Path(base) / "trainer" if base.startswith("/") else Path.home() / ".local" / "share" / "trainer"


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
