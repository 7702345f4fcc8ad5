"""Choosing a stage by what a person types, and taking in a file that somebody handed over."""

import shutil
from pathlib import Path
from typing import Any

from trainer import paths
from trainer.decks import stages
from trainer.errors import DeckError, StorageError, UsageError
from trainer.practice.stage import CHOSEN, Syllabus
from trainer.store.store import Store


def named(syllabus: Syllabus, text: str) -> str:
    """Return the name of the stage that ``text`` means: its name, its beginning, or words of its title.

    Raises ``UsageError`` where it means none, or several.
    """
    wanted = text.strip().lower().replace("_", "-").replace(" ", "-")
    if wanted in syllabus.stages:
        return wanted
    words = [word for word in wanted.split("-") if word]
    found = [
        name for name, one in syllabus.stages.items()
        if words and all(word in f"{name} {one.title}".lower() for word in words)
    ]  # fmt: skip
    begins = [name for name in found if name.startswith(wanted)]
    if len(found) == 1 or len(begins) == 1:
        return (begins or found)[0]
    if found:
        raise UsageError(f"{text[:60]!r} may be {', '.join(sorted(found))}", hint="type one of them")
    require(syllabus)
    raise UsageError(f"there is no stage {text[:60]!r}", hint=f"stages are {', '.join(syllabus.stages)}")


def require(syllabus: Syllabus) -> None:
    """Raise ``UsageError`` where no stage at all could be read."""
    if not syllabus.stages:
        raise UsageError(
            "no stage could be read", hint="`trainer deck check` says why; `trainer` asks any drill meanwhile"
        )


def choose(store: Store, library: Any, home: Path, text: str) -> str:
    """Choose the stage that ``text`` means, a file of which is taken in first; return its name."""
    path = Path(text)
    name = taken_in(path, library, home) if text.endswith(".toml") else named(Syllabus(library, home), text)
    store.set_setting(CHOSEN, name)
    store.set_opening(None)  # it was drawn for the stage that was chosen before
    return name


def taken_in(path: Path, library: Any, home: Path) -> str:
    """Copy the stage file at ``path`` to the user's own and return its name.

    Raises ``DeckError`` with every fault, ``UsageError`` where it would hide a shipped stage.
    """
    one, faults = stages.read(path, drills=library.outlines, decks=library.decks)
    if one is None or faults:
        raise DeckError(faults)
    if one.name in stages.listing():
        raise UsageError(f"{one.name!r} is a shipped stage", hint="give the file and its name another name")
    folder = paths.own_decks(home) / stages.FOLDER
    try:
        folder.mkdir(parents=True, exist_ok=True)
        if (folder / path.name).resolve() != path.resolve():
            shutil.copyfile(path, folder / path.name)
    except OSError as error:
        raise StorageError(
            f"{folder} can't be written ({error.strerror})", hint="make room, or free the folder"
        ) from None
    return one.name
