"""The words of the trainer as plain, frozen records.  Standard library only.

Every other module speaks in these; none of them knows how it is stored, drawn or shown.
"""

from collections.abc import Mapping
from dataclasses import field
from typing import Any, NamedTuple

from trainer.frozen import frozen

AREAS = (
    "deck", "launch", "departure", "marshal", "approach",
    "pattern", "fuel", "navigation", "comms", "emergency",
)  # fmt: skip
PHASES = (
    "brief", "man-up", "start-up", "taxi", "catapult", "departure", "departure-1", "departure-2", "departure-3",
    "transit", "mission", "marshal", "recovery-1", "recovery-2", "recovery-3", "pattern", "lso", "bolter", "fuel",
    "after-trap", "shutdown", "emergency", "debrief", "comms", "other",
)  # fmt: skip
KINDS = ("computed", "flow", "recall")
WINGS = ("jet", "turboprop", "helicopter")  # what an airframe is; an id with one of these words is for such alone
STATUSES = ("published", "secondary", "handbook", "squadron procedure", "common practice", "memory", "invented")
DEFAULT_WORTH = {"recall": 1.0, "computed": 2.0, "flow": 4.0}

ON_THE_NUMBER = "on the number"
INSIDE_LIMITS = "inside limits"
OUTSIDE_LIMITS = "outside limits"
OUT_OF_TIME = "out of time"
VERDICTS = (ON_THE_NUMBER, INSIDE_LIMITS, OUTSIDE_LIMITS, OUT_OF_TIME)

MODES = ("practice", "cram", "rehearsal", "debrief")


def is_right(score):
    """Return whether a ``score`` (0 to 1, a number or an array) counts as right: more than half of it is.

    >>> is_right(0.5), is_right(0.75)
    (False, True)
    """
    return score > 0.5


@frozen
class Source:
    """Where a fact comes from: ``text`` is the document, ``status`` one of ``STATUSES``."""

    text: str
    status: str
    section: str = ""
    url: str = ""


@frozen
class Tolerance:
    """How far an answer may be off, in the unit of the answer: ``on`` the number, ``inside`` limits."""

    on: float
    inside: float


@frozen
class Drill:
    """One thing to keep in memory; the unit that is scheduled.

    ``id`` is unique over all decks and never changes.  ``worth`` says how much it counts against the
    others, ``after`` names the drills that come first, ``group`` marks drills so alike that they should
    not follow each other, ``level`` is 1 (round numbers) to 3 (a step hidden in words), ``phase`` is the
    part of the sortie in which it is needed (one of ``PHASES``, "" where a deck does not say).
    """

    id: str
    deck: str
    kind: str
    area: str
    source: Source
    worth: float
    limit_s: float
    after: tuple[str, ...] = ()
    group: str = ""
    level: int = 1
    phase: str = ""
    hint: str = ""
    why: str = ""
    line: int = 0

    @property
    def label(self) -> str:
        """Return the text by which a list names the drill: the title of a flow, else what is asked."""
        return getattr(self, "title", "") or getattr(self, "ask", "") or getattr(self, "hear", "")

    @property
    def step_count(self) -> int:
        """Return how many steps a flow has, 0 for anything else."""
        return len(getattr(self, "steps", ())) if self.kind == "flow" else 0

    @property
    def choice_count(self) -> int:
        """Return how many answers are offered, 0 where none are."""
        return len(getattr(self, "choices", ()))


class Outline(NamedTuple):
    """What is known of a drill before it is built: enough to choose, count, list and plan.

    The fields mean what they mean in ``Drill``; ``quantity`` is that of a computed drill, else "".
    """

    id: str
    deck: str
    kind: str
    area: str
    worth: float
    limit_s: float
    after: tuple[str, ...]
    group: str
    level: int
    phase: str
    line: int
    label: str
    step_count: int
    choice_count: int
    quantity: str

    @classmethod
    def of(cls, drill: "Drill") -> "Outline":
        """Return the outline of ``drill``."""
        return cls._make(getattr(drill, name, "") for name in cls._fields)


@frozen
class Draw:
    """How one input of a computed drill is drawn.  Exactly one of the four ways is set.

    ``span`` is (from, to, step), in shares of the number or table ``of`` of the user's files where that is named
    (step in the input's own unit); ``any_of`` a tuple of values; ``take`` names a value of the user's
    files ("ship.deck_angle_deg"); ``formula`` computes it from inputs drawn above it.  ``unit`` is the
    form in which text shows it: that of the quantity's input, else the deck's own word for it.
    """

    name: str
    span: tuple[float, float, float] | None = None
    of: str = ""
    any_of: tuple[Any, ...] = ()
    take: str = ""
    formula: str = ""
    unit: str = "count"


@frozen
class DeckSlip:
    """A typical mistake named by a deck: ``formula`` gives the wrong answer it leads to."""

    name: str
    words: str
    formula: str


@frozen
class ComputedDrill(Drill):
    """A question with numbers drawn afresh each time.

    The truth comes from ``quantity`` (its ``result`` by its ``method``) or, where a deck brings its own
    arithmetic, from ``formula`` in ``unit``.  ``keep`` are conditions that a draw must meet.
    """

    ask: str
    draws: tuple[Draw, ...]
    quantity: str = ""
    result: str = ""
    method: str = ""
    formula: str = ""
    unit: str = ""
    round_to: float = 0.0
    tolerance: Tolerance | None = None
    keep: tuple[str, ...] = ()
    slips: tuple[DeckSlip, ...] = ()
    steps: tuple[str, ...] = ()


@frozen
class Step:
    """One step of a flow; ``after`` names the steps that must be done before it.

    ``optional``: it is done in some launches or by some crews only, so leaving it out is no fault.
    """

    id: str
    do: str
    short: tuple[str, ...] = ()
    actor: str = "pilot"
    cue: str = ""
    after: tuple[str, ...] = ()
    skipped: str = ""
    source: Source | None = None
    optional: bool = False


@frozen
class FlowDrill(Drill):
    """An ordered procedure with dependencies between its steps, triggered by ``cue``.

    ``said`` is the path of the file that tells how people say the steps, which need not be there.
    """

    title: str
    cue: str
    steps: tuple[Step, ...]
    said: str = ""


@frozen
class RecallDrill(Drill):
    """A limit, a call, a signal, a definition: an answer known by heart.

    The answer is one of three: ``value`` in ``unit`` (graded with ``tolerance``), words in ``accept``
    (the first is shown as the answer; ``refuse`` are look-alikes that are never right), or the choice
    ``accept[0]`` out of ``choices``.
    """

    ask: str
    value: float | None = None
    unit: str = ""
    tolerance: Tolerance | None = None
    accept: tuple[str, ...] = ()
    refuse: tuple[str, ...] = ()
    choices: tuple[str, ...] = ()


@frozen
class CallItem:
    """One item of a radio call: what is said (``say``, or another of ``ways``), or what is asked of a heard one.

    ``value`` names the input that holds the number asked for, in ``unit``.  ``anywhere``: its place in the list is
    free, because published lists differ about it.
    """

    name: str
    say: str = ""
    ways: tuple[str, ...] = ()
    refuse: tuple[str, ...] = ()
    ask: str = ""
    value: str = ""
    unit: str = ""
    optional: bool = False
    anywhere: bool = False
    skipped: str = ""


@frozen
class CallDrill(Drill):
    """A radio call made or heard, with slots drawn afresh each time; scheduled as kind "recall".

    A call that is made is graded on its ``items`` and, where ``ordered``, on the order of the list named in
    ``order``.  A call that is heard (``hear``) is shown for as long as it would be spoken; then ``count`` of
    its items are asked.
    """

    ask: str
    draws: tuple[Draw, ...]
    items: tuple[CallItem, ...]
    hear: str = ""
    order: str = ""
    ordered: bool = True
    count: int = 3
    keep: tuple[str, ...] = ()


@frozen
class Question:
    """One drawn instance of a drill, complete enough to be graded again years later.

    ``form`` says how it is asked: "compute", "recall", "call", "listen", or for a flow "next", "before",
    "order", "missing", "misplaced" or "recite".  ``truth`` is a number, a text, or a tuple of step ids;
    ``choices`` are the lines shown with numbers 1, 2, 3 …
    """

    drill_id: str
    kind: str
    form: str
    seed: str
    text: str
    inputs: Mapping[str, Any]
    truth: Any
    truth_text: str
    unit: str
    limit_s: float
    choices: tuple[str, ...] = ()
    hint: str = ""
    area: str = ""


@frozen
class Slip:
    """A slip that an answer matched: ``name`` for statistics, ``words`` for the person."""

    name: str
    words: str


@frozen
class Grade:
    """How an answer compares with the truth.

    ``score`` is 0 to 1 (a flow may be partly right), ``deviation`` the signed error in the answer's
    unit (None for words), ``parts`` the result per step of a flow, ``said`` a sentence or more that
    tells what was wrong.
    """

    verdict: str
    score: float
    value: Any = None
    deviation: float | None = None
    slip: Slip | None = None
    parts: Mapping[str, float] = field(default_factory=dict)
    said: tuple[str, ...] = ()


@frozen
class Review:
    """One graded answer, stored for ever.  ``at`` is UTC, ``offset_min`` the local offset at the time.

    ``predicted`` is the probability of a right answer that the model gave *before* it was typed, so that
    the honesty of the forecast can be measured.  ``guess`` is the chance of hitting the answer blindly (1/n
    where n lines were offered), None where the kind's own value holds.  ``seconds`` is None where time was
    not measured.  ``asked_back`` is what was asked back before the answer was read, "" for nothing.

    A field that a later release adds has a default: it stands for the older answers, which lack it.
    """

    drill_id: str
    deck: str
    deck_hash: str
    kind: str
    area: str
    form: str
    quantity: str
    inputs: Mapping[str, Any]
    seed: str
    question: str
    typed: str
    value: Any
    truth: Any
    unit: str
    tolerance_on: float | None
    tolerance_inside: float | None
    deviation: float | None
    verdict: str
    score: float
    slip: str
    parts: Mapping[str, float]
    seconds: float | None
    limit_s: float
    hint_used: bool
    mode: str
    predicted: float
    guess: float | None
    at: Any
    offset_min: int
    engine_version: str
    asked_back: str = ""
