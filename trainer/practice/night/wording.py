"""The words for a rehearsal and its result that screens and pages share."""

from trainer.engine import display
from trainer.model import INSIDE_LIMITS, OUT_OF_TIME

ROMAN = {1: "I", 2: "II", 3: "III"}


def headline(flown):
    """Return which sortie this is."""
    phases = f", {flown.phases}" if flown.phases else ""
    return f"seed {flown.scenario.seed}, Case {ROMAN[flown.scenario.case]} as briefed{phases}"


def counts(sheet):
    """Return how many were right, in which time, and how many were not flown."""
    time = f" in {int(sheet.seconds) // 60}:{int(sheet.seconds) % 60:02d}" if sheet.seconds is not None else ""
    rest = f", {sheet.unanswered} not flown" if sheet.unanswered else ""
    return f"{sheet.result.right} of {sheet.result.asked} right{time}{rest}"


def whole_verdict(sheet):
    """Return the verdict in words."""
    if sheet.passed:
        return "PASSED"
    return "NOT PASSED" if sheet.complete else "NOT PASSED: the sortie was not flown to its end"


def clean_head(answer):
    """Return the words for an answer that was right and in time."""
    number = answer.event.question.unit not in ("", "word")
    if answer.grade.verdict == INSIDE_LIMITS:
        return "Inside limits" if number else "Right in part"
    return "On the number" if number else "Right"


def word_of(answer):
    """Return the verdict on one answer in a few words."""
    if answer.grade.verdict == OUT_OF_TIME:
        return "right, but out of time"
    if answer.asked_back:
        return "right, but only when it was asked back"
    return clean_head(answer).lower() if answer.clean else "not right"


def asked(question):
    """Return the text of a question for a sheet; what is heard goes before it."""
    return f'"{question.inputs["hear"]}" {question.text}' if question.form == "listen" else question.text


def said(answer):
    """Return what was wrong with an answer: the slip it matched, the faults of an order."""
    slip = answer.grade.slip
    found = [f"Likely slip: {slip.words}."] if slip else []
    return found + [sentence for sentence in answer.grade.said if not slip or sentence != slip.words]


def missed_line(answer):
    """Return one missed question with what was typed and what is right."""
    time = display.value(answer.event.clock_min, "clock")
    question = answer.event.question
    other = question.form == "order"  # the numbers typed mean nothing without the lines they stood at
    typed = "not known" if answer.gave_up else "in another order" if other else f"you: {answer.typed}"
    late = " (asked back)" if answer.asked_back else " (right, but late)" if answer.grade.verdict == OUT_OF_TIME else ""
    return f"{time}  {asked(question)} {typed}{late} – {question.truth_text}"


def failed_flows(sheet, flown):
    """Return the titles of the required flows that were not wholly right."""
    return tuple(flown.titles.get(drill_id, drill_id) for drill_id in sheet.result.failed_flows)
