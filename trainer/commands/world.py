"""What every command is handed: the user's folder, the clock, the files that the user chose."""

import contextlib

from trainer import paths
from trainer.errors import StorageError, UsageError
from trainer.store import cold_read
from trainer.terminal.complaint import complain

FOLDERS = ("airframe", "ship")
CHOSEN = "chosen files"  # the setting that names the airframe and the ship


class World:
    """The user's ``home``, the ``clock``, and whether to keep to ``plain`` lines."""

    def __init__(self, *, home, clock, plain):
        self.home, self.clock, self.plain = home, clock, plain

    def chosen(self):
        """Return {"airframe": name, "ship": name} as far as the user chose them."""
        chosen = cold_read.setting(self.home, CHOSEN)
        chosen = chosen if isinstance(chosen, dict) else {}
        return {kind: name for kind, name in chosen.items() if kind in FOLDERS and isinstance(name, str)}

    def signature(self, files=()):
        """Return the text that changes when a deck or data file changes; nothing is parsed."""
        from trainer.decks.files import signature

        return signature(self.home, files=files, **self.chosen())

    def store(self, *, create=True):
        """Return the open ``Store``, which tells a terminal how far long work has come."""
        from trainer.store.store import Store
        from trainer.terminal.complaint import complain
        from trainer.terminal.progress import Progress

        store = Store.open(self.home, clock=self.clock, create=create, progress=Progress, tell=complain)
        if create:
            from trainer.commands import copies

            copies.take_in(store)
            with contextlib.suppress(OSError):  # a folder that is there already asks for files of one's own
                paths.own_decks(self.home).mkdir(exist_ok=True)
        return store

    def store_to_read(self):
        """Return the open ``Store`` to read from; beliefs that another memory made are worked out once, and kept."""
        from trainer.practice import knowledge

        store = self.store(create=False)
        if not store.outdated(knowledge.model()):
            return store
        store.close()
        # Where nothing can be written they are worked out again each time, as before.
        with contextlib.suppress(StorageError), self.store() as writable:
            knowledge.known(writable)
        return self.store(create=False)

    def library(self, files=(), *, tell=complain, **chosen):
        """Return the ``Library`` of the shipped and the user's own decks, or of ``files`` alone.

        ``chosen`` ("airframe", "ship") overrides the user's choice for once.  ``tell`` is called with a line for
        each file that could not be read, or not in full: the others are there all the same.
        """
        from trainer.decks import library

        chosen = {name: value for name, value in chosen.items() if value}
        try:
            shelf = library.load(self.home, files=files, **{**self.chosen(), **chosen})
        except UsageError as error:  # what was chosen once may have gone since
            shelf = library.load(self.home, files=files, **chosen)
            tell(f"{error}; the first there is stands in – `trainer deck use` shows which")
        for line in shelf.told:
            tell(line)
        return shelf
