"""After a flight: what was missed, late, off or right in the air becomes evidence of its own weight.

A flight is told in hindsight and by oneself, so it weighs less than an answer that was typed and graded: what
was right counts 0.9 of a right answer, what was late half, what was off the number a quarter, unless it was
off by less than the drill's own limits, and what was missed nothing.  These weights are a choice of ours.  Time
was not measured.  Nothing of it tells how honest the forecast was, since nobody asked a question.
"""

import re
from dataclasses import replace

from trainer.drills import grading
from trainer.engine import display
from trainer.errors import AnswerError
from trainer.frozen import frozen
from trainer.model import INSIDE_LIMITS, ON_THE_NUMBER, OUT_OF_TIME, OUTSIDE_LIMITS, Review
from trainer.patterns import Late
from trainer.practice import asked_first, knowledge
from trainer.practice.answering import Recorder
from trainer.practice.night.flight_items import PHASES, Item
from trainer.store.records import Debrief

MODE = FORM = "debrief"
RIGHT, LATE, OFF, MISSED, NOT_FLOWN = "right", "late", "off", "missed", "not flown"
WEIGHTS = {RIGHT: 0.9, LATE: 0.5, OFF: 0.25, MISSED: 0.0}
_VERDICTS = {RIGHT: ON_THE_NUMBER, LATE: OUT_OF_TIME, OFF: OUTSIDE_LIMITS, MISSED: OUTSIDE_LIMITS}
_MARKS = {"m": MISSED, "l": LATE, "o": OFF, "-": NOT_FLOWN, "r": RIGHT}
# A number after o is its amount, unless it begins the next mark.
_TOKEN = Late(
    r"[\s,;]*(\d{1,2})\s*(?:([mlr-])|(o)(?:\s*([+-]?\d+(?:\.\d+)?)(?![\d.])(?!\s*[mlor]|\s*-(?!\d)))?)[\s,;]*",
    re.IGNORECASE,
)
HOW = "type what was not right: 2m 4l 5o200 6-"
TRIM = "trim"
LARGEST_DEVIATION = 1e6


@frozen
class Told:
    """What was said of one item: ``deviation`` in the item's unit, None where it is not known."""

    item: Item
    how: str
    deviation: float | None = None
    typed: str = ""

    @property
    def text(self):
        """Return it in words: "turn onto the arc: off by 0.5 nm"."""
        if self.how != OFF or self.deviation is None:
            return f"{self.item.words}: {self.how}"
        size = display.exact(self.deviation, self.item.unit) if self.item.unit else f"{self.deviation:g}"
        return f"{self.item.words}: off by {size}"


def items_of(phase, case, library):
    """Return the items of ``phase`` in that Case whose drills the library holds."""
    found = (item for item in PHASES[phase] if case in item.cases and item.drill_id in library.drills)
    return tuple(_in_own_unit(item, library) for item in found)


def _in_own_unit(item, library):
    """Return ``item``; a trim in what the table of the person's own aircraft is in."""
    if item.unit != TRIM:
        return item
    from trainer.drills.computed import unit_asked

    return replace(item, unit=grading.difference(1.0, unit_asked(library.drills[item.drill_id], library))[1])


def read(line, items):
    """Return a ``Told`` for each of ``items`` from one line; () where the phase was not flown.

    Nothing typed: all of it was right, but for what is rare, which must be told.  Raises ``AnswerError`` for
    what can't be read.
    """
    text = line.strip()
    if text in ("-", "n"):
        return ()
    marks, at = {}, 0
    while at < len(text):
        found = _TOKEN.match(text, at)
        if found is None:
            raise AnswerError(f"I can't read {text[at : at + 20]!r}", hint=HOW)
        number, letter, amount = int(found[1]), (found[2] or found[3]).lower(), found[4]
        if not 1 <= number <= len(items):
            raise AnswerError(f"there is no line {number}", hint=f"type 1 to {len(items)}")
        if amount and abs(float(amount)) > LARGEST_DEVIATION:
            raise AnswerError(f"{amount} is no deviation that can be flown", hint=HOW)
        marks[number] = (_MARKS[letter], float(amount) if amount else None, found[0].strip(" ,"))
        at = found.end()
    return tuple(
        Told(item=item, how=how, deviation=deviation, typed=typed)
        for number, item in enumerate(items, start=1)
        for how, deviation, typed in [marks.get(number, (NOT_FLOWN if item.rare else RIGHT, None, ""))]
    )


class Walk:
    """One debrief: ``tell`` stores what is said of a phase, ``undo`` takes the last phase back, ``finish`` ends."""

    def __init__(self, *, library, store, clock, case, flown):
        self._library, self._store, self._clock = library, store, clock
        self.case, self.flown = case, flown
        self._recorder = Recorder(
            store=store, clock=clock, library=library, mode=MODE,
            beliefs=knowledge.beliefs(library.outlines.values(), store),
        )  # fmt: skip
        self._told = {}
        self._stored = []

    def phases(self):
        """Return {phase: items} of this Case, in the order in which they are flown."""
        found = {phase: items_of(phase, self.case, self._library) for phase in PHASES}
        return {phase: items for phase, items in found.items() if items}

    def tell(self, phase, told):
        """Store what was ``told`` of ``phase`` as reviews; what was not flown is no evidence."""
        # A phase that a full disk cut in half would be told twice when it is typed again.
        kept = self._recorder.keep([self._review(phase, one) for one in told if one.how != NOT_FLOWN])
        self._told[phase] = told
        self._stored.append((phase, kept))

    def undo(self):
        """Take the last phase back and return its name, "" where there is none."""
        if not self._stored:
            return ""
        phase, kept = self._stored[-1]
        self._recorder.take_back(kept)
        self._stored.pop()  # only now: the store may refuse
        del self._told[phase]
        return phase

    def failed(self):
        """Return everything told that was not right, in order."""
        return [one for told in self._told.values() for one in told if one.how not in (RIGHT, NOT_FLOWN)]

    def counts(self):
        """Return (right, told) over all phases."""
        told = [one for several in self._told.values() for one in several if one.how != NOT_FLOWN]
        return sum(one.how == RIGHT for one in told), len(told)

    def finish(self, remarks=""):
        """Keep the debrief with its free ``remarks``; return its number, None where nothing was flown."""
        if not any(self._told.values()) and not remarks:
            return None
        phases = {
            phase: {
                one.item.drill_id: {"how": one.how, "deviation": one.deviation, "unit": one.item.unit} for one in told
            }
            for phase, told in self._told.items()
            if told
        }
        missed = {one.item.drill_id: f"{one.how} in the air on {self.flown}" for one in self.failed()}
        with self._store.together():
            asked_first.add(self._store, missed)
            return self._store.add_debrief(
                Debrief(flown=self.flown, remarks=remarks, phases={"case": self.case, **phases})
            )

    def _review(self, phase, one):
        drill = self._library.drills[one.item.drill_id]
        inside = _inside(drill, one, self._library)
        return Review(
            **self._recorder.circumstances(drill), form=FORM,
            inputs={"phase": phase, "how": one.how, "flown": self.flown, "case": float(self.case)}, seed="",
            question=f"in flight: {one.item.words}", typed=one.typed, value=one.how, truth=None, unit=one.item.unit,
            tolerance_on=None, tolerance_inside=None, deviation=one.deviation,
            verdict=INSIDE_LIMITS if inside else _VERDICTS[one.how],
            score=WEIGHTS[RIGHT] if inside else WEIGHTS[one.how], slip="", parts={}, seconds=None,
            limit_s=drill.limit_s, hint_used=False, guess=None,
        )  # fmt: skip


def _inside(drill, one, library):
    """Return whether a known deviation is inside the drill's own limits, where both are in one unit."""
    if one.how != OFF or one.deviation is None or drill.kind != "computed":
        return False
    from trainer.drills.computed import unit_asked

    limits = grading.tolerance(drill)
    factor, unit = grading.difference(1.0, unit_asked(drill, library))
    return limits is not None and unit == one.item.unit and abs(one.deviation) <= limits.inside * factor


def export(store):
    """Return every debrief with its free remarks as JSON records, the newest first."""
    return [
        {"flown": one.flown, "remarks": one.remarks, "phases": one.phases, "created": one.created.isoformat()}
        for one in store.debriefs()
    ]
