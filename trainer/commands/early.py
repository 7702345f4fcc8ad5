"""A question on the screen at once: what happens before the session is loaded.

A cold start must not be waited for.  The question kept for today is printed first, then the line editor is
loaded and takes the first line, and the rest is loaded while the person thinks.
"""

import sys
from functools import cached_property
from importlib import import_module
from threading import Event, Thread

from trainer import paths
from trainer.terminal.complaint import complain

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

NEEDED_NEXT = (
    "trainer.store.store",
    "trainer.practice.session",
    "trainer.drills.grading",
    "trainer.memory.planner",
    "trainer.practice.answering",
)


class EarlyPrompt:
    """A line editor that was live before the session was: it hands over its first line once more.

    ``left`` tells that the person left at the first question: then nothing more need be loaded.
    """

    def __init__(self, prompt, record, begun, shelf=None):
        self.record, self.begun = record, begun
        self._shelf = shelf  # the library, where it was needed before
        self.left = False
        self._prompt = prompt
        self._kept = None
        self._loading = None

    def __getattr__(self, name):
        return getattr(self._prompt, name)

    def listen(self, status, world):
        """Take the first line."""
        self._prompt.when_live(lambda: self._load(world))
        try:
            self._kept = self._prompt.ask(status)
        except (EOFError, KeyboardInterrupt):
            self.left = True

    def _load(self, world):
        self._loading = InBackground(lambda: _everything(world, self._shelf))

    @cached_property
    def shelf(self):
        """Return the library; what went wrong with it is told or raised here, in the main thread.

        In a new home the file for the answers is there as well when this returns.
        """
        assert self._loading is not None, "there is no shelf before the prompt is live"
        shelf, untold = self._loading.result()
        for line in untold:
            complain(line)
        return shelf

    def ask(self, status):
        """Return the line taken already, then those of the line editor."""
        kept, self._kept = self._kept, None
        return kept or self._prompt.ask(status)


class InBackground:
    """Work in a thread of its own that nobody ever waits for when the process ends."""

    def __init__(self, work):
        self._work, self._done = work, Event()
        self._result: Any = None
        self._error: BaseException | None = None
        Thread(target=self._run, daemon=True).start()

    def _run(self):
        try:
            self._result = self._work()
        except BaseException as error:  # raised again where the result is wanted
            self._error = error
        finally:
            self._done.set()

    def result(self):
        """Wait for the work to be done and return what it gave; raises what it raised."""
        self._done.wait()
        if self._error is not None:
            raise self._error
        return self._result


def _everything(world, shelf):
    """Import what the first answer will need; return the library, and what is to be told of it."""
    for name in NEEDED_NEXT:
        import_module(name)
    untold = []
    shelf = shelf or world.library(tell=untold.append)
    if not paths.database(world.home).exists():
        world.store().close()  # a new home gets its file now, not when the first answer is waited for
    return shelf, untold


def farewell(prompt):
    """Say the last words to a person who left at the first question."""
    from trainer.terminal import screens

    prompt.say()
    for text, tone in screens.NOTHING_GRADED:
        prompt.say(text, tone)


def prompt_with_question(world, minutes, questions):
    """Return the ``EarlyPrompt`` that has taken its first line, None where no question was kept for today.

    None as well without a terminal that can move its cursor: a pipe has no cold start to wait for.
    """
    from trainer.terminal import look

    if not look.interactive(plain=world.plain):
        return None
    from trainer.store import cold_read

    new = is_new(world.home)
    shelf, record = first_record(world) if new else (None, cold_read.opening(world.home))
    if not record or record.get("signature") != world.signature():
        return None
    from types import SimpleNamespace

    from trainer.store import disk_room
    from trainer.terminal import screens

    disk_room.require(paths.database(world.home))

    screen = look.look_for(sys.stdout, plain=world.plain)
    question = SimpleNamespace(**record["question"])
    print_lines(screen, screens.greeting(screen, minutes=minutes, questions=questions, first_time=new))
    print_lines(screen, screens.question(question, 1, screen, timed=not new))
    prompt = EarlyPrompt(editor(screen, world), record, world.clock.seconds(), shelf)

    def status(spent):
        left = None if questions else minutes * 60 - (world.clock.seconds() - prompt.begun)
        return screens.status(left, spent, question, timed=not new)

    prompt.listen(status, world)
    return prompt


def is_new(home):
    """Return whether nobody ever practised in ``home``, and it can be written: a folder for own decks is made."""
    if paths.database(home).exists():
        return False
    try:
        paths.own_decks(home).mkdir(parents=True, exist_ok=True)
    except OSError:
        return False  # the store says what is wrong
    return True


def first_record(world):
    """Return (library, record of the first question in a new home, None where there is none)."""
    from trainer.practice import first_question, opening

    shelf = world.library()
    question = first_question.draw(shelf, world.home, world.clock.now().isoformat())
    return shelf, opening.to_record(question, signature=shelf.signature()) if question else None


def print_lines(screen, lines):
    """Print lines before the line editor is there; on Windows the terminal learns colours only from it."""
    for text, _ in lines:
        print(screen.line(text))
    sys.stdout.flush()


def editor(screen, world):
    """Return the line editor of a real terminal."""
    from trainer.terminal import prompts

    return prompts.editor(screen, world.clock)
