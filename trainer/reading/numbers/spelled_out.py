"""A number in words made a number in figures: "two hundred and fifty", "an hour and a half", "about 16"."""

import re

from trainer.patterns import Late
from trainer.reading.language.word_forms import canonical_words, plain_form
from trainer.reading.numbers import spoken

# What may stand before a number and says nothing of its size.
_LEADS = frozenset(
    (
        "a about an answer approx approximately around at ca circa equals exactly get gets gives i i'd is it it's "
        "just makes nearly of roughly say some that that's the think to approx. ca. ~ ≈ ="
    ).split()
)
_NUMBER_WORDS = frozenset((*spoken.DIGITS, *spoken.TEENS, *spoken.TENS, "hundred", "thousand"))
_NUMBER_WORD = "|".join(sorted(_NUMBER_WORDS, key=len, reverse=True))
_UNIT_OF_ONE = "hour|minute|min|second|mile|nautical|degree|foot|knot|percent|pound|point"
_PARTS = {"half": 0.5, "quarter": 0.25, "third": 1 / 3, "tenth": 0.1}
_ORDINALS = "first second third fourth fifth sixth seventh eighth ninth tenth eleventh twelfth".split()
_ORDINAL = Late(rf"(?:the )?(?:(?P<figure>\d+)(?:st|nd|rd|th)|(?P<word>{'|'.join(_ORDINALS)}))(?: one)?")
_REWRITTEN = tuple(
    (Late(pattern), replacement)
    for pattern, replacement in (
        (r"^([~≈=])(?=\S)", r"\1 "),
        (r"(?<=[a-z])-(?=[a-z])", " "),
        (r"\b(?:minus|negative) ", "-"),
        (rf"\bplus (?=[\d.]|{_NUMBER_WORD})", "+"),
        (r"\b(hundred|thousand) and (?=\w)", r"\1 "),
        (r"\ba (hundred|thousand)\b", r"one \1"),
        (r"^(hundred|thousand)\b", r"one \1"),
        (r"^(?:up|down) to ", ""),
        (rf"(?<!\w )\b(?:point|decimal) (?=\d|{_NUMBER_WORD})", "zero point "),
        (rf"\bmach (?:point|decimal) (?=\d|{_NUMBER_WORD})", "mach zero point "),
        (rf"^an? (?={_UNIT_OF_ONE})", "one "),
    )
)
_WORDS = Late(
    rf"\b(?:{_NUMBER_WORD}|{'|'.join(_PARTS)}|point|decimal|minus|negative|plus|an?|(?:up|down) to)s?\b|[~≈=]"
)
_PART = Late(
    r"(?:(?P<whole>\d+(?:\.\d+)?)(?P<unit> [a-z ]*?[a-z])? and )?(?:an? |one |1 )?(?P<count>\d )?"
    r"(?P<part>half|quarter|third|tenth)s?\b(?: of)?(?: (?:an?|the|one|1)(?= [a-z]))?"
)


def in_figures(plain):
    """Return ``plain`` with the numbers and fractions that are written in words as figures.

    >>> in_figures("two hundred and fifty feet"), in_figures("half an hour"), in_figures("two and a half")
    ('250 feet', '0.5 hour', '2.5')
    """
    if not _WORDS.search(plain):
        return plain
    for pattern, replacement in _REWRITTEN:
        plain = pattern.sub(replacement, plain)
    sign = plain[0] if plain[0] in "+-" else ""
    words = spoken.numbers_in(plain.removeprefix(sign).split(), alone=True)
    return sign + _PART.sub(_fraction, " ".join(words))


def of_ordinal(plain):
    """Return the figure of an ordinal that stands alone: "fourth", "the 4th"; anything else as it is.

    >>> of_ordinal("the fourth one"), of_ordinal("4th"), of_ordinal("four")
    ('4', '4', 'four')
    """
    found = _ORDINAL.fullmatch(plain)
    return (found["figure"] or str(_ORDINALS.index(found["word"]) + 1)) if found else plain


def _fraction(found):
    size = _PARTS[found["part"]] * float(found["count"] or 1)
    number = round(size + float(found["whole"] or 0), 4)
    return f"{number:.10g}{found['unit'] or ''}"


def bare(plain, asked):
    """Return ``plain`` without the words around its number that say nothing, or that the question ``asked`` has."""
    known = _words_of(asked)
    words = plain.split()
    while len(words) > 1 and words[0][-1] not in "0123456789" and _says_nothing(words[0], known):
        words = words[1:]
    return " ".join(words)


def named_by(words, asked):
    """Return whether all of ``words`` stand in the question ``asked``: "channels", "minutes after sunset"."""
    known = _words_of(asked)
    plain = [word for word in re.findall(r"[a-z]+", words) if word not in ("of", "a", "an", "the", "per")]
    return bool(plain) and all(_canonical(word) in known for word in plain)


def _words_of(asked):
    return {_canonical(word) for word in re.findall(r"[a-z]+", asked.casefold())}


def _canonical(word):
    return canonical_words().get(plain_form(word), plain_form(word))


def _says_nothing(word, known):
    return word in _LEADS or (word.isalpha() and _canonical(word) in known and word not in _MEANS_SOMETHING)


_MEANS_SOMETHING = frozenset(
    "not no never left right port starboard angels angel angles cherubs mach state channel flight fl half".split()
)
