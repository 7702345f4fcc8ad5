"""Makes the index of the shipped decks when a wheel is built: an installed trainer need not read them once more."""

import sys
from pathlib import Path

from hatchling.builders.hooks.plugin.interface import BuildHookInterface


class WheelIndex(BuildHookInterface):
    """Writes decks/.index, which goes into the wheel with the decks; without numpy the first start makes it."""

    def initialize(self, version, build_data):
        """Make the index before the files of the wheel are collected."""
        if version != "standard":
            return  # an editable install reads the decks of the checkout, which makes its own
        sys.path.insert(0, self.root)
        try:
            from trainer.decks import index, library
        except ImportError:
            return
        (Path(self.root) / "decks" / index.NAME).unlink(missing_ok=True)
        library.load(portable=True)
