"""How text is laid out: width, colour, and whether the screen can show more than ASCII."""

import os
import sys
import textwrap

from trainer.safe_text import SPACES, printable

# Tones are carried by words first; the colour only repeats what the text says.
TONES = {"good": "32", "bad": "31", "late": "33", "quiet": "2", "ask": "1"}
_ASCII = str.maketrans({
    "–": "-", "—": "-", "·": "-", "…": "...", "→": "->", "←": "<-", "×": "x", "≤": "<=", "≥": ">=",
    "−": "-", "°": " deg", "’": "'", "“": '"', "”": '"', "▸": ">", "±": "+/-", "√": "sqrt", "²": "^2",
    "½": "1/2", "¼": "1/4", "¾": "3/4", "█": "#", "▓": "+", "▒": "=", "░": "-", "◄": "<", "✓": "ok",
    "\xa0": " ", "\u202f": " ", "▲": "up", "▼": "down", "▬": "level", "►": ">", "•": "o", "─": "-", "│": "|", "╱": "/",
    "╲": "\\", "≈": "about", "÷": "/", "↵": "Enter",
})  # fmt: skip
PLAIN_SPACES = dict.fromkeys(map(ord, SPACES), " ")  # which every font of a terminal has


class Look:
    """The screen that lines are laid out for."""

    # A plain class: `dataclasses` alone would cost a cold start as much as the database does.
    def __init__(self, *, width=80, colour=False, unicode=True, drawings=True):
        self.width, self.colour, self.unicode = width, colour, unicode
        self.drawings = drawings  # False where lines are read aloud: a bar of signs says nothing there

    def line(self, text, tone=""):
        """Return ``text`` as it goes to the screen: in ASCII where need be, coloured where allowed."""
        text = printable(text).translate(PLAIN_SPACES)
        text = text if self.unicode else to_ascii(text)
        return f"\x1b[{TONES[tone]}m{text}\x1b[0m" if tone and self.colour else text

    def wrap(self, text, *, indent="", hanging=""):
        """Return ``text`` as lines no wider than the screen; ``hanging`` leads all lines but the first."""
        width = max(20, min(self.width, 100) - 1)
        return textwrap.wrap(
            text, width, initial_indent=indent, subsequent_indent=hanging or indent, break_on_hyphens=False
        ) or [""]


def to_ascii(text):
    """Return ``text`` with the signs that we use spelled in ASCII and any other replaced by ``?``."""
    return text.translate(_ASCII).encode("ascii", "replace").decode("ascii")


def interactive(*, plain, environ=os.environ):
    """Return True where a full-screen line editor may be used: both ends a terminal that can move its cursor."""
    return (
        not plain
        and not environ.get("NO_COLOR")
        and environ.get("TERM") != "dumb"
        and sys.stdin is not None
        and sys.stdin.isatty()
        and sys.stdout.isatty()
    )


def look_for(stream, *, plain, environ=os.environ):
    """Return the ``Look`` for ``stream``."""
    encoding = (getattr(stream, "encoding", "") or "ascii").lower().replace("-", "")
    terminal = stream.isatty()
    return Look(
        width=_columns(stream) if terminal else 80,
        colour=terminal and not plain and not environ.get("NO_COLOR") and environ.get("TERM") != "dumb",
        unicode=encoding.startswith("utf") and not environ.get("TRAINER_ASCII"),
        drawings=not plain,
    )


def _columns(stream):
    try:
        return os.get_terminal_size(stream.fileno()).columns or 80
    except (OSError, ValueError):
        return 80
