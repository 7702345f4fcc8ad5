"""A table of the user's files as it is shown with the first question that needs it; afterwards it is known by heart."""

from collections.abc import Iterable
from typing import Any

from trainer.engine import display
from trainer.engine.tables import StepTable
from trainer.model import ComputedDrill, Drill

MOST_ROWS = 14  # a longer table is thinned out: it is shown to be learned
ONCE = "The table, this once; from the next time on it is known by heart:"


def tables_of(drill: Drill, library: Any) -> tuple[str, ...]:
    """Return the references ("airframe.trim_steps") of the tables that ``drill`` draws on."""
    if not isinstance(drill, ComputedDrill):
        return ()
    taken = dict.fromkeys(draw.take for draw in drill.draws if draw.take in library.tables)
    formulas = " ".join((drill.formula, *(draw.formula for draw in drill.draws)))
    named = (name for name in library.tables if f'"{name}"' in formulas)
    return tuple(dict.fromkeys((*taken, *named)))


def once(drill: Drill, library: Any, met: Iterable[str]) -> str:
    """Return the table that ``drill`` needs, a row a line, "" where a drill that was ``met`` has shown it already."""
    needed = tables_of(drill, library)
    known = {name for one in _alike(drill, library, met) for name in tables_of(one, library)} if needed else ()
    return "\n".join("\n  ".join((ONCE, *shown(name, library))) for name in needed if name not in known)


def _alike(drill, library, met):
    """Return those of the drills ``met`` that may use a table of ``drill``: of its quantity, else of its deck."""
    mark = "quantity" if drill.quantity else "deck"
    outlines = (library.outlines[one] for one in met if one in library.outlines)
    return [library.drills[one.id] for one in outlines if getattr(one, mark) == getattr(drill, mark)]


def shown(reference: str, library: Any) -> list[str]:
    """Return the rows of the table ``reference`` as lines, "up to 31,000: 22° nose up"; a long one is thinned out."""
    every = rows(reference, library)
    return [f"{argument}: {value}" for argument, value in every[:: -(-len(every) // MOST_ROWS)]]


def rows(reference: str, library: Any) -> list[tuple[str, str]]:
    """Return every row of the table ``reference`` as (argument, value), ("up to 31,000", "22° nose up")."""
    table, unit = library.tables[reference], library.units.get(reference, "")
    is_step = isinstance(table, StepTable)
    pairs = zip(table.upto if is_step else table.at, table.values, strict=True)
    return [
        (f"{'up to ' if is_step else ''}{argument:,.10g}", display.exact(value, unit) if unit else f"{value:g}")
        for argument, value in pairs
    ]
