"""The plots of a report: shares, weeks, honesty of forecasts, and errors on a strip or on a compass.

Every point lies inside its picture; shapes say what colours say (disc: a share, or inside limits; cross: outside
limits; diamond: demanded).  Pages show the same numbers in a table.
"""

import math
from xml.etree.ElementTree import Element

from trainer.pages.plots import bearing_point, circle, line, polygon, rectangle, svg, text

WIDTH, HEIGHT = 340.0, 190.0
LEFT, RIGHT, TOP, BOTTOM = 48.0, 12.0, 12.0, 32.0
MOST_LABELS = 6


class Scale:
    """A linear map from values to the picture; what lies outside is drawn at its edge."""

    def __init__(self, low, high, start, end):
        self.low, self.high, self.start, self.end = low, high, start, end

    def __call__(self, value):
        """Return the coordinate of ``value``."""
        share = (value - self.low) / (self.high - self.low) if self.high != self.low else 0.5
        return self.start + min(1.0, max(0.0, share)) * (self.end - self.start)


def disc(x, y, radius=3.2):
    """Return the mark of a share, or of an answer inside limits."""
    return circle(x, y, radius, "disc")


def cross(x, y, size=3.4):
    """Return the mark of an answer outside limits."""
    group = Element("g", {"class": "cross"})
    group.extend(
        [line(x - size, y - size, x + size, y + size, "cross"), line(x - size, y + size, x + size, y - size, "cross")]
    )
    return group


def diamond(x, y, size=5.0):
    """Return the mark of what is demanded."""
    return polygon([(x, y - size), (x + size, y), (x, y + size), (x - size, y)], "demanded")


def interval_bar(name, area, forecast, demanded):
    """Return a bar from 0 to 100 %: interval, expected share (disc), what is demanded (diamond)."""
    width, middle, across = 150.0, 9.0, Scale(0, 1, 7.0, 143.0)
    low, high = across(forecast["low"]), across(forecast["high"])
    parts = [
        line(across(0), middle, across(1), middle, "axis"),
        rectangle(low, middle - 3, high - low, 6, "reach"),
        diamond(across(demanded), middle),
        disc(across(forecast["share"]), middle, 3.6),
    ]
    title = f"{area}: forecast {forecast['share']:.0%}, demanded {demanded:.0%}"
    told = f"Interval from {forecast['low']:.0%} to {forecast['high']:.0%} on a line from 0 to 100 per cent."
    return svg(width, 18, parts, title=title, description=told, name=name, kind="bar")


def weeks(name, records):
    """Return the plot of the share right week by week, with intervals."""
    across, up = Scale(0, max(1, len(records) - 1), LEFT + 14, WIDTH - RIGHT - 18), _up()
    parts = _percent_axis(up)
    places = [(across(at), one) for at, one in enumerate(records) if one["share"] is not None]
    for (x1, before), (x2, after) in zip(places, places[1:], strict=False):
        parts.append(line(x1, up(before["share"]), x2, up(after["share"]), "trace"))
    for x, one in places:
        parts += [line(x, up(one["low"]), x, up(one["high"]), "whisker"), disc(x, up(one["share"]))]
    for at in range(0, len(records), math.ceil(max(1, len(records)) / MOST_LABELS)):
        parts.append(text(across(at), HEIGHT - 17, records[at]["from"][5:]))
    parts.append(text((LEFT + WIDTH) / 2, HEIGHT - 4, "week from", "t quiet"))
    told = "; ".join(f"week from {one['from']}: {one['share']:.0%} of {one['asked']}" for _, one in places)
    return svg(WIDTH, HEIGHT, parts, title="Share right, week by week", description=told, name=name)


def honesty(name, record):
    """Return the plot of what was forecast against what came true; on the broken line both agree."""
    across, up = Scale(0, 1, LEFT + 8, WIDTH - RIGHT - 14), _up()
    parts = [*_percent_axis(up), line(across(0), up(0), across(1), up(1), "agree")]
    for one in record["bins"]:
        x = across(one["said"])
        parts += [line(x, up(one["low"]), x, up(one["high"]), "whisker"), disc(x, up(one["came"]))]
    parts += [text(across(share), HEIGHT - 17, f"{share:.0%}") for share in (0, 0.25, 0.5, 0.75, 1)]
    parts.append(text((LEFT + WIDTH) / 2, HEIGHT - 4, "said before the answer", "t quiet"))
    bins = [f"said {one['said']:.0%}, came {one['came']:.0%} ({one['answers']} answers)" for one in record["bins"]]
    title = "What was forecast against what came of it"
    return svg(WIDTH, HEIGHT, parts, title=title, description="; ".join(bins), name=name)


def _up():
    return Scale(0, 1, HEIGHT - BOTTOM, TOP)


def _percent_axis(up):
    parts = []
    for share in (0, 0.5, 1):
        parts.append(line(LEFT, up(share), WIDTH - RIGHT, up(share), "grid"))
        parts.append(text(LEFT - 5, up(share) + 3.5, f"{share:.0%}", anchor="end"))
    return parts


def errors(name, record):
    """Return the plot of a drill's signed errors: on a compass for headings, else on a strip."""
    return (_compass if record["compass"] else _strip)(name, record)


def _mark(point, x, y):
    return cross(x, y) if point["outside"] else disc(x, y)


def _strip(name, record):
    points, inside = record["points"], record["inside"]
    furthest = max(max(abs(point["off"]) for point in points), inside) or 1.0
    across = Scale(0, max(1, len(points) - 1), LEFT + 10, WIDTH - RIGHT - 10)
    up = Scale(-furthest * 1.1, furthest * 1.1, HEIGHT - BOTTOM, TOP)
    half = max(1.5, (up(-inside) - up(inside)) / 2)  # a band that can be seen, however narrow the limits
    parts = [
        rectangle(LEFT, up(0) - half, WIDTH - RIGHT - LEFT, 2 * half, "inside"),
        line(LEFT, up(0), WIDTH - RIGHT, up(0), "axis"),
    ]
    parts += [_mark(point, across(at), up(point["off"])) for at, point in enumerate(points)]
    for value in (furthest, 0.0, -furthest):
        parts.append(text(LEFT - 5, up(value) + 3.5, _signed(value), anchor="end"))
    parts += [
        text(LEFT, HEIGHT - 17, "oldest", anchor="start"),
        text(WIDTH - RIGHT, HEIGHT - 17, "newest", anchor="end"),
        text((LEFT + WIDTH) / 2, HEIGHT - 4, f"error in {record['unit']}", "t quiet"),
    ]
    return svg(WIDTH, HEIGHT, parts, title=f"Errors: {record['title']}", description=told(record), name=name)


def _compass(name, record):
    x, y, radius = WIDTH / 2, HEIGHT / 2 + 1, HEIGHT / 2 - 18
    half = min(record["inside"], 179.0)
    edge = [bearing_point(x, y, radius, -half + 2 * half * step / 24) for step in range(25)]
    parts = [circle(x, y, radius, "ring"), polygon([(x, y), *edge], "inside"), line(x, y, x, y - radius, "axis")]
    out = Scale(0, max(1, len(record["points"]) - 1), radius * 0.4, radius * 0.97)
    for at, point in enumerate(record["points"]):
        parts.append(_mark(point, *bearing_point(x, y, out(at), point["off"])))
    parts += [
        text(x, y - radius - 6, "right answer"),
        text(x + radius + 6, y + 3.5, "90° too high", anchor="start"),
        text(x - radius - 6, y + 3.5, "90° too low", anchor="end"),
        text(x, y + radius + 13, "180° off"),
    ]
    return svg(WIDTH, HEIGHT, parts, title=f"Errors: {record['title']}", description=told(record), name=name)


def told(record):
    """Return in words what a plot of errors shows."""
    unit = record["unit"]
    return (
        f"{len(record['points'])} answers; {record['outside']} outside limits of {record['inside']:g} {unit}:"
        f" {record['high']} too high, {record['low']} too low. The middle error is {_signed(record['median'])} {unit}."
    )


def _signed(value):
    if not value:
        return "0"
    return f"{value:+,.0f}" if abs(value) >= 100 else f"{value:+.3g}"
