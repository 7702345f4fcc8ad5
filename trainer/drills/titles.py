"""What a drill is called where a person reads it: never its id."""

from trainer.model import Drill

LONGEST = 60


def title(drill: Drill) -> str:
    """Return what ``drill`` is about in a few words: the title of the flow or quantity, else what is asked."""
    if getattr(drill, "title", ""):
        return drill.title
    if getattr(drill, "quantity", ""):
        return _of_quantity(drill)
    return shortened(getattr(drill, "ask", "") or drill.id)


def _of_quantity(drill):
    from trainer.engine.quantities import QUANTITIES

    quantity = QUANTITIES[drill.quantity]
    result = quantity.result(drill.result)
    if result.name == quantity.results[0].name:
        return quantity.title
    return f"{quantity.title}: {result.title}"


def shortened(text: str) -> str:
    """Return ``text`` as a title: without the question mark, cut at a word where it is long.

    >>> shortened("Case I departure: at what distance may you climb?")
    'Case I departure: at what distance may you climb'
    """
    text = text.rstrip("? ")
    return text if len(text) <= LONGEST else text[:LONGEST].rsplit(" ", 1)[0].rstrip(" ,;:.") + " …"
