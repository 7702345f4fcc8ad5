"""The plots of a report: shares, weeks, honesty of forecasts, and errors on a strip or on a compass.

Every point lies inside its picture; shapes say what colours say (disc: a share, or inside limits; cross: outside
limits; diamond: demanded; triangle: with the plan kept to).  Pages show the same numbers in a table.
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


def to_event(name, areas):
    """Return the picture of the forecast for the event: a row per area, without practice and with the plan kept.

    A disc is the share right that is expected without practice, on its interval; a triangle that with the plan kept to;
    a diamond what is demanded.
    """
    shown = [area for area in areas if area["forecast"]]
    across, row = Scale(0, 1, 86.0, WIDTH - RIGHT - 8), 22.0
    bottom = 14.0 + row * len(shown)
    parts = [line(across(share), 8, across(share), bottom, "grid") for share in (0, 0.5, 1)]
    told = []
    for at, area in enumerate(shown):
        y, forecast, demanded = 20.0 + row * at, area["forecast"], area["demanded"]["share"]
        low, high = across(forecast["low"]), across(forecast["high"])
        parts += [text(80, y + 4, area["area"], anchor="end"), rectangle(low, y - 4, high - low, 8, "reach")]
        parts += [diamond(across(demanded), y), disc(across(forecast["share"]), y, 3.6)]
        kept = area.get("kept")
        if kept:
            parts.append(_triangle(across(kept["share"]), y))
        planned = f", {kept['share']:.0%} with the plan" if kept else ""
        told.append(f"{area['area']}: {forecast['share']:.0%} without practice{planned}, {demanded:.0%} demanded")
    parts += [text(across(share), bottom + 14, f"{share:.0%}") for share in (0, 0.5, 1)]
    parts.append(text(across(0.5), bottom + 29, "expected right at the event", "t quiet"))
    parts += _legend(bottom + 46, _KEYS["event"])
    title = "Forecast for the event by area"
    return svg(WIDTH, bottom + 56, parts, title=title, description="; ".join(told), name=name)


def _triangle(x, y, size=5.0):
    return polygon([(x - size, y + size), (x + size, y + size), (x, y - size)], "planned")


# What the marks of a picture mean: (mark, words), each with its room in the line.
_KEYS = {
    "event": (("disc", "without practice", 20), ("planned", "plan kept", 146), ("demanded", "demanded", 244)),
    "error": (("disc", "inside limits", 20), ("cross", "outside", 128), ("inside", "limits", 210)),
}


def _legend(y, keys):
    marks = {
        "disc": lambda x: disc(x, y - 4),
        "planned": lambda x: _triangle(x, y - 4),
        "demanded": lambda x: diamond(x, y - 4),
        "cross": lambda x: cross(x, y - 4),
        "inside": lambda x: rectangle(x - 6, y - 9, 12, 10, "inside"),
    }  # fmt: skip
    return [part for mark, words, x in keys for part in (marks[mark](x), text(x + 10, y, words, "t quiet", "start"))]


def area_trend(name, area):
    """Return the share right of one area week by week, with what is demanded as a broken line."""
    width, height = 165.0, 104.0
    records, demanded = area["weeks"], area["demanded"]["share"]
    across, up = Scale(0, max(1, len(records) - 1), 42, width - 10), Scale(0, 1, height - 30, 20)
    parts = [text(4, 12, area["area"], "t strong", "start")]
    for share in (0, 1):
        parts += [
            line(38, up(share), width - 6, up(share), "grid"),
            text(34, up(share) + 4, f"{share:.0%}", anchor="end"),
        ]
    parts.append(line(38, up(demanded), width - 6, up(demanded), "agree"))
    places = [(across(at), one) for at, one in enumerate(records) if one["share"] is not None]
    for (x1, before), (x2, after) in zip(places, places[1:], strict=False):
        parts.append(line(x1, up(before["share"]), x2, up(after["share"]), "trace"))
    parts += [disc(x, up(one["share"])) for x, one in places]
    parts += [text(42, height - 14, records[0]["from"][5:], anchor="start"),
              text(width - 6, height - 14, records[-1]["from"][5:], anchor="end")]  # fmt: skip
    told = "; ".join(f"week from {one['from']}: {one['share']:.0%} of {one['asked']}" for _, one in places)
    title = f"{area['area']}: share right week by week; demanded {demanded:.0%}"
    return svg(width, height, parts, title=title, description=told or "no answers in these weeks", name=name)


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
    reach = max(record["reach"], inside, 1e-9)
    across = Scale(0, max(1, len(points) - 1), LEFT + 10, WIDTH - RIGHT - 10)
    up = Scale(-reach * 1.05, reach * 1.05, HEIGHT - BOTTOM - 14, TOP + 14)
    half = max(1.5, (up(-inside) - up(inside)) / 2)  # a band that can be seen, however narrow the limits
    parts = [
        rectangle(LEFT, up(0) - half, WIDTH - RIGHT - LEFT, 2 * half, "inside"),
        line(LEFT, up(0), WIDTH - RIGHT, up(0), "axis"),
        text(2, 11, f"error, {record['unit']}", "t quiet", "start"),
    ]
    for at, point in enumerate(points):
        x, y = across(at), up(point["off"])
        parts.append(_mark(point, x, y))
        if abs(point["off"]) > reach:  # beyond the axis: a stroke beside it says so
            parts.append(line(x - 5, y - 6, x + 5, y - 6, "cross"))
    for value in (reach, 0.0, -reach):
        parts.append(text(LEFT - 5, up(value) + 4, _signed(value), anchor="end"))
    parts += [
        text(LEFT, HEIGHT - 24, "oldest", anchor="start"),
        text(WIDTH - RIGHT, HEIGHT - 24, "newest", anchor="end"),
        *_legend(HEIGHT - 5, _KEYS["error"]),
    ]
    return svg(WIDTH, HEIGHT, parts, title=f"Errors: {record['title']}", description=told(record), name=name)


def _compass(name, record):
    x, y, radius = WIDTH / 2, HEIGHT / 2 - 6, HEIGHT / 2 - 32
    half = min(record["inside"], 179.0)
    edge = [bearing_point(x, y, radius, -half + 2 * half * step / 24) for step in range(25)]
    parts = [circle(x, y, radius, "ring"), polygon([(x, y), *edge], "inside"), line(x, y, x, y - radius, "axis")]
    out = Scale(0, max(1, len(record["points"]) - 1), radius * 0.4, radius * 0.97)
    for at, point in enumerate(record["points"]):
        parts.append(_mark(point, *bearing_point(x, y, out(at), point["off"])))
    parts += [
        text(x, y - radius - 6, "right answer"),
        text(x + radius + 6, y + 4, "90° too far right", anchor="start"),
        text(x - radius - 6, y + 4, "90° too far left", anchor="end"),
        text(x, y + radius + 14, "the reciprocal"),
        *_legend(HEIGHT - 5, _KEYS["error"]),
    ]
    return svg(WIDTH, HEIGHT, parts, title=f"Errors: {record['title']}", description=told(record), name=name)


def told(record):
    """Return in words what a plot of errors shows."""
    unit, (above, below) = record["unit"], record["ways"]
    count = record.get("answers", len(record["points"]))
    words = (
        f"{count} answers; {record['outside']} outside limits of {record['inside']:g} {unit}:"
        f" {record['high']} {above}, {record['low']} {below}."
    )
    if record["reciprocal"]:
        words += f" {record['reciprocal']} with the reciprocal."
    if record["beyond"]:
        words += f" {record['beyond']} beyond the axis."
    return words


def _signed(value):
    if not value:
        return "0"
    return f"{value:+,.0f}" if abs(value) >= 100 else f"{value:+.3g}"
