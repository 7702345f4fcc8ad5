"""A picture in characters: 40 columns by 13 rows at most, its legend below.

Lines given are drawn in the direction they go, what is found in dots, what stands there anyway in fine dots.
"""

import math
from textwrap import wrap

from trainer.engine.picture import FOUND, FRAME, GIVEN, Picture

COLUMNS, ROWS, WIDEST = 40, 13, 60
HIGH = 2.0  # a character is about twice as high as it is wide
DRAWN_IN_ORDER = (FRAME, GIVEN, FOUND)
DOTS = {FRAME: ("·", "."), FOUND: ("•", "o")}
SLOPES = (("─", "-"), ("╱", "/"), ("│", "|"), ("╲", "\\"))  # by steps of 45 degrees from the right, upwards
HEADS = (("→", ">"), ("↗", "/"), ("↑", "^"), ("↖", "\\"), ("←", "<"), ("↙", "/"), ("↓", "v"), ("↘", "\\"))
ASCII = str.maketrans({"°": " deg", "–": "-"})


def lines(picture: Picture, *, ascii_only: bool = False) -> tuple[str, ...]:
    """Return the lines of ``picture``, the legend last; in ASCII when ``ascii_only``."""
    place = _places(picture)
    signs: dict[tuple[int, int], str] = {}
    for kind in DRAWN_IN_ORDER:
        for stroke in picture.strokes:
            if stroke.kind == kind:
                _draw(signs, [place(point) for point in stroke.points], stroke, ascii_only)
    taken: set[tuple[int, int]] = set()
    for spot in picture.spots:
        _write(signs, taken, place(spot.at), spot)
    told = [line.translate(ASCII) if ascii_only else line for line in picture.legend]
    return (*(f"  {row}".rstrip() for row in _rows(signs)), *(part for line in told for part in wrap(line, WIDEST)))


def _places(picture):
    """Return the function that turns a point into (row, column)."""
    left, right, low, high = picture.extent
    width, height = max(right - left, 1e-9), max(high - low, 1e-9)
    room = max((len(spot.words) + 2 for spot in picture.spots if not spot.is_letter), default=1)
    across, up = (COLUMNS - room) / width, (ROWS - 1) / height
    if picture.to_scale:
        across = min(across, up * HIGH)
        up = across / HIGH
    return lambda point: (round((high - point[1]) * up), round((point[0] - left) * across))


def _draw(signs, places, stroke, ascii_only):
    for start, end in zip(places, places[1:], strict=False):
        turn = _turn(start, end)
        sign = DOTS.get(stroke.kind, SLOPES[turn % 4])[ascii_only]
        for cell in _between(start, end):
            signs[cell] = sign
    if stroke.arrow and len(set(places)) > 1:
        last = next(one for one in reversed(places) if one != places[-1])
        signs[places[-1]] = HEADS[_turn(last, places[-1])][ascii_only]


def _turn(start, end):
    """Return the direction from one cell to another in steps of 45 degrees from the right, against the clock."""
    angle = math.atan2((start[0] - end[0]) * HIGH, end[1] - start[1])
    return round(angle / (math.pi / 4)) % 8


def _between(start, end):
    """Yield the cells from ``start`` to ``end``, both with them."""
    steps = max(abs(end[0] - start[0]), abs(end[1] - start[1]), 1)
    for step in range(steps + 1):
        share = step / steps
        yield round(start[0] + (end[0] - start[0]) * share), round(start[1] + (end[1] - start[1]) * share)


def _write(signs, taken, cell, spot):
    """Write the words of ``spot``, beside other words where they would hide them."""
    row, column = cell[0], cell[1] + (0 if spot.is_letter else 2)
    while any((row, column + at) in taken for at in range(len(spot.words))):
        column += 1
    for at, sign in enumerate(spot.words):
        signs[row, column + at] = sign
        taken.add((row, column + at))


def _rows(signs):
    rows = range(min(row for row, _ in signs), max(row for row, _ in signs) + 1)
    wide = max(column for _, column in signs) + 1
    return ["".join(signs.get((row, column), " ") for column in range(wide)).rstrip() for row in rows]
