"""What a text typed for a step means, by ``rules`` and by what people have said for the steps.

The rules know words, ends and numbers, and nothing of what people say; the examples know only that.  A few hundred
weights, fitted to examples by people whose own texts were held back (``python -m tests.reading.weigh``), say how likely
it is that a text is right; between surely right and surely wrong the person is asked.
"""

import json
import math
from functools import lru_cache
from pathlib import Path

from trainer.decks.said import FEWEST, NEAR, RIGHT, WRONG, read_said
from trainer.errors import AnswerError
from trainer.reading.freetext import rules
from trainer.reading.freetext.asking_back import Unsure, alternatives, decide, repeats, settled, words_of
from trainer.reading.freetext.example_index import Examples
from trainer.reading.freetext.rules import Found
from trainer.reading.language.plain_text import normalise

# What the rules say of the step that the examples are most like.
ACCEPTED, ASKED, OPPOSITE, OTHER, OTHER_OPPOSITE, NOTHING = OUTCOMES = (
    "accepted", "asked", "opposite", "other", "other opposite", "nothing",
)  # fmt: skip
# How likely a text must be right to be accepted.  Chosen on texts that the weights were not fitted to: 91 to 97 of 100
# right ones are accepted so and 1 to 5 of 100 wrong ones, written to deceive (``tests.reading.weigh`` tells).
LIKELY_ENOUGH = {ACCEPTED: 0.3, ASKED: 0.7}
LIKELY_ENOUGH_ELSE = 0.85
SURELY_WRONG = 0.02
LIKE = 0.45  # likeness by letters to a wrong example from which a text counts as that step, got wrong
FAINT = 0.2  # likeness to right examples below which a text is no more like that step than like anything
THE_SAME, BY_FAR = 0.9, 0.1  # likeness by words from which a text counts as a right example that the rules accept
KEPT_READY = 6  # flows, some five megabytes each


def find(text, options, about, drill, *, screen=""):
    """Return the ``Found`` for ``text`` among the steps ``options`` of the flow ``drill``; see ``rules.find``.

    ``screen`` is what the person can see, where the step asked for is not among it: its words prove nothing, and
    what stands there is never offered when asked back.
    """
    heard, plain = _heard_of(drill, options), normalise(text, longest=6000)
    try:
        found = _found(text, plain, heard, options, about)
    except Unsure as unsure:
        raise settled(unsure, text, f"{about}; {screen}") from None
    if not found.key or is_wording(plain, options, drill):
        return found
    if _leaves_open(text, found.key, heard, options, about):
        raise decide()
    if screen and repeats(text, screen):
        raise Unsure(options[found.key], text=text)
    return found


def _found(text, plain, heard, options, about):
    """Return the ``Found``; raises ``Unsure`` where the text may mean a step."""
    if heard is None or not plain:
        return rules.find(text, options, about)
    alike = heard.examples.alike(text)
    found = _known(plain, heard, alike, options) or _whatever_the_rules_say(alike)
    found = found or _with_rules(text, alike, heard.examples, options, about)
    if found.key and plain not in heard.known and heard.examples.is_another(found.key, text, about):
        raise Unsure(options[found.key])
    return found


def _leaves_open(text, key, heard, options, about):
    """Return whether ``text`` names the step ``key`` or something else, and does not decide between them."""
    parts = alternatives(text)
    if not parts:
        return False
    known = [*options[key], *(one for one, kept in (heard.known if heard else {}).items() if kept == (RIGHT, key))]
    said = frozenset().union(*map(words_of, known))
    has_or = any(alternatives(one) for one in known)
    found = [_found_of(part, heard, options, about) for part in parts]
    return any(
        one.key not in ("", key)
        or (one.opposite and not has_or)
        or (not one.key and not (has_or and words_of(part) & said))
        for one, part in zip(found, parts, strict=True)
    )


def _found_of(part, heard, options, about):
    try:
        return _found(part, part, heard, options, about)
    except AnswerError:
        return Found()


def get_ready(options, drill):
    """Make the examples of ``drill`` ready, which lasts the longer the more there are."""
    _heard_of(drill, options)


def is_wording(text, options, drill):
    """Return whether ``text`` (normalised) is one of the wordings of ``options``, or known to be right."""
    heard = _heard_of(drill, options)
    if heard is not None:  # it knows the wordings, too
        return heard.known.get(text, ("", ""))[0] == RIGHT
    return any(text == normalise(wording) for several in options.values() for wording in several)


def _known(plain, heard, alike, options):
    """Return the ``Found`` for a text that is itself an example, None for any other."""
    sort, key = heard.known.get(plain, ("", ""))
    if sort == NEAR:
        raise Unsure(options[key])
    if sort == RIGHT:
        return Found(key=key)
    return Found(opposite=key) if sort == WRONG and key == alike.key else None  # it may be right for another step


def _whatever_the_rules_say(alike):
    """Return the ``Found`` on which the examples alone decide, None where the rules are needed (they take longer)."""
    chances = likelihoods(alike.measures)
    if all(chance >= LIKELY_ENOUGH.get(outcome, LIKELY_ENOUGH_ELSE) for outcome, chance in chances.items()):
        return Found(key=alike.key)
    if max(chances.values()) < SURELY_WRONG and _is_like_wrong(alike):
        return Found(opposite=alike.key)
    return None


def _with_rules(text, alike, examples, options, about):
    found, unsure = Found(), None
    try:
        found = rules.find(text, options, about)
    except Unsure as error:
        unsure = error
    if found.key and found.key != alike.key:  # two steps come into question: the likelier one does
        other = examples.alike(text, found.key)
        if not _is_faint(other) and likelihoods(other.measures)[ACCEPTED] > likelihoods(alike.measures)[OTHER]:
            alike = other
    return _decided(found, unsure, alike, options)


def _is_like_wrong(alike):
    return alike.measures["wrong_letters"] > max(LIKE, alike.measures["right_letters"])


def _is_faint(alike):
    return max(alike.measures["right_words"], alike.measures["right_letters"]) < FAINT


def _decided(found, unsure, alike, options):
    outcome, key = outcome_of(found, unsure, alike.key), alike.key
    chance, measures = likelihoods(alike.measures)[outcome], alike.measures
    if chance >= LIKELY_ENOUGH.get(outcome, LIKELY_ENOUGH_ELSE):
        return Found(key=key)
    if outcome == ACCEPTED and measures["right_words"] > max(THE_SAME, measures["wrong_words"] + BY_FAR):
        return Found(key=key)
    if chance < SURELY_WRONG:
        return Found(opposite=key) if outcome == OPPOSITE or _is_like_wrong(alike) else Found()
    if outcome == NOTHING and _is_faint(alike):
        return Found()
    if outcome == OTHER:
        raise Unsure(options[key], options[found.key])
    raise unsure if unsure is not None and len(unsure.likely) > 1 else Unsure(options[key])


def outcome_of(found, unsure, key):
    """Return which of ``OUTCOMES`` the rules' ``found``, or their doubt ``unsure``, is for the step ``key``."""
    if unsure is not None:
        return ASKED
    if found.key:
        return ACCEPTED if found.key == key else OTHER
    if found.opposite:
        return OPPOSITE if found.opposite == key else OTHER_OPPOSITE
    return NOTHING


def likelihoods(measures):
    """Return {outcome: how likely (0 to 1) it is that a text of such ``measures`` is right}."""
    weights = _weights()
    total = weights["always"]
    for name, line in weights["measures"].items():
        value = measures[name]
        total += line["slope"] * value
        total += math.fsum(slope * max(0.0, value - knot) for knot, slope in line["bends"])
    return {one: _logistic(total + weight) for one, weight in weights["outcomes"].items()}


def _logistic(total):
    return 1.0 / (1.0 + math.exp(-max(-50.0, min(50.0, total))))


@lru_cache(maxsize=1)
def _weights():
    return json.loads(Path(__file__).with_suffix(".json").read_text(encoding="utf-8"))


class _Heard:
    def __init__(self, options, right, wrong, near):
        self.examples = Examples(
            {key: [*wordings, *right.get(key, ())] for key, *wordings in options},
            {key: wrong.get(key, ()) for key, *_ in options},
            {key: near.get(key, ()) for key, *_ in options},
        )
        sorts = ((NEAR, near), (WRONG, wrong), (RIGHT, right))
        self.known = {normalise(text): (sort, key) for sort, kept in sorts for key in kept for text in kept[key]}
        self.known |= {normalise(text, longest=6000): (RIGHT, key) for key, *wordings in options for text in wordings}


def _heard_of(drill, options):
    steps = tuple(step.id for step in drill.steps)
    return _heard(drill.said, _stamp(drill.said), tuple((key, *wordings) for key, wordings in options.items()), steps)


@lru_cache(maxsize=KEPT_READY)
def _heard(path, stamp, options, steps):
    """Return the examples of the file ``path`` beside the wordings ``options``, None where there are too few."""
    if stamp is None:
        return None
    texts = read_said(path, steps)
    if texts.faults:  # `trainer deck check` tells them
        return None
    right, wrong, near = (_typed(kept) for kept in (texts.right, texts.wrong, texts.near))
    if any(len(kept.get(step, ())) < FEWEST for step in steps for kept in (right, wrong)):
        return None
    return _Heard(options, right, wrong, near)


def _typed(kept):
    """Return {step: texts} with only those that could be an answer: not too long, and of signs that can be read."""
    return {key: [text for text in texts if _can_be_typed(text)] for key, texts in kept.items()}


def _can_be_typed(text):
    try:
        return bool(normalise(text))
    except AnswerError:
        return False


def _stamp(path):
    """Return a mark that changes with the file ``path``, None where there is none."""
    try:
        found = Path(path).stat() if path else None
    except OSError:
        return None
    return found and (found.st_size, found.st_mtime_ns)
