"""Finding a quantity of the engine, or a drill, by its name, by the trade's word for it, or by what is asked."""

import re

from trainer.drills import titles
from trainer.engine.quantities import QUANTITIES
from trainer.errors import UsageError


def find(words):
    """Return the quantities that mention every one of ``words``: where a word begins, else anywhere within.

    >>> [quantity.name for quantity in find(["line", "of", "sight"])]
    ['radio_horizon']
    """
    wanted = [part for word in words for part in re.split(r"[\s_-]+", word.lower()) if part]
    known = QUANTITIES.values()
    return [q for q in known if all(_begins(q, word) for word in wanted)] or [
        q for q in known if all(_mentions(q, word) for word in wanted)
    ]


def _texts(quantity):
    return (quantity.name.replace("_", " "), quantity.title, quantity.area, *quantity.words)


def _begins(quantity, word):
    """Return whether a word of ``quantity`` begins with ``word`` (a plural s aside)."""
    stem = _stem(word)
    spoken = " ".join(_texts(quantity)).lower()
    return any(part.startswith(stem) for part in re.split(r"[^\w°,.'/%]+", spoken))


def _mentions(quantity, word):
    return any(word in text.lower() for text in _texts(quantity))


def drills(words, library):
    """Return the ids of the drills of ``library`` that ``words`` find, in their order.

    A word finds a drill by its title, by what is asked, by its id, deck or area, or by its quantity, where a word of
    these begins so; of drills found by title or quantity the others are left out.
    """
    wanted = [part for word in words for part in re.split(r"[\s_-]+", word.lower()) if part]
    close = [name for name, drill in library.outlines.items() if _all_begin(wanted, _close_texts(drill))]
    return close or [name for name, drill in library.outlines.items() if _all_begin(wanted, _far_texts(drill))]


def _close_texts(drill):
    quantity = QUANTITIES.get(drill.quantity)
    return (drill.id.replace("-", " "), titles.title(drill), *(_texts(quantity) if quantity else ()))


def _far_texts(drill):
    return (*_close_texts(drill), drill.label, drill.deck.replace("-", " "), drill.area)


def _all_begin(wanted, texts):
    spoken = re.split(r"[^\w°,.'/%]+", " ".join(texts).lower())
    return bool(wanted) and all(any(part.startswith(_stem(word)) for part in spoken) for word in wanted)


def _stem(word):
    return word.removesuffix("s") if len(word) > 3 else word


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
