"""What pictures of the trade are made of: vectors head to tail, arcs about a beacon, the pattern, a view from the side.

Up is north, or the bow; angles are degrees clockwise from up.
"""

import math

from trainer.engine.picture import FOUND, FRAME, GIVEN, Picture, Point, Spot, Stroke

ORIGIN: Point = (0.0, 0.0)
ARC_STEP_DEG = 10.0


def moved(point: Point, bearing_deg: float, length: float) -> Point:
    """Return the point that lies ``length`` from ``point`` in the direction ``bearing_deg``."""
    angle = math.radians(float(bearing_deg))
    return point[0] + float(length) * math.sin(angle), point[1] + float(length) * math.cos(angle)


def between(one: Point, other: Point, share: float = 0.5) -> Point:
    """Return the point that lies ``share`` of the way from ``one`` to the ``other``."""
    return one[0] + share * (other[0] - one[0]), one[1] + share * (other[1] - one[1])


def arrow(start: Point, end: Point, kind: str = GIVEN) -> Stroke:
    """Return an arrow from ``start`` to ``end``."""
    return Stroke(points=(start, end), kind=kind, arrow=True)


def line(*points: Point, kind: str = FRAME) -> Stroke:
    """Return a line through ``points``."""
    return Stroke(points=points, kind=kind)


def arc(centre: Point, radius: float, from_deg: float, to_deg: float) -> tuple[Point, ...]:
    """Return points on a circle from one bearing to the other, clockwise where ``to_deg`` is the larger."""
    steps = max(1, math.ceil(abs(to_deg - from_deg) / ARC_STEP_DEG))
    return tuple(moved(centre, from_deg + (to_deg - from_deg) * step / steps, radius) for step in range(steps + 1))


def triangle(first, second, *, letters, title, legend, more=()):
    """Return the picture of two vectors head to tail and of their sum, which is what is looked for.

    A vector is (direction it points to in degrees, length); ``letters`` stand at the first, the second and the sum.
    ``more`` strokes are drawn with them.
    """
    turning = moved(ORIGIN, *first)
    end = moved(turning, *second)
    strokes = (*more, arrow(ORIGIN, end, FOUND), arrow(ORIGIN, turning), arrow(turning, end))
    middles = (between(ORIGIN, turning), between(turning, end), between(ORIGIN, end))
    spots = tuple(Spot(at=at, words=letter) for at, letter in zip(middles, letters, strict=True))
    return Picture(title=title, strokes=strokes, spots=spots, legend=tuple(legend))


def around(spots, strokes=(), *, title, legend, centre="+"):
    """Return the picture of what lies around ``centre``: ``spots`` are (letter, bearing in degrees, distance)."""
    placed = {letter: moved(ORIGIN, bearing, distance) for letter, bearing, distance in spots}
    marks = (Spot(at=ORIGIN, words=centre), *(Spot(at=at, words=letter) for letter, at in placed.items()))
    lines = [
        Stroke(
            points=tuple(ORIGIN if one == centre else placed[one] for one in letters), kind=kind, arrow=kind != FRAME
        )
        for letters, kind in strokes
    ]
    return Picture(title=title, strokes=tuple(lines), spots=marks, legend=tuple(legend))


# The pattern seen from above, the bow up: upwind over the ship, downwind on the port side, the turn to the groove.
WIDTH, LENGTH = 1.2, 1.6
STERN, SHIP_LONG = (0.0, -0.1), 0.25
GROOVE = 0.35  # from the end of the turn to the ship
_BOTTOM = -(GROOVE + 0.1)
POINTS = {
    180: (-WIDTH, _BOTTOM),
    90: (-WIDTH / 2, _BOTTOM - WIDTH / 2),
    45: moved((-WIDTH / 2, _BOTTOM), 135, WIDTH / 2),
}  # degrees of turn to go → where that is
DOWNWIND_END, GROOVE_WAY = (-WIDTH, LENGTH - WIDTH), ((0.0, _BOTTOM), STERN)
# The way flown down to each check point of the turn.
TURN_WAY = {point: (DOWNWIND_END, *arc((-WIDTH / 2, _BOTTOM), WIDTH / 2, 270, 90 + point)) for point in POINTS}


def pattern(*, title, legend, found=(), spots=()):
    """Return the picture of the pattern round the ship; ``found`` points are drawn as what is looked for."""
    top = LENGTH - WIDTH
    over = arc((-WIDTH / 2, top), WIDTH / 2, 90, -90)
    under = arc((-WIDTH / 2, _BOTTOM), WIDTH / 2, 270, 90)
    way = Stroke(points=(STERN, (0.0, top), *over, (-WIDTH, _BOTTOM), *under, STERN), arrow=True)
    ship = line((-0.05, STERN[1]), (-0.05, SHIP_LONG), (0.05, SHIP_LONG), (0.05, STERN[1]), (-0.05, STERN[1]))
    looked_for = (Stroke(points=tuple(found), kind=FOUND, arrow=True),) if found else ()
    return Picture(
        title=title, strokes=(ship, way, *looked_for), legend=tuple(legend),
        spots=tuple(Spot(at=at, words=words) for at, words in spots),
    )  # fmt: skip


def clearing(*, side, turn_deg, title, legend):
    """Return the picture of a clearing turn (``side`` 1 right, -1 left), and of the way along the BRC after it."""
    out = moved((0.0, 0.4), side * float(turn_deg), 1.2)
    away = Stroke(points=(ORIGIN, (0.0, 0.4), out, (out[0], out[1] + 0.5)), kind=FOUND, arrow=True)
    course = line(ORIGIN, (0.0, 2.1))
    spots = (Spot(at=ORIGIN, words="S"), Spot(at=between((0.0, 0.4), out), words="1"),
             Spot(at=(out[0], out[1] + 0.25), words="2"))  # fmt: skip
    return Picture(title=title, strokes=(course, away), spots=spots, legend=tuple(legend))


def from_the_side(distance, height, *, title, legend, found=""):
    """Return the picture of a slope up to you at ``distance`` and ``height``, the ship at its foot.

    ``found`` is the letter of the side that is looked for: "d" along the surface, "h" up, "s" the slope itself.
    """
    you, under = (float(distance), float(height)), (float(distance), 0.0)
    sides = {"s": (ORIGIN, you), "d": (ORIGIN, under), "h": (under, you)}
    strokes = [Stroke(points=points, kind=FOUND if name == found else GIVEN) for name, points in sides.items()]
    letters = [Spot(at=between(*points), words=name) for name, points in sides.items()]
    return Picture(
        title=title, strokes=tuple(strokes), to_scale=False, legend=tuple(legend),
        spots=(*letters, Spot(at=ORIGIN, words="S"), Spot(at=you, words="Y")),
    )  # fmt: skip
