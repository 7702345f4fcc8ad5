"""Finding a quantity of the engine, or a drill, by its name, by the trade's word for it, or by what is asked."""

import re

from trainer.drills import titles
from trainer.engine.quantities import QUANTITIES
from trainer.errors import UsageError

NEAREST = 3  # words that may have been meant by one that nobody uses


def find(words):
    """Return the quantities that mention every one of ``words``: where a word begins, else anywhere within.

    Without words those are all.

    >>> [quantity.name for quantity in find(["line", "of", "sight"])]
    ['radio_horizon']
    """
    known = list(QUANTITIES.values())
    return _found(words, [(one, _texts(one), ()) for one in known]) if parts_of(words) else known


def drills(words, library):
    """Return the ids of the drills of ``library`` that ``words`` find, in their order.

    A word finds a drill by its title, its id or its quantity, as it finds a quantity; where none is found so, by what
    is asked, or by its deck or area.
    """
    return _found(words, [(name, _close_texts(one), _far_texts(one)) for name, one in library.outlines.items()])


def _found(words, entries):
    """Return the things of ``entries`` [(thing, close texts, far texts)] that ``words`` find.

    Every word must begin a word of the close texts; where that finds nothing one of all texts; else it must stand
    anywhere within them.
    """
    wanted = parts_of(words)
    if not wanted:
        return []
    return (
        [thing for thing, close, _ in entries if _all_begin(wanted, close)]
        or [thing for thing, close, far in entries if far and _all_begin(wanted, (*close, *far))]
        or [thing for thing, close, _ in entries if all(_within(word, close) for word in wanted)]
    )


def parts_of(words):
    """Return the single words of what was typed."""
    return [part for word in words for part in re.split(r"[\s_-]+", word.lower()) if part]


def _texts(quantity):
    return (quantity.name.replace("_", " "), quantity.title, quantity.area, *quantity.words)


def _close_texts(drill):
    quantity = QUANTITIES.get(drill.quantity)
    return (drill.id.replace("-", " "), titles.title(drill), *(_texts(quantity) if quantity else ()))


def _far_texts(drill):
    return (drill.label, drill.deck.replace("-", " "), drill.area)


def _words(texts):
    return re.split(r"[^\w°,.'/%]+", " ".join(texts).lower())


def _all_begin(wanted, texts):
    spoken = _words(texts)
    return all(any(part.startswith(_stem(word)) for part in spoken) for word in wanted)


def _within(word, texts):
    return any(word in text.lower() for text in texts)


def _stem(word):
    return word.removesuffix("s") if len(word) > 3 else word


def no_such_drill(words, library):
    """Return the ``UsageError`` for words that find no drill, with the nearest that would."""
    from difflib import get_close_matches
    from itertools import product

    spoken = {part for one in library.outlines.values() for part in _words((*_close_texts(one), *_far_texts(one)))}
    near = [[part] if part in spoken else get_close_matches(part, spoken, NEAREST, 0.7) for part in parts_of(words)]
    near = next((found for found in product(*near) if drills(found, library)), ())
    hint = f"did you mean {' '.join(near)}?" if near else "`trainer deck list` shows the decks"
    return UsageError(f"no drill speaks of {' '.join(words)[:60]!r}", hint=hint)


def named(text):
    """Return the quantity called ``text``, None where ``text`` is not the name of one."""
    return QUANTITIES.get("_".join(re.split(r"[\s_-]+", text.strip().lower())))


def no_such_quantity(words):
    """Return the ``UsageError`` for words that match no quantity."""
    text = " ".join(words)
    from difflib import get_close_matches

    close = get_close_matches(text.lower().replace("-", "_").replace(" ", "_"), QUANTITIES, 1, 0.6)
    close = close or [found.name for word in words for found in find([word])][:1]
    hint = f"did you mean {close[0]}? `trainer compute` lists them all" if close else "`trainer compute` lists them all"
    return UsageError(f"there is no quantity {text!r}", hint=hint)


def which_one(words, quantities):
    """Return the ``UsageError`` for words that match several quantities, of which the inputs fit none or many."""
    names = [quantity.name for quantity in quantities]
    some = ", ".join(names[:4]) + (", …" if len(names) > 4 else "")
    return UsageError(f"{' '.join(words)!r} may be {some}", hint=f"name one: trainer compute {names[0]} …")
