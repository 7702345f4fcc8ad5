"""The logbook as one page: a picture of the weeks, and every number of it in tables."""

from datetime import date

from trainer.pages.plots import line, rectangle, svg, text
from trainer.pages.render import page
from trainer.practice.logbook import Logbook

WIDTH, HEIGHT = 640.0, 190.0
LEFT, RIGHT, TOP, BOTTOM = 44.0, 12.0, 14.0, 30.0
MOST_WEEKS = 52
MOST_LABELS = 8
CLOCK_STEPS = (5, 10, 20, 30, 60, 120, 240, 480, 960)  # minutes between two lines of the grid


def html(book: Logbook, *, day: date, caution: str) -> str:
    """Return the page of ``book``, made on ``day``."""
    return page(
        "logbook.html.j2", style=("logbook.css",), title="Logbook", day=day, book=book, caution=caution,
        picture=weeks_picture(book) if book.weeks else "", written=written,
    )  # fmt: skip


def written(day: date) -> str:
    """Return ``day`` as it stands in a table: "3 March 2030"."""
    return f"{day.day} {day:%B %Y}"


def weeks_picture(book: Logbook):
    """Return the picture of the latest weeks: a bar of the minutes of each, and above it what became solid."""
    weeks = book.weeks[-MOST_WEEKS:]
    most = max(max(week.minutes for week in weeks), 1.0)
    step = next((one for one in CLOCK_STEPS if most / one <= 4), most)
    top, floor, across = step * -(-most // step), HEIGHT - BOTTOM, (WIDTH - LEFT - RIGHT) / len(weeks)

    def height(minutes):
        return (floor - TOP) * minutes / top

    parts, level = [], 0
    while level <= top:
        parts.append(line(LEFT, floor - height(level), WIDTH - RIGHT, floor - height(level), "grid"))
        parts.append(text(LEFT - 5, floor - height(level) + 3, f"{level:g} min", "t", "end"))
        level += step
    every = -(-len(weeks) // MOST_LABELS)
    for at, week in enumerate(weeks):
        x = LEFT + across * at
        parts.append(
            rectangle(x + across * 0.15, floor - height(week.minutes), across * 0.7, height(week.minutes), "bar")
        )
        if week.solid:
            parts.append(text(x + across / 2, floor - height(week.minutes) - 3, f"+{week.solid}"))
        if at % every == 0:
            parts.append(text(x + across / 2, HEIGHT - 12, f"{week.monday.day} {week.monday:%b}"))
    told = "; ".join(f"{written(one.monday)}: {one.minutes:.0f} min, {one.solid} became solid" for one in weeks)
    return svg(WIDTH, HEIGHT, parts, title="Minutes of practice by week", description=told, name="weeks")
