"""The grid that an input is drawn from: as the deck says it, or as a share of a number of the user's files.

A deck that says "half to nine tenths of the fuel capacity" asks sensible questions of a light jet and of a heavy one.
"""

import math

from trainer.errors import DomainError

HAIR = 1e-9  # a bound that lies on the grid stays on it in spite of floating point


def span_of(draw, library):
    """Return (from, to, step) of ``draw`` in the unit of its input; ``library`` has the user's numbers.

    Raises ``DomainError`` where the files lack the number, or no step of the grid lies between the bounds.
    """
    if not draw.of:
        return draw.span
    least, most = _range(draw.of, library)
    low, high, step = draw.span
    first = math.ceil((least + low * (most - least)) / step - HAIR) * step
    last = math.floor((least + high * (most - least)) / step + HAIR) * step
    if last < first:
        raise DomainError(f'"{draw.name}": no step of {step:g} lies in that share of "{draw.of}"')
    return (first, last, step)


def _range(reference, library):
    """Return what share 0 and share 1 are: the ends of a table, or nothing and all of a value."""
    if reference in library.tables:
        return library.tables[reference].low, library.tables[reference].high
    if reference in library.values:
        return 0.0, float(library.values[reference])
    raise DomainError(f'"{reference}" is not in your files', hint="add it to the ship, airframe or air wing")
