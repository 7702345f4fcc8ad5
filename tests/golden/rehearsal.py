"""The transcript of one rehearsal, to be read as prose: ``python -m tests.golden.rehearsal`` writes it anew.

Seed 3, Case III, a night; every ninth question is not known, every seventh answered wrongly.
"""

import io
from datetime import UTC, datetime
from pathlib import Path
from tempfile import TemporaryDirectory

from tests.night.keys import right, wrong
from trainer.clock import StillClock
from trainer.decks import library, standards
from trainer.practice.night.prepare import make_ready
from trainer.practice.night.rehearsal import Rehearsal
from trainer.store.store import Store
from trainer.terminal import rehearsal as loop
from trainer.terminal.look import Look
from trainer.terminal.plain import PlainPrompt

FILE = Path(__file__).with_name("rehearsal-seed-3.txt")
NOW = datetime(2030, 3, 1, 19, tzinfo=UTC)


def transcript(home):
    """Return what stands on the screen when the sortie has been flown."""
    shelf, clock, out = library.load(), StillClock(NOW), io.StringIO()
    standard = standards.load(name="night-board", drills=shelf.drills)
    flown = make_ready(shelf, standard, seed="3", case=3)
    asked = [event.question for event in flown.events if event.question]
    typed = "".join(f"{_typed(number, question, shelf)}\n" for number, question in enumerate(asked, start=1))
    with Store.open(home, clock=clock) as store:
        flight = Rehearsal(flown=flown, library=shelf, store=store, clock=clock)
        prompt = PlainPrompt(Look(width=80), clock=clock, stream=io.StringIO(typed), out=out)
        loop.run(flight, flown, prompt)
    return out.getvalue()


def _typed(number, question, shelf):
    if number % 9 == 0:
        return "s"
    return (wrong if number % 7 == 0 else right)(question, shelf)


if __name__ == "__main__":
    with TemporaryDirectory() as folder:
        FILE.write_text(transcript(folder), encoding="utf-8", newline="\n")
    print(f"written: {FILE}")
