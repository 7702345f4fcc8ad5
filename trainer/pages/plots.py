"""Pictures as SVG: no script, no style attribute, a title and a description for those who do not see them.

What a picture is made of are elements with a class; colours are the style sheet's, so that they follow light, dark
and print.  The tree escapes its texts; nothing is put together from strings.
"""

import math
from xml.etree.ElementTree import Element, SubElement, tostring

from trainer.pages.text import clean


def svg(width, height, parts, *, title, description, name, kind="plot"):
    """Return the picture of ``parts`` as markup; ``name`` makes its ids unique in the page."""
    from markupsafe import Markup

    ids = {"aria-labelledby": f"{name}-title {name}-description"}
    size = {"viewBox": f"0 0 {width:g} {height:g}", "width": f"{width:g}", "height": f"{height:g}"}
    root = Element("svg", {"class": kind, "role": "img", **size, **ids})
    SubElement(root, "title", id=f"{name}-title").text = clean(title)
    SubElement(root, "desc", id=f"{name}-description").text = clean(description, 4_000)
    root.extend(parts)
    return Markup(tostring(root, encoding="unicode"))


def bearing_point(x, y, radius, bearing_deg):
    """Return the point at ``radius`` from (x, y) in the direction ``bearing_deg``: 0 is up, 90 to the right."""
    angle = math.radians(bearing_deg)
    return x + radius * math.sin(angle), y - radius * math.cos(angle)


def line(x1, y1, x2, y2, kind):
    """Return a straight line of the class ``kind``."""
    return Element("line", {"class": kind, "x1": _n(x1), "y1": _n(y1), "x2": _n(x2), "y2": _n(y2)})


def circle(x, y, radius, kind):
    """Return a circle."""
    return Element("circle", {"class": kind, "cx": _n(x), "cy": _n(y), "r": _n(radius)})


def rectangle(x, y, width, height, kind):
    """Return a rectangle."""
    size = {"width": _n(max(width, 0.0)), "height": _n(max(height, 0.0))}
    return Element("rect", {"class": kind, "x": _n(x), "y": _n(y), **size})


def polygon(points, kind):
    """Return a closed shape through ``points``."""
    return Element("polygon", {"class": kind, "points": " ".join(f"{_n(x)},{_n(y)}" for x, y in points)})


def polyline(points, kind):
    """Return a line through ``points``."""
    return Element("polyline", {"class": kind, "points": " ".join(f"{_n(x)},{_n(y)}" for x, y in points)})


def text(x, y, words, kind="t", anchor="middle"):
    """Return a short text; ``anchor`` is "start", "middle" or "end"."""
    element = Element("text", {"class": kind, "x": _n(x), "y": _n(y), "text-anchor": anchor})
    element.text = clean(words, 80)
    return element


def arrow(x, y, from_radius, to_radius, bearing_deg, kind, *, head=8.0):
    """Return an arrow along ``bearing_deg`` as seen from (x, y), from one radius to the other, its head at the end."""
    tail, tip = (bearing_point(x, y, radius, bearing_deg) for radius in (from_radius, to_radius))
    back = to_radius + math.copysign(head, from_radius - to_radius)
    neck = bearing_point(x, y, back, bearing_deg)
    left, right = (bearing_point(*neck, head / 2, bearing_deg + side) for side in (-90, 90))
    group = Element("g", {"class": kind})
    group.extend([line(*tail, *neck, kind), polygon([tip, left, right], kind)])
    return group


def _n(number):
    """Return a coordinate to a tenth."""
    return f"{round(float(number), 1) + 0.0:g}"
