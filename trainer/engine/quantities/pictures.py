"""Small pictures in characters: marks around a centre, north (or the bow) up, at most 60 columns."""

import numpy as np

ROWS_OUT, COLUMNS_OUT = 5, 12  # a character is about twice as high as it is wide
CENTRE_COLUMN = 14
PLAIN = str.maketrans({"°": ""})


def around(marks, legend, *, centre="+", ascii_only=False):
    """Return the lines of a picture with ``marks`` around ``centre``.

    A mark is (letter, bearing in degrees clockwise from up, share of the radius 0-1).  ``legend`` lines
    stand to the right of the picture; with ``ascii_only`` nothing but ASCII is used.
    """
    rows = [[" "] * (CENTRE_COLUMN + COLUMNS_OUT + 2) for _ in range(2 * ROWS_OUT + 1)]
    rows[ROWS_OUT][CENTRE_COLUMN] = centre
    for letter, bearing_deg, share in marks:
        row, column = _place(bearing_deg, share)
        rows[row][column] = letter
    lines = ["".join(row).rstrip() for row in rows]
    used = [number for number, line in enumerate(lines) if line]
    return plain([*lines[used[0] : used[-1] + 1], *legend], ascii_only)


def plain(lines, ascii_only):
    """Return ``lines`` as a tuple, in ASCII when ``ascii_only``."""
    return tuple(line.translate(PLAIN) if ascii_only else line for line in lines)


def _place(bearing_deg, share):
    angle = np.radians(float(bearing_deg))
    row = ROWS_OUT - round(float(ROWS_OUT * share * np.cos(angle)))
    column = CENTRE_COLUMN + round(float(COLUMNS_OUT * share * np.sin(angle)))
    if (row, column) == (ROWS_OUT, CENTRE_COLUMN):
        column += 1  # a mark never hides the centre
    return row, column
