"""Free text as phrases of plain words: one spelling for all forms of a word, compounds joined, slips corrected."""

import re
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache

from trainer.reading.language import abbreviations, opposites
from trainer.reading.language.plain_text import normalise
from trainer.reading.language.related_words import is_word, related
from trainer.reading.language.tokens import EXCEPT, NOT, UNITS, joined, plain_number, raw_tokens, rejoined
from trainer.reading.language.word_forms import canonical_words, homophones, is_harmless, known_words, plain_form, stems
from trainer.reading.numbers import spoken

_BREAKS = frozenset(",;:/()\n") | {"and", "then", " - ", " – "}
SINGLE_NUMBERS = dict(
    zip("two three four five six seven eight nine niner".split(), "2 3 4 5 6 7 8 9 9".split(), strict=True)
) | {word: str(value) for word, value in (spoken.TEENS | spoken.TENS).items()}


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
            float(token.replace(",", "")) for token in raw_tokens(text) if token[0].isdigit() and len(token) < 16
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


def phrases_of(text, vocabulary):
    """Return the phrases of ``text`` as lists of plain words; a negation is written NOT.

    ``vocabulary`` are the words of the wordings it is compared with: what is typed is read as one of those
    rather than as another word.
    """
    phrases, phrase = [], []
    for token in (*raw_tokens(text), ";"):
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
            if not (
                _is_correct(phrase[:at], phrase[at], vocabulary, at == len(phrase) - 1)
                or _is_for(phrase[at:], vocabulary)
            ):
                words += _marked(phrase, at, vocabulary) or _spelt(phrase[at], known, vocabulary)
            at += 1
    words = rejoined(joined(words))
    words = [canonical_words().get(word, word) for word in words]
    return [word for at, word in enumerate(words) if not _rounds_off(word, words[max(0, at - 1) : at], vocabulary)]


def _ceases(pair, vocabulary):
    """Return whether a deed is broken off: "stop flying the ball"."""
    return (
        len(pair) == 2
        and pair[0] in opposites.CEASING
        and pair[1].endswith("ing")
        and plain_form(pair[1]) in vocabulary
    )


def _marked(phrase, at, vocabulary):
    """Return the mark of an exception or a denial that stands at ``at`` only beside its neighbours, [] for none."""
    if _excepts(phrase[:at], phrase[at]):
        return [EXCEPT]
    return [NOT] if _ceases(phrase[at : at + 2], vocabulary) else []


def _excepts(before, token):
    """Return whether "but" names an exception: "follow everybody but the director"."""
    return token == "but" and bool(opposites.ALL_OF_THEM & set(before[-2:]))


def _is_correct(before, token, vocabulary, last):
    """Return whether "right" says that something is as it should be and no side."""
    sides = {"left", "port", "starboard"} & vocabulary.words
    judged = bool(before[-1:]) and before[-1] in ("is", "are", "was", "were", "be")
    return token == "right" and judged and (last or not sides)


def _is_for(phrase, vocabulary):
    """Return whether a 4 is typed for the word: "set 4 the weight"."""
    after = plain_form(phrase[1]) if phrase[1:] and phrase[1].isalpha() else ""
    return phrase[0] == "4" and 4.0 not in vocabulary.numbers and len(after) > 2 and not _is_unit(after)


def _is_unit(word):
    return canonical_words().get(word, abbreviations.ABBREVIATIONS.get(word, word)) in UNITS


def _torn(pair, vocabulary):
    """Return whether two words are one of ``vocabulary`` that was torn apart: "race track"."""
    joined = plain_form("".join(pair))
    apart = all(plain_form(word) in vocabulary for word in pair)
    return len(pair) == 2 and len(joined) > 6 and joined.isalpha() and joined in vocabulary and not apart


def _rounds_off(particle, before, vocabulary):
    """Return whether ``particle`` says nothing beside the verb ``before`` it: "set up the displays"."""
    if abbreviations.CONTRARY.get(particle) in vocabulary:
        return False  # beside "start down the slope", "start up the slope" is another thing
    return bool(before) and before[0] in _rounded_off().get(particle, ())


@cache
def _rounded_off():
    return {particle: verbs | set(map(plain_form, verbs)) for particle, verbs in abbreviations.ROUNDED_OFF.items()}


def _spelt(token, known, vocabulary):
    """Return the words that one token stands for: in its known form, a thousand feet for angels, NOT for a denial."""
    form = plain_form(token)
    for read in (_figure, _denial, _word_of_the_wordings, _short_form, _known_or_everyday, _with_prefix, _run_together):
        words = read(token, form, known, vocabulary)
        if words is not None:
            return words
    return [nearest(token, form, known, vocabulary)]


def _figure(token, form, known, vocabulary):
    if token[0].isdigit():
        single = token == "1" and "one" in vocabulary and 1.0 not in vocabulary.numbers
        return ["one"] if single else [plain_number(token, vocabulary.numbers)]
    return None


def _denial(token, form, known, vocabulary):
    if token in opposites.NEGATIONS:
        return [NOT]
    if token in opposites.EXCEPTING:
        return [EXCEPT]
    if form in opposites.NEGATIONS:
        return [NOT]
    if token in SINGLE_NUMBERS or form in SINGLE_NUMBERS:
        return [SINGLE_NUMBERS.get(token) or SINGLE_NUMBERS[form]]
    return None


def _word_of_the_wordings(token, form, known, vocabulary):
    """Return ``token`` as a word that a wording has, be it in another form or by its sound."""
    if form in vocabulary:
        return [form]
    own = (stem for stem in map(plain_form, stems(token)) if stem in vocabulary and stem not in known_words())
    verb = next(own, "")
    if verb:
        return [verb]
    sounds = homophones().get(form, "")
    return [sounds] if sounds in vocabulary else None


def _short_form(token, form, known, vocabulary):
    """Return what ``token`` is short for: by its initials, by the table, or by its letters."""
    if token in vocabulary.initials and form not in known:
        return list(vocabulary.initials[token])
    full = abbreviations.ABBREVIATIONS.get(token)
    if full is not None and (not full or full in vocabulary):
        return full.split()
    short = abbreviated(token, vocabulary) if form not in known else ""
    if short:
        return [short]
    return full.split() if full is not None else None


def _known_or_everyday(token, form, known, vocabulary):
    """Return ``token`` as a known word, or as the word of a wording near which it stands in everyday speech."""
    if form in known:
        return [form]
    everyday_word = next((stem for stem in stems(token) if related(stem)), "")
    if not everyday_word and any(map(is_word, stems(token))):
        return [form]
    if everyday_word or is_harmless(form):
        near = {word for word in vocabulary if canonical_words().get(word, word) in related(everyday_word)}
        return [form if is_harmless(form) else near.pop() if len(near) == 1 else everyday_word]
    begun = {plain for word, plain in canonical_words().items() if len(token) > 3 and word.startswith(token)}
    return [begun.pop()] if len(begun) == 1 else None


def _with_prefix(token, form, known, vocabulary):
    for prefix in ("pre", "re"):
        if token.startswith(prefix) and plain_form(token[len(prefix) :]) in vocabulary:
            return [plain_form(token[len(prefix) :])]
    for prefix in ("un", "dis", "non", "de"):
        rest = plain_form(token[len(prefix) :]) if token.startswith(prefix) else ""
        if len(rest) >= 3 and rest in known:
            return [NOT, rest]
    return None


def _run_together(token, form, known, vocabulary):
    for cut in range(3, len(token) - 2):
        first, second = plain_form(token[:cut]), plain_form(token[cut:])
        if first in known and second in known:
            return [first, second]
    return None


SHORTEST_ABBREVIATION = 3
SAFE_TO_MEND = 6  # letters
SHORT_WORD = 4


def abbreviated(token, vocabulary):
    """Return the one word of ``vocabulary`` that ``token`` cuts short ("pos", "consv"), "" for none or several."""
    if not 1 < len(token) < 7 or (len(token) < SHORTEST_ABBREVIATION and set(token) & set("aeiou")):
        return ""
    begun = {word for word in vocabulary if len(word) > len(token) > 2 and word.startswith(token)}
    letters = begun or {
        word for word in vocabulary if len(word) > len(token) and word[0] == token[0] and _drops_vowels(token, word)
    }
    return letters.pop() if len(letters) == 1 else ""


def _drops_vowels(token, word):
    """Return whether ``token`` is ``word`` with letters left out, vowels before all: "trk", "cntrls"."""
    rest = iter(word)
    if not all(letter in rest for letter in token):
        return False
    vowels = sum(letter in "aeiou" for letter in token)
    return vowels <= (sum(letter in "aeiou" for letter in word) + 1) / 3  # a plain form has lost its last e


def nearest(token, form, known, vocabulary):
    """Return the known word that ``token`` is a slip of the finger for, else its plain ``form``.

    A word of ``vocabulary`` may be further off than any other, for those are the words that are looked for.
    """
    allowed = 0 if len(token) < 4 else 1 if len(token) < 8 else 2
    found = _within(token, form, vocabulary, allowed)
    # A shorter word that the flow does not have is more likely another word than a slip.
    long = (word for word in known if len(word) > SHORT_WORD)
    found = found or _within(token, form, long, allowed if len(token) >= SAFE_TO_MEND else 0)
    if not found and len(token) >= 6:
        alike = (word for word in vocabulary if word[0] == token[0] and len(word) > SHORT_WORD)
        found = _within(token, form, alike, allowed + 1) or _same_sound(token, vocabulary)
    forms = {plain_form(word) for word in found}
    return forms.pop() if len(forms) == 1 else form


def _within(token, form, words, allowed):
    """Return the ``words`` that are nearest to ``token``, at most ``allowed`` slips away."""
    from rapidfuzz.distance import OSA

    best, found = allowed + 1, set()
    for typed in {token, form} if allowed else ():
        for word in words:
            if abs(len(word) - len(typed)) > allowed + 3 or len(word) < 4:
                continue
            distance = min(OSA.distance(typed, one, score_cutoff=allowed) for one in _inflected(word))
            if len(token) < 5 and not _letters_kept(token, word):
                continue  # in so short a word no letter may stand for another
            if distance < best:
                best, found = distance, {word}
            elif distance == best and distance <= allowed:
                found.add(word)
    return found


def _letters_kept(token, word):
    """Return whether two letters changed places or one was left out of a word of five."""
    return sorted(token) == sorted(word) or (len(word) == 5 and not Counter(token) - Counter(word))


def _same_sound(token, vocabulary):
    """Return the words that are written with the same consonants: "throtel", "katapult"."""
    sound = _consonants(token)
    return {word for word in vocabulary if len(sound) > 3 and _consonants(word) == sound}


def _consonants(word):
    plain = word.replace("ph", "f").replace("ck", "k").replace("c", "k").replace("q", "k").replace("z", "s")
    return re.sub(r"(.)\1+", r"\1", re.sub(r"[aeiouyhw]", "", plain))


def _inflected(word):
    """Return the forms of ``word`` that people type."""
    bare = word.removesuffix("e")
    return word, word + "s", bare + "ed", bare + "ing"
