"""The report on one pilot as an outline, in the order of the page: what Markdown and a screen are made from."""

from collections.abc import Mapping, Sequence
from typing import Any, NamedTuple

from trainer.engine import picture_text
from trainer.engine.picture import of_record
from trainer.pages import report_page, report_plots, seal
from trainer.pages.render import percent

HEADING, SECTION, DRILL = "heading", "section", "drill"  # title of the whole, of a part, of a drill in it
STRONG, WORDS, ITEMS, NUMBERED = "strong", "words", "items", "numbered"
TABLE, FIXED, SEAL = "table", "fixed", "seal"  # TABLE: the first line holds the heads; FIXED: lines as they are set
HEADS = (
    "item", "required: right, in time", "reached, 4 weeks", "expected: right, in time", "plan kept", "trend", "takes",
    "standing and remark",
)  # fmt: skip
Report = Mapping[str, Any]


class Part(NamedTuple):
    """A part of the outline: its ``lines``, of a table its rows of cells."""

    kind: str
    lines: Sequence[Any]


def outline(report: Report) -> list[Part]:
    """Return the parts of the record ``report``; its seal is still open."""
    return [
        Part(HEADING, [f"{report['pilot']['name']}: training record"]),
        Part(ITEMS, [f"{what}: {text}" for what, text in report_page.facts(report)[1:]]),
        Part(STRONG, [f"{report_page.headline(report)}."]),
        Part(ITEMS, [*report_page.verdict_lines(report), *report_page.minutes_lines(report)]),
        *_section("What to brief", Part(NUMBERED, report["brief"])),
        *_section("Rehearsal and flights", Part(ITEMS, report_page.sorties(report))),
        *_section("Item by item", Part(TABLE, _items(report))),
        *_section("The weakest drills", *[part for drill in report["weakest"] for part in _drill(drill)]),
        *_section("Right, but slow", Part(ITEMS, [_slow(drill) for drill in report["slow"]])),
        *_section("How far off", Part(ITEMS, [_error(record) for record in report["deviations"]])),
        *_section("Week by week", Part(TABLE, _weeks(report["weeks"]))),
        *_section("Were the forecasts honest?", *_honesty(report["calibration"])),
        *_section("Caution", Part(WORDS, [report["caution"]]), Part(ITEMS, report["invented"])),
        *_section("What this page can prove", Part(WORDS, [report_page.custody(report)]), Part(SEAL, [seal.OPEN])),
    ]


def _section(title, *parts):
    """Return the parts under their title, nothing where they are all empty."""
    filled = [part for part in parts if part.lines]
    return [Part(SECTION, [title]), *filled] if filled else []


def _items(report):
    rows = [_item(item) for item in report_page.items(report)]
    return [HEADS, *rows] if rows else []


def _item(item):
    cells = (item[name] for name in ("required", "reached", "expected", "kept", "trend", "takes"))
    flows = "; ".join(f"{mark} {words}" for mark, _, words in item["flows"])
    standing = f"{report_page.MARKS[item['verdict']]} {item['verdict']} {item['why']}".strip()
    return [item["name"], *cells, f"{standing}{f'; flows: {flows}' if flows else ''}"]


def _drill(drill):
    late = f", {drill['late']} of them late" if drill["late"] else ""
    late += f", {drill['asked_back']} after asking back" if drill.get("asked_back") else ""
    told = (
        f"{drill['area']}; {drill['right']} of {drill['asked']} right{late}; {percent(drill['at_event'])} likely right"
        " at the event."
    )
    slip = drill["slip"]
    typical = [f"Typical: {slip['words']} ({slip['count']} of {slip['of']} wrong answers)."] if slip else []
    drawn = picture_text.lines(of_record(drill["picture"])) if drill.get("picture") else ()
    return [
        Part(DRILL, [report_page.short(drill["title"])]), Part(WORDS, [told]), Part(WORDS, typical),
        Part(ITEMS, report_page.answered(drill["wrong"])), Part(FIXED, [*drill["worked"], *drawn]),
    ]  # fmt: skip


def _slow(drill):
    return (
        f"{report_page.short(drill['title'])} ({drill['area']}): {drill['median_s']:.0f} s, {drill['limit_s']:.0f} s"
        f" allowed; {drill['late']} of {drill['right']} late"
    )


def _error(record):
    return f"{report_page.short(record['title'])} ({record['area']}): {report_plots.told(record)}"


def _weeks(weeks):
    rows = [
        [week["from"], str(week["days"]), str(week["asked"]), percent(week["share"]), f"{week['minutes']:.0f}"]
        for week in weeks
    ]
    return [("week from", "days", "answers", "right in time", "minutes"), *rows] if rows else []


def _honesty(record):
    if record is None:
        return []
    rows = [[percent(one["said"]), percent(one["came"]), str(one["answers"])] for one in record["bins"]]
    told = "Of answers to drills met before; of a first answer nothing was known."
    return [Part(WORDS, [told]), Part(TABLE, [("said", "came", "answers"), *rows])]
