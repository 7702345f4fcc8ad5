"""The picture of a worked solution as SVG; what its letters mean stands beneath it in words."""

from collections.abc import Mapping
from typing import Any

from trainer.engine import picture as drawn
from trainer.pages.plots import polygon, polyline, svg, text

WIDTH, MOST_HIGH, EDGE = 300.0, 170.0, 14.0
FLAT = 0.45  # of the room: what is stretched is so much wider than high
HEAD = 8.0
SIGN_PX = 6.6  # width of a sign of the words beside a spot


def svg_of(name: str, record: Mapping[str, Any]) -> str:
    """Return the SVG of a picture's ``record`` (``engine.picture.as_record``); ``name`` makes its ids unique."""
    picture = drawn.of_record(record)
    place, height = _places(picture)
    parts = []
    for kind in (drawn.FRAME, drawn.GIVEN, drawn.FOUND):
        for stroke in picture.strokes:
            if stroke.kind == kind:
                parts += _stroke([place(point) for point in stroke.points], stroke)
    parts += [_spot(*place(spot.at), spot) for spot in picture.spots]
    return svg(
        WIDTH, height, parts, title=picture.title, description="; ".join(picture.legend), name=name, kind="drawn"
    )


def _places(picture):
    """Return (the function that turns a point into coordinates, the height of the picture)."""
    left, right, low, high = picture.extent
    beside = max((SIGN_PX * len(spot.words) + 4 for spot in picture.spots if not spot.is_letter), default=0.0)
    room, width, height = WIDTH - 2 * EDGE - min(beside, WIDTH / 2), max(right - left, 1e-9), max(high - low, 1e-9)
    across, up = room / width, (MOST_HIGH - 2 * EDGE) / height
    if picture.to_scale:
        across = up = min(across, up)
    else:
        up = min(up, FLAT * room / height)
    start = EDGE + (room - width * across) / 2
    return lambda point: (start + (point[0] - left) * across, EDGE + (high - point[1]) * up), height * up + 2 * EDGE


def _stroke(places, stroke):
    kind = f"p-{stroke.kind}"
    parts = [polyline(places, kind)]
    if stroke.arrow and places[0] != places[-1]:
        parts.append(_head(next(one for one in reversed(places) if one != places[-1]), places[-1], kind))
    return parts


def _head(before, tip, kind):
    length = max(((tip[0] - before[0]) ** 2 + (tip[1] - before[1]) ** 2) ** 0.5, 1e-9)
    x, y = (tip[0] - before[0]) / length, (tip[1] - before[1]) / length
    back = tip[0] - HEAD * x, tip[1] - HEAD * y
    side = HEAD / 2.4
    return polygon([tip, (back[0] - side * y, back[1] + side * x), (back[0] + side * y, back[1] - side * x)], kind)


def _spot(x, y, spot):
    if spot.is_letter:
        return text(x, y + 4, spot.words, "t letter")
    return text(x + 4, y + 4, spot.words, "t", "start")
