"""What to brief: three lines, drawn from the slips, then from what is missing, then from what is slow or forgotten."""

LINES = 3
LONGEST = 90


def lines(slips, weakest, areas, slow):
    """Return three lines for the instructor, the most costly first; fewer where there is no more to say."""
    found = [
        *map(_slip, slips),
        *_steps(weakest),
        *_flows(areas),
        *map(_slow, slow),
        *_forgotten(weakest),
        *_unknown(areas),
    ]
    return found[:LINES]


def _slip(slip):
    return _line(
        slip["area"], f"{short(slip['title'])}: {slip['words']} ({slip['count']} of {slip['of']} wrong answers)"
    )


def _steps(weakest):
    """Yield the steps of flows that are missed again and again."""
    for drill in weakest:
        slip = drill["slip"]
        if drill["kind"] == "flow" and slip and slip["count"] >= 2:
            yield _line(
                drill["area"], f"{short(drill['title'])}: {slip['words']} ({slip['count']} of {slip['of']} times)"
            )


def _flows(areas):
    for area in areas:
        titles = [flow["title"] for flow in area["flows"] if not flow["right"]]
        if titles:
            yield _line(area["area"], f"demanded, and not right yet: {'; '.join(titles)}")


def _slow(drill):
    times = f"{drill['median_s']:.0f} s, {drill['limit_s']:.0f} s allowed"
    return _line(drill["area"], f"{short(drill['title'])}: right, but slow ({times})")


def _forgotten(weakest):
    for drill in weakest:
        yield _line(drill["area"], f"{short(drill['title'])}: {drill['right']} of {drill['asked']} right so far")


def _unknown(areas):
    for area in areas:
        if area["verdict"] == "not known":
            yield _line(area["area"], area["why"])


def _line(area, words):
    return f"{area.capitalize()} – {words}."


def short(text, most=LONGEST):
    """Return ``text`` cut to ``most`` characters."""
    return text if len(text) <= most else text[: most - 1].rstrip() + "…"
