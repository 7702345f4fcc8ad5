"""CSV after RFC 4180: areas of the report, and all reviews.

Lines end in CR LF, texts that need it stand in quotes.  A text that a spreadsheet would run as a formula gets an
apostrophe.  The seal stands in the last column of the first row; a table without rows has none, and is empty.
"""

import csv
import io

from trainer.pages import seal
from trainer.pages.text import cell

AREA_COLUMNS = (
    "pilot",
    "made",
    "event",
    "area",
    "verdict",
    "why",
    "forecast_share",
    "forecast_low",
    "forecast_high",
    "demanded_share",
    "recent_asked",
    "recent_right",
    "drills",
    "drills_asked",
    "practice_min",
)
REVIEW_COLUMNS = (
    "id",
    "at",
    "offset_min",
    "drill_id",
    "deck",
    "kind",
    "area",
    "form",
    "question",
    "typed",
    "truth",
    "unit",
    "deviation",
    "verdict",
    "score",
    "slip",
    "seconds",
    "limit_s",
    "hint_used",
    "asked_back",
    "mode",
    "predicted",
    "engine_version",
    "digest",
)
# What was typed, and all that it follows from: the truth and how far off it was, the slip with the question's numbers,
# and the digest, by which a guess could be tried.
TELLING = frozenset(("question", "typed", "truth", "deviation", "slip", "offset_min", "asked_back", "digest"))


def areas(report):
    """Return the CSV of the areas of the record ``report``; its seal is still open."""
    rows = []
    for area in report["areas"]:
        forecast = area["forecast"] or dict.fromkeys(("share", "low", "high"))
        rows.append(
            (
                report["pilot"]["name"],
                report["made"]["at"],
                report["event"]["name"],
                area["area"],
                area["verdict"],
                area["why"],
                forecast["share"],
                forecast["low"],
                forecast["high"],
                area["demanded"]["share"],
                area["recent"]["asked"],
                area["recent"]["right"],
                area["drills"],
                area["met"],
                area["minutes"],
            )
        )
    return _written(AREA_COLUMNS, ([cell(value) for value in row] for row in rows))


def reviews(rows, *, answers=True):
    """Return the CSV of ``rows`` of the store (values of ``REVIEW_COLUMNS``); its seal is still open.

    ``answers`` False leaves out what was typed and all that it follows from, the time zone too.  ``truth`` is JSON, as
    it is stored; ``asked_back`` what was offered and taken (without ``answers`` 1 where something was); ``digest``
    links the row to the row before it.
    """
    return _written(REVIEW_COLUMNS, (_review(row, answers) for row in rows))


def _review(row, answers):
    named = dict(zip(REVIEW_COLUMNS, row, strict=True))
    named["digest"] = named["digest"].hex()
    if not answers:
        named |= dict.fromkeys(TELLING, "")
        named["asked_back"] = bool(row[REVIEW_COLUMNS.index("asked_back")]) + 0
    return [cell(value) for value in named.values()]


def _written(columns, rows):
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow((*columns, "seal"))
    sealed = False
    for row in rows:
        writer.writerow((*row, "" if sealed else seal.OPEN))
        sealed = True
    return text.getvalue()
