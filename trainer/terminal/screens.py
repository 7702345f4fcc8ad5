"""What the screens of a session say.  Every function returns (text, tone) lines and prints nothing."""

from trainer.terminal.look import printable

CAUTION = (
    "Practice aid for simulation; not for real flight. The aircraft's flight manual, the ship's and air"
    " wing's instructions and licensed instruction govern."
)
WIDE = 60  # columns from which on a line may hold two things
KEYS = "h hint · s solution · ? all that can be typed · q stop"
HELP = {
    "h": "a hint; a right answer after it counts half",
    "s": "the solution; it counts as not known",
    "w": "why: the worked solution of the last answer",
    "k": "known already: asked once in the next session, to prove it",
    "x": "not for me: asked no more",
    "f": "flag a question that is faulty; it does not count",
    "u": "undo the last answer",
    "q": "stop; so does Ctrl-D",
}
AFTERWARDS = ("w", "x", "f", "u", "q")  # what means something once the verdict is there
PAUSE = "Enter goes on (w why, u undo, f flag, x not for me, q stop)"
FLAGGED = "Flagged as faulty: it does not count, and is not asked until `trainer deck flags --lift` lifts the flag."
KNOWN = "Good: it is asked once in the next session, to prove it."
NOT_FOR_ME = "It is asked no more; `trainer deck on` lists what is switched off and brings it back."
LONG_AWAY_DAYS, STUBBORN_NAMED = 14, 2
UNDONE = "The last answer is withdrawn; the same drill comes again."
NOTHING_GRADED = [("", ""), ("Nothing was graded. The first question waits for you.", "")]
NOTHING_TO_UNDO = "There is no answer in this session to undo."

# By verdict of the model: what is said of numbers, and of words, which have no limits to be inside of.
_HEADS = {
    "on the number": ("On the number", "Right", "good"),
    "inside limits": ("Inside limits", "Right in part", "good"),
    "outside limits": ("Outside limits", "Not right", "bad"),
    "out of time": ("Right, but out of time", "Right, but out of time", "late"),
}


def greeting(look, *, minutes, questions, first_time):
    """Return the lines that open a session."""
    length = _plural(questions, "question") if questions else _plural(minutes, "minute")
    lines = []
    if first_time:
        lines += _wrapped(look, "Welcome. Type the answer to each question and press Enter.", "ask")
    lines += _wrapped(look, CAUTION, "quiet")
    if first_time:
        lines += _wrapped(look, "The shipped aircraft, ship and numbers are invented.", "quiet")
    return [*lines, *_wrapped(look, f"{length} · {KEYS}", "quiet")]


def question(question, number, look, *, reason="", timed=True):
    """Return the question with its number in the session (None: no session), area and time limit.

    ``reason`` says why it is asked before others; what is not ``timed`` has no limit.
    """
    place = f"{number} · " if number else ""
    limit = f"limit {question.limit_s:g} s" if timed else "no clock yet"
    lines = [("", ""), (f"{place}{question.area} · {question.kind} · {limit}", "quiet")]
    if reason:
        lines += _wrapped(look, f"Asked first: {printable(reason)}.", "quiet")
    for paragraph in printable_lines(question.text):
        lines += _wrapped(look, paragraph, "ask")
    for number, choice in enumerate(question.choices, start=1):
        lines += [(text, "") for text in look.wrap(printable(choice), indent=f"  {number}  ", hanging="     ")]
    return lines


def heard(question, number, look):
    """Return what leads in a call that is heard: it is on the screen only as long as it would be spoken."""
    place = f"{number} · " if number else ""
    return [("", ""), (f"{place}{question.area} · listen, and copy", "quiet")]


def status(remaining_s, spent_s, question, steps=(), *, timed=True):
    """Return the text before the cursor: time left in the session, the time of this question, steps so far."""
    count = f"step {len(steps) + 1}" if question.form == "recite" else ""
    if not timed:
        return f"{count} ▸ ".lstrip()
    left = "last question" if remaining_s is not None and remaining_s <= 0 else ""
    if remaining_s is not None and remaining_s > 0:
        left = f"{int(remaining_s) // 60}:{int(remaining_s) % 60:02d} left"
    limit = f"{spent_s:.0f} of {question.limit_s:g} s" if spent_s <= question.limit_s else "over the limit"
    return " · ".join(part for part in (left, limit, count) if part) + " ▸ "


def verdict(outcome, look):
    """Return how the answer compares, the deviation, and the slip if one was matched."""
    grade = outcome.grade
    if outcome.gave_up:
        return _wrapped(look, f"Not known. The answer is {outcome.truth_text}.", "late")
    of_number, of_words, tone = _HEADS[grade.verdict]
    head = of_number if outcome.is_number else of_words
    if grade.verdict == "on the number":
        return _wrapped(look, f"{head}: {outcome.truth_text}.", tone)
    slip = grade.slip.words if grade.slip is not None else None
    said = [sentence for sentence in grade.said if sentence != slip]
    off = f" ({said.pop(0)})" if said and (outcome.is_number or grade.verdict == "out of time") else ""
    lines = _wrapped(look, f"{head}: the answer is {outcome.truth_text}{off}.", tone)
    if slip is not None:
        lines += _wrapped(look, f"Likely slip: {printable(slip)}.", "bad")
    for sentence in said:
        lines += _wrapped(look, printable(sentence))
    return lines


def solution(lines, look):
    """Return the worked solution, indented."""
    shown = []
    for line in lines:
        line = printable(line)
        if line != line.lstrip() or len(line) < look.width - 4:
            shown.append((f"  {line}", ""))
        else:
            shown += [(text, "") for text in look.wrap(line, indent="  ")]
    return shown


def hint(question, look):
    """Return the hint of the question; of one that asks for a number with the form in which it is typed."""
    parts = [printable(question.hint).rstrip(".")]
    if question.unit not in ("", "word"):
        from trainer.reading.numbers.forms import form_of

        parts.append(form_of(question.unit, question.truth, question.seed))
    return _wrapped(look, f"Hint: {'; '.join(filter(None, parts)) or 'there is none for this one'}", "quiet")


def keys(look):
    """Return what can be typed instead of an answer."""
    lead, end = "Type the answer as you would write it, or one of these:", "Where a letter is itself an answer, write"
    return typeable(look, lead, HELP) + _wrapped(look, f"{end} ? before it: ?h", "quiet")


def keys_afterwards(look):
    """Return what can be typed when the solution is there."""
    return typeable(look, "Enter goes on, or one of these:", {letter: HELP[letter] for letter in AFTERWARDS})


def typeable(look, lead, meanings):
    """Return what can be typed now: ``lead``, then a line for each of ``meanings`` {what is typed: what it does}."""
    width = max(map(len, meanings))
    lines = _wrapped(look, lead, "quiet")
    for typed, text in meanings.items():
        lines += [(line, "quiet") for line in look.wrap(f"  {typed:{width}}  {text}", hanging=" " * (width + 4))]
    return lines


def nothing_yet(look):
    """Return what `w` says before anything has been answered."""
    return _wrapped(look, "There is nothing to explain yet: answer first, or `s` shows the solution.", "quiet")


def unread(error, look):
    """Return what an answer that can't be read is met with; it is not graded."""
    return not_taken(error.message, error.hint, look)


def not_taken(message, hint, look):
    """Return what is wrong and what to type instead: in one line where the screen has room for both."""
    message, hint = printable(message), printable(hint)
    whole = look.wrap(f"{message} – {hint}") if hint else [message]
    if len(whole) == 1 and look.width >= WIDE:
        return [(whole[0], "late")]
    return _wrapped(look, message, "late") + (_wrapped(look, f"  {hint}", "quiet") if hint else [])


def summary(summary, look):
    """Return the closing summary, to be read in ten seconds: right of asked, the stage, what to look at, when next."""
    if not summary.asked:
        return NOTHING_GRADED
    asked = f"{_plural(summary.asked, 'question')} in {_minutes(summary.seconds)}: {summary.right} right."
    lines = [("", ""), *_wrapped(look, asked, "ask")]
    if summary.standing is not None:
        lines += standing(summary.standing, look, summary.today)
    if summary.look_at:
        lines += _wrapped(look, "To look at:")
        for title, cause in summary.look_at:
            lines += [(text, "") for text in look.wrap(f"  {printable(title)}: {printable(cause)}", hanging="    ")]
        if summary.more:
            lines += _wrapped(look, f"  and {summary.more} more")
    if summary.stubborn:
        names = ", ".join(printable(name) for name in summary.stubborn[:STUBBORN_NAMED])
        lines += _wrapped(look, f"Stays wrong: {names}. It comes with its rule in front now, once a session.")
    if summary.away >= LONG_AWAY_DAYS:
        lines += _wrapped(look, f"{summary.away} days away: nothing to catch up; the minutes went where they pay most.")
    return [*lines, *_wrapped(look, _come_back(summary))]


def standing(one, look, today):
    """Return how far a stage is, and what became of it since last week."""
    learning = f", {one.learning} being learned" if one.learning else ""
    done = ""
    if one.done is not None:
        done = (
            "; all of it holds" if one.holds == one.of else f"; done by about {_day_name(one.done, today)} at this pace"
        )
    name = printable(one.title).partition(":")[0]
    lines = _wrapped(look, f"{name} – {one.holds} of {one.of} hold{learning}{done}.")
    if one.since is not None and one.since[1] != one.holds:
        lines += _wrapped(look, f"Since {_day_name(one.since[0], today)} {one.since[1]} → {one.holds} hold.")
    return lines


def once_more(count):
    """Return the offer to ask what was missed once more."""
    return f"Enter asks what was missed once more ({_plural(count, 'drill')}), q stops"


def of_these(right, count):
    """Return how many of those missed were right the second time."""
    return f"{right} of {count} right this time."


def _come_back(summary):
    when = _day_name(summary.again, summary.today)
    if not summary.faded:
        return f"Come back by {when}; until then what you know will hold."
    return f"Come back {when}: {_plural(summary.faded, 'drill')} will be due."


def _day_name(day, today):
    """Return ``day`` as a person says it on ``today``."""
    if (day - today).days in (0, 1):
        return ("today", "tomorrow")[(day - today).days]
    name = f"{day.day} {day:%B}" if abs((day - today).days) > 6 else f"{day:%A}, {day.day} {day:%B}"
    return name if abs((day - today).days) < 300 else f"{name} {day.year}"


def printable_lines(text):
    """Return the paragraphs of ``text``, each free of control characters."""
    return [printable(line) for line in text.splitlines()] or [""]


def _wrapped(look, text, tone=""):
    return [(line, tone) for line in look.wrap(text)]


def _plural(count, noun):
    return f"{count:g} {noun}{'' if count == 1 else 's'}"


def _minutes(seconds):
    if seconds is None:
        return "an unmeasured time"
    return f"{int(seconds) // 60}:{int(seconds) % 60:02d}"
