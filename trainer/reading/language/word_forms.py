"""One spelling for all forms of a word: its stem, its canonical word, and whether anything is known of it."""

from functools import cache

from trainer.reading.language import everyday_words, opposites, synonyms

_ENDINGS = (
    ("ies", ("y",)),
    ("ied", ("y", "ie")),
    ("es", ("", "e")),
    ("s", ("",)),
    ("ing", ("", "e")),
    ("ed", ("", "e")),
    ("d", ("",)),
    ("ly", ("",)),
    ("est", ("", "e")),
    ("er", ("", "e")),
)


@cache
def known_words():
    """Return every word that the lexicon knows."""
    words = (
        set(synonyms.SYNONYMS)
        | set(opposites.NEGATIONS)
        | set(opposites.DOUBTFUL)
        | opposites.DOERS
        | frozenset().union(*opposites.EXCLUSIVE)
        | set(everyday_words.STOP)
    )
    words |= {word for others in synonyms.SYNONYMS.values() for word in others}
    words |= {word for ends in opposites.AXES.values() for end in ends for word in end.split()}
    words |= {word for pair in synonyms.COMPOUNDS.items() for part in pair for word in part.split()}
    words |= set(synonyms.PARTED.values()) | opposites.THINGS
    return frozenset(words | set(everyday_words.LIGHT) | set(opposites.POWER_UP) | set(opposites.POWER_DOWN))


@cache
def canonical_words():
    return {other: word for word, others in synonyms.SYNONYMS.items() for other in others}


@cache
def homophones():
    pairs = [(plain_form(one), plain_form(other)) for one, other in everyday_words.HOMOPHONES]
    return dict(pairs) | {other: one for one, other in pairs}


def is_harmless(word):
    """Return whether ``word`` changes nothing where no wording has it."""
    return word in _harmless()


def is_strange(word):
    """Return whether the lexicon says nothing about ``word``: it may mean anything."""
    known = word in known_words() or word in _harmless() or is_number(word) or word[-1] in "+-"
    return not known


def is_thing(word):
    """Return whether ``word`` names a thing of the trade that is never another one."""
    return word in _things()


@cache
def _things():
    return frozenset(canonical_words().get(plain_form(word), plain_form(word)) for word in opposites.THINGS)


@cache
def _harmless():
    plain = {plain_form(word) for word in everyday_words.HARMLESS}
    return frozenset(plain | {canonical_words().get(word, word) for word in plain})


def stems(word):
    """Yield ``word`` and what it may be a form of: its singular, its verb."""
    yield word
    for ending, replacements in _ENDINGS:
        if word.endswith(ending) and len(word) - len(ending) >= 3:
            base = word[: -len(ending)]
            yield from (base + replacement for replacement in replacements)
            if ending in ("ing", "ed", "er", "est") and base[-1] == base[-2]:
                yield base[:-1]


def plain_form(word: str) -> str:
    """Return the one spelling in which the forms of ``word`` are compared: the lexicon's, else its bare stem."""
    known, word = known_words(), everyday_words.IRREGULAR.get(word) or word
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


def is_number(word):
    """Return whether ``word`` is written in figures."""
    return word[0].isdigit()


def is_end(word):
    """Return whether ``word`` is an end of an axis, like "up+"."""
    return len(word) > 1 and word[-1] in "+-"


@cache
def all_ends():
    """Return {word: [(axis, end)]}."""
    found = {}
    for axis, (plus, minus) in opposites.AXES.items():
        for sign, words in (("+", plus), ("-", minus)):
            for word in words.split():
                found.setdefault(word, []).append((axis, sign))
    return found


def ends_of(word):
    """Return the ends of axes at which ``word`` stands, as "up+"."""
    return tuple(axis + end for axis, end in all_ends().get(word, ()))


def in_context(word, phrase, about_power, about_light):
    """Return the word that ``word`` means beside the others of ``phrase``."""
    if phrase == ("full",):
        return "power+"
    if about_power and "canopy" not in phrase:
        if word in opposites.POWER_DOWN:
            return "power-"
        if word in ("keep", "full") and opposites.POWER_DOWN & set(phrase):
            return word  # "power stays down", "throttle full aft"
        if word in opposites.POWER_UP and word not in opposites.FULL_POWER:
            return "power+"
    if about_light and word == "out":
        return "off"
    if word == "leave" and {"on", "off", "as", "set", "full", "idle", "dirty", "clean"} & set(phrase):
        return "keep"  # "leave the lights off"
    if "canopy" in phrase and word in ("up", "down"):
        return "open" if word == "up" else "close"
    if ("brake" in phrase and word in ("set", "keep")) or _takes_tension(word, phrase):
        return "on"
    if opposites.UP_OR_DOWN & set(phrase) and word in ("extend", "deploy", "retract", "stow"):
        return "down" if word in ("extend", "deploy") else "up"
    if "speedbrake" in phrase and word in ("in", "out", "open", "close"):
        return "extend" if word in ("out", "open") else "retract"
    return word


def _takes_tension(word, phrase):
    return "tension" in phrase and word in ("set", "take", "taken") and not {"off", "release"} & set(phrase)
