"""What is asked where a text may mean something but does not say so: never more than the person said.

A wording is offered only where the person typed all that it says, where something of that is not on the screen
already, and where nothing typed speaks against it.  Everything else is asked for in other words.
"""

import re
from collections.abc import Iterable

from trainer.errors import AnswerError
from trainer.patterns import Late
from trainer.reading.freetext.meaning import sense
from trainer.reading.language import everyday_words
from trainer.reading.language.plain_text import normalise, quoted
from trainer.reading.language.spelling import vocabulary_of
from trainer.reading.language.word_forms import is_harmless, plain_form

_HEDGE = Late(r"\b(?:or|maybe|perhaps)\b")


class Unsure(AnswerError):
    """What was typed may be one of ``likely`` (the wordings of each); nothing is graded until the person says more.

    ``meant`` is the wording that was offered, "" where none was: "y" takes it, at the price of a hint.
    """

    def __init__(self, *likely: Iterable[str], text: str = "", meant: str = ""):
        if meant:
            super().__init__(f'did you mean "{meant}"?', hint="y for yes (it counts half), or type it in other words")
        else:
            said = f"what {quoted(text)} means here" if text else "what that means here"
            super().__init__(f"I can't tell {said}", hint="say it more fully, or in other words")
        self.likely = tuple(tuple(wordings) for wordings in likely)
        self.meant = meant


def settled(unsure: Unsure, text: str, screen: str) -> Unsure:
    """Return ``unsure`` with a wording to offer where that gives nothing away; ``screen`` is what can be seen."""
    offered = ""
    if len(unsure.likely) == 1 and not hedges(text):
        offered = next((one for one in unsure.likely[0] if _is_said(one, text, screen)), "")
    return Unsure(*unsure.likely, text=text, meant=offered)


def hedges(text: str, wordings: Iterable[str] = ()) -> bool:
    """Return whether ``text`` names more things and leaves open which than any of ``wordings`` does."""
    said = len(_HEDGE.findall(normalise(text, longest=6000)))
    return said > max((len(_HEDGE.findall(one.lower())) for one in wordings), default=0)


def alternatives(text: str) -> list[str]:
    """Return the things between which ``text`` leaves open, [] where it names but one."""
    parts = [part.strip(" ,;").removeprefix("either ") for part in _HEDGE.split(normalise(text, longest=6000))]
    parts = [part for part in parts if part]
    return parts if len(parts) > 1 else []


def repeats(text: str, screen: str) -> bool:
    """Return whether ``text`` says nothing but words that stand on the ``screen``."""
    own = words_of(text)
    return bool(own) and own <= words_of(screen)


def decide() -> AnswerError:
    """Return the error that asks to decide between two things that were said."""
    return AnswerError("that says two things", hint="decide, and type one of them")


def _is_said(wording, text, screen):
    """Return whether ``text`` says all of ``wording`` in its own words and nothing against it.

    What only repeats the screen says nothing, and another word for the same thing would be new.
    """
    own, typed, seen = (words_of(one) for one in (wording, text, screen))
    if not own or not own <= typed or own <= seen or not all(_is_aside(word) for word in typed - own - seen):
        return False
    vocabulary = vocabulary_of([wording])
    meant, said = (sense(normalise(one, longest=6000), vocabulary) for one in (wording, text))
    return said.poles == meant.poles and said.denials == meant.denials and set(said.numbers) == set(meant.numbers)


def _is_aside(word):
    return is_harmless(word) and word not in everyday_words.CONCRETE


def words_of(text: str) -> set[str]:
    """Return the words and figures of ``text`` that say something, in one spelling for all their forms."""
    plain = re.findall(r"[a-z]+|\d[\d.,]*", normalise(text, longest=6000))
    return {plain_form(word) for word in plain if word not in everyday_words.STOP}
