"""The pictures of the card: the wind felt on the deck, and the marshal stack."""

from trainer.pages.plots import arrow, bearing_point, circle, line, polygon, svg, text

CENTRE, RADIUS = 75.0, 58.0
ROW_PX = 15.0
MOST_LEVELS = 9


def wind_rose(*, relative_deg, deck_angle_deg, labels):
    """Return the relative-wind rose: the bow up, the landing area, and the wind over deck as an arrow.

    ``relative_deg`` is positive to starboard; ``labels`` are the texts of wind over deck, its angle, and the
    wind down and across the landing area.
    """
    felt, angle, down, across = labels
    parts = [circle(CENTRE, CENTRE, RADIUS, "rose")]
    for bearing in range(0, 360, 30):
        inner = RADIUS - (8 if bearing % 90 == 0 else 4)
        parts.append(line(*bearing_point(CENTRE, CENTRE, inner, bearing),
                          *bearing_point(CENTRE, CENTRE, RADIUS, bearing), "rose"))  # fmt: skip
    parts += [_hull(), _landing_area(deck_angle_deg)]
    parts.append(arrow(CENTRE, CENTRE, RADIUS + 6, 22, relative_deg, "wind"))
    beside = 16 if relative_deg <= 0 else -16  # clear of the arrow
    parts.append(text(CENTRE + (beside if abs(relative_deg) < 40 else 0), 11, "bow"))
    parts.append(text(CENTRE, 2 * CENTRE - 2, f"{felt}, {angle}", "t strong"))
    description = (
        f"Seen from above, the bow up: {felt} over the deck, {angle}; {down} down the landing area, {across} across it."
    )
    return svg(150, 152, parts, title="Wind over the deck", description=description, name="rose")


def _hull():
    x, y = CENTRE, CENTRE
    outline = ((0, -42), (9, -28), (10, 40), (-9, 40), (-15, 6), (-8, -28))
    return polygon([(x + right, y + down) for right, down in outline], "hull")


def _landing_area(deck_angle_deg):
    stern = (CENTRE + 2, CENTRE + 40)
    return line(*stern, *bearing_point(*stern, 58, -deck_angle_deg), "angle")


def stack(levels, *, own):
    """Return the marshal stack from the side; ``levels`` are (angels, fix text, push text), lowest first.

    ``own`` is your own place in it, from 0.
    """
    first = max(0, min(own - MOST_LEVELS // 2, len(levels) - MOST_LEVELS))
    shown = list(enumerate(levels))[first : first + MOST_LEVELS]
    height = 16 + ROW_PX * len(shown)
    parts, spoken = [], []
    for row, (place, (angels, fix, push)) in enumerate(reversed(shown)):
        y = 12 + ROW_PX * row
        kind = "level own" if place == own else "level"
        words = "t strong" if place == own else "t"
        parts += [line(62, y, 104, y, kind), text(57, y + 3.5, angels, words, "end"),
                  text(109, y + 3.5, f"{fix}  {push}", words, "start")]  # fmt: skip
        if place == own:
            parts.append(polygon([(78, y - 4), (88, y), (78, y + 4)], "own"))
    for place, (angels, fix, push) in shown:
        spoken.append(f"{angels} at {fix} pushes {push}{' – you' if place == own else ''}")
    return svg(176, height, parts, title="Marshal stack", description="; ".join(spoken) + ".", name="stack")
