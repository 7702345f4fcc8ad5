"""What was typed, made plain: one case, one kind of space and dash, no invisible characters."""

import unicodedata

from trainer.errors import AnswerError

LONGEST_ANSWER = 200
LONGEST_RECITATION = 6000
# º is a letter, not a degree sign, but sits on many keyboards where the degree sign is expected.
_REPLACED = str.maketrans(
    {"º": "°", "˚": "°", "′": "'", "″": '"', "’": "'", "‘": "'", "“": '"', "”": '"', "½": " 1/2", "¼": " 1/4",
     "¾": " 3/4", "⁄": "/", "×": "x", "→": ";"} | dict.fromkeys("‐‑‒–—―−﹣－", "-")
)  # fmt: skip
# Superscripts and circled digits would turn into ordinary digits, and 5² into 52.
_REFUSED = ("<super>", "<sub>", "<fraction>", "<circle>", "<square>")


def normalise(text, *, longest=LONGEST_ANSWER):
    """Return ``text`` in lower case and NFKC, with single spaces and without invisible characters.

    Line ends are kept.  Raises ``AnswerError`` where it is too long or holds a sign that has no plain form.

    >>> normalise("  ３，５００\\u00a0LB. ")
    '3,500 lb'
    """
    if len(text) > longest:
        raise AnswerError("that is too long for an answer", hint=f"type at most {longest} characters")
    if text.isascii() and text.isprintable():  # nearly every text; the rest takes ten times as long
        return " ".join(text.casefold().split()).rstrip(" .!?;")
    return _fully_normalised(text)


def _fully_normalised(text):
    text = text.translate(_REPLACED).replace("m³", "m3")
    for character in text:
        odd_digit = character.isdigit() and not character.isdecimal()  # "➑": a digit to Python, but no number
        if odd_digit or unicodedata.decomposition(character).startswith(_REFUSED):
            raise AnswerError(f"I can't read the sign {character!r}", hint="use plain figures and letters")
    text = unicodedata.normalize("NFKC", text).translate(_REPLACED).casefold()
    lines = ("".join(_plain(character) for character in line) for line in text.splitlines())
    return "\n".join(" ".join(line.split()).rstrip(" .!?;") for line in lines).strip()


def quoted(text, longest=30):
    """Return ``text`` in quotes for a message: short, on one line, and safe for any screen."""
    text = " ".join("".join(_plain(character) for character in text).split())
    return f'"{text if len(text) <= longest else text[: longest - 1] + "…"}"'


def _plain(character):
    """Return a space for white space, nothing for what can't be seen, else the character itself."""
    category = unicodedata.category(character)
    if character.isspace() or category.startswith("Z"):
        return " "
    return "" if category in ("Cf", "Cc", "Co", "Cs", "Cn", "Mn") else character
