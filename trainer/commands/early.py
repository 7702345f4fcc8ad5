"""A question on the screen at once: what happens before the session is loaded.

A cold start must not be waited for.  The question kept for today is printed first, then the line editor is
loaded and takes the first line, and the rest is loaded while the person thinks.
"""

import sys
from importlib import import_module

from trainer.terminal.complaint import complain

NEEDED_NEXT = (
    "trainer.store.store",
    "trainer.practice.session",
    "trainer.drills.grading",
    "trainer.memory.planner",
    "trainer.practice.answering",
)


class EarlyPrompt:
    """A line editor that was live before the session was: it hands over its first line once more."""

    def __init__(self, prompt, record, begun):
        self.record, self.begun = record, begun
        self._prompt = prompt
        self._kept = None
        self._loading = None
        self._untold = []

    def __getattr__(self, name):
        return getattr(self._prompt, name)

    def listen(self, status, world):
        """Take the first line; a key that leaves is handed over like an answer."""
        self._prompt.when_live(lambda: self._load(world))
        try:
            self._kept = self._prompt.ask(status)
        except (EOFError, KeyboardInterrupt) as leaving:
            self._kept = leaving

    def _load(self, world):
        from concurrent.futures import ThreadPoolExecutor

        pool = ThreadPoolExecutor(1)
        self._loading = pool.submit(_everything, world, self._untold.append)
        pool.shutdown(wait=False)

    def library(self):
        """Return the library; what went wrong with it is told or raised here, in the main thread."""
        shelf = self._loading.result()
        for line in self._untold:
            complain(line)
        self._untold.clear()
        return shelf

    def ask(self, status):
        """Return the line taken already, then those of the line editor."""
        kept, self._kept = self._kept, None
        if isinstance(kept, BaseException):
            raise kept
        return kept or self._prompt.ask(status)


def _everything(world, tell):
    """Import what the first answer will need, and return the library."""
    for name in NEEDED_NEXT:
        import_module(name)
    return world.library(tell=tell)


def prompt_with_question(world, minutes, questions):
    """Return the ``EarlyPrompt`` that has taken its first line, None where no question was kept for today.

    None as well without a terminal that can move its cursor: a pipe has no cold start to wait for.
    """
    from trainer.terminal import look

    if not look.interactive(plain=world.plain):
        return None
    from trainer.store import cold_read

    record = cold_read.opening(world.home)
    if not record or record.get("signature") != world.signature():
        return None
    from types import SimpleNamespace

    from trainer import paths
    from trainer.store import disk_room
    from trainer.terminal import screens

    disk_room.require(paths.database(world.home))

    screen = look.look_for(sys.stdout, plain=world.plain)
    question = SimpleNamespace(**record["question"])
    print_lines(screen, screens.greeting(screen, minutes=minutes, questions=questions, first_time=False))
    print_lines(screen, screens.question(question, 1, screen))
    prompt = EarlyPrompt(editor(screen, world), record, world.clock.seconds())

    def status(spent):
        left = None if questions else minutes * 60 - (world.clock.seconds() - prompt.begun)
        return screens.status(left, spent, question)

    prompt.listen(status, world)
    return prompt


def print_lines(screen, lines):
    """Print lines before the line editor is there; on Windows the terminal learns colours only from it."""
    for text, _ in lines:
        print(screen.line(text))
    sys.stdout.flush()


def editor(screen, world):
    """Return the line editor of a real terminal."""
    from trainer.terminal import prompts

    return prompts.editor(screen, world.clock)
