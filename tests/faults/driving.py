"""Drives the real program as a person would, through a pipe or a pseudo-terminal, and may kill it at any instant.

POSIX only where a pseudo-terminal is asked for; ``Piped`` runs everywhere.
"""

import os
import re
import select
import subprocess
import sys
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
TRAINER = [sys.executable, "-c", "from trainer.cli import entry; entry()"]
LONGEST_S = 25.0  # after which a program that says nothing counts as hung

ESCAPES = re.compile(r"\x1b\[[0-9;?]*[ -/]*[@-~]|\x1b\][^\x07]*\x07|\x1b[=>78]|\r")
ASKED = re.compile(r"^\d+ · \w+ · (\w+ · limit|\w+ · no clock|listen)", re.MULTILINE)
VERDICT = re.compile(
    r"^(Not known\.|On the number:|Inside limits:|Outside limits:|Right:|Right in part:|Not right:"
    r"|Right, but out of time:)",
    re.MULTILINE,
)
UNDONE, FLAGGED, PAUSE = "The last answer is withdrawn", "Flagged as faulty", "Enter goes on"


def environment(home, **more):
    """Return the environment of a program whose data lie in ``home``."""
    unset = ("NO_COLOR", "TRAINER_NOW", "TRAINER_ASCII")
    kept = {name: value for name, value in os.environ.items() if name not in unset}
    return kept | {
        "TRAINER_HOME": str(home), "PYTHONPATH": str(ROOT), "TERM": "xterm", "PYTHONIOENCODING": "utf-8",
        "PYTHONWARNINGS": "error", **more,
    }  # fmt: skip


def run(*words, home, typed="", **environ):
    """Return the finished process of ``trainer WORDS`` with ``typed`` in the pipe."""
    return subprocess.run(
        [*TRAINER, *map(str, words)],
        input=typed, capture_output=True, text=True, encoding="utf-8",
        env=environment(home, **environ), timeout=LONGEST_S, stdin=None,
    )  # fmt: skip


class Driven:
    """A program that runs.  ``seen`` is all it has said; ``typed`` the lines it was given."""

    enter = ""

    def __init__(self):
        self.seen, self.typed, self._fed = "", [], 0
        self._raw = b""

    def text(self):
        """Return what was said without escape codes."""
        return ESCAPES.sub("", self.seen)

    def listen(self, seconds):
        """Read for at most ``seconds``; return False when the program has closed its output."""
        ready, _, _ = select.select([self.out], [], [], max(0.0, seconds))
        if not ready:
            return True
        try:
            piece = os.read(self.out, 65536)
        except OSError:
            return False
        self._raw += piece
        self.seen = self._raw.decode("utf-8", "replace")
        self.heard(piece)
        return bool(piece)

    def heard(self, piece):
        """Answer what a terminal itself would answer."""

    def asked(self):
        """Return how many lines the program has asked for."""
        raise NotImplementedError

    def waiting(self):
        """Return True when the program waits for a line that it has not been given."""
        return self.asked() > self._fed

    def send(self, line):
        """Type ``line`` and Enter."""
        self._fed = self.asked()
        self.typed.append(line)
        self.write((line + self.enter).encode("utf-8"))

    def settle(self):
        """Listen until nothing more is said: the program waits for a line, however often it drew its prompt."""
        length = -1
        while length != len(self._raw):
            length = len(self._raw)
            self.listen(0.3)
        self._fed = self.asked() - 1

    def until(self, text, seconds=LONGEST_S):
        """Listen until ``text`` (a string, or a function of this object) is there; AssertionError if it never is."""
        there = text if callable(text) else lambda driven: text in driven.text()
        end = time.monotonic() + seconds
        while not there(self):
            alive = self.listen(min(0.2, end - time.monotonic()))
            assert (alive or there(self)) and time.monotonic() < end, self.text()[-3000:]
        return self

    def rest(self, seconds=LONGEST_S):
        """Listen to the end and return the exit code (negative: the signal)."""
        end = time.monotonic() + seconds
        while self.listen(0.2):
            assert time.monotonic() < end, self.text()[-3000:]
        return self.gone()


class Piped(Driven):
    """``trainer WORDS`` between two pipes."""

    enter = "\n"

    def __init__(self, *words, home, **environ):
        super().__init__()
        self._process = subprocess.Popen(
            [*TRAINER, *map(str, words)], stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
            env=environment(home, **environ),
        )  # fmt: skip
        self.out, self.pid = self._process.stdout.fileno(), self._process.pid

    def asked(self):
        # The prompt stands at the start of a line; what was typed is repeated behind it.
        return self.seen.count("\n> ")

    def write(self, data):
        try:
            self._process.stdin.write(data)
            self._process.stdin.flush()
        except BrokenPipeError:
            pass

    def kill(self):
        self._process.kill()

    def gone(self):
        code = self._process.wait(LONGEST_S)
        self._process.stdout.close()
        try:
            self._process.stdin.close()
        except BrokenPipeError:
            pass
        return code


class OnTerminal(Driven):
    """``trainer WORDS`` in a pseudo-terminal of ``columns`` by ``rows``."""

    enter = "\r"

    def __init__(self, *words, home, columns=80, rows=24, plain=False, **environ):
        import pty

        self.plain = plain  # asked for line by line, as a dumb terminal or a screen reader has it

        super().__init__()
        command = self.command([*TRAINER, *map(str, words)])
        self.pid, self.out = pty.fork()
        if self.pid == 0:
            import fcntl
            import struct
            import termios

            fcntl.ioctl(0, termios.TIOCSWINSZ, struct.pack("HHHH", rows, columns, 0, 0))
            try:
                os.execvpe(command[0], command, environment(home, **environ))
            finally:
                os._exit(127)
        self._code = None

    def command(self, words):
        """Return the words of the program that is started."""
        return words

    def resize(self, columns, rows=24):
        """Change the size of the window."""
        import fcntl
        import struct
        import termios

        fcntl.ioctl(self.out, termios.TIOCSWINSZ, struct.pack("HHHH", rows, columns, 0, 0))

    def heard(self, piece):
        # The line editor asks where the cursor is.
        for _ in range(piece.count(b"\x1b[6n")):
            self.write(b"\x1b[1;1R")

    def asked(self):
        # A prompt is drawn many times; each begins by asking for pasted text to be marked.
        return len(re.findall(r"^.*> ", self.seen, re.MULTILINE)) if self.plain else self._raw.count(b"\x1b[?2004h")

    def write(self, data):
        try:
            while data:
                data = data[os.write(self.out, data) :]
        except OSError:
            pass

    def hang_up(self):
        """Close the window."""
        os.close(self.out)
        self.out = None

    def echoes(self):
        """Return whether the terminal shows what is typed and ends lines at Enter, as a shell needs it."""
        import termios

        flags = termios.tcgetattr(self.out)[3]
        return bool(flags & termios.ECHO and flags & termios.ICANON)

    def kill(self, signal=9):
        os.kill(self.pid, signal)

    def gone(self):
        if self._code is None:
            self._code = os.waitstatus_to_exitcode(os.waitpid(self.pid, 0)[1])
            if self.out is not None:
                os.close(self.out)
        return self._code
