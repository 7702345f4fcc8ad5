"""Numbers as the radio speaks them: "two zero five", "five point four", "niner", "angels two" – read and said."""

import re

from trainer.patterns import Late

DIGITS = {"zero": "0", "oh": "0", "one": "1", "wun": "1", "two": "2", "too": "2", "three": "3", "tree": "3",
           "four": "4", "fower": "4", "five": "5", "fife": "5", "six": "6", "seven": "7", "eight": "8", "ait": "8",
           "nine": "9", "niner": "9"}  # fmt: skip
TEENS = {"ten": 10, "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16,
          "seventeen": 17, "eighteen": 18, "nineteen": 19}  # fmt: skip
TENS = {"twenty": 20, "thirty": 30, "forty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90}
_SPLIT = Late(r"\d+(?:,\d{3})+(?:\.\d+)?|\d*\.\d+|\d+|[^\W\d_]+|[^\w\s]", re.UNICODE)
_PLAIN = Late(r"[\d,]*\.?\d+|[^\W\d_]+", re.UNICODE)  # a figure that can be counted with, or a word
_SAID = "zero one two three four five six seven eight niner".split()
POINT = ("point", "decimal")
WORDS_PER_SECOND = 2.5  # a controller's unhurried pace; common practice


def in_figures(text):
    """Return ``text`` with spoken numbers written in figures; everything else stays.

    >>> in_figures("two zero five, ball, five point four"), in_figures("angels twenty two")
    ('205 , ball , 5.4', 'angels 22')
    """
    return " ".join(numbers_in(_SPLIT.findall(text), alone=True))


def numbers_in(tokens, *, alone=False):
    """Return ``tokens`` with numbers spoken in several words as one figure; ``alone``: single words too."""
    out, run = [], []
    for token in (*tokens, ""):
        if token and _belongs(token, run):
            run.append(token)
            continue
        spelt = len(run) > 1 or (run and (alone or run[0][0].isdigit()))
        out += [_figures(run)] if spelt else run
        run = [token] if token and _is_number(token) else []
        out += [token] if token and not run else []
    return out


def seconds_of(text):
    """Return for how many seconds ``text`` would be spoken; figures are spoken one by one."""
    tokens = [token for token in _SPLIT.findall(text) if token[0].isalnum()]
    words = sum(len(token.replace(".", "").replace(",", "")) if token[0].isdigit() else 1 for token in tokens)
    return round(max(2.0, words / WORDS_PER_SECOND), 1)


def _is_number(token):
    return (
        token[0].isdigit() or (token[0] == "." and len(token) > 1) or token in DIGITS or token in TEENS or token in TENS
    )


def _belongs(token, run):
    """Return whether ``token`` goes on with the number spoken so far; 205 after 5.4 is another number."""
    if not run:
        return False
    if token in POINT:
        return not any(one in POINT or "." in one for one in run)
    if token in ("hundred", "thousand"):
        return all(_PLAIN.fullmatch(one) for one in run)  # "12/ thousand" is nothing at all
    if run[-1] in POINT:  # "0 point 1/2" are two numbers
        return _is_number(token) and "." not in token
    if token[0] == "." or (len(run[-1]) > 1 and run[-1][0] in "0123456789."):
        return False  # "203 two thousand feet" and ".5 .5" are two numbers
    return _is_number(token) and (len(token) == 1 or not token[0].isdigit())


def _figures(run):
    """Return the figures of one number spoken as ``run``."""
    for word, size in (("thousand", 1000), ("hundred", 100)):
        if word in run:
            at = run.index(word)
            rest = float(_figures(run[at + 1 :]) or 0)
            return f"{float(_figures(run[:at]) or 0) * size + rest:.10g}" if rest or at else ""
    figures, after_tens = "", False
    for token in run:
        if token in POINT:
            figures += "."
        elif token in TENS:
            figures += str(TENS[token])
        elif after_tens and DIGITS.get(token, "0") != "0":
            figures = figures[:-1] + DIGITS[token]
        else:
            figures += DIGITS.get(token) or str(TEENS.get(token) or token.replace(",", ""))
        after_tens = token in TENS
    return figures.rstrip(".")


def said(value, unit_name):
    """Return the number ``value`` of ``unit_name`` as it is spoken on the radio; a text as it stands.

    Figure by figure; whole thousands and hundreds of feet as such, an altimeter setting without its point.

    >>> said(5, "heading"), said(5.4, "klb"), said(29.92, "inhg")
    ('zero zero five', 'five point four', 'two niner niner two')
    >>> said(1200, "ft"), said(12, "angels"), said(24, "minute")
    ('one thousand two hundred', 'angels one two', 'two four')
    """
    if isinstance(value, str):
        return value
    if unit_name == "ft" and value >= 100 and value % 100 == 0:
        thousands, hundreds = divmod(int(value), 1000)
        parts = [f"{_one_by_one(str(thousands))} thousand"] * bool(thousands)
        return " ".join([*parts, *[f"{_SAID[hundreds // 100]} hundred"] * bool(hundreds)])
    figures = _FIGURES.get(unit_name, "{:.10g}".format)(value)
    return ("angels " if unit_name == "angels" else "") + _one_by_one(figures)


def _one_by_one(figures):
    return " ".join("point" if sign == "." else "minus" if sign == "-" else _SAID[int(sign)] for sign in figures)


_FIGURES = {
    "heading": lambda value: f"{round(value) % 360 or 360:03d}",
    "minute": lambda value: f"{int(value) % 60:02d}",
    "clock": lambda value: f"{int(value) // 60 % 24:02d}{int(value) % 60:02d}",
    "inhg": lambda value: f"{value:.2f}".replace(".", ""),
    "klb": lambda value: f"{value:.1f}",
}
