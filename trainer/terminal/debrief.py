"""The walk through a flight: one line for each phase, and a remark at the end."""

from trainer.errors import AnswerError, StorageError
from trainer.practice.night import debrief
from trainer.terminal.look import printable
from trainer.terminal.prompts import refit
from trainer.terminal.screens import CAUTION, typeable

HOW = (
    "One line for each phase. Enter: all of it was right. Else the numbers with m missed, l late, o off the number"
    " (with the amount if you know it), - not flown: 2m 4l 5o200 6-. A single - : phase not flown."
    " u takes the last phase back, q ends."
)
HELP = {
    "Enter": "all of this phase was right",
    "2m 4l": "item 2 was missed, item 4 late; the others were right",
    "5o200": "item 5 was off the number, by 200; 5o where you don't know by how much",
    "6-": "item 6 was not flown; 6r: it was, and right, where it is asked only if there was one",
    "-": "this phase was not flown",
    "u": "takes the last phase back",
    "q": "ends; what was told is kept",
}
REMARKS = "Remarks, for yourself (exported only with --export); Enter for none:"
LONGEST_REMARK = 2_000
TRY_AGAIN = "Enter tries again (q ends without the remarks)"


def run(walk, prompt, *, remarks=None):
    """Walk through the phases until the end or until the person leaves; keep the debrief."""
    _wrapped(prompt, CAUTION, "quiet")
    _wrapped(prompt, f"Debrief of the flight of {walk.flown}, Case {'I' * walk.case}.", "ask")
    _wrapped(prompt, HOW, "quiet")
    phases = list(walk.phases().items())
    at, left = 0, False
    try:
        while at < len(phases) and not left:
            step = _phase(walk, prompt, *phases[at])
            left = step is None
            at = max(0, at + (step or 0))
        if remarks is None and not left:
            prompt.say()
            remarks = _remarks(prompt)
    except EOFError:
        pass
    except KeyboardInterrupt:
        prompt.say()
    _end(walk, prompt, _kept(walk, prompt, (remarks or "")[:LONGEST_REMARK]))


def _kept(walk, prompt, remarks):
    """Keep the debrief; a person may make room on a full disk and try again."""
    while True:
        try:
            return walk.finish(remarks)
        except StorageError as error:
            if not prompt.person:
                raise
            _wrapped(prompt, printable(str(error)), "late")
            try:
                leaving = prompt.pause(TRY_AGAIN).strip().lower() == "q"
            except (EOFError, KeyboardInterrupt):
                leaving = True
            if leaving:
                raise


def _phase(walk, prompt, phase, items):
    """Ask for one phase; return 1 to go on, -1 to go back, None to end."""
    refit(prompt)
    prompt.say()
    prompt.say(phase.upper(), "ask")
    for number, item in enumerate(items, start=1):
        unit = f" ({_unit(item)})" if item.unit else f" (only if there was one: {number}r)" if item.rare else ""
        for text in prompt.look.wrap(f"{number:2}  {item.words}{unit}", indent="  ", hanging=" " * 6):
            prompt.say(text)
    while True:
        line, _ = prompt.ask(lambda spent: "▸ ")
        word = line.strip().lower()
        if word == "q":
            return None
        if word in ("?", "help"):
            for text, tone in typeable(prompt.look, "One line for this phase:", HELP):
                prompt.say(text, tone)
            continue
        try:
            if word == "u":
                back = walk.undo()
                prompt.say(f"taken back: {back}" if back else "there is nothing to take back")
                if back:
                    return -1
                continue
            told = debrief.read(line, items)
            walk.tell(phase, told)
        except (AnswerError, StorageError) as error:
            # Where nobody is there to make room and type it again, as in a pipe, it ends here.
            if isinstance(error, StorageError) and not prompt.person:
                raise
            _wrapped(prompt, printable(str(error)), "late")
            continue
        _said(prompt, told)
        return 1


def _unit(item):
    from trainer.engine.units import UNITS

    return UNITS[item.unit].symbol.strip() or item.unit


def _said(prompt, told):
    if not told:
        prompt.say("not flown", "quiet")
        return
    lacking = [one for one in told if one.how not in (debrief.RIGHT, debrief.NOT_FLOWN)]
    right = sum(one.how == debrief.RIGHT for one in told)
    text = "; ".join([*(one.text for one in lacking), f"right: {right}"])
    _wrapped(prompt, printable(text), "late" if lacking else "good")


def _remarks(prompt):
    prompt.say(REMARKS)
    line, _ = prompt.ask(lambda spent: "▸ ")
    return printable(line.strip())


def _end(walk, prompt, kept):
    prompt.say()
    if kept is None:
        prompt.say("Nothing was told; nothing is kept.")
        return
    right, told = walk.counts()
    _wrapped(prompt, f"Kept: {right} of {told} right in flight.", "ask")
    for one in walk.failed():
        _wrapped(prompt, printable(f"  {one.text}"))
    if walk.failed():
        _wrapped(prompt, "Your next sessions ask these first.")


def _wrapped(prompt, text, tone=""):
    for line in prompt.look.wrap(text, hanging="  " if text.startswith("  ") else ""):
        prompt.say(line, tone)
