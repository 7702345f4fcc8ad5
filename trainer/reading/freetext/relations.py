"""What stands in which relation to what: from or to, until or when, whose, and who to whom.

The small words of a text carry these; two texts of the same words may say contrary things with them.
"""

import re
from itertools import pairwise

from trainer.reading.language import opposites
from trainer.reading.language.everyday_words import STOP
from trainer.reading.language.spelling import phrases_of
from trainer.reading.language.tokens import EXCEPT, NOT
from trainer.reading.language.word_forms import canonical_words, ends_of, plain_form

_OWNER = re.compile(r"\b([a-z]+)['’]s ([a-z]+)|\b([a-z]+) of (?:the |a |an |my |his |their )?([a-z]+)\b")
_OF_A_SHIP = frozenset("base beam bow brc course deck head island pitch stern tower wake".split())
_ONESELF = frozenset("i me mine my us you your yourself".split())
_PERSONS = opposites.DOERS | frozenset("bubble escort marshal tanker tower wingman".split())
# What turns a text round where no wording has it, or what it may be said for.
_TURNING = {
    r"\bagainst\b": r"against|agree|check|compare",
    r"\bof (?:the )?(?:another|next|other)\b": r"another|next|other",
}
_REACH = 4  # words behind a small word in which its noun stands


def at_odds(plain, wordings, vocabulary, about):
    """Return whether ``plain`` puts things in other relations than all of ``wordings`` (texts) do.

    ``about`` is what the question itself says.
    """
    typed = phrases_of(plain, vocabulary)
    meant = [phrases_of(one, vocabulary) for one in wordings]
    return (
        _excepts(typed, meant)
        or _contrary(_related(typed), [_related(one) for one in meant])
        or _swapped(typed, meant)
        or _reversed(_persons(typed), [_persons(one) for one in meant])
        or _doing_it(typed, meant)
        or _other_deed(typed, meant)
        or _mine(plain, wordings)
        or any(re.search(sign, plain) and not re.search(known, " ".join(wordings)) for sign, known in _TURNING.items())
        or _later_first(plain, wordings, vocabulary)
        or _numbers_mixed(plain, wordings)
        or bool(_owners(plain) - {word for one in meant for phrase in one for word in phrase} - _people_of(about))
    )


def _excepts(typed, meant):
    """Return whether an exception is made that no wording makes."""
    return any(EXCEPT in phrase for phrase in typed) and not any(EXCEPT in phrase for one in meant for phrase in one)


def _related(phrases):
    """Return {noun: the relations in which it stands}."""
    found = {}
    for phrase in phrases:
        for at, word in enumerate(phrase):
            kind = opposites.RELATIONS.get(word)
            noun = next((one for one in phrase[at + 1 : at + 1 + _REACH] if _is_noun(one)), None)
            if kind and noun:
                found.setdefault(noun, set()).add(kind)
    return found


def _is_noun(word):
    return (word not in STOP or word in _ONESELF) and word not in opposites.RELATIONS and word not in (NOT, EXCEPT)


def _contrary(typed, meant):
    """Return whether a noun stands in a relation contrary to all of those in which a wording has it."""
    for noun, kinds in typed.items():
        known = {kind for one in meant for kind in one.get(noun, ())}
        if not kinds & known and any((one, other) in _contraries() for one in kinds for other in known):
            return True
    return False


def _swapped(typed, meant):
    """Return whether what stands behind "from" has changed places with another word of the wording."""
    said = {noun for noun, kinds in _related(typed).items() if "from" in kinds}
    words = {word for phrase in typed for word in phrase}
    for one in meant:
        named = {noun for noun, kinds in _related(one).items() if "from" in kinds}
        others = {word for phrase in one for word in phrase} - named
        if said and named and said <= others and named <= words - said:
            return True
    return False


def _contraries():
    return {pair for one, other in opposites.CONTRARY_RELATIONS for pair in ((one, other), (other, one))}


def _persons(phrases):
    """Return who is named, in order; who stands behind "by" acts and comes first."""
    found = []
    for phrase in phrases:
        for at, word in enumerate(phrase):
            person = "you" if word in _ONESELF else word if word in _PERSONS else ""
            if person and "by" in phrase[max(0, at - 2) : at]:
                found.insert(0, person)
            elif person:
                found.append(person)
    return found


def _reversed(typed, meant):
    """Return whether two who are named in all wordings that name both come the other way round."""
    orders = [[one for one in several if one in typed] for several in meant]
    orders = [one for one in orders if len(set(one)) > 1]
    return bool(orders) and not any(_comes_in(order, typed) for order in orders)


def _comes_in(order, typed):
    rest = iter(typed)
    return all(one in rest for one in order)


def _doing_it(typed, meant):
    """Return whether somebody does what in every wording is done to them: "tower tells you" for "tell the tower"."""
    for before in (True, False):
        said = _deeds(typed, before=before) - _deeds(typed, before=not before)
        other = set().union(*(_deeds(one, before=not before) for one in meant))
        if said & other and not any(said & other & _deeds(one, before=before) for one in meant):
            return True
    return False


def _deeds(phrases, *, before):
    """Return {(who, deed)} of persons that stand before a deed, else of those behind it."""
    found = set()
    for phrase in phrases:
        words = [end for word in phrase if word not in STOP - _ONESELF for end in (ends_of(word)[:1] or (word,))]
        for at, word in enumerate(words):
            near = words[max(0, at - 2) : at] if before else words[at + 1 : at + 4]
            deed = "call" if word == "answer" else word
            if deed in opposites.DEEDS and (before or deed != "signal"):  # "on signal of the director"
                found |= {(who, deed) for who in near if who in _PERSONS}
    return found


def _other_deed(typed, meant):
    """Return whether somebody begins the text as the doer of a deed that no wording gives them."""
    doers = {word for one in meant for phrase in one for word in _named(phrase)[:1] if word in _PERSONS}
    words = {word for one in meant for phrase in one for word in phrase}
    first = _named(typed[0]) if typed else []
    if len(first) > 1 and doers and first[0] in _PERSONS & words and not {first[0]} & (doers | _called(doers)):
        return True
    if len(first) < 2 or first[0] not in _PERSONS or first[0] in doers or first[1] not in words:
        return False
    return not any(pair == (first[0], first[1]) for one in meant for phrase in one for pair in pairwise(phrase))


def _called(doers):
    return {other for one in doers for other in opposites.CALLED.get(one, ())}


def _named(phrase):
    return [word for word in phrase if word not in STOP and word not in opposites.WITH_DOERS]


def _numbers_mixed(plain, wordings):
    """Return whether a clause takes its numbers from two clauses: "times 20, or times 60 for 3 minutes"."""
    typed = _numbers(plain)
    for clauses in map(_numbers, wordings):
        own = [clause.difference(*clauses[:at], *clauses[at + 1 :]) for at, clause in enumerate(clauses)]
        if len(clauses) > 1 < len(typed) and any(sum(bool(one & said) for one in own) > 1 for said in typed):
            return True
    return False


def _numbers(text):
    found = [set(re.findall(r"\d+(?:,\d{3})*", clause)) for clause in re.split(r"[;(]|, | or ", text)]
    return [numbers for numbers in found if numbers]


def _later_first(plain, wordings, vocabulary):
    """Return whether "then" parts the text the other way round than every wording that has it."""
    typed = _parted(plain, vocabulary, ",? (?:and )?then ")
    meant = [_parted(one, vocabulary, ",? (?:and )?then |, ") for one in wordings]
    meant = [one for one in meant if one]
    if not typed or not meant:
        return False
    return all(typed[0] & late and typed[1] & early and not typed[0] & early for early, late in meant)


def _parted(text, vocabulary, sign):
    """Return (words before, words behind) the first ``sign`` (a pattern) in ``text``, () where there is none."""
    parts = re.split(sign, text, maxsplit=1)
    if len(parts) < 2:
        return ()
    return tuple({w for one in phrases_of(part, vocabulary) for w in one if w not in STOP} for part in parts)


def _owners(plain):
    """Return the people to whom something belongs: "the ship's call sign"."""
    pairs = [(one or other, thing or of) for one, thing, of, other in _OWNER.findall(plain)]
    found = {(_plain(owner), _plain(owned)) for owner, owned in pairs}
    return {owner for owner, owned in found if owner in _PERSONS or (owner == "ship" and owned not in _OF_A_SHIP)}


def _mine(plain, wordings):
    """Return whether one's own is said to be what in the wordings is somebody else's: "my signals"."""
    owned = [{_plain(thing) for who, thing, _, _ in _OWNER.findall(one) if _plain(who) in _PERSONS} for one in wordings]
    mine = {_plain(one) for one in re.findall(r"\b(?:my|your|our) ([a-z]+)", plain)}
    return any(mine & one for one in owned)


def _people_of(about):
    return {_plain(word) for word in re.findall(r"[a-z]+", about.lower())} & _PERSONS


def _plain(word):
    return canonical_words().get(plain_form(word), plain_form(word))
