"""The line mode: reads a line, prints lines, never moves the cursor.

It serves pipes and scripts, screen readers, and terminals that can do no more.
"""

import sys

LONGEST_LINE = 10_000  # characters; what is beyond is passed over, so that no input fills the memory


class PlainPrompt:
    """Asks by printing ``text`` and reading one line from ``stream``.

    On a terminal it waits for Enter after a miss, so that reading the solution costs no answering time; in a
    pipe every line is an answer.
    """

    def __init__(self, look, *, clock, stream=None, out=None):
        self.look, self.clock = look, clock
        self.stream = stream or sys.stdin
        self.out = out or sys.stdout
        self.person = self.stream is not None and self.stream.isatty()

    def say(self, text="", tone=""):
        """Print one line."""
        print(self.look.line(text, tone), file=self.out, flush=True)

    def ask(self, status):
        """Return (line, seconds); raises ``EOFError`` at the end.  The limit was printed with the question."""
        started = self.clock.seconds()
        line = self._read("> ")
        return line, self.clock.seconds() - started

    def when_live(self, action):
        """Call ``action`` now: a line mode takes lines at any time."""
        action()

    def hear(self, text, seconds):
        """Print a call that is heard; a line mode can't take it away again, so Enter goes on when it is copied."""
        for line in self.look.wrap(text, indent="  "):
            self.say(line)
        self.pause("Enter when you have copied it")

    def pause(self, text):
        """Wait for Enter and return what was typed; "" at once where nobody is there to press it."""
        return self._read(f"{text} > ") if self.person else ""

    def _read(self, prompt):
        print(self.look.line(prompt), end="", file=self.out, flush=True)
        line = self._line() if self.stream is not None else ""
        if not line:
            self.say()
            raise EOFError
        line = line.rstrip("\r\n")
        if not self.person:
            # A transcript reads like a session only if it shows what was typed.
            self.say(_one_line(line))
        return line

    def _line(self):
        line = piece = self.stream.readline(LONGEST_LINE)
        while len(piece) == LONGEST_LINE and not piece.endswith("\n"):
            piece = self.stream.readline(LONGEST_LINE)
        return line


def _one_line(text):
    from trainer.terminal.look import printable

    text = printable(text)
    return text if len(text) <= 200 else text[:200] + " …"
