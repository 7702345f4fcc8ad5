"""A small picture of a calculation: strokes and words in a plane, the same for a screen of characters and for a page.

x goes to the right and y up, in whatever unit the picture is about; who shows it finds the scale.  ``FRAME`` is what
stands there anyway (a radial, a hull), ``GIVEN`` what the question tells, ``FOUND`` what is looked for.
"""

from collections.abc import Iterable, Mapping
from typing import Any

from trainer.frozen import frozen

FRAME, GIVEN, FOUND = "frame", "given", "found"
Point = tuple[float, float]


@frozen
class Stroke:
    """A line through ``points``; with ``arrow`` it has a head at its end."""

    points: tuple[Point, ...]
    kind: str = GIVEN
    arrow: bool = False


@frozen
class Spot:
    """Words at a point: a letter that the legend explains (``is_letter``), or words that begin there."""

    at: Point
    words: str

    @property
    def is_letter(self) -> bool:
        """Return whether it is one sign, which stands on its point; words stand to the right of it."""
        return len(self.words) == 1


@frozen
class Picture:
    """Strokes and spots; ``legend`` tells in words what they show.

    ``to_scale`` False lets both directions be stretched, as in a view from the side.
    """

    title: str
    strokes: tuple[Stroke, ...]
    spots: tuple[Spot, ...]
    legend: tuple[str, ...]
    to_scale: bool = True

    @property
    def points(self) -> list[Point]:
        """Return every point that is to be seen."""
        return [point for stroke in self.strokes for point in stroke.points] + [spot.at for spot in self.spots]

    @property
    def extent(self) -> tuple[float, float, float, float]:
        """Return (lowest x, highest x, lowest y, highest y)."""
        across, up = zip(*self.points, strict=True)
        return min(across), max(across), min(up), max(up)


def as_record(picture: Picture) -> dict[str, Any]:
    """Return ``picture`` as a record that is ready for JSON."""
    return {
        "title": picture.title,
        "legend": list(picture.legend),
        "to_scale": picture.to_scale,
        "strokes": [
            {"kind": one.kind, "arrow": one.arrow, "points": [list(map(float, point)) for point in one.points]}
            for one in picture.strokes
        ],
        "spots": [{"words": one.words, "at": list(map(float, one.at))} for one in picture.spots],
    }


def of_record(record: Mapping[str, Any]) -> Picture:
    """Return the picture that ``as_record`` made ``record`` from."""
    return Picture(
        title=record["title"],
        strokes=tuple(
            Stroke(points=_points(one["points"]), kind=one["kind"], arrow=one["arrow"]) for one in record["strokes"]
        ),
        spots=tuple(Spot(at=(one["at"][0], one["at"][1]), words=one["words"]) for one in record["spots"]),
        legend=tuple(record["legend"]),
        to_scale=record["to_scale"],
    )


def _points(pairs: Iterable[list[float]]) -> tuple[Point, ...]:
    return tuple((x, y) for x, y in pairs)
