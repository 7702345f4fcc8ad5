"""A deck, and what reading its file gave."""

from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path

from trainer.decks.fault import Fault
from trainer.frozen import frozen
from trainer.model import Drill, Outline


@frozen
class Deck:
    """A deck: ``hash`` is the SHA-256 of the file's bytes; ``invented`` the label shown with solutions."""

    name: str
    title: str
    area: str
    path: Path
    hash: str
    invented: str = ""


@dataclass(kw_only=True)
class DeckFile:
    """What a file gave.

    ``drills`` are those without faults; ``places`` and ``after`` hold every drill, the faulty ones too.  ``tables``
    are the tables that the text was parsed into.
    """

    path: Path
    text: str = ""
    tables: dict = field(default_factory=dict)
    deck: Deck | None = None
    drills: list = field(default_factory=list)
    places: dict = field(default_factory=dict)
    after: dict = field(default_factory=dict)
    references: list = field(default_factory=list)
    faults: list = field(default_factory=list)

    @cached_property
    def lines(self):
        """Return the map from places to lines; made only when something is to be reported."""
        from trainer.decks.lines import line_map

        return line_map(self.text)

    def line_of(self, place):
        """Return the line of ``place``."""
        return self.lines.line(place)

    def fault(self, place, drill, message):
        """Return a fault at ``place`` of this file."""
        return Fault(file=str(self.path), line=self.line_of(place), drill=drill, message=message)

    def unfold(self) -> "DeckFile":
        """Return this, ready to be checked with other decks."""
        return self

    @cached_property
    def outlines(self) -> dict[str, Outline]:
        """Return the outlines of the drills without faults, by id."""
        return {drill.id: Outline.of(drill) for drill in self.drills}

    def build(self, drill_id: str) -> Drill:
        """Return the drill ``drill_id``, one of ``outlines``."""
        return self._by_id[drill_id]

    @cached_property
    def _by_id(self):
        return {drill.id: drill for drill in self.drills}
