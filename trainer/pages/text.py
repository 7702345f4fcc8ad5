"""Text from people and decks made harmless for a page or a file: what a cell, a line, a page may hold."""

import unicodedata

from trainer.safe_text import printable

SEAL = "trainer-seal:"
LONGEST = 2_000
FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")
_MARKDOWN = str.maketrans({sign: f"\\{sign}" for sign in "\\`*_[]<>#|~&$"})


def clean(text, longest=LONGEST):
    """Return ``text`` on one line, without characters that steer a screen, no longer than ``longest``.

    What would look like the seal of a file loses its colon.
    """
    if len(text) > longest:
        text = text[:longest] + "…"
    text = printable(text)
    return text.replace(SEAL, "trainer-seal ") if SEAL in text else text


def cell(value, longest=LONGEST):
    """Return ``value`` for a CSV cell: a text that a spreadsheet would take for a formula gets an apostrophe.

    Source: OWASP, CSV Injection.  Numbers stay numbers.
    """
    if not isinstance(value, str):
        return "" if value is None else value
    value = clean(value, longest)
    return f"'{value}" if value.lstrip().startswith(FORMULA_STARTS) else value


def markdown(text, longest=LONGEST):
    """Return ``text`` for a line of Markdown, every sign that means something there escaped (CommonMark 2.4)."""
    return clean(text, longest).translate(_MARKDOWN)


def slug(text):
    """Return ``text`` as a part of a file name: lower-case ASCII letters, digits and hyphens, "pilot" for none."""
    plain = unicodedata.normalize("NFKD", text).encode("ascii", "ignore").decode("ascii").lower()
    words = "".join(sign if sign.isalnum() else " " for sign in plain).split()
    return "-".join(words)[:40].strip("-") or "pilot"
