"""Plots: every point inside its picture, whatever the numbers; colours that can be read."""

import re
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from trainer.engine.picture import as_record
from trainer.engine.quantities import QUANTITIES
from trainer.pages import render, report_plots, worked_picture

shares = st.floats(0, 1)
offs = st.floats(-1e9, 1e9)


def outside(svg):
    """Return the coordinates of ``svg`` that lie outside its viewBox."""
    root = ElementTree.fromstring(svg)
    _, _, width, height = map(float, root.get("viewBox").split())
    found = []
    for element in root.iter():
        spots = [(element.get(x), element.get(y)) for x, y in (("x", "y"), ("x1", "y1"), ("x2", "y2"), ("cx", "cy"))]
        spots += [tuple(pair.split(",")) for pair in (element.get("points") or "").split()]
        if element.tag == "rect":
            far = (
                float(element.get("x")) + float(element.get("width")),
                float(element.get("y")) + float(element.get("height")),
            )
            spots.append(far)
        for x, y in spots:
            if x is not None and not (0 <= float(x) <= width and 0 <= float(y) <= height):
                found.append((element.tag, x, y))
    return found


def errors_of(values, *, inside=2.0, compass=False):
    points = [{"day": "2031-01-01", "off": off, "outside": abs(off) > inside} for off in values]
    return {
        "title": "t", "unit": "deg", "compass": compass, "inside": inside, "median": values[0], "points": points,
        "outside": sum(point["outside"] for point in points), "high": 0, "low": 0, "ways": ["too high", "too low"],
        "reach": 3 * inside, "beyond": 0, "reciprocal": 0,
    }  # fmt: skip


@settings(max_examples=150)
@given(st.lists(offs, min_size=1, max_size=40), st.floats(0, 1e6))
def test_errors_on_a_strip_stay_inside(values, inside):
    assert outside(report_plots.errors("n", errors_of(values, inside=inside))) == []


@settings(max_examples=150)
@given(st.lists(st.floats(-180, 180), min_size=1, max_size=40), st.floats(0, 400))
def test_errors_on_the_compass_stay_inside(values, inside):
    assert outside(report_plots.errors("n", errors_of(values, inside=inside, compass=True))) == []


@settings(max_examples=100)
@given(st.lists(st.tuples(shares, shares, shares, st.booleans()), min_size=1, max_size=26))
def test_weeks_and_forecasts_stay_inside(rows):
    weeks = [
        {"from": "2031-01-06", "share": None if idle else share, "low": low, "high": high, "asked": 3}
        for share, low, high, idle in rows
    ]
    bins = [{"said": said, "came": low, "low": low, "high": high, "answers": 9} for said, low, high, _ in rows]
    assert outside(report_plots.weeks("n", weeks)) == []
    assert outside(report_plots.honesty("n", {"bins": bins})) == []


@settings(max_examples=50)
@given(st.lists(st.tuples(shares, shares, shares, shares, st.booleans()), min_size=1, max_size=10))
def test_the_forecast_for_the_event_and_the_trends_stay_inside(rows):
    areas = [
        {"area": "navigation", "demanded": {"share": demanded}, "kept": {"share": share} if planned else None,
         "forecast": {"share": share, "low": min(low, high), "high": max(low, high)},
         "weeks": [{"from": "2031-01-06", "asked": 3, "share": share if planned else None}] * 8}
        for share, low, high, demanded, planned in rows
    ]  # fmt: skip
    assert outside(report_plots.to_event("n", areas)) == []
    assert all(outside(report_plots.area_trend("n", area)) == [] for area in areas)


def test_every_mark_of_a_picture_is_told_in_its_legend():
    area = {"area": "fuel", "demanded": {"share": 0.8}, "kept": {"share": 0.9}, "weeks": [],
            "forecast": {"share": 0.7, "low": 0.6, "high": 0.8}}  # fmt: skip
    svg = report_plots.to_event("n", [area])
    assert all(f">{words}<" in svg for words in ("without practice", "plan kept", "demanded"))
    assert svg.count('class="disc"') == svg.count('class="planned"') == svg.count('class="demanded"') == 2


def test_one_wild_answer_sets_no_scale_and_is_seen_to_lie_beyond():
    record = errors_of([1.0, -3.0, 9_519.0], inside=2.0)
    svg = report_plots.errors("n", record)
    assert "9,519" not in svg and ">+6<" in svg
    assert svg.count('<line class="cross"') == 2 * 3 + 1, (
        "two crosses, one in the legend, and a stroke over the far one"
    )


def test_a_point_outside_would_be_seen():
    assert outside('<svg viewBox="0 0 10 10"><circle cx="11" cy="5" r="1"/></svg>') == [("circle", "11", "5")]


def test_answers_outside_limits_are_crosses_the_others_discs():
    svg = report_plots.errors("n", errors_of([0.5, -1.0, 30.0], inside=2.0))
    assert (svg.count('class="disc"'), svg.count('<g class="cross"')) == (2 + 1, 1 + 1), "and one of each in the legend"


# WCAG 2.2, success criteria 1.4.3 (text, 4.5) and 1.4.11 (graphics, 3); relative luminance as defined there.
def luminance(colour):
    colour = colour.lstrip("#")
    colour = "".join(2 * sign for sign in colour) if len(colour) == 3 else colour
    channels = [int(colour[at : at + 2], 16) / 255 for at in (0, 2, 4)]
    linear = [one / 12.92 if one <= 0.04045 else ((one + 0.055) / 1.055) ** 2.4 for one in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one, two):
    light, dark = sorted((luminance(one), luminance(two)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def palettes():
    """Return {"light": {name: colour}, "dark": …, "print": …} of the style sheets."""
    css = "".join((render.TEMPLATES / name).read_text(encoding="utf-8") for name in ("page.css", "report.css"))
    found = {"light": {}, "dark": {}, "print": {}}
    for before, body in re.findall(r"([^{}]*)\{?\s*:root \{([^}]*)\}", css):
        kind = "dark" if "dark" in before else "print" if "print" in before else "light"
        found[kind] |= dict(re.findall(r"--([\w-]+): (#[0-9a-f]+)", body))
    return {kind: found["light"] | colours for kind, colours in found.items()}


@pytest.mark.parametrize("kind", ("light", "dark", "print"))
@pytest.mark.parametrize("name", ("ink", "quiet", "good", "bad", "late"))
@pytest.mark.parametrize("ground", ("paper", "wash"))
def test_text_can_be_read_on_its_ground(kind, name, ground):
    colours = palettes()[kind]
    assert contrast(colours[name], colours[ground]) >= 4.5


@pytest.mark.parametrize("kind", ("light", "dark", "print"))
def test_marks_stand_out_from_paper_and_band(kind):
    colours = palettes()[kind]
    for name, ground in (
        ("mark", "paper"),
        ("bad", "paper"),
        ("ink", "paper"),
        ("mark", "band"),
        ("ink", "band"),
        ("edge", "paper"),
        ("good", "paper"),
    ):
        assert contrast(colours[name], colours[ground]) >= 3.0


def test_contrast_agrees_with_the_published_extremes():
    assert round(contrast("#000", "#ffffff"), 2) == 21.0  # WCAG 2.2: the ratio ranges from 1 to 21
    assert contrast("#777", "#777777") == 1.0


def test_what_lies_beyond_the_scale_is_drawn_at_its_edge():
    scale = report_plots.Scale(0, 1, 10.0, 20.0)
    assert [scale(value) for value in (-5, 0, 0.5, 1, 7)] == [10.0, 10.0, 15.0, 20.0, 20.0]
    assert report_plots.Scale(3, 3, 0.0, 8.0)(3) == 4.0


def test_the_unit_of_an_error_stands_at_the_axis_of_errors_and_time_at_the_other():
    root = ElementTree.fromstring(report_plots.errors("n", errors_of([0.5, -1.0, 30.0], inside=2.0)))
    places = {element.text: (float(element.get("x")), float(element.get("y"))) for element in root.iter("text")}
    assert places["error, deg"][0] < report_plots.LEFT and places["error, deg"][1] < report_plots.TOP + 14
    heights = [places[words][1] for words in ("+6", "0", "-6")]
    assert heights == sorted(heights), "up is more"
    assert places["oldest"][0] < places["newest"][0] and places["oldest"][1] > heights[-1]


def test_the_trend_of_an_area_has_the_line_that_is_demanded_at_its_height():
    weeks = [{"from": f"2031-01-{day:02}", "asked": 3, "share": share} for day, share in ((6, 0.0), (13, 1.0))]
    area = {"area": "fuel", "demanded": {"share": 0.8}, "weeks": weeks}
    root = ElementTree.fromstring(report_plots.area_trend("n", area))
    (line,) = [one for one in root.iter("line") if one.get("class") == "agree"]
    low, high = [float(one.get("cy")) for one in root.iter("circle")]
    assert float(line.get("y1")) == float(line.get("y2")) == pytest.approx(low + 0.8 * (high - low), abs=0.06)
    assert "demanded 80%" in root[0].text


@pytest.mark.parametrize("name", sorted(name for name, one in QUANTITIES.items() if one.picture))
def test_pictures_of_worked_solutions_stay_inside(name):
    from tests.engine.test_picture import usual

    found = QUANTITIES[name].picture(**usual(QUANTITIES[name]))
    svg = worked_picture.svg_of("n", as_record(found))
    assert outside(svg) == [] and svg.count("<polyline") == len(found.strokes)
    assert all(f">{spot.words}</text>" in svg for spot in found.spots)
