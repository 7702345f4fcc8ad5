"""Text from a deck: which characters may reach a screen, and the nearest word to a misspelt one."""

import re
import unicodedata

from trainer.safe_text import coded, is_unsafe

LONGEST_SHOWN = 60


def refused_characters(text):
    """Return the characters of ``text`` that may not reach a screen; ordinary white space is fine."""
    if text.isascii() and text.isprintable():
        return []
    return [c for c in text if c not in "\n\r\t" and is_unsafe(c)]


def one_line(text):
    """Return ``text`` with every run of white space as one space."""
    return " ".join(text.split())


def printable(text):
    """Return ``text`` with every character that may not reach a screen written as its code point."""
    return coded(str(text))


def quoted(value):
    """Return a value found in a deck, short and safe to print: text in quotes, the rest as in TOML."""
    if isinstance(value, str):
        short = value if len(value) <= LONGEST_SHOWN else value[:LONGEST_SHOWN] + "…"
        return f'"{printable(short)}"'
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, dict):
        return "a table"
    if isinstance(value, list):
        return "a list"
    # Thousands of digits would fill the screen, and Python refuses to print more than 4,300.
    if isinstance(value, int) and abs(value) >= 10**15:
        return "a number of more than 15 digits"
    return printable(value)


def in_shell(path):
    """Return ``path`` as it can be typed in a shell, safe to print.

    >>> in_shell("my decks/a.toml")
    '"my decks/a.toml"'
    """
    shown = printable(path)
    return f'"{shown}"' if " " in shown else shown


def nearest(word, options, *, cutoff=0.6):
    """Return ``; did you mean "…"?`` for the option most like ``word``, "" when none is near."""
    import difflib

    word, options = str(word)[:100], [str(option) for option in options]
    longer = [option for option in options if len(word) > 1 and option.startswith(word)]
    match = difflib.get_close_matches(word, options, n=1, cutoff=cutoff) or longer
    return f'; did you mean "{match[0]}"?' if len(match) == 1 else ""


def listed(options, most=12):
    """Return ``options`` as "a, b, c", shortened when there are many."""
    options = [str(option) for option in options]
    return ", ".join(options[:most]) + (", …" if len(options) > most else "")


def normalise(text):
    """Return ``text`` as two spellings of one thing are compared: lower case, words only, single spaces.

    >>> normalise("  Brakes – OFF. ")
    'brakes off'
    """
    plain = unicodedata.normalize("NFKC", text).casefold()
    return " ".join(re.findall(r"[\w.]*\w", plain.replace("_", " ")))
