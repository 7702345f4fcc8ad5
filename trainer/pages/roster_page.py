"""The squadron's page: pilots by areas, what they share, what to teach."""

from collections import Counter

from trainer.pages import seal
from trainer.pages.render import page
from trainer.pages.report_page import CLASSES, MARKS, Own, trend
from trainer.practice.evidence.squadron import LONG_AWAY_DAYS
from trainer.practice.standard_met import VERDICTS


def html(squadron, skipped, *, day, caution):
    """Return the page of the ``squadron``'s record; its seal is still open.

    ``skipped`` are (file, why); ``day`` is the date of making, as text.
    """
    return page(
        "roster.html.j2", style=("report.css", "roster.css"), title="Squadron: where practice stands",
        headline=headline(squadron, day), squadron=squadron, skipped=skipped, marks=MARKS, classes=CLASSES,
        ago=ago, trend=trend,
        ready=ready_lines(squadron), caution=caution, away_days=LONG_AWAY_DAYS, seal=Own(seal.OPEN),
    )  # fmt: skip


def headline(squadron, day):
    """Return how many pilots there are, and for what the forecast is."""
    count = len(squadron["pilots"])
    event = squadron["event"]
    text = f"{count} pilot{'s' if count != 1 else ''}, put together on {day} from their own reports."
    return text + (f" Forecast for: {event['name']}, {event['at'][:10]}." if event["at"] else "")


def ready_lines(squadron):
    """Return a line per verdict with the names that have it."""
    lines = []
    counts = Counter(pilot["verdict"] for pilot in squadron["pilots"])
    for verdict in VERDICTS:
        names = [pilot["name"] for pilot in squadron["pilots"] if pilot["verdict"] == verdict]
        if names:
            shown = ", ".join(names[:12]) + (f" and {len(names) - 12} more" if len(names) > 12 else "")
            lines.append(f"{MARKS[verdict]} {counts[verdict]} {verdict}: {shown}")
    return lines


def ago(days):
    """Return how long ago something was, a dash where it never was."""
    if days is None:
        return "–"
    return "today" if days == 0 else f"{days} day{'s' if days != 1 else ''} ago"
