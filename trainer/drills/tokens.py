"""Free text torn into words, numbers and signs, and the marks that stand among them."""

import re

from trainer.drills import spoken, synonyms
from trainer.drills.cleaning import normalise

_TOKEN = re.compile(r"\d+(?:,\d{3})+(?:\.\d+)?|\d+(?:\.\d+)?|[^\W\d_]+(?:['’][a-z]+)?|[,;:/()\n]| [-–] ")
_FRACTION = re.compile(r"(?<![\d/.])(?:(\d) (?:and )?)?([1-9])/([2-9])(?![\d/])")
_DIGIT = "one|two|three|four|five|six|seven|eight|nine"
_SHORTENED = re.compile(rf"\b({_DIGIT}) (?:to|or) ({_DIGIT}) (hundred|thousand)\b")  # "two to three hundred"
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
