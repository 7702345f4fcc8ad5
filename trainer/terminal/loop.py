"""The loop of a session: ask, judge, say what happened.  It owns no state but the last verdict."""

from trainer.errors import AnswerError, DisplacedError, StorageError
from trainer.terminal import screens

LONGEST_ANSWER = 2_000
MOST_STEPS = 200  # of a recitation; a deck has at most a hundred
YES = ("y", "yes")  # to "did you mean …?"


class Leave(Exception):
    """The person wants to stop."""


def run(session, prompt):
    """Ask until the session is over or the person leaves; return the summary of the session.

    ``prompt`` has ``say(text, tone)``, ``ask(status) -> (line, seconds)`` and ``pause(text) -> line``.
    """
    stays = _ask(session, prompt)
    summary = session.finish(lambda summary: _lines(prompt, screens.summary(summary, prompt.look)))
    if stays and prompt.person and session.missed():
        _once_more(session, prompt)
    return summary


def _ask(session, prompt):
    """Ask until the session is over; return False where the person leaves before."""
    try:
        while (question := session.next()) is not None:
            _show(session, prompt, question)
            if prompt.person and session.number() > 1:  # at the first one the line editor is being loaded
                _get_ready(session)
            _answer(session, prompt, question)
        return True
    except (EOFError, Leave):
        pass
    except KeyboardInterrupt:
        prompt.say()
    return False


def _once_more(session, prompt):
    """Offer what was missed once more; Enter takes it up."""
    missed = session.missed()
    try:
        if prompt.pause(screens.once_more(len(missed))).strip():
            return
    except (EOFError, KeyboardInterrupt):
        return
    session.once_more()
    _ask(session, prompt)
    session.finish()
    again = len(missed) - len(session.missed())
    _say(prompt, screens.of_these(again, len(missed)))


def _get_ready(session):
    from threading import Thread

    Thread(target=session.get_ready, daemon=True).start()


def _show(session, prompt, question):
    # The first question may be there already: it is printed before the line editor is loaded.
    if session.on_screen():
        return
    lines = screens.question(question, session.number(), prompt.look, reason=session.reason(), timed=session.timed())
    if question.form == "listen":
        _lines(prompt, screens.heard(question, session.number(), prompt.look))
        prompt.hear(screens.printable(question.inputs["hear"]), question.inputs["hear_s"])
        lines = lines[2:]
    _lines(prompt, lines)


def _answer(session, prompt, question):
    """Ask until the line is an answer; words of command are carried out in between.

    While what could not be read is asked again the clock stands.
    """
    spent, hint_used, steps, timed = 0.0, False, [], session.timed()
    meant, before, counts = "", "", 1.0
    while True:
        line, seconds = prompt.ask(
            lambda now: screens.status(session.remaining_s(), spent + counts * now, question, steps, timed=timed)  # noqa: B023
        )
        spent += counts * seconds
        word = _command(session, line)
        try:
            if word in COMMANDS:
                hint_used = hint_used or word == "h"
                if COMMANDS[word](session, prompt, question):
                    return None  # the question on screen has gone
                continue
            if word == "s":
                outcome = session.give_up(spent)
            else:
                asked_back = meant if word in YES else ""
                line = before if asked_back else line[:LONGEST_ANSWER]
                if question.form == "recite" and not _complete(session, asked_back or line, steps):
                    hint_used, meant, counts = hint_used or bool(asked_back), "", 1.0
                    continue
                typed = "\n".join(steps) if steps else line
                outcome = session.submit(typed, spent, hint_used=hint_used, asked_back=asked_back)
        except (AnswerError, StorageError) as error:
            meant, before, counts = getattr(error, "meant", ""), line, 0.0
            say_or_raise(prompt, error)
            continue
        return _judge(session, prompt, outcome)


def _command(session, line):
    """Return the word of command that ``line`` is, "" for an answer: what can be one is one, unless ? leads it."""
    word = line.strip().lower()
    if word.startswith("?") and word[1:] in {*COMMANDS, "s"}:
        return word[1:]
    return "" if session.is_an_answer(word) else word


def _complete(session, line, steps):
    """Take one line of a recitation into ``steps``; return True when the flow is said to be complete.

    An empty line or a full stop ends it; so does one line that holds all steps, parted by ``;``.
    """
    if len(steps) >= MOST_STEPS or (line.strip() in ("", ".") and steps):
        return True
    if ";" in line and not steps:
        return True
    session.read_line(line)
    steps.append(line)
    return False


def _judge(session, prompt, outcome):
    _lines(prompt, screens.verdict(outcome, prompt.look))
    if outcome.clean:
        return
    worked = session.worked(ascii_only=not prompt.look.unicode, whole=False)
    # The verdict has just told the answer.
    shown = [line for line in worked if line != f"answer: {outcome.truth_text}"]
    _lines(prompt, screens.solution(shown, prompt.look))
    while (word := prompt.pause(screens.PAUSE).strip().lower()) in AFTERWARDS:
        try:
            if COMMANDS[word](session, prompt, None):
                return
        except StorageError as error:
            say_or_raise(prompt, error)


def say_or_raise(prompt, error, unread=screens.unread):
    """Say why an answer was not taken, so that it can be typed again; raise it where nobody is there to do so.

    A person may free the disk or close the other window; in a pipe the next line is another answer.  A database
    that was taken away can't be brought back by typing again.
    """
    if isinstance(error, DisplacedError) or (isinstance(error, StorageError) and not prompt.person):
        raise error
    _lines(prompt, unread(error, prompt.look))


# A word of command returns True where the question it was typed at is done with.


def _hint(session, prompt, question):
    _lines(prompt, screens.hint(question, prompt.look))


def _why(session, prompt, question):
    """Show the worked solution of the last answer; where it has just been shown, what else is to be said of it."""
    ascii_only = not prompt.look.unicode
    above = session.worked(ascii_only=ascii_only, whole=False) if question is None else ()
    lines = [line for line in session.worked(ascii_only=ascii_only) if line not in above]
    _lines(prompt, screens.solution(lines, prompt.look) if lines else screens.nothing_yet(prompt.look))


def _flag(session, prompt, question):
    session.flag(question)
    _say(prompt, screens.FLAGGED)
    return True


def _known(session, prompt, question):
    if question is None:
        return False
    session.know_it()
    _say(prompt, screens.KNOWN)
    return True


def _not_for_me(session, prompt, question):
    gone = session.not_for_me(question)
    _say(prompt, screens.NOT_FOR_ME if gone else screens.NOTHING_TO_UNDO)
    return gone and question is not None


def _undo(session, prompt, question):
    undone = session.undo()
    prompt.say(screens.UNDONE if undone else screens.NOTHING_TO_UNDO)
    return undone


def _quit(session, prompt, question):
    raise Leave


def _help(session, prompt, question):
    _lines(prompt, (screens.keys if question is not None else screens.keys_afterwards)(prompt.look))


COMMANDS = {
    "?": _help,
    "help": _help,
    "h": _hint,
    "w": _why,
    "k": _known,
    "x": _not_for_me,
    "f": _flag,
    "u": _undo,
    "q": _quit,
}
AFTERWARDS = ("?", "help", *screens.AFTERWARDS)


def _say(prompt, text):
    _lines(prompt, [(line, "") for line in prompt.look.wrap(text)])


def _lines(prompt, lines):
    for text, tone in lines:
        prompt.say(text, tone)
