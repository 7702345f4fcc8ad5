"""Every right way and every wrong way to say a radio call, made from the call itself."""

import itertools
import re

from trainer.drills import calls, grading, questions
from trainer.errors import AnswerError
from trainer.model import ON_THE_NUMBER, CallDrill

DENIALS = ("not", "no", "negative", "without", "isn't", "refused")
_ONES = "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen".split()
_ONES += "seventeen eighteen nineteen".split()
_TENS = "_ _ twenty thirty forty fifty sixty seventy eighty ninety".split()


def made(library):
    """Return the calls of ``library`` that are made, not heard."""
    return [one for one in library.drills.values() if isinstance(one, CallDrill) and not one.hear]


def items_of(question, drill):
    """Return the texts of the items of ``question``, in their order."""
    return [calls.filled(item.say, drill, question.inputs) for item in drill.items if not item.optional]


def right(question, drill):
    """Yield (kind, text) of the forms that controllers accept."""
    items, spoken = items_of(question, drill), calls.as_spoken(question, drill)
    yield "as written", ", ".join(items)
    yield "no commas", " ".join(items)
    yield "spoken", spoken
    yield "spoken, no commas", spoken.replace(",", "")
    yield (
        "whole numbers in words",
        ", ".join(re.sub(r"(?<![\d.])\d\d\b(?!\.)", lambda two: in_words(int(two[0])), one) for one in items),
    )
    yield "no units", ", ".join(re.sub(r"(?<=\d)(°| nm| ft| inHg)|angels (?=\d)", "", one) for one in items)
    yield "one to a line", "\n".join(items)
    yield "upper case", ", ".join(items).upper()
    yield "courtesy", f"uh {', '.join(items)}, over"
    shown = [item for item in drill.items if not item.optional]
    for at, item in enumerate(shown):
        for way in item.ways:
            yield "another way", ", ".join([*items[:at], calls.filled(way, drill, question.inputs), *items[at + 1 :]])


def in_words(number):
    """Return 0 to 99 in words, with a hyphen."""
    if number < 20:
        return _ONES[number]
    return _TENS[number // 10] + (f"-{_ONES[number % 10]}" if number % 10 else "")


def wrong(question, drill):
    """Yield (kind, text) of the call with one thing wrong."""
    items, shown = items_of(question, drill), [item for item in drill.items if not item.optional]
    for at, item in enumerate(items):
        before, after = items[:at], items[at + 1 :]
        yield "dropped", ", ".join([*before, *after])
        yield "doubled", ", ".join([*before, item, item, *after])
        for denial in DENIALS:
            yield "denied", ", ".join([*before, f"{denial} {item}", *after])
        for place in [found.start() for found in re.finditer(r"\d", item)]:
            digit = str((int(item[place]) + 1) % 10)
            yield "another digit", ", ".join([*before, item[:place] + digit + item[place + 1 :], *after])
    if drill.ordered:
        for at in [at for at in range(len(items) - 1) if not (shown[at].anywhere or shown[at + 1].anywhere)]:
            yield "neighbours swapped", ", ".join([*items[:at], items[at + 1], items[at], *items[at + 2 :]])
    yield from _other_values(", ".join(items), question, drill)


def _other_values(text, question, drill):
    numbers = list(re.finditer(r"\d+(?:,\d{3})*(?:\.\d+)?", text))
    for one, other in itertools.combinations(numbers, 2):
        if float(one[0].replace(",", "")) != float(other[0].replace(",", "")):
            between = text[one.end() : other.start()]
            yield "numbers exchanged", text[: one.start()] + other[0] + between + one[0] + text[other.end() :]
    for draw in drill.draws:
        said = str(question.inputs[draw.name])
        for value in draw.any_of:
            if isinstance(value, str) and value != said and said in text:
                yield "another word drawn", text.replace(said, value)
                yield "both words", text.replace(said, f"{said} {value}")
    side = question.inputs.get("side_number")
    if side:
        yield "another side number", text.replace(f"{side:.0f}", f"{side + 10:.0f}", 1)


def taken_for(text, question, drill, library):
    """Return "right", "wrong" or "asked"."""
    try:
        grade = grading.grade(question, drill, library, text, 1.0)
    except AnswerError:
        return "asked"
    return "right" if grade.verdict == ON_THE_NUMBER else "wrong"


def swept(library, draws):
    """Yield (whether it is right, kind, drill id, text, what it is taken for) of every variation of every call."""
    for drill in made(library):
        for seed in range(draws):
            question = questions.make(drill, library, f"sweep {seed}")
            for is_right, several in ((True, right), (False, wrong)):
                for kind, text in dict.fromkeys(several(question, drill)):
                    yield is_right, kind, drill.id, text, taken_for(text, question, drill, library)
