"""A fault in a deck or a data file, addressed for a person: file, line, drill, what is allowed."""

from dataclasses import replace
from functools import cache

from trainer.decks.words import printable
from trainer.frozen import frozen

MOST_FAULTS = 200


@frozen
class Fault:
    """One fault.  ``line`` counts from 1, 0 where the whole file is meant; ``drill`` may be ""."""

    file: str
    line: int
    drill: str
    message: str

    def __str__(self):
        where = f"{printable(self.file)}:{self.line}" if self.line else printable(self.file)
        drill = f'drill "{printable(self.drill)}": ' if self.drill else ""
        return f"{where}: {drill}{self.message}"


def of_syntax(path, parsed):
    """Return the faults of syntax of the file ``path``; ``parsed`` are its ``tables.Parsed``."""
    return [Fault(file=str(path), line=at, drill="", message=message) for at, message in parsed.syntax]


def lines_of(text):
    """Return a function that gives the line of a place in ``text``; the map is made when it is first asked."""

    @cache
    def lines():
        from trainer.decks.lines import line_map

        return line_map(text)

    return lambda place: lines().line(place)


def shortened(faults):
    """Return ``faults`` by line, the last of very many replaced by their number: nobody reads thousands."""
    faults = sorted(faults, key=lambda fault: fault.line)
    if len(faults) <= MOST_FAULTS:
        return faults
    last = faults[MOST_FAULTS - 1]
    more = replace(last, drill="", message=f"and {len(faults) - MOST_FAULTS + 1:,} more faults from here on")
    return [*faults[: MOST_FAULTS - 1], more]


class Findings:
    """Collects the faults of one file by their place in it; lines are looked up only if there are any.

    A place is a tuple of keys and indices, ("computed", 2, "draw", "angels").  ``missing`` marks faults
    that say something is not there: they are dropped where a line near by could not be read at all.
    """

    def __init__(self, file):
        self.file = str(file)
        self.found = []

    def add(self, place, message, drill="", *, missing=False):
        """Note a fault at ``place``."""
        self.found.append((tuple(place), message, drill, missing))

    def faults(self, line_of, unreadable=lambda line: False):
        """Return all faults in the order of the file; ``line_of`` turns a place into a line number."""
        faults = []
        for place, message, drill, missing in self.found:
            line = line_of(place)
            if not (missing and unreadable(line)):
                faults.append(Fault(file=self.file, line=line, drill=drill, message=message))
        return sorted(faults, key=lambda fault: fault.line)
