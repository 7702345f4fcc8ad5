"""What a drill is called where a person reads it: never its id."""

from trainer.model import Drill, Outline
from trainer.patterns import Late

LONGEST = 60
_PLACEHOLDER = Late(r"\{[^{}]*\}")


def title(drill: Drill | Outline) -> str:
    """Return what ``drill`` is about in a few words: the title of the flow or quantity, else what is asked."""
    name = getattr(drill, "quantity", "") if drill.kind == "computed" else ""
    if name:
        from trainer.engine.quantities import QUANTITIES

        quantity, result = QUANTITIES[name], getattr(drill, "result", "")
        asked = quantity.result(result)
        return quantity.title if asked.name == quantity.results[0].name else f"{quantity.title}: {asked.title}"
    return drill.label if drill.kind == "flow" else shortened(drill.label)


def without_keys(text: str) -> str:
    """Return ``text`` with … where a drawn number stands."""
    return _PLACEHOLDER.sub("…", text)


def shortened(text: str) -> str:
    """Return ``text`` as a title: without the question mark, cut at a word where it is long.

    >>> shortened("Case I departure: at what distance may you climb?")
    'Case I departure: at what distance may you climb'
    >>> shortened("Angels {angels}?")
    'Angels …'
    """
    text = without_keys(text).rstrip("? ")
    return text if len(text) <= LONGEST else text[:LONGEST].rsplit(" ", 1)[0].rstrip(" ,;:.") + " …"
