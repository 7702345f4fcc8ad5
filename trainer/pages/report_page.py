"""The report on one pilot as a page and as Markdown.  Everything comes from the record; nothing is computed here."""

from trainer.pages import report_plots, seal
from trainer.pages.render import page
from trainer.pages.text import clean

MARKS = {"ready": "✓", "close": "≈", "short": "✗", "not known": "?"}
CLASSES = {"ready": "ready", "close": "close", "short": "short", "not known": "unknown"}
SHORT_TITLE = 110


def html(report):
    """Return the page of the record ``report``; its seal is still open."""
    return page(
        "report.html.j2", style=("report.css",), title=f"{report['pilot']['name']}: where practice stands",
        report=_with_plots(report), marks=MARKS, classes=CLASSES, period=period(report), event=event(report),
        headline=headline(report), verdict_lines=verdict_lines(report), custody=custody(report), seal=Own(seal.OPEN),
        weeks_plot=report_plots.weeks("weeks", report["weeks"]) if report["weeks"] else "",
        honesty_plot=report_plots.honesty("honesty", report["calibration"]) if report["calibration"] else "",
    )  # fmt: skip


def _with_plots(report):
    areas = [area | {"bar": _bar(at, area)} for at, area in enumerate(report["areas"])]
    errors = [
        record
        | {"plot": report_plots.errors(f"off{at}", record), "told": report_plots.told(record)}
        | {"short": short(record["title"])}
        for at, record in enumerate(report["deviations"])
    ]
    weakest = [
        drill | {"short": short(drill["title"]), "worked_text": _block(drill["worked"])} for drill in report["weakest"]
    ]
    slow = [drill | {"short": short(drill["title"])} for drill in report["slow"]]
    return report | {"areas": areas, "deviations": errors, "weakest": weakest, "slow": slow}


def _bar(at, area):
    if area["forecast"] is None:
        return ""
    return report_plots.interval_bar(f"area{at}", area["area"], area["forecast"], area["demanded"]["share"])


class Own(str):
    """Text of our own, or cleaned already: its line ends and its seal are meant."""


def _block(lines):
    return Own("\n".join(clean(line) for line in lines))


def short(title):
    """Return a title cut for a heading."""
    return title if len(title) <= SHORT_TITLE else title[: SHORT_TITLE - 1].rstrip() + "…"


def headline(report):
    """Return the verdict in a word or three."""
    return {"ready": "Ready", "close": "Close", "short": "Not ready", "not known": "Not known yet"}[report["verdict"]]


def verdict_lines(report):
    """Return a line per verdict: the areas that have it."""
    lines = []
    for verdict in ("short", "close", "not known", "ready"):
        names = [area["area"] for area in report["areas"] if area["verdict"] == verdict]
        if names:
            lines.append(f"{MARKS[verdict]} {verdict}: {', '.join(names)}")
    return lines


def period(report):
    """Return who practised when and how much."""
    found = report["period"]
    if not found["answers"]:
        return "No answers yet."
    days = f"{found['days']} day{'s' if found['days'] != 1 else ''}"
    text = (
        f"{found['from']} to {found['to']}: {found['answers']:,} answers to {found['drills']} drills on {days},"
        f" {found['minutes']:,.0f} minutes of answering; {found['right'] / found['answers']:.0%} right."
    )
    if found["unmeasured"]:
        text += f" Time was not measured for {found['unmeasured']:,} of them."
    if found["in_flight"]:
        text += f" {found['in_flight']:,} come from debriefs."
    return text + (f" Last flown {found['last_flown']}." if found["last_flown"] else "")


def event(report):
    """Return the event and how far it is."""
    found = report["event"]
    ahead = f", {found['days']:.0f} days after this report" if found["set"] else ""
    return f"{'Event: ' if found['set'] else 'Forecast '}{found['name']}, {found['local']}{ahead}"


def custody(report):
    """Return what the digests show and what they do not, in plain words."""
    chain = report["chain"]
    text = (
        "The seal below is a digest of everything on this page; `trainer report --check FILE` tells whether a character"
        " of it was changed after it was written."
    )
    if chain["reviews"]:
        text += (
            f" Every answer on the pilot's computer carries a digest that includes the one before it; this report was"
            f" made from {chain['covered']:,} of {chain['reviews']:,} stored answers ({chain['withdrawn']:,} were"
            f" withdrawn by the pilot and do not count), and the chain ends with the digest shown."
        )
        which = "All of them" if chain["checked"] == chain["reviews"] else f"The newest {chain['checked']:,}"
        text += f" {which} were compared with their digests just before: " + (
            f"{chain['faults']:,} do not agree, so something was changed." if chain["faults"] else "they agree."
        )
    return text + (
        " A later report of the same pilot quotes the chain as it stood at this one: if answers had been changed or"
        " left out since, the two would disagree. What no digest can show is who typed the answers, or that the whole"
        " chain was not made anew with the program's source before the first report was handed over."
    )
