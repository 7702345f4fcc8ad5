"""Words that were cut short or misspelt, read as the word of the vocabulary that was meant."""

import re
from collections import Counter

from trainer.drills.forms import plain_form

SHORTEST_ABBREVIATION = 3
SAFE_TO_MEND = 6  # letters
SHORT_WORD = 4


def abbreviated(token, vocabulary):
    """Return the one word of ``vocabulary`` that ``token`` cuts short ("pos", "consv"), "" for none or several."""
    if len(token) > 6 or (len(token) < SHORTEST_ABBREVIATION and set(token) & set("aeiou")):
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
