"""Free text as phrases of plain words: one spelling for all forms of a word, compounds joined, slips corrected."""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field

from trainer.drills import abbreviations, lexicon, spoken, synonyms
from trainer.drills.cleaning import normalise
from trainer.drills.forms import canonical_words, homophones, is_number, known_words, plain_form
from trainer.drills.mending import abbreviated, nearest

_TOKEN = re.compile(r"\d+(?:,\d{3})+(?:\.\d+)?|\d+(?:\.\d+)?|[^\W\d_]+(?:['’][a-z]+)?|[,;:/()\n]| [-–] ")
_FRACTION = re.compile(r"(?<![\d/.])(?:(\d) (?:and )?)?([1-9])/([2-9])(?![\d/])")
_BREAKS = frozenset(",;:/()\n") | {"and", "then", " - ", " – "}
NOT = "NOT"
EXCEPT = "EXCEPT"
CASES = {"i": "1", "ii": "2", "iii": "3", "one": "1"}
TAKEN_OFF = {"the", "chock", "chain", "all", "your", "tie"}  # "take off the chains" is no take-off
SINGLE_NUMBERS = dict(
    zip("two three four five six seven eight nine niner".split(), "2 3 4 5 6 7 8 9 9".split(), strict=True)
) | {word: str(value) for word, value in (spoken.TEENS | spoken.TENS).items()}
BOUNDS = {"below": "above", "under": "above", "above": "below"}
MOVING = frozenset("be climb come descend drop fall fly get go lower sink step".split())
MOST_ANGELS = 100


@dataclass(frozen=True)
class Vocabulary:
    """The words of the wordings that a text is compared with, which count as spelt right.

    ``initials`` are {first letters: the words} of words that stand side by side: "gs" for ground speed.
    ``numbers`` are those of the wordings.
    """

    words: frozenset = frozenset()
    initials: Mapping = field(default_factory=dict, hash=False, compare=False)
    numbers: frozenset = frozenset()

    def __contains__(self, word):
        return word in self.words

    def __iter__(self):
        return iter(self.words)


def vocabulary_of(texts):
    """Return the ``Vocabulary`` of ``texts``."""
    words, initials, numbers = set(), {}, set()
    for text in texts:
        numbers.update(
            float(token.replace(",", "")) for token in _raw_tokens(text) if token[0].isdigit() and len(token) < 16
        )
        for part in re.split(r"[^\w\s'’]+", normalise(text, longest=6000)):
            plain = [plain_form(word) for word in re.findall(r"[^\W\d_]+", part)]
            words.update(plain)
            for size in (2, 3, 4):
                for at in range(len(plain) - size + 1):
                    run = tuple(plain[at : at + size])
                    initials.setdefault("".join(word[0] for word in run), set()).add(run)
    return Vocabulary(
        frozenset(words), {short: runs.pop() for short, runs in initials.items() if len(runs) == 1}, frozenset(numbers)
    )


def _raw_tokens(text):
    plain = normalise(text, longest=6000)
    for written, plainly in synonyms.WRITTEN.items():
        plain = plain.replace(written, plainly)
    plain = re.sub(r"(?<=\w)n['’]?t\b", lambda m: " not" if m[0] != "nt" else m[0], plain)
    plain = re.sub(r"(?<=[a-z])['’]s\b", "", plain)
    plain = re.sub(r"\b(de|dis|non|pre|re|un)-(?=[a-z])", r"\1", plain)
    plain = re.sub(r"(?<=\w)[-–](?=\w)", " ", plain)
    plain = _FRACTION.sub(_decimal, plain)
    tokens = [token.strip() if token.strip() not in ("-", "–") else ";" for token in _TOKEN.findall(plain)]
    return spoken.numbers_in(tokens)


def _decimal(fraction):
    """Return 3/4 and 1 1/4 as decimals; what is more than one (12/10) is no fraction but two numbers."""
    whole, over, under = (int(part or 0) for part in fraction.groups())
    return f"{whole + over / under:.10g}" if over < under else fraction[0]


def phrases_of(text, vocabulary):
    """Return the phrases of ``text`` as lists of plain words; a negation is written NOT.

    ``vocabulary`` are the words of the wordings it is compared with: what is typed is read as one of those
    rather than as another word.
    """
    phrases, phrase = [], []
    for token in (*_raw_tokens(text), ";"):
        if token in _BREAKS or (token == "plus" and token not in vocabulary):
            phrases.append(_words_of(phrase, vocabulary))
            phrase = []
        else:
            phrase.append(token)
    return [words for words in phrases if words]


def _words_of(phrase, vocabulary):
    words, at = [], 0
    known = vocabulary.words | known_words()
    while at < len(phrase):
        if _torn(phrase[at : at + 2], vocabulary):
            words.append(plain_form("".join(phrase[at : at + 2])))
            at += 2
        else:
            if not _is_correct(phrase[:at], phrase[at], vocabulary):
                words += _marked(phrase, at, vocabulary) or _spelt(phrase[at], known, vocabulary)
            at += 1
    words = _rejoined(_joined(words))
    words = [canonical_words().get(word, word) for word in words]
    return [word for at, word in enumerate(words) if not _rounds_off(word, words[max(0, at - 1) : at], vocabulary)]


def _ceases(pair, vocabulary):
    """Return whether a deed is broken off: "stop flying the ball"."""
    return (
        len(pair) == 2 and pair[0] in lexicon.CEASING and pair[1].endswith("ing") and plain_form(pair[1]) in vocabulary
    )


def _marked(phrase, at, vocabulary):
    """Return the mark of an exception or a denial that stands at ``at`` only beside its neighbours, [] for none."""
    if _excepts(phrase[:at], phrase[at]):
        return [EXCEPT]
    return [NOT] if _ceases(phrase[at : at + 2], vocabulary) else []


def _excepts(before, token):
    """Return whether "but" names an exception: "follow everybody but the director"."""
    return token == "but" and bool(lexicon.ALL_OF_THEM & set(before[-2:]))


def _is_correct(before, token, vocabulary):
    """Return whether "right" says that something is as it should be and no side."""
    sides = {"left", "port", "starboard"} & vocabulary.words
    return token == "right" and before[-1:] and before[-1] in ("is", "are", "was", "were", "be") and not sides


def _torn(pair, vocabulary):
    """Return whether two words are one of ``vocabulary`` that was torn apart: "race track"."""
    joined = plain_form("".join(pair))
    apart = all(plain_form(word) in vocabulary for word in pair)
    return len(pair) == 2 and len(joined) > 6 and joined.isalpha() and joined in vocabulary and not apart


def _rounds_off(particle, before, vocabulary):
    """Return whether ``particle`` says nothing beside the verb ``before`` it: "set up the displays"."""
    if abbreviations.CONTRARY.get(particle) in vocabulary:
        return False  # beside "start down the slope", "start up the slope" is another thing
    return bool(before) and before[0] in abbreviations.ROUNDED_OFF.get(particle, ())


def _spelt(token, known, vocabulary):
    """Return the words that one token stands for: in its known form, a thousand feet for angels, NOT for a denial."""
    if token[0].isdigit():
        return [_plain_number(token, vocabulary.numbers)]
    if token in lexicon.NEGATIONS:
        return [NOT]
    if token in lexicon.EXCEPTING:
        return [EXCEPT]
    form = plain_form(token)
    if form in lexicon.NEGATIONS:
        return [NOT]
    if form in SINGLE_NUMBERS:
        return [SINGLE_NUMBERS[form]]
    if form in vocabulary:
        return [form]
    if form in homophones() and homophones()[form] in vocabulary:
        return [homophones()[form]]
    if token in vocabulary.initials and form not in known:
        return list(vocabulary.initials[token])
    full = abbreviations.ABBREVIATIONS.get(token)
    if full is not None and (not full or full in vocabulary):
        return full.split()
    short = abbreviated(token, vocabulary) if form not in known else ""
    if short or full is not None:
        return [short] if short else full.split()
    if form in known:
        return [form]
    begun = {plain for word, plain in canonical_words().items() if len(token) > 3 and word.startswith(token)}
    if len(begun) == 1:
        return [begun.pop()]
    for prefix in ("un", "dis", "non", "de"):
        rest = plain_form(token[len(prefix) :]) if token.startswith(prefix) else ""
        if len(rest) >= 3 and rest in known:
            return [NOT, rest]
    for cut in range(3, len(token) - 2):
        first, second = plain_form(token[:cut]), plain_form(token[cut:])
        if first in known and second in known:
            return [first, second]
    return [nearest(token, form, known, vocabulary)]


def _joined(words):
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
    return _joined(out) if out != words and len(out) < len(words) else out


def _rejoined(words):
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
            thousands = _plain_number(str(float(words[at - 1]) * 1000))
            return _rejoined([*words[: at - 1], thousands, *words[at + 1 :]])
        if word == "angels" and is_number(words[at + 1]):
            thousands = float(words[at + 1]) * (1000 if float(words[at + 1]) < MOST_ANGELS else 1)
            return [*words[:at], _plain_number(str(thousands)), "ft", *words[at + 2 :]]
    return words


def _at_least(words):
    """Return ``words`` with "never go below" written as above, "not above" as below."""
    for at, word in enumerate(words):
        if word in BOUNDS and NOT in words[max(0, at - 3) : at]:
            denied = at - 1 - words[at - 1 :: -1].index(NOT)
            if all(between in MOVING for between in words[denied + 1 : at]):
                return [*words[:denied], BOUNDS[word], *words[at + 1 :]]
    return words


def _plain_number(token, wanted=frozenset()):
    """Return a number in its shortest form; 1.2 is 1,200 where only that is ``wanted``."""
    if "." in token and len(token) < 16:
        value = float(token.replace(",", ""))
        if value not in wanted and round(value * 1000, 3) in wanted:
            return f"{round(value * 1000, 3):.10g}"
    return f"{float(token.replace(',', '')):.10g}" if len(token) < 16 else token[:16]
