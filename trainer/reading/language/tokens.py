"""Free text torn into words, numbers and signs, and the marks that stand among them."""

import re

from trainer.patterns import Late
from trainer.reading.language import synonyms
from trainer.reading.language.plain_text import normalise
from trainer.reading.language.word_forms import is_number
from trainer.reading.numbers import spoken

_TOKEN = Late(r"\d+(?:,\d{3})+(?:\.\d+)?|\d+(?:\.\d+)?|[^\W\d_]+(?:['’][a-z]+)?|[,;:/()\n]| [-–] ")
_FRACTION = Late(r"(?<![\d/.])(?:(\d) (?:and )?)?([1-9])/([2-9])(?![\d/])")
_DIGIT = "one|two|three|four|five|six|seven|eight|nine"
_SHORTENED = Late(rf"\b({_DIGIT}) (?:to|or) ({_DIGIT}) (hundred|thousand)\b")  # "two to three hundred"
_WRITTEN = sorted(synonyms.WRITTEN.items(), key=lambda pair: -len(pair[0]))
NOT = "NOT"
EXCEPT = "EXCEPT"
UNITS = frozenset("degree dme fpm ft knot lb min nm seconds".split())


def raw_tokens(text):
    """Return ``text`` as words, numbers in figures and signs."""
    plain = normalise(text, longest=6000)
    for written, plainly in _WRITTEN:
        plain = plain.replace(written, plainly)
    plain = re.sub(r"(?<=\w)n['’]?t\b", lambda m: " not" if m[0] != "nt" else m[0], plain)
    plain = re.sub(r"(?<=[a-z])['’]s\b", "", plain)
    plain = re.sub(r"\b(de|dis|non|pre|re|un)-(?=[a-z])", r"\1", plain)
    plain = re.sub(r"(?<=\w)[-–](?=\w)", " ", plain)
    plain = re.sub(r"(?<![\d.])\.(?=\d)", "0.", plain)
    plain = _SHORTENED.sub(r"\1 \3 to \2 \3", plain)
    plain = re.sub(r"(?<=\d) ?/ ?(?=[a-z])", " over ", _FRACTION.sub(_decimal, plain))
    tokens = [token.strip() if token.strip() not in ("-", "–") else ";" for token in _TOKEN.findall(plain)]
    return spoken.numbers_in(tokens)


def _decimal(fraction):
    """Return 3/4 and 1 1/4 as decimals; what is more than one (12/10) is no fraction but two numbers."""
    whole, over, under = (int(part or 0) for part in fraction.groups())
    return f"{whole + over / under:.10g}" if over < under else fraction[0]


CASES = {"i": "1", "ii": "2", "iii": "3", "one": "1"}
TAKEN_OFF = {"the", "chock", "chain", "all", "your", "tie"}  # "take off the chains" is no take-off
BOUNDS = {"below": "above", "under": "above", "above": "below"}
MOVING = frozenset("be climb come descend drop fall fly get go lower sink step".split())
MOST_ANGELS = 100


def joined(words):
    """Return ``words`` with compounds written as one word."""
    out, at = [], 0
    while at < len(words):
        for size in (4, 3, 2, 1):
            compound = synonyms.COMPOUNDS.get(" ".join(words[at : at + size]))
            if compound is not None and not (
                compound == "takeoff" and set(words[at + size : at + size + 1]) & TAKEN_OFF
            ):
                out += compound.split()
                at += size
                break
        else:
            out.append(words[at])
            at += 1
    return joined(out) if out != words and len(out) < len(words) else out


def rejoined(words):
    """Return ``words`` with a parted verb ("wipe … out") written as one, angels as feet, Case III as Case 3."""
    for (verb, particle), compound in synonyms.PARTED.items():
        if verb in words and particle in words[words.index(verb) + 1 :]:
            at = words.index(verb)
            cut = words.index(particle, at + 1)
            words = [*words[:at], compound, *words[at + 1 : cut], *words[cut + 1 :]]
    words = _at_least(words)
    for at, word in enumerate(words[:-1]):
        if word == "case" and words[at + 1] in CASES:
            words = [*words[: at + 1], CASES[words[at + 1]], *words[at + 2 :]]
        if word == "k" and at and is_number(words[at - 1]):
            thousands = plain_number(str(float(words[at - 1]) * 1000))
            return rejoined([*words[: at - 1], thousands, *words[at + 1 :]])
        if word == "angels" and is_number(words[at + 1]):
            thousands = float(words[at + 1]) * (1000 if float(words[at + 1]) < MOST_ANGELS else 1)
            return [*words[:at], plain_number(str(thousands)), "ft", *words[at + 2 :]]
    return words


def _at_least(words):
    """Return ``words`` with "never go below" written as above, "not above" as below."""
    for at, word in enumerate(words):
        if word in BOUNDS and NOT in words[max(0, at - 3) : at]:
            denied = at - 1 - words[at - 1 :: -1].index(NOT)
            if all(between in MOVING for between in words[denied + 1 : at]):
                return [*words[:denied], BOUNDS[word], *words[at + 1 :]]
    return words


def plain_number(token, wanted=frozenset()):
    """Return a number in its shortest form; 1.2 is 1,200 where only that is ``wanted``."""
    if "." in token and len(token) < 16:
        value = float(token.replace(",", ""))
        if value not in wanted and round(value * 1000, 3) in wanted:
            return f"{round(value * 1000, 3):.10g}"
    return f"{float(token.replace(',', '')):.10g}" if len(token) < 16 else token[:16]
