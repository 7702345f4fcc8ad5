"""A radio call as words and numbers: figures or radio speech, units beside numbers, slips of the finger mended."""

import re
from collections.abc import Iterable
from functools import cache

from trainer.engine.units import UNITS, convert
from trainer.frozen import frozen
from trainer.patterns import Late
from trainer.reading.language import opposites
from trainer.reading.language.plain_text import normalise
from trainer.reading.language.related_words import is_word
from trainer.reading.language.word_forms import is_harmless, known_words, plain_form
from trainer.reading.numbers import spoken

_TOKEN = Late(r"\d+(?:,\d{3})+(?:\.\d+)?|\d*\.\d+|\d+|°|[^\W\d_]+|[^\w\s]")
DENIALS = opposites.NEGATIONS | frozenset("cancel decline disregard negative neg refuse unable".split())
_BEHIND = {
    "°": "deg", "deg": "deg", "degree": "deg", "degrees": "deg", "dme": "nm", "feet": "ft", "ft": "ft", "foot": "ft",
    "inches": "inhg", "inhg": "inhg", "knots": "kn", "kt": "kn", "kts": "kn", "lb": "lb", "lbs": "lb", "mi": "nm",
    "mile": "nm", "miles": "nm", "min": "min", "minute": "min", "minutes": "min", "nautical": "nm", "nm": "nm",
    "pounds": "lb",
}  # fmt: skip
_BEFORE = {"angel": "angels", "angels": "angels", "angles": "angels", "cherubs": "cherubs"}
LONGEST = 200


@frozen
class Number:
    """A number that was typed, or that an item has; ``unit`` is a unit's name, "" where none was typed."""

    value: float
    unit: str = ""


def tokens_of(text: str, *, behind: str | Number | None = None) -> tuple[str | Number, ...]:
    """Return the words (in one spelling for all their forms) and numbers of ``text``, without signs.

    The unit of a number that stands right before it (``behind``) is no word of its own.

    >>> tokens_of("Angels one eight, state five-point-one")
    (Number(value=18.0, unit='angels'), 'state', Number(value=5.1, unit=''))
    """
    raw = _raw(text)
    while raw and isinstance(behind, Number) and _BEHIND.get(raw[0][0]) == behind.unit:
        raw = raw[1:]
    return tuple(_with_units(raw, frozenset()))


def unit_before(word: str | Number) -> str:
    """Return the unit that ``word`` names for the number behind it: the "angels" of "angels 18", "" for none."""
    return _BEFORE.get(word, "") if isinstance(word, str) else ""


def typed_tokens(text: str, rows: Iterable[tuple[str | Number, ...]]) -> list[str | Number]:
    """Return the tokens of a ``text`` that was typed, spelt and parted as those of ``rows``, the wordings of a call."""
    rows = tuple(rows)
    vocabulary = frozenset(token for row in rows for token in row if isinstance(token, str))
    slots = [token for row in rows for token in row if isinstance(token, Number)]
    return _mended(_with_units(_raw(text), _forms_of(slots)), vocabulary, rows)


def _raw(text):
    plain = re.sub(r"(?<=[a-z])n['’]?t\b(?<=n't|n’t)", " not", normalise(text, longest=LONGEST))
    tokens = _TOKEN.findall(re.sub(r"(?<=[a-z])[-–'’](?=[a-z])", " ", plain))
    return [(one, one in tokens) for one in spoken.numbers_in(tokens, alone=True)]


def _with_units(tokens, forms):
    """Yield words and numbers; a unit beside a number goes into it, and run-on digits are parted as ``forms`` are."""
    unit, at = "", 0
    while at < len(tokens):
        (token, as_typed), at = tokens[at], at + 1
        if token in _BEFORE and at < len(tokens) and _is_figure(tokens[at][0]):
            unit = _BEFORE[token]
        elif _is_figure(token):
            while at < len(tokens) and (behind := _BEHIND.get(tokens[at][0], "")) and unit in ("", behind):
                unit, at = behind, at + 1
            yield from _numbers(token, unit, () if as_typed else forms)
            unit = ""
        elif token[0].isalpha():
            yield token if token in DENIALS else plain_form(token)


def _is_figure(token):
    return token[0].isdigit() or (token[0] == "." and len(token) > 1)


def _numbers(figures, unit, forms):
    """Return the numbers of ``figures``: one, or several that were spoken without a pause."""
    figures = figures.replace(",", "")
    if unit == "cherubs":
        return [Number(value=float(figures) * 100, unit="ft")]
    parted = _parted(figures, frozenset(forms)) if forms and not unit and figures not in forms else ()
    return [Number(value=float(one)) for one in parted] or [Number(value=float(figures[:15]), unit=unit)]


def _parted(figures, forms):
    """Return ``figures`` as several of ``forms``, () where they are none."""
    if figures in forms:
        return (figures,)
    for form in sorted(forms, key=len, reverse=True):
        if figures.startswith(form) and (rest := _parted(figures[len(form) :], forms)):
            return (form, *rest)
    return ()


def _forms_of(slots):
    """Return the figures in which the numbers of the call are spoken."""
    found = set()
    for slot in slots:
        found |= {f"{slot.value:g}", f"{slot.value:.1f}"} if slot.unit == "klb" else {f"{slot.value:g}"}
        found |= {f"{slot.value:03.0f}"} if slot.unit == "heading" else set()
        found |= {f"{slot.value:.2f}", f"{slot.value:.2f}".replace(".", "")} if slot.unit == "inhg" else set()
    return frozenset(found)


def _mended(typed, vocabulary, rows):
    """Return the tokens of ``typed`` with slips of the finger, torn and joined words as the call has them."""
    pairs = {a + b: (a, b) for row in rows for a, b in zip(row, row[1:], strict=False) if _are_words(a, b)}
    out = []
    for token in typed:
        if out and _are_words(out[-1], token) and out[-1] + token in vocabulary and token not in vocabulary:
            out[-1] += token
        elif isinstance(token, str) and token in pairs and token not in vocabulary:
            out += pairs[token]
        else:
            out.append(_spelt(token, vocabulary) if isinstance(token, str) else token)
    return out


def _are_words(*tokens):
    return all(isinstance(one, str) for one in tokens)


@cache
def _spelt(word, vocabulary):
    """Return the word of ``vocabulary`` for which ``word`` is a slip, else itself."""
    from rapidfuzz.distance import OSA

    if word in vocabulary or word in known_words() or is_word(word) or is_harmless(word) or word in DENIALS:
        return word
    allowed = 0 if len(word) < 5 else 1 if len(word) < 8 else 2
    near = [one for one in vocabulary if min(OSA.distance(one, word), OSA.distance(one.rstrip("e"), word)) <= allowed]
    return near[0] if len(near) == 1 else word


def fits(typed, wanted):
    """Return whether the number ``typed`` is the one ``wanted``, in its unit or in a form of the radio."""
    if typed.unit and wanted.unit not in ("", "count"):
        if {typed.unit, wanted.unit} <= {"deg", "heading"}:
            return _equal(typed.value % 360, wanted.value % 360)
        alike = UNITS[typed.unit].dimension == UNITS[wanted.unit].dimension
        return alike and _equal(convert(typed.value, typed.unit, wanted.unit), wanted.value)
    if typed.unit and wanted.unit == "count":
        return False
    spoken_forms = {
        "inhg": (100.0,),  # 2992
        "klb": (10.0, 1000.0),  # "ball, three five"; 3500
        "angels": (1000.0,),
    }.get(wanted.unit, ())
    if wanted.unit == "heading" and _equal(typed.value % 360, wanted.value % 360):
        return True
    return _equal(typed.value, wanted.value) or any(
        typed.value >= 10 and _equal(typed.value, wanted.value * size) for size in spoken_forms
    )


def _equal(one, other):
    return abs(one - other) < 1e-6
