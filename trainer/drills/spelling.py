"""Free text as phrases of plain words: one spelling for all forms of a word, compounds joined, slips corrected."""

import re
from functools import cache

from trainer.drills import lexicon, spoken
from trainer.drills.cleaning import normalise

_TOKEN = re.compile(r"\d+(?:,\d{3})+(?:\.\d+)?|\d+(?:\.\d+)?|[^\W\d_]+(?:['’][a-z]+)?|[,;:&+/()\n]| [-–] ")
_BREAKS = frozenset(",;:&/()\n") | {"and", "then", " - ", " – "}
_ENDINGS = (
    ("ies", ("y",)),
    ("es", ("", "e")),
    ("s", ("",)),
    ("ing", ("", "e")),
    ("ed", ("", "e")),
    ("d", ("",)),
    ("ly", ("",)),
)
NOT = "NOT"
CASES = {"i": "1", "ii": "2", "iii": "3", "one": "1"}
TAKEN_OFF = {"the", "chock", "chain", "all", "your", "tie"}  # "take off the chains" is no take-off
SINGLE_NUMBERS = dict(
    zip("two three four five six seven eight nine ten".split(), "2 3 4 5 6 7 8 9 10".split(), strict=True)
)


@cache
def known_words():
    """Return every word that the lexicon knows."""
    words = set(lexicon.SYNONYMS) | set(lexicon.NEGATIONS) | frozenset().union(*lexicon.EXCLUSIVE) | set(lexicon.STOP)
    words |= {word for others in lexicon.SYNONYMS.values() for word in others}
    words |= {word for ends in lexicon.AXES.values() for end in ends for word in end.split()}
    words |= {word for pair in lexicon.COMPOUNDS.items() for part in pair for word in part.split()}
    return frozenset(words | set(lexicon.LIGHT) | set(lexicon.POWER_UP) | set(lexicon.POWER_DOWN))


@cache
def _canonical_words():
    return {other: word for word, others in lexicon.SYNONYMS.items() for other in others}


def stems(word):
    """Yield ``word`` and what it may be a form of: its singular, its verb."""
    yield word
    for ending, replacements in _ENDINGS:
        if word.endswith(ending) and len(word) - len(ending) >= 3:
            base = word[: -len(ending)]
            yield from (base + replacement for replacement in replacements)
            if ending in ("ing", "ed") and base[-1] == base[-2]:
                yield base[:-1]


def plain_form(word):
    """Return the one spelling in which the forms of ``word`` are compared: the lexicon's, else its bare stem."""
    known, word = known_words(), lexicon.IRREGULAR.get(word, word)
    if word in known:
        return word
    forms = [form for form in stems(word) if form in known]
    if forms:
        return max(forms, key=len)
    for ending in ("ing", "ed", "es", "s"):
        if word.endswith(ending) and not word.endswith("ss") and len(word) - len(ending) >= 3:
            word = word[: -len(ending)]
            word = word[:-1] if ending in ("ing", "ed") and word[-1] == word[-2] else word
            break
    return word[:-1] if word.endswith("e") and len(word) > 4 else word


def _raw_tokens(text):
    plain = normalise(text, longest=6000)
    for written, plainly in lexicon.WRITTEN.items():
        plain = plain.replace(written, plainly)
    plain = re.sub(r"(?<=\w)n['’]?t\b", lambda m: " not" if m[0] != "nt" else m[0], plain)
    plain = re.sub(r"(?<=[a-z])['’]s\b", "", plain)
    plain = re.sub(r"(?<=\w)[-–](?=\w)", " ", plain)
    tokens = [token.strip() if token.strip() not in ("-", "–") else ";" for token in _TOKEN.findall(plain)]
    return spoken.numbers_in(tokens)


def phrases_of(text, known):
    """Return the phrases of ``text`` as lists of plain words out of ``known``; a negation is written NOT."""
    phrases, phrase = [], []
    for token in (*_raw_tokens(text), ";"):
        if token in _BREAKS:
            phrases.append(_words_of(phrase, known))
            phrase = []
        else:
            phrase.append(token)
    return [words for words in phrases if words]


def _words_of(phrase, known):
    words = []
    for token in phrase:
        words += _spelt(token, known)
    words = _joined(words)
    words = _rejoined(words)
    return [_canonical_words().get(word, word) for word in words]


def _spelt(token, known):
    """Return the words that one token stands for: in its known form, a thousand feet for angels, NOT for a denial."""
    if token[0].isdigit():
        return [_plain_number(token)]
    if token in lexicon.NEGATIONS:
        return [NOT]
    form = plain_form(token)
    if form in lexicon.NEGATIONS:
        return [NOT]
    if form in SINGLE_NUMBERS:
        return [SINGLE_NUMBERS[form]]
    if form in known:
        return [form]
    for prefix in ("un", "dis", "non", "de"):
        rest = plain_form(token[len(prefix) :]) if token.startswith(prefix) else ""
        if len(rest) >= 3 and rest in known:
            return [NOT, rest]
    for cut in range(3, len(token) - 2):
        first, second = plain_form(token[:cut]), plain_form(token[cut:])
        if first in known and second in known:
            return [first, second]
    return [_nearest(token, form, known)]


def _nearest(token, form, known):
    """Return the known word that ``token`` is a slip of the finger for, else its plain ``form``."""
    from rapidfuzz.distance import OSA

    allowed = 0 if len(token) < 4 else 1 if len(token) < 8 else 2
    best, found = allowed + 1, set()
    for typed in {token, form} if allowed else ():
        for word in known:
            if abs(len(word) - len(typed)) > allowed + 3 or len(word) < 4:
                continue
            distance = min(OSA.distance(typed, one, score_cutoff=allowed) for one in _inflected(word))
            if len(token) < 5 and sorted(token) != sorted(word):
                continue  # so short a word is taken for another only when two letters changed places
            if distance < best:
                best, found = distance, {word}
            elif distance == best and distance <= allowed:
                found.add(word)
    forms = {plain_form(word) for word in found}
    return forms.pop() if len(forms) == 1 else form


def _inflected(word):
    """Return the forms of ``word`` that people type."""
    bare = word.removesuffix("e")
    return word, word + "s", bare + "ed", bare + "ing"


def _joined(words):
    """Return ``words`` with compounds written as one word."""
    out, at = [], 0
    while at < len(words):
        for size in (4, 3, 2, 1):
            compound = lexicon.COMPOUNDS.get(" ".join(words[at : at + size]))
            if compound and not (compound == "takeoff" and set(words[at + size : at + size + 1]) & TAKEN_OFF):
                out += compound.split()
                at += size
                break
        else:
            out.append(words[at])
            at += 1
    return _joined(out) if out != words and len(out) < len(words) else out


def _rejoined(words):
    """Return ``words`` with a parted verb ("wipe … out") written as one, angels as feet, Case III as Case 3."""
    for (verb, particle), compound in lexicon.PARTED.items():
        if verb in words and particle in words[words.index(verb) + 1 :]:
            at = words.index(verb)
            cut = words.index(particle, at + 1)
            words = [*words[:at], compound, *words[at + 1 : cut], *words[cut + 1 :]]
    for at, word in enumerate(words[:-1]):
        if word == "case" and words[at + 1] in CASES:
            words = [*words[: at + 1], CASES[words[at + 1]], *words[at + 2 :]]
        if word == "angels" and is_number(words[at + 1]):
            return [*words[:at], _plain_number(str(float(words[at + 1]) * 1000)), "ft", *words[at + 2 :]]
    return words


def is_number(word):
    """Return whether ``word`` is written in figures."""
    return word[0].isdigit()


def _plain_number(token):
    return f"{float(token.replace(',', '')):.10g}" if len(token) < 16 else token[:16]
