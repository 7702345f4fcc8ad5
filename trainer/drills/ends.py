"""The ends of axes that words stand at: up or down, on or off – and what a word means beside others."""

from functools import cache

from trainer.drills import lexicon


def is_end(word):
    """Return whether ``word`` is an end of an axis, like "up+"."""
    return len(word) > 1 and word[-1] in "+-"


@cache
def all_ends():
    """Return {word: [(axis, end)]}."""
    found = {}
    for axis, (plus, minus) in lexicon.AXES.items():
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
        if word in lexicon.POWER_DOWN:
            return "power-"
        if word in ("keep", "full") and lexicon.POWER_DOWN & set(phrase):
            return word  # "power stays down", "throttle full aft"
        if word in lexicon.POWER_UP and word not in lexicon.FULL_POWER:
            return "power+"
    if about_light and word == "out":
        return "off"
    if word == "leave" and {"on", "off", "as", "set", "full", "idle", "dirty", "clean"} & set(phrase):
        return "keep"  # "leave the lights off"
    if "canopy" in phrase and word in ("up", "down"):
        return "open" if word == "up" else "close"
    if ("brake" in phrase and word in ("set", "keep")) or _takes_tension(word, phrase):
        return "on"
    if lexicon.UP_OR_DOWN & set(phrase) and word in ("extend", "deploy", "retract", "stow"):
        return "down" if word in ("extend", "deploy") else "up"
    if "speedbrake" in phrase and word in ("in", "out", "open", "close"):
        return "extend" if word in ("out", "open") else "retract"
    return word


def _takes_tension(word, phrase):
    return "tension" in phrase and word in ("set", "take", "taken") and not {"off", "release"} & set(phrase)
