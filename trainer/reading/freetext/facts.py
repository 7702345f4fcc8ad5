"""An answer known by heart – a limit, a call, a name – read as right, wrong, or as nothing that can be graded."""

import re
from collections.abc import Sequence

from trainer.errors import AnswerError
from trainer.reading.freetext.asking_back import Unsure, decide, hedges, repeats, settled
from trainer.reading.freetext.whole_wording import decided, says
from trainer.reading.language.plain_text import normalise, quoted
from trainer.reading.language.related_words import is_word
from trainer.reading.language.spelling import phrases_of, vocabulary_of
from trainer.reading.language.word_forms import is_strange


def is_right(
    text: str, accept: Sequence[str], refuse: Sequence[str] = (), asked: str = "", *, around: str = ""
) -> bool:
    """Return whether ``text`` is one of ``accept``; ``refuse`` are look-alikes, ``asked`` is the question.

    Words of the question prove nothing; those of ``around`` may stand beside the answer, too.  Raises ``AnswerError``
    for what says nothing, or two things, and ``Unsure`` for what says a part of the answer.
    """
    plain = decided(normalise(text)) or normalise(text)
    for wordings, answer in ((accept, True), (refuse, False)):
        if plain in {normalise(wording) for wording in wordings}:
            return answer
    _must_say_something(plain, accept, refuse, asked)
    if hedges(re.sub(r"(?<=[a-z]) ?/ ?(?=[a-z])", " or ", plain), accept):
        raise decide()
    said = says(plain, accept, refuse, asked or around)
    if said is None:
        raise settled(Unsure(accept), text, asked)
    return said


def _must_say_something(plain, accept, refuse, asked):
    """Raise ``AnswerError`` where ``plain`` only repeats the question, or holds no word of which anything is known."""
    if repeats(plain, asked):
        raise AnswerError("those are words of the question", hint="say what it asks for")
    vocabulary = vocabulary_of([*accept, *refuse])
    words = [word for phrase in phrases_of(plain, vocabulary) for word in phrase]
    if not words or all(is_strange(word) and word not in vocabulary and not is_word(word) for word in words):
        raise AnswerError(f"I can't read {quoted(plain)}", hint="s shows the solution, h gives a hint")
