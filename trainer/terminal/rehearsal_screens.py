"""What the screens of a rehearsal say.  Every function returns (text, tone) lines and prints nothing."""

from trainer.engine import display
from trainer.model import OUT_OF_TIME
from trainer.practice.night import wording
from trainer.practice.night.wording import clean_head, counts, failed_flows, headline, missed_line, said, whole_verdict
from trainer.terminal.look import printable
from trainer.terminal.screens import CAUTION, not_taken, printable_lines, typeable

KEYS = "No hints, nothing is asked twice. s = I don't know · q = leave it; it can be taken up again"
NO_HINTS = "Not on the night: answer, or s if you don't know, or q to stop."
HELP = {
    "s": "I don't know: the answer is told, and you go on with it",
    "y": "yes, to “did you mean …?”; it counts half",
    "q": "leave the sortie; `trainer rehearse` takes it up again, its clock stands; so does Ctrl-D",
}
SAY_S = "s if you don't know"
MOST_NAMED = 5  # misses, before "and n more"


def greeting(flown, look):
    """Return the lines that open a rehearsal."""
    lines = _wrapped(look, CAUTION, "quiet")
    lines += _wrapped(look, " ".join(flown.labels), "quiet") if flown.labels else []
    lines += _wrapped(
        look, f"Rehearsal: {headline(flown)}. {flown.questions} questions, about {flown.minutes} minutes.", "ask"
    )
    lines += _wrapped(look, f"Judged by: {flown.standard.title}.", "quiet")
    return [*lines, *_wrapped(look, KEYS, "quiet"), *left_out(flown, look)]


def left_out(flown, look):
    """Return what could not be asked because the decks lack it."""
    if not flown.left_out:
        return []
    return _wrapped(look, f"Left out, your decks do not hold them: {', '.join(flown.left_out)}", "late")


def story(event, look, *, new_phase):
    """Return what happens, with the time on the mission clock."""
    time = display.value(event.clock_min, "clock")
    lines = [("", ""), (f"{time}  {event.phase.upper()}", "ask")] if new_phase else []
    lines += [("", "")] if event.story else []
    for at, text in enumerate(event.story):
        mark = "! " if event.changes and at == 0 else ""
        tone = "late" if event.changes else ""
        lines += [(line, tone) for line in look.wrap(printable(f"{time}  {mark}{text}"), hanging=" " * 7)]
    return lines


def head(event, progress, look):
    """Return the place of a question in the sortie, its area and its limit."""
    asked = event.question
    time = display.value(event.clock_min, "clock")
    number, count = progress
    text = f"{time}  {number} of {count} · {asked.area} · limit {asked.limit_s:g} s"
    return [("", ""), *((line, "quiet") for line in look.wrap(text, hanging=" " * 7))]


def question(event, look):
    """Return the question and the lines to choose from."""
    asked, lines = event.question, []
    for paragraph in printable_lines(asked.text):
        lines += [(line, "ask") for line in look.wrap(paragraph)]
    for place, choice in enumerate(asked.choices, start=1):
        lines += [(text, "") for text in look.wrap(printable(choice), indent=f"  {place}  ", hanging="     ")]
    return lines


def keys(look):
    """Return what can be typed instead of an answer."""
    return typeable(look, "Type the answer as you would write it, or one of these; there are no hints:", HELP)


def status(event, spent_s):
    """Return the text before the cursor."""
    limit = event.question.limit_s
    return f"{spent_s:.0f} of {limit:g} s ▸ " if spent_s <= limit else "over the limit ▸ "


def verdict(answer, look):
    """Return how the answer compares; a number that goes on is the true one."""
    truth = printable(answer.event.question.truth_text)
    if answer.clean:
        return _wrapped(look, f"{clean_head(answer)}: {truth}.", "good")
    if answer.grade.verdict == OUT_OF_TIME:
        return _wrapped(look, f"Right, but out of time: {truth}.", "late")
    if answer.asked_back:
        return _wrapped(look, f"Right, but asked back, which counts half: {truth}.", "late")
    head = "Not known" if answer.gave_up else "Not right"
    told = f"In order: {truth}" if answer.event.question.form == "order" else f"It is {truth}"
    lines = _wrapped(look, f"{head}. {told}{'; you go on with that' if answer.carried else ''}.", "bad")
    for sentence in said(answer):
        lines += [(line, "") for line in look.wrap(printable(sentence), indent="  ")]
    return lines


def unread(error, look):
    """Return what an answer that can't be read is met with; it is not graded."""
    hint = SAY_S if "hint" in error.hint or "solution" in error.hint else error.hint
    return not_taken(error.message, hint, look)


def result_sheet(sheet, flown, look, heading=None):
    """Return the result sheet: pass or not by area, what was missed, and what becomes of it."""
    lines = [("", ""), *_wrapped(look, f"RESULT SHEET  {headline(flown)}", "ask")]
    lines += _heading(heading, look)
    lines += _wrapped(look, f"{flown.standard.title}; {counts(sheet)}", "quiet")
    if not sheet.answers:
        return [*lines, *_wrapped(look, "Nothing was answered."), *_wrapped(look, CAUTION, "quiet")]
    for area in sheet.result.areas:
        text, tone = area_line(area)
        lines += [(line, tone) for line in look.wrap(text, indent="  ", hanging="    ")]
    for title in failed_flows(sheet, flown):
        lines += [(line, "bad") for line in look.wrap(f"required flow not right: {title}")]
    lines += _wrapped(look, whole_verdict(sheet), "good" if sheet.passed else "bad")
    missed = [answer for answer in sheet.answers if not answer.clean]
    if missed:
        lines += [("", ""), ("Missed:", "ask")]
        for answer in missed[:MOST_NAMED]:
            lines += [(line, "") for line in look.wrap(printable(missed_line(answer)), indent="  ", hanging=" " * 9)]
        if more := len(missed[MOST_NAMED:]):
            lines += _wrapped(look, f"  and {more} more; with `--out FILE` the sheet shows every answer")
        lines += _wrapped(look, "Your next sessions ask these first: `trainer practice`.")
    if not sheet.complete:
        lines += _wrapped(look, left(len(sheet.answers), flown), "late")
    return [*lines, *_wrapped(look, " ".join(flown.labels), "quiet"), *_wrapped(look, CAUTION, "quiet")]


def left(answered, flown):
    """Return what is said of a sortie that was left."""
    return (
        f"Left after {answered} of {flown.questions} questions; `trainer rehearse` takes it up again. Its clock stands."
    )


def offer(found, flown):
    """Return the question whether a sortie that was left is taken up again."""
    return (
        f"A sortie was left after {len(found.answers)} of {found.questions} questions ({headline(flown)})."
        " Enter takes it up again, n begins a new one."
    )


def taken_up(answered, flown, look):
    """Return the lines that open a sortie that is taken up again."""
    rest = flown.questions - answered
    return _wrapped(look, f"Taken up again: {headline(flown)}; {rest} of {flown.questions} questions are left.", "ask")


def area_line(area):
    """Return (text, tone) of one area."""
    word = {True: "pass", False: "NOT PASSED", None: ""}[area.passed]
    timed = f", {area.in_time} of {area.timed} in time" if area.timed else ""
    text = f"{area.area:11} {area.right:2} of {area.asked:2} right{timed}  {word}"
    text = f"{text.rstrip()} ({area.why})" if area.why else text
    return text, {True: "good", False: "bad", None: "quiet"}[area.passed]


def answer_sheet(flown, look, heading=None):
    """Return the instructor's sheet: every event with its question and the answer."""
    lines = [*_wrapped(look, f"INSTRUCTOR'S ANSWER SHEET  {headline(flown)}", "ask"), *_heading(heading, look)]
    lines += _wrapped(look, CAUTION, "quiet")
    lines += _wrapped(look, " ".join(flown.labels), "quiet")
    phase, number = "", 0
    for event in flown.events:
        lines += story(event, look, new_phase=event.phase != phase)
        phase = event.phase
        if event.question is None:
            continue
        number += 1
        text = " ".join(printable_lines(wording.asked(event.question)))
        lines += [(line, "") for line in look.wrap(f"{number:3}. {text}", hanging="     ")]
        answer = printable(event.question.truth_text)
        lines += [(line, "ask") for line in look.wrap(f"= {answer}", indent="     ", hanging="       ")]
    return [*lines, *left_out(flown, look)]


def _heading(heading, look):
    if heading is None:
        return []
    return _wrapped(look, " · ".join(f"{what} {text}" for what, text in heading.pairs), "quiet")


def _wrapped(look, text, tone=""):
    return [(line, tone) for line in look.wrap(text)]
