"""Whether a plain sentence says an accepted wording whole, and beside it only what changes nothing.

What changes nothing: words of the question, everyday words, a place or an explanation behind a preposition ("the LSO on
the platform"), another clause that says it once more, and one that denies something else ("not the gear").
"""

import re
from collections.abc import Sequence

from trainer.patterns import Late
from trainer.reading.freetext.asking_back import hedges
from trainer.reading.freetext.meaning import Sense, sense, together_of, weight_of
from trainer.reading.freetext.reversed import opposed
from trainer.reading.freetext.swapped_words import SLIGHT, kindred
from trainer.reading.language import everyday_words, opposites
from trainer.reading.language.plain_text import normalise
from trainer.reading.language.spelling import Vocabulary, nearest, vocabulary_of
from trainer.reading.language.tokens import UNITS
from trainer.reading.language.word_forms import canonical_words, is_end, is_harmless, is_number, plain_form
from trainer.reading.numbers.misspelt import mended
from trainer.reading.numbers.spelled_out import in_figures

_CLAUSES = Late(r"[;:()=\n]|,(?! (?:and|or)\b|\d{3}\b)| [-–] ")
_UNTIL = Late(r"\bnot (?:before|until|till)\b")
_WHETHER = Late(r",? ?\b(?P<what>[a-z]+) or (?:not|no (?P=what))\b")  # "military, trap or not"
_PREPOSITIONS = r"(?:on|at|in|off|from|over|aboard|for|by)"
_GLOSS = Late(rf" {_PREPOSITIONS} (?:(?!{_PREPOSITIONS}\b|and\b|or\b|then\b|to\b|not\b|no\b)[^\W\d_]+ ?)+")
_FAILED = Late(
    r"\b(?:ha[sd] |is |are |does |gone )*"
    r"(?:failed|failure|dead|inop(?:erative)?|broken|out|u/s|trouble|problem|not work(?:ing)?)\b"
)
_VAGUE = Late(r"\b(?:what|something|somehow|somewhere|thing|things|stuff)\b")
_FREE_AXES = opposites.PLAIN_MINUS | opposites.ADDED_FREELY | {"ship", "stay", "start", "toward", "whole"}
_SAYS_LITTLE = 0.45  # the weight up to which a word stands for itself alone
_SMALL = 0.3  # the weight of an everyday word that may always be added
_EVERYDAY = frozenset("amount number quantity there".split())
_TURNED = (("out", "in"), ("off", "on"), ("up", "down"), ("down", "up"))  # "out close" is not "in close"
_DENIED = Late(r"\b(not|no) ([a-z]+)")
_LOOSE = frozenset("call check find fly keep set step wait".split())  # these stand for other verbs, too
_HUNDREDTH = 0.005


def says(plain: str, accept: Sequence[str], refuse: Sequence[str] = (), asked: str = "") -> bool | None:
    """Return whether ``plain`` (normalised) says one of ``accept`` whole, None where it says a part of one.

    ``refuse`` are other things of its kind; words of the question ``asked`` prove nothing.

    >>> says("the safety observer on deck", ["safety observer"]), says("hook and gear", ["hook"], asked="gear or hook?")
    (True, False)
    """
    answer = _Answer(accept, refuse, asked)
    clauses = [part.strip() for part in _CLAUSES.split(_plainer(plain, accept, asked)) if part.strip()]
    said = [answer.is_said_by(clause) for clause in clauses]
    if any(said) and all(one or answer.allows(clause) for one, clause in zip(said, clauses, strict=True)):
        return True
    return None if any(map(answer.is_touched_by, clauses)) else False


def _plainer(plain, accept, asked):
    """Return ``plain`` with numbers in figures and ways to say that something failed, where the answer has such."""
    plain = _UNTIL.sub("", re.sub(r"(?<=\d)s\b", "", plain))
    if any(re.search(r"\d", wording) for wording in accept):
        plain = in_figures(mended(plain, asked))
    if re.search(r"\b(?:fail|wrong)", f"{asked} {' '.join(accept)}".casefold()):
        plain = _FAILED.sub("failed" if any("fail" in one for one in accept) else " ", plain)
    denied = frozenset(_DENIED.findall(asked.casefold()))
    return _DENIED.sub(lambda found: found[2] if found.groups() in denied else found[0], _with_not(plain))


def _with_not(text):
    return re.sub(r"\bcan(?:'?t|not)\b|(?<=\w)n't\b", " not", text)


class _Answer:
    """What is accepted, refused and asked, with its words in one spelling."""

    def __init__(self, accept, refuse, asked):
        accept = [one for one in accept if not hedges(one) or hedges(accept[0])]  # "lights on or off" is "lights"
        self.accept = tuple(accept)
        self.vocabulary: Vocabulary = vocabulary_of([*accept, *refuse])
        self.wordings = [sense(_with_not(normalise(one)), self.vocabulary) for one in accept]
        self.words = frozenset(word for one in self.wordings for word in one.words)
        refused = {word for one in refuse for word in sense(normalise(one), self.vocabulary).words}
        self.refused = frozenset(word for word in refused - self.words if weight_of(word) > SLIGHT)
        self.refusals = [forms for one in refuse if (forms := _forms(one) - everyday_words.STOP)]
        self.forms = [_forms(one) for one in accept]
        self.own_forms = frozenset().union(*self.forms)
        self.asked, self.asked_forms = frozenset(sense(asked, self.vocabulary).words), _forms(asked)

    def is_said_by(self, clause: str) -> bool:
        """Return whether ``clause`` says a wording whole and nothing against it."""
        typed = self._read(clause)
        if _VAGUE.search(clause) and not self.own_forms & set(_VAGUE.findall(clause)):
            return False
        said, direct = _forms(clause), self._spelt(clause)
        refused = [one for one in self.refusals if one <= said]
        if any(here in said - self.own_forms and there in self.own_forms - said for here, there in _TURNED):
            return False
        return any(
            self._is_whole(wording, typed)
            and (_names_a_thing(wording) or bool(direct & self._spelt(normalise(text))))
            and all(one < forms for one in refused)
            and not hedges(clause, (text,))
            and _denials(clause) <= _denials(text)
            for wording, forms, text in zip(self.wordings, self.forms, self.accept, strict=True)
        )

    def _spelt(self, text: str) -> set[str]:
        """Return the forms of the words of ``text``, slips of the finger mended."""
        return {nearest(one, one, (), self.vocabulary) for one in _forms(text) if one not in everyday_words.STOP}

    def is_touched_by(self, clause: str) -> bool:
        """Return whether ``clause`` says a telling word of the answer, denies nothing and names no other thing."""
        typed = self._read(clause)
        telling = {word for word in map(self._as_own, typed.words) if weight_of(word) > SLIGHT}
        rivals = any(self._is_rival(word) for word in telling - self.refused)
        refused = any(one <= _forms(clause) for one in self.refusals)
        return not typed.denials and bool(telling & self.words) and not rivals and not refused

    def allows(self, clause: str) -> bool:
        """Return whether ``clause`` may stand beside the answer: it denies another thing, or adds nothing."""
        typed = self._read(clause)
        words = {self._as_own(word) for word in typed.words}
        if typed.denials:
            main = {word for word in self.wordings[0].words if not is_end(word)}
            return not words & main and not any(_needed(one) <= words for one in self.wordings if one.words)
        return all(self._is_allowed(word) for word in words)

    def _is_allowed(self, word: str) -> bool:
        return word in self.words or (not self._is_rival(word) and (word in self.asked or _is_small(word)))

    def _is_whole(self, wording: Sense, typed: Sense) -> bool:
        needed, read = _needed(wording), tuple(_as_one_of(word, wording.words) for word in typed.words)
        words = set(read)
        if not needed or not needed <= words or typed.denials != wording.denials:
            return False
        added = {self._as_own(word) for word in words - needed}
        ends = {word for word in added & self.words if is_end(word)}
        if not all(map(self._is_allowed, added)) or (ends and not _names_a_thing(wording)):
            return False  # "hold-down" is not "hold"
        return read == wording.words or not opposed(typed, wording, together_of((wording,), (wording,)))

    def _read(self, clause: str) -> Sense:
        """Return what ``clause`` says without the glosses and the words of the question in it."""
        clause = _GLOSS.sub(lambda found: found[0] if self._matters(found[0]) else " ", f" {clause} ")
        kept = [word for word in clause.split() if not self._is_echo(word) and word not in _EVERYDAY]
        return sense(" ".join(kept), self.vocabulary)

    def _matters(self, gloss: str) -> bool:
        words = {self._as_own(word) for word in sense(gloss, self.vocabulary).words}
        return any(word in self.words | everyday_words.CONCRETE or self._is_rival(word) for word in words)

    def _is_echo(self, word: str) -> bool:
        plain = plain_form(word)
        if plain not in self.asked_forms or plain in self.own_forms or word in opposites.NEGATIONS:
            return False
        meant = {canonical_words().get(plain, plain), *sense(word, self.vocabulary).words}
        return not any(map(self._is_rival, meant))

    def _is_rival(self, word: str) -> bool:
        """Return whether ``word`` could stand in the answer's place: another end of its axis, another of its kind."""
        if word in self.words:
            return False
        if is_end(word):
            return word in self.refused or any(is_end(one) and one[:-1] == word[:-1] for one in self.words)
        return word in self.refused or any(word in kind and kind & self.words for kind in opposites.EXCLUSIVE)

    def _as_own(self, word: str) -> str:
        return _as_one_of(word, self.words)


def decided(plain: str) -> str:
    """Return ``plain`` without what it says to be all the same: "military, trap or not"."""
    return _WHETHER.sub("", plain)


def _needed(wording: Sense) -> set[str]:
    """Return the words of ``wording`` that must be said: all but its units and everyday verbs."""
    small = {word for word in wording.words if word in UNITS or (weight_of(word) <= SLIGHT and is_harmless(word))}
    return set(wording.words) - small or set(wording.words)


def _denials(text: str) -> int:
    return len(re.findall(r"\b(?:not|no|never|without)\b|n't\b", text.casefold()))


def _names_a_thing(wording: Sense) -> bool:
    """Return whether ``wording`` needs a word that stands for nothing else: "stop" is not "shut down"."""
    return any(not is_end(word) and word not in _LOOSE for word in _needed(wording))


def _forms(text: str) -> frozenset[str]:
    return frozenset(plain_form(word) for word in re.findall(r"[^\W\d_]+|\d[\d.,]*\d|\d", text.casefold()))


def _as_one_of(word: str, words) -> str:
    """Return the one of ``words`` that is ``word``, its kin, or the number that it rounds."""
    if word in words:
        return word
    if is_number(word):
        return next((one for one in words if is_number(one) and _rounds(float(word), float(one))), word)
    if is_end(word) or weight_of(word) <= _SAYS_LITTLE:
        return word
    return min((one for one in kindred(word) & set(words) if not is_end(one)), default=word)


def _rounds(one: float, other: float) -> bool:
    return max(one, other) < 1.0 and abs(one - other) < _HUNDREDTH


def _is_small(word: str) -> bool:
    """Return whether ``word`` may be added to any answer."""
    if is_end(word):
        return word[:-1] in _FREE_AXES
    if is_number(word) or word in everyday_words.CONCRETE:
        return False
    return is_harmless(word) or weight_of(word) <= _SMALL
