"""The loop of a rehearsal: tell, ask, judge, go on.  There is no way back and no hint."""

from trainer.errors import AnswerError, StorageError
from trainer.reading.freetext.asking_back import Unsure
from trainer.terminal import rehearsal_screens as screens
from trainer.terminal.look import printable
from trainer.terminal.loop import LONGEST_ANSWER, say_or_raise
from trainer.terminal.prompts import refit

NOT_TONIGHT = ("h", "w", "u", "f")
YES = ("y", "yes")


def run(rehearsal, flown, prompt, heading=None):
    """Fly the sortie until its end or until the person leaves; return the ``Sheet``.

    ``prompt`` has ``say(text, tone)`` and ``ask(status) -> (line, seconds)``.
    """
    if rehearsal.answered:
        _lines(prompt, screens.taken_up(rehearsal.answered, flown, prompt.look))
    else:
        _lines(prompt, screens.greeting(flown, prompt.look))
    try:
        phase = ""
        while (event := rehearsal.next()) is not None:
            refit(prompt)
            _lines(prompt, screens.story(event, prompt.look, new_phase=event.phase != phase))
            phase = event.phase
            if event.question is not None and not _asked(rehearsal, prompt, event):
                break
    except EOFError:
        pass
    except KeyboardInterrupt:
        prompt.say()
    sheet = rehearsal.finish()
    refit(prompt)
    _lines(prompt, screens.result_sheet(sheet, flown, prompt.look, heading))
    return sheet


def _asked(rehearsal, prompt, event):
    """Ask until the line is an answer; return False where the person wants to stop."""
    _lines(prompt, screens.head(event, rehearsal.progress(), prompt.look))
    if event.question.form == "listen":
        prompt.hear(printable(event.question.inputs["hear"]), event.question.inputs["hear_s"])
    _lines(prompt, screens.question(event, prompt.look))
    spent, meant, before, counts = 0.0, "", "", 1.0  # while what could not be read is asked again the clock stands
    while True:
        line, seconds = prompt.ask(lambda now: screens.status(event, spent + counts * now))  # noqa: B023
        spent += counts * seconds
        word = line.strip().lower()
        if word == "q":
            return False
        if word == "help" or word == "?" and event.question.form != "listen":  # of a call that was heard: not copied
            _lines(prompt, screens.keys(prompt.look))
            continue
        if word in NOT_TONIGHT:
            _lines(prompt, [(line, "") for line in prompt.look.wrap(screens.NO_HINTS)])
            continue
        asked_back = meant if word in YES else ""
        line = before if asked_back else line[:LONGEST_ANSWER]
        try:
            answer = rehearsal.give_up(spent) if word == "s" else rehearsal.submit(line, spent, asked_back=asked_back)
            break
        except (AnswerError, StorageError) as error:
            meant, before, counts = error.meant if isinstance(error, Unsure) else "", line, 0.0
            say_or_raise(prompt, error, screens.unread)
    _lines(prompt, screens.verdict(answer, prompt.look))
    return True


def takes_up(prompt, found, flown):
    """Return whether the person takes up the sortie that was left."""
    _lines(prompt, [(line, "ask") for line in prompt.look.wrap(screens.offer(found, flown))])
    try:
        line, _ = prompt.ask(lambda spent: "▸ ")
    except (EOFError, KeyboardInterrupt):
        return False
    return line.strip().lower() not in ("n", "no", "new")


def _lines(prompt, lines):
    for text, tone in lines:
        prompt.say(text, tone)
