"""The sheets of a rehearsal as pages: the instructor's answers, and the result."""

from trainer.engine import display
from trainer.pages.render import page
from trainer.practice.night import wording


def answer_sheet(flown, *, caution):
    """Return the HTML of the instructor's answer sheet: every question with its answer."""
    return _page(flown, caution, title="Instructor's answer sheet", rows=[_row(event) for event in flown.events])


def result_sheet(flown, sheet, *, caution):
    """Return the HTML of the result of a rehearsal that was flown, with every answer given."""
    answers = {id(answer.event): answer for answer in sheet.answers}
    rows = [_row(event) | _given(answers.get(id(event)), event) for event in flown.events]
    areas = [_area(area) for area in sheet.result.areas]
    return _page(
        flown, caution, title="Result sheet", rows=rows, areas=areas, passed=sheet.passed,
        verdict=wording.whole_verdict(sheet), counts=wording.counts(sheet), failed_flows=sheet.result.failed_flows,
    )  # fmt: skip


def _page(flown, caution, *, title, rows, areas=None, passed=False, verdict="", counts="", failed_flows=()):
    phases = []
    number = 0
    for event, row in zip(flown.events, rows, strict=True):
        number += event.question is not None
        if not phases or phases[-1]["name"] != event.phase:
            phases.append({"name": event.phase, "rows": []})
        phases[-1]["rows"].append(row | {"number": number if event.question else 0})
    return page(
        "sheet.html.j2", style=("sheet.css",), title=title, headline=wording.headline(flown), caution=caution,
        labels=flown.labels, left_out=flown.left_out, areas=areas, passed=passed, verdict=verdict, counts=counts,
        standard=flown.standard.title, failed_flows=failed_flows, phases=phases,
    )  # fmt: skip


def _row(event):
    question = event.question
    return {
        "time": display.value(event.clock_min, "clock"), "story": event.story, "changes": event.changes,
        "question": wording.asked(question) if question else "", "answer": question.truth_text if question else "",
        "drill": f"{question.area} · {question.drill_id} · {question.limit_s:g} s" if question else "",
        "typed": "", "tone": "",
    }  # fmt: skip


def _given(answer, event):
    """Return what was answered, for the result sheet."""
    if event.question is None:
        return {}
    if answer is None:
        return {"typed": "not flown", "tone": "quiet"}
    typed = "not known" if answer.gave_up else f"answered: {answer.typed}"
    return {"typed": f"{typed} – {wording.word_of(answer)}", "tone": "good" if answer.clean else "bad"}


def _area(area):
    return {
        "name": area.area, "right": f"{area.right} of {area.asked}",
        "timed": f"{area.in_time} of {area.timed}" if area.timed else "–",
        "verdict": " – ".join(filter(None, ({True: "pass", False: "not passed", None: ""}[area.passed], area.why))),
        "tone": {True: "good", False: "bad", None: "quiet"}[area.passed],
    }  # fmt: skip
