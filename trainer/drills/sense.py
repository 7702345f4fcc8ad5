"""What a piece of text says: content words, the ends of axes that it names, numbers, and what it denies."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache

from trainer.drills import lexicon
from trainer.drills.spelling import NOT, is_number, known_words, phrases_of

_PARTICLE_VERBS = frozenset("turn switch put bring come take get keep".split())
_PREPOSITIONS = {"upto": ("up", "+"), "on": ("on", "+"), "off": ("on", "-"), "in": ("in", "+"), "out": ("in", "-")}
_AFTER_PARTICLE = frozenset("steady full bright and".split())


@dataclass(frozen=True, kw_only=True)
class Sense:
    """What a piece of text says.

    ``words`` are its content words in order (an end of an axis is written "up+" or "up-"), ``poles`` {axis:
    set of ends}, ``strong`` the axes named in earnest, ``numbers`` the numbers, ``counted`` {noun: number
    before it}, ``denials`` the count of negations and ``denied`` the words behind them, ``loose`` the ends
    of axes that prepositions name ("in the descent").
    """

    words: tuple[str, ...]
    poles: Mapping = field(default_factory=dict, hash=False)
    strong: frozenset = frozenset()
    numbers: tuple[float, ...] = ()
    counted: Mapping = field(default_factory=dict, hash=False)
    denials: int = 0
    denied: frozenset = frozenset()
    loose: frozenset = frozenset()


def sense(text, vocabulary=frozenset()):
    """Return the ``Sense`` of ``text``; ``vocabulary`` are words that count as spelt right."""
    known = vocabulary | known_words()
    phrases = phrases_of(text, known)
    affirmed = [tuple(word for word in phrase if word != NOT) for phrase in phrases]
    read = [_with_poles(phrase) for phrase in affirmed]
    words = tuple(word for phrase, _ in read for word in phrase)
    return Sense(
        words=words,
        poles=_poles(words),
        strong=frozenset(axis for _, axes in read for axis in axes),
        numbers=tuple(float(word) for word in words if is_number(word)),
        counted=_counted(words),
        denials=sum(phrase.count(NOT) for phrase in phrases),
        denied=frozenset(word for phrase in phrases for word in _denied(phrase)),
        loose=frozenset(end for phrase in affirmed for word in phrase for end in _loose_ends(word)),
    )


def _loose_ends(word):
    """Return the ends of axes that ``word`` names by the way: as a preposition, or beside its first axis."""
    return (_PREPOSITIONS[word],) if word in _PREPOSITIONS else _ends().get(word, ())[1:]


def _poles(words):
    """Return {axis: ends} of the ends of axes among ``words``."""
    found = {}
    for word in words:
        if is_end(word):
            found.setdefault(word[:-1], set()).add(word[-1])
    return found


def is_end(word):
    """Return whether ``word`` is an end of an axis, like "up+"."""
    return len(word) > 1 and word[-1] in "+-"


def _denied(phrase):
    """Return the telling words that stand behind a negation in ``phrase``."""
    if NOT not in phrase:
        return ()
    behind = [word for word in phrase[phrase.index(NOT) + 1 :] if word != NOT]
    for at, word in enumerate(behind):
        if word in ("to", "at", "for") and _telling(behind[:at]):
            behind = behind[:at]  # "no brakes to the tower" denies the brakes alone
            break
    return _telling(behind)


def _telling(phrase):
    """Return the words of ``phrase`` that say much: no numbers, units or everyday verbs."""
    words, _ = _with_poles(tuple(phrase))
    return [word for word in words if not is_number(word) and lexicon.LIGHT.get(word, 1.0) > 0.5]


@cache
def _ends():
    """Return {word: [(axis, end)]}."""
    found = {}
    for axis, (plus, minus) in lexicon.AXES.items():
        for sign, words in (("+", plus), ("-", minus)):
            for word in words.split():
                found.setdefault(word, []).append((axis, sign))
    return found


def _with_poles(phrase):
    """Return (the phrase with ends of axes marked and stop words gone, the axes named in earnest)."""
    out, strong = [], set()
    about_power = bool(lexicon.POWER_WORDS & set(phrase)) or "idle" in phrase
    about_light = bool(lexicon.LIGHT_WORDS & set(phrase))
    for at, word in enumerate(phrase):
        if word in _PREPOSITIONS and not _is_particle(phrase, at):
            continue
        word = _in_context(word, phrase, about_power, about_light)
        ends = _ends().get(word)
        if word in lexicon.FULL_POWER:
            out += ["power+", word]
            strong.add("power")
        elif ends:
            axis, sign = ends[0]
            out.append(axis + sign)
            if word not in lexicon.WEAK:
                strong.add(axis)
        elif word not in lexicon.STOP:
            out.append(word)
    return tuple(out), strong


def _is_particle(phrase, at):
    """Return whether on, in, out or off belongs to a verb or a thing ("lights on") and is no preposition."""
    word, rest = phrase[at], phrase[at + 1 :]
    if word in ("off", "upto"):
        return word == "off"
    if not rest or rest[0] in _AFTER_PARTICLE:
        return True
    return at > 0 and phrase[at - 1] in _PARTICLE_VERBS


def _in_context(word, phrase, about_power, about_light):
    if phrase == ("full",):
        return "power+"
    if about_power and "canopy" not in phrase:
        if word in lexicon.POWER_DOWN:
            return "power-"
        if word in ("keep", "full") and lexicon.POWER_DOWN & set(phrase):
            return word  # "power stays down", "throttle full aft"
        if word in lexicon.POWER_UP and word not in lexicon.FULL_POWER:
            return "power+"
    if about_light and word == "out":
        return "off"
    if "canopy" in phrase and word in ("up", "down"):
        return "open" if word == "up" else "close"
    if ("brake" in phrase and word in ("set", "keep")) or ("tension" in phrase and word in ("set", "take", "taken")):
        return "on"
    if "speedbrake" in phrase and word in ("in", "out"):
        return "extend" if word == "out" else "retract"
    return word


def _counted(words):
    """Return {noun: number} for nouns that follow a number and its unit: "10 nm arc" counts arc as 10."""
    found = {}
    for at, word in enumerate(words):
        if is_number(word):
            after = [w for w in words[at + 1 : at + 3] if w not in ("nm", "ft", "knot", "min")]
            if after and not is_number(after[0]):
                found[after[0]] = float(word)
    return found
