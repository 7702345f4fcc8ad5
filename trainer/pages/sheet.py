"""The sheets of a rehearsal as pages: the instructor's answers, and the result.  Both are sealed."""

from trainer.engine import display
from trainer.pages import seal
from trainer.pages.render import page
from trainer.practice.night import wording
from trainer.practice.night.heading import Heading
from trainer.practice.night.prepare import Flown
from trainer.practice.night.rehearsal import Sheet

RIGHT, WRONG, OPEN = "✓", "✗", "–"  # told apart in print without colour


def answer_sheet(flown: Flown, *, heading: Heading, caution: str) -> str:
    """Return the HTML of the instructor's answer sheet: every question with its answer."""
    rows = [_row(event) for event in flown.events]
    return _page(flown, heading, caution, title="Instructor's answer sheet", rows=rows)


def result_sheet(flown: Flown, sheet: Sheet, *, heading: Heading, caution: str) -> str:
    """Return the HTML of the result of a rehearsal that was flown: the verdict, the misses, every answer given."""
    answers = {id(answer.event): answer for answer in sheet.answers}
    rows = [_row(event) | _given(answers.get(id(event)), event) for event in flown.events]
    return _page(
        flown, heading, caution, title="Result sheet", rows=rows,
        areas=[_area(area) for area in sheet.result.areas], passed=sheet.passed,
        verdict=wording.whole_verdict(sheet), counts=wording.counts(sheet),
        failed_flows=wording.failed_flows(sheet, flown), missed=[row for row in rows if row["sign"] == WRONG],
    )  # fmt: skip


def _page(flown, heading, caution, *, title, rows, areas=None, passed=False, verdict="", counts="", failed_flows=(),
          missed=()):  # fmt: skip
    phases = []
    number = 0
    for event, row in zip(flown.events, rows, strict=True):
        number += event.question is not None
        row["number"] = number if event.question else 0
        if not phases or phases[-1]["name"] != event.phase:
            phases.append({"name": event.phase, "rows": []})
        phases[-1]["rows"].append(row)
    return seal.close(page(
        "sheet.html.j2", style=("sheet.css",), title=title, headline=wording.headline(flown), caution=caution,
        heading=heading.pairs, labels=flown.labels, left_out=flown.left_out, areas=areas, passed=passed,
        verdict=verdict, counts=counts, standard=flown.standard.title, failed_flows=failed_flows, missed=missed,
        phases=phases, seal=seal.OPEN,
    ))  # fmt: skip


def _row(event):
    question = event.question
    return {
        "time": display.value(event.clock_min, "clock"), "story": event.story, "changes": event.changes,
        "question": wording.asked(question) if question else "", "answer": question.truth_text if question else "",
        "about": f"{question.area} · {question.limit_s:g} s" if question else "",
        "typed": "", "tone": "", "sign": "",
    }  # fmt: skip


def _given(answer, event):
    """Return what was answered, for the result sheet."""
    if event.question is None:
        return {}
    if answer is None:
        return {"typed": "not flown", "tone": "quiet", "sign": OPEN}
    typed = "not known" if answer.gave_up else f"answered: {answer.typed}"
    right = answer.clean
    return {
        "typed": f"{typed} – {wording.word_of(answer)}", "tone": "good" if right else "bad",
        "sign": RIGHT if right else WRONG,
    }  # fmt: skip


def _area(area):
    return {
        "name": area.area, "right": f"{area.right} of {area.asked}",
        "timed": f"{area.in_time} of {area.timed}" if area.timed else "–",
        "verdict": " – ".join(filter(None, ({True: "pass", False: "NOT PASSED", None: ""}[area.passed], area.why))),
        "tone": {True: "good", False: "bad", None: "quiet"}[area.passed],
    }  # fmt: skip
