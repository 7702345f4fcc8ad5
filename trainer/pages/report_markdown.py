"""The report on one pilot as Markdown (CommonMark with tables), in the order of the page."""

from trainer.engine import picture_text
from trainer.engine.picture import of_record
from trainer.pages import report_page, report_plots, seal
from trainer.pages.render import percent
from trainer.pages.text import markdown as safe

HEADS = (
    "item", "required: right, in time", "reached, 4 weeks", "expected: right, in time", "plan kept", "trend", "takes",
    "standing and remark",
)  # fmt: skip


def write(report):
    """Return the Markdown of the record ``report``; its seal is still open."""
    lines = [
        f"# {safe(report['pilot']['name'])}: training record",
        "",
        *[f"- {what}: {safe(text)}" for what, text in report_page.facts(report)[1:]],
        "",
        f"**{report_page.headline(report)}.**",
        *[f"- {safe(line)}" for line in (*report_page.verdict_lines(report), *report_page.minutes_lines(report))],
        *_section("What to brief", [f"{at}. {safe(line)}" for at, line in enumerate(report["brief"], 1)]),
        *_section("Rehearsal and flights", [f"- {safe(line)}" for line in report_page.sorties(report)]),
        *_section("Item by item", _items(report)),
        *_section("The weakest drills", [line for drill in report["weakest"] for line in _drill(drill)]),
        *_section("Right, but slow", [_slow(drill) for drill in report["slow"]]),
        *_section("How far off", [_error(record) for record in report["deviations"]]),
        *_section("Week by week", _weeks(report["weeks"])),
        *_section("Were the forecasts honest?", _honesty(report["calibration"])),
        *_section("Caution", [safe(report["caution"]), *[f"- {safe(label)}" for label in report["invented"]]]),
        *_section("What this page can prove", [safe(report_page.custody(report)), "", f"`{seal.OPEN}`"]),
    ]
    return "\n".join(lines) + "\n"


def _section(title, lines):
    return ["", f"## {title}", "", *lines] if lines else []


def _table(heads, rows):
    return [
        "| " + " | ".join(heads) + " |",
        "|" + " --- |" * len(heads),
        *("| " + " | ".join(row) + " |" for row in rows),
    ]


def _items(report):
    rows = []
    for item in report_page.items(report):
        cells = (item[name] for name in ("required", "reached", "expected", "kept", "trend", "takes"))
        standing = f"{report_page.MARKS[item['verdict']]} {item['verdict']} {safe(item['why'])}".strip()
        flows = "; ".join(f"{mark} {safe(words)}" for mark, _, words in item["flows"])
        rows.append([safe(item["name"]), *cells, f"{standing}{f'; flows: {flows}' if flows else ''}"])
    return _table(HEADS, rows) if rows else []


def _drill(drill):
    late = f", {drill['late']} of them late" if drill["late"] else ""
    late += f", {drill['asked_back']} after asking back" if drill.get("asked_back") else ""
    lines = [
        f"### {safe(report_page.short(drill['title']))}",
        "",
        f"{drill['area']}; {drill['right']} of {drill['asked']} right{late}; {percent(drill['at_event'])} likely right"
        " at the event.",
    ]
    slip = drill["slip"]
    if slip:
        lines += ["", f"Typical: {safe(slip['words'])} ({slip['count']} of {slip['of']} wrong answers)."]
    lines += ["", *[f"- {safe(words)}" for words in report_page.answered(drill["wrong"])], ""]
    if not drill["worked"]:
        return lines
    fence = "~~~~~~"
    return [
        *lines,
        f"{fence}text",
        *[line.replace(fence, "") for line in (*drill["worked"], *_drawn(drill))],
        fence,
        "",
    ]


def _drawn(drill):
    """Return the lines of the drill's picture; its words are harmless already."""
    return picture_text.lines(of_record(drill["picture"])) if drill.get("picture") else ()


def _slow(drill):
    return (
        f"- {safe(report_page.short(drill['title']))} ({drill['area']}): {drill['median_s']:.0f} s,"
        f" {drill['limit_s']:.0f} s"
        f" allowed; {drill['late']} of {drill['right']} late"
    )


def _error(record):
    return f"- {safe(report_page.short(record['title']))} ({record['area']}): {safe(report_plots.told(record))}"


def _weeks(weeks):
    rows = [
        [week["from"], str(week["days"]), str(week["asked"]), percent(week["share"]), f"{week['minutes']:.0f}"]
        for week in weeks
    ]
    return _table(("week from", "days", "answers", "right in time", "minutes"), rows) if rows else []


def _honesty(record):
    if record is None:
        return []
    rows = [[percent(one["said"]), percent(one["came"]), str(one["answers"])] for one in record["bins"]]
    told = "Of answers to drills met before; of a first answer nothing was known."
    return [told, "", *_table(("said", "came", "answers"), rows)]
