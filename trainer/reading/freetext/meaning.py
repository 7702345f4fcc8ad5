"""What a piece of text says: content words, the ends of axes that it names, numbers, and what it denies."""

from collections.abc import Mapping
from dataclasses import field
from functools import lru_cache
from itertools import pairwise

from trainer.frozen import frozen
from trainer.patterns import Late
from trainer.reading.language import everyday_words, opposites
from trainer.reading.language.spelling import Vocabulary, phrases_of
from trainer.reading.language.tokens import EXCEPT, NOT, UNITS
from trainer.reading.language.word_forms import all_ends, in_context, is_end, is_number

NO_WORDS = Vocabulary()
_BY_NUMBER = ("over", "under")  # "over 800 ft", but "ease over", "under control"
_RANGE = Late(
    r"(?<![\d.,])(\d{1,6}(?:,\d{3})*(?:\.\d{1,6})?) ?(?:to|-|–) ?(\d{1,6}(?:,\d{3})*(?:\.\d{1,6})?)(?![\d.,])"
)
_PARTICLE_VERBS = frozenset("turn switch put bring come take get keep".split())
_PREPOSITIONS = {"upto": ("up", "+"), "on": ("on", "+"), "off": ("on", "-"), "in": ("in", "+"), "out": ("in", "-")}
_AFTER_PARTICLE = frozenset("steady full bright and".split())


@frozen
class Sense:
    """What a piece of text says.

    ``words`` are its content words in order (an end of an axis is written "up+" or "up-"), ``poles`` {axis:
    set of ends}, ``strong`` the axes named in earnest, ``numbers`` the numbers, ``measured`` those with a
    unit behind them as (number, unit), ``ranges`` (low, high) of "325 to 375", ``counted`` {noun: numbers
    before it}, ``denials`` the count of negations and ``denied`` the words behind them (``first_denied`` those that
    follow at once), ``loose`` the ends
    of axes that prepositions name ("in the descent"), ``doer`` who is said to do it, "" where nobody is,
    and ``clauses`` the words of the parts that ; divides, or a comma where there is
    no ; (``divided``), ``bound`` {axis: {noun: end}} of the nouns beside an end.
    """

    words: tuple[str, ...]
    poles: Mapping = field(default_factory=dict, hash=False)
    strong: frozenset = frozenset()
    numbers: tuple[float, ...] = ()
    measured: frozenset = frozenset()
    counted: Mapping = field(default_factory=dict, hash=False)
    denials: int = 0
    denied: frozenset = frozenset()
    first_denied: frozenset = frozenset()
    loose: frozenset = frozenset()
    ranges: frozenset = frozenset()
    doer: str = ""
    clauses: tuple = ()
    divided: bool = False
    bound: Mapping = field(default_factory=dict, hash=False)


def sense(text, vocabulary=NO_WORDS):
    """Return the ``Sense`` of ``text``; ``vocabulary`` (a ``Vocabulary``) counts as spelt right."""
    phrases = phrases_of(text, vocabulary)
    affirmed = [tuple(word for word in phrase if word not in (NOT, EXCEPT)) for phrase in phrases]
    read = [_with_poles(phrase) for phrase in affirmed]
    words = tuple(word for phrase, _ in read for word in phrase)
    return Sense(
        words=words,
        poles=_poles(words),
        strong=frozenset(axis for _, axes in read for axis in axes),
        numbers=tuple(float(word) for word in words if is_number(word)),
        measured=frozenset((float(one), unit) for one, unit in pairwise(words) if is_number(one) and unit in UNITS),
        counted=_counted(affirmed),
        denials=sum(phrase.count(NOT) for phrase in phrases),
        denied=frozenset(word for phrase in phrases for word in _denied(phrase)),
        first_denied=frozenset(word for phrase in phrases for word in [*_denied(phrase)][:1]),
        loose=frozenset(end for phrase in affirmed for word in phrase for end in _loose_ends(word)),
        ranges=frozenset(_range(one) for one in _RANGE.findall(text)) - {()},
        doer=_doer(affirmed[0]) if affirmed else "",
        clauses=_clauses(text, vocabulary),
        divided=";" in text,
        bound=_bound([phrase for phrase, _ in read]),
    )


def _range(pair):
    """Return the (low, high) of a range written as "325 to 375", () where it goes down: "1200 to 3 miles"."""
    low, high = (float(number.replace(",", "")) for number in pair)
    return (low, high) if low < high else ()


def _clauses(text, vocabulary):
    """Return the telling words of each clause of ``text``; a wording has several only where ; divides them."""
    parts = text.split(";") if ";" in text else text.split(",")
    if len(parts) < 2:
        return ()
    phrases = [[word for phrase in phrases_of(part, vocabulary) for word in phrase] for part in parts]
    return tuple(frozenset(_telling(phrase)) for phrase in phrases)


def _doer(phrase):
    """Return who ``phrase`` begins with as the one who does it; "pilot" for oneself."""
    told = [word for word in phrase if word not in ("the", "a", "your")]
    while told and told[0] in opposites.WITH_DOERS:
        told = told[1:]
    if len(told) < 2:
        return ""
    if told[0] in opposites.ONESELF:
        return "" if told[1] in opposites.UNDERGOES else "pilot"
    return told[0] if told[0] in opposites.DOERS else ""


def _loose_ends(word):
    """Return the ends of axes that ``word`` names by the way: as a preposition, or beside its first axis."""
    return (_PREPOSITIONS[word],) if word in _PREPOSITIONS else all_ends().get(word, ())[1:]


def _poles(words):
    """Return {axis: ends} of the ends of axes among ``words``."""
    found = {}
    for word in words:
        if is_end(word):
            found.setdefault(word[:-1], set()).add(word[-1])
    return found


def _denied(phrase):
    """Return the telling words that stand behind a negation in ``phrase``, or that an exception alone names."""
    if EXCEPT in phrase:
        at = phrase.index(EXCEPT)
        return [word for word in _telling(phrase[at + 1 :]) if word not in _telling(phrase[:at])]
    if NOT not in phrase:
        return ()
    behind = [word for word in phrase[phrase.index(NOT) + 1 :] if word != NOT]
    for at, word in enumerate(behind):
        if word in ("at", "by", "for", "in", "to", "until", "within") and _telling(behind[:at]):
            behind = behind[:at]  # "no brakes to the tower" denies the brakes alone
            break
    return _telling(behind)


def _telling(phrase):
    """Return the words of ``phrase`` that say much: no numbers, units or everyday verbs."""
    words, _ = _with_poles(tuple(word for word in phrase if word not in (NOT, EXCEPT)))
    return [word for word in words if not is_number(word) and everyday_words.LIGHT.get(word, 1.0) > 0.5]


def _with_poles(phrase):
    """Return (the phrase with ends of axes marked and stop words gone, the axes named in earnest)."""
    out, strong = [], set()
    about_power = bool(opposites.POWER_WORDS & set(phrase)) or "idle" in phrase
    about_light = bool(opposites.LIGHT_WORDS & set(phrase))
    for at, word in enumerate(phrase):
        if word == "out" and {"to", "for"} & set(phrase[at + 1 : at + 2]):
            continue  # "out to 12"
        if word == "over" and at and is_number(phrase[at - 1]) and not _before_number(phrase, at):
            word = "divide"  # "60 over the arc"
        if word in _PREPOSITIONS and not _is_particle(phrase, at):
            continue
        word = in_context(word, phrase, about_power, about_light)
        ends = all_ends().get(word) if word not in _BY_NUMBER or _before_number(phrase, at) else None
        if word in opposites.FULL_POWER:
            out += ["power+", word]
            strong.add("power")
        elif ends:
            axis, sign = ends[0]
            out.append(axis + sign)
            if word not in opposites.WEAK:
                strong.add(axis)
        elif word not in everyday_words.STOP:
            out.append(word)
    return tuple(out), strong


def _before_number(phrase, at):
    return any(is_number(word) for word in phrase[at + 1 : at + 2])


def _is_particle(phrase, at):
    """Return whether on, in, out or off belongs to a verb or a thing ("lights on") and is no preposition."""
    word, rest = phrase[at], phrase[at + 1 :]
    if word in ("off", "upto"):
        nouns = [one for one in rest if one not in everyday_words.STOP]
        comes = at > 0 and phrase[at - 1] not in opposites.SWITCHING
        return word == "off" and not (comes and nouns and nouns[0] in opposites.COME_OFF)
    if not rest or rest[0] in _AFTER_PARTICLE or rest[0] in opposites.SUBORDINATE | opposites.CONDITIONS - {"of"}:
        return True
    return at > 0 and phrase[at - 1] in _PARTICLE_VERBS


def _counted(phrases):
    """Return {noun: numbers} of nouns that follow a number and its unit at once: "10 nm arc" counts arc as 10."""
    found = {}
    for phrase in phrases:
        for at, word in enumerate(phrase):
            after = [one for one in phrase[at + 1 : at + 3] if one not in UNITS][:1]
            if is_number(word) and after and _is_noun(after[0]):
                found.setdefault(after[0], set()).add(float(word))
    return found


def _is_noun(word):
    return (
        not is_number(word) and word not in everyday_words.STOP and word not in _PREPOSITIONS and word not in all_ends()
    )


def _bound(phrases):
    """Return {axis: {noun: end}} of the nouns that stand in a phrase with one end of an axis: "gear up, flaps down"."""
    found = {}
    for phrase in phrases:
        ends = _poles(phrase)
        for axis, signs in ends.items():
            if len(signs) == 1:
                nouns = {word: min(signs) for word in phrase if not is_end(word)}
                found[axis] = nouns | found.get(axis, {})
    return found


FULL_WEIGHT = 0.7  # the weight from which a word is telling


@frozen
class Together:
    """What several wordings of one option name between them; ``every`` is what all of its wordings name."""

    words: frozenset
    every: frozenset
    main: tuple
    numbers: frozenset
    measured: frozenset
    ranges: frozenset
    poles: tuple
    loose: frozenset
    denied: frozenset
    doers: frozenset
    divided: tuple

    @property
    def axes(self):
        """Return the axes that are named."""
        return {axis for axis, _ in self.poles}


@lru_cache(maxsize=4096)
def together_of(senses, every):
    """Return what the wordings ``senses`` of one option name between them, and what ``every`` one denies."""
    return Together(
        words=frozenset(word for one in senses for word in one.words),
        every=frozenset(word for one in every for word in one.words),
        main=every[0].words,
        numbers=frozenset(number for one in senses for number in one.numbers),
        divided=tuple(one for one in every if one.divided),
        measured=frozenset(pair for one in every for pair in one.measured),
        ranges=frozenset(pair for one in every for pair in one.ranges),
        doers=frozenset(one.doer for one in every if one.doer),
        denied=frozenset(word for one in every for word in one.denied)
        - frozenset(word for one in every for word in one.words if word not in one.denied),
        loose=frozenset(one for several in senses for one in several.loose),
        poles=tuple({(axis, end) for one in senses for axis, ends in one.poles.items() for end in ends}),
    )


def weight_of(word, weights=None):
    """Return how much ``word`` says: little for units and everyday verbs, less where many options share it."""
    return (weights.get(word, 1.0) if weights else 1.0) * everyday_words.LIGHT.get(word, 1.0)


def ends_by_axis(pairs):
    found = {}
    for axis, end in pairs:
        found.setdefault(axis, set()).add(end)
    return found


def with_kin(ends):
    """Return ``ends`` with those of a kindred axis where it is not named itself: down to 800 is a descent."""
    return {axis: ends[kin] for axis, kin in opposites.KIN.items() if kin in ends} | ends


def unknown_numbers(typed, together):
    """Return the numbers that no wording has, nor a range of one."""
    new = set(typed.numbers) - together.numbers
    return {number for number in new if not any(low <= number <= high for low, high in together.ranges)}
