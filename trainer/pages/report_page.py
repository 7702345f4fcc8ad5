"""The report on one pilot as a page and as Markdown.  Everything comes from the record; nothing is computed here."""

from collections import Counter

from trainer.pages import report_plots, seal, worked_picture
from trainer.pages.render import counted, minutes, page, percent
from trainer.pages.text import clean
from trainer.practice import minutes_needed

MARKS = {"ready": "✓", "close": "≈", "short": "✗", "not known": "?"}
CLASSES = {"ready": "ready", "close": "close", "short": "short", "not known": "unknown"}
SCALE = (("not known", "not known yet"), ("short", "below the standard"), ("close", "near it"), ("ready", "meets it"))
SHORT_TITLE = 110
HELPED = (("hinted", "after a hint"), ("asked_back", "after asking back"))  # such answers count half


def html(report):
    """Return the page of the record ``report``; its seal is still open."""
    return page(
        "report.html.j2", style=("report.css", "drawn.css"), title=f"{report['pilot']['name']}: training record",
        report=_with_plots(report), marks=MARKS, classes=CLASSES, scale=SCALE, facts=facts(report),
        headline=headline(report), verdict_lines=verdict_lines(report), minutes_lines=minutes_lines(report),
        items=items(report), sorties=sorties(report), custody=custody(report), seal=Own(seal.OPEN),
        event_plot=_event_plot(report), trends=_trends(report),
        weeks_plot=report_plots.weeks("weeks", report["weeks"]) if report["weeks"] else "",
        honesty_plot=report_plots.honesty("honesty", report["calibration"]) if report["calibration"] else "",
    )  # fmt: skip


def facts(report):
    """Return pairs (what, text): whom, when, for what and on whose numbers the record is."""
    own, stage = report.get("own", {}), report.get("own", {}).get("stage", "")
    found = [
        ("Pilot", report["pilot"]["name"]), ("Date of issue", report["made"]["day"]), ("Period", period(report)),
        ("For", event(report)), ("Stage", stage), ("Standard", report["standard"]["title"]),
        ("Airframe", own.get("airframe", "")), ("Ship", own.get("ship", "")),
    ]  # fmt: skip
    return [(what, text) for what, text in found if text]


def minutes_lines(report):
    """Return in sentences what meeting the standard takes, beside what is planned."""
    found = report.get("minutes")
    if not found:
        return []
    at_best = {one["area"]: (one["minutes"], one["share"], one["in_time"]) for one in found["at_best"]}
    by_area = {area["area"]: area["minutes"] for area in report["areas"]}
    return minutes_needed.told(
        minutes_needed.Needed(by_area=by_area, at_best=at_best, planned=found["planned"]), by_area=False
    )


def items(report):
    """Return a row per area: what is required, reached and expected, and a remark; its required flows with it."""
    return [_area_item(area) for area in report["areas"]]


def _area_item(area):
    demanded, forecast, recent, kept = area["demanded"], area["forecast"], area["recent"], area.get("kept")
    expected = "–"
    if forecast:
        interval = f"{100 * forecast['low']:.0f}–{100 * forecast['high']:.0f}"
        expected = f"{percent(forecast['share'])} ({interval}), {percent(forecast['in_time'])}"
    return {
        "name": area["area"], "flows": [_flow_item(flow) for flow in area["flows"]],
        "verdict": area["verdict"], "why": _remark(area),
        "required": f"{percent(demanded['share'])}, {percent(demanded['in_time'])}",
        "reached": f"{recent['right']} of {recent['asked']}" if recent["asked"] else "–",
        "met": f"{area['met']} of {area['drills']}",
        "expected": expected, "kept": percent(kept["share"]) if kept else "–", "trend": trend(area.get("trend")),
        "takes": "–" if area["verdict"] == "ready" else minutes(area["minutes"]),
    }  # fmt: skip


def _remark(area):
    """Return the reason of the verdict; flows that are not right stand below by themselves."""
    return "flow not right yet" if any(not flow["right"] for flow in area["flows"]) else area["why"]


def _flow_item(flow):
    """Return a required flow as (mark, class, words)."""
    reached = "whole" if flow["right"] else "not whole" if flow["answers"] else "never asked"
    verdict = "ready" if flow["right"] else "short"
    return MARKS[verdict], CLASSES[verdict], f"{short(flow['title'], 60)}: {reached}"


def trend(rise):
    """Return the rise of a share in points, with a sign that is seen: "▲ 8"; a dash for None.

    >>> trend(0.08), trend(-0.051), trend(0.004), trend(None)
    ('▲ 8', '▼ 5', '▬ 0', '–')
    """
    if rise is None:
        return "–"
    points = round(100 * rise)
    return f"{'▲' if points > 0 else '▼' if points < 0 else '▬'} {abs(points)}"


def sorties(report):
    """Return lines on the last rehearsal and the last flights."""
    lines, rehearsal = [], report.get("rehearsal")
    if rehearsal:
        passed = "passed" if rehearsal["passed"] else "not passed"
        lines.append(f"Rehearsal {rehearsal['day']}: {rehearsal['right']} of {rehearsal['asked']} right, {passed}.")
        wrong = [*(f"flow {one}" for one in rehearsal["failed_flows"]), *rehearsal["areas_failed"]]
        if wrong:
            lines.append("It failed on: " + "; ".join(short(one, 60) for one in wrong[:3]) + ".")
    else:
        lines.append("No rehearsal yet.")
    for flight in report.get("flights", []):
        told = f"{flight['right']} of {flight['told']} as briefed" if flight["told"] else "flown, nothing told"
        wrong = f": {'; '.join(flight['wrong'][:3])}" if flight["wrong"] else ""
        lines.append(f"Flight {flight['day']}: {told}{wrong}.")
    if not report.get("flights"):
        lines.append("No flight was told.")
    return lines


def _with_plots(report):
    errors = [
        record
        | {
            "plot": report_plots.errors(f"off{at}", record) if record["points"] else "",
            "told": report_plots.told(record),
        }
        | {"short": short(record["title"])}
        for at, record in enumerate(report["deviations"])
    ]
    weakest = [
        drill
        | {"short": short(drill["title"]), "worked_text": _block(drill["worked"], drill.get("slipped_at"))}
        | {"answered": answered(drill["wrong"])}
        | {"drawn": worked_picture.svg_of(f"drawn{at}", drill["picture"]) if drill.get("picture") else ""}
        for at, drill in enumerate(report["weakest"])
    ]
    slow = [drill | {"short": short(drill["title"])} for drill in report["slow"]]
    return report | {"deviations": errors, "weakest": weakest, "slow": slow}


def answered(wrong):
    """Return the wrong answers of a drill as sentences, each once, with how often it came."""
    counts = Counter(one["words"] for one in wrong)
    return [f"{words} ({count} times)" if count > 1 else words for words, count in counts.items()]


def _event_plot(report):
    return report_plots.to_event("event", report["areas"]) if any(one["forecast"] for one in report["areas"]) else ""


def _trends(report):
    return [
        report_plots.area_trend(f"trend{at}", area)
        for at, area in enumerate(report["areas"])
        if any(week["share"] is not None for week in area.get("weeks", ()))
    ]


class Own(str):
    """Text of our own, or cleaned already: its line ends and its seal are meant."""


def _block(lines, slipped_at=None):
    """Return the lines as one text; the one where the pilot's slip happened is marked."""
    marked = [f"{'► ' if at == slipped_at else ''}{clean(line)}" for at, line in enumerate(lines)]
    return Own("\n".join(marked))


def short(title, most=SHORT_TITLE):
    """Return a title cut for a heading."""
    return title if len(title) <= most else title[: most - 1].rstrip() + "…"


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
    text = (
        f"{found['from']} to {found['to']}: {counted(found['answers'], 'answer')} to"
        f" {counted(found['drills'], 'drill')} on {counted(found['days'], 'day')},"
        f" {counted(round(found['minutes']), 'minute')} of answering;"
        f" {found['right'] / found['answers']:.0%} right."
    )
    if found["unmeasured"]:
        text += f" Time was not measured for {found['unmeasured']:,} of them."
    helped = [f"{found[name]:,} {words}" for name, words in HELPED if found.get(name)]
    text += f" {' and '.join(helped)} (half)." if helped else ""
    return text + (f" {found['in_flight']:,} come from debriefs." if found["in_flight"] else "")


def event(report):
    """Return the event and how far it is."""
    found = report["event"]
    ahead = f", {counted(round(found['days']), 'day')} after this record" if found["set"] else ""
    return f"{found['name']}, {found['local']}{ahead}"


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
