"""One line that says how far a long piece of work has come; silent where nobody watches."""

import sys

from trainer.store.records import Unwatched

SILENT_S = 1.0  # shorter work is not worth a line
EVERY_S = 0.2


class Progress(Unwatched):
    """Counts steps of ``what`` (of ``total``, None: unknown) and tells them on standard error.

    Nothing is written unless that is a terminal, nor in the first second.  Use it as a context manager: it
    takes its line away at the end.
    """

    def __init__(self, what, clock, *, total=None, stream=None):
        self._what, self._clock, self._total = what, clock, total
        self._stream = stream or sys.stderr
        self._watched = self._stream.isatty()
        self._began = self._told = clock.seconds()
        self._done, self._width = 0, 0

    def __enter__(self):
        return self

    def __exit__(self, *_):
        if self._width:
            self._stream.write("\r" + " " * self._width + "\r")
            self._stream.flush()

    def step(self):
        """Count one step."""
        self._done += 1
        now = self._clock.seconds()
        if self._watched and now - self._began >= SILENT_S and now - self._told >= EVERY_S:
            self._told = now
            self._tell(now - self._began)

    def counting(self, function):
        """Return ``function`` with every call counted as a step."""

        def counted(*arguments, **named):
            self.step()
            return function(*arguments, **named)

        return counted

    def _tell(self, spent_s):
        text = f"{self._what}: {self._done:,}"
        if self._total:
            left_s = spent_s / self._done * max(0, self._total - self._done)
            text += f" of {self._total:,}, about {left_s:.0f} s left"
        self._stream.write("\r" + text.ljust(self._width))
        self._stream.flush()
        self._width = max(self._width, len(text))
