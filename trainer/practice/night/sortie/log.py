"""The log of a sortie: what happens and what is asked, each with its time on the mission clock."""

import random

from trainer.decks import placeholders
from trainer.drills import fixed_inputs, questions
from trainer.engine import display
from trainer.engine.quantities import QUANTITIES
from trainer.engine.quantity import stated
from trainer.errors import DomainError
from trainer.frozen import frozen
from trainer.model import CallDrill, Question
from trainer.practice.night.evening.numbers import NUMBERS, clock

PHASES = (
    "brief", "man-up", "catapult", "departure", "check-in", "marshal", "approach", "recovery", "divert", "shutdown",
)  # fmt: skip


EVEN = 0.15  # what a drill weighs that is known for certain; one that is not known at all weighs 1 more


@frozen
class Event:
    """One entry: ``story`` is told, then ``question`` is asked (None where nothing is).

    ``clock_min`` is ship's time in minutes since midnight; ``number`` names the number of the table that is
    asked for, "" where the answer is none of them; ``changes`` marks what overthrows numbers asked before.
    """

    clock_min: float
    phase: str
    story: tuple[str, ...] = ()
    question: Question | None = None
    number: str = ""
    changes: bool = False


class Log:
    """Collects the events in order.  A drill that the user's decks do not hold is left out and noted.

    ``weakness`` is a function of a drill's id, 0 to 1; where the sortie leaves a choice, weak drills come more often.
    """

    def __init__(self, library, seed, weakness=None):
        self.library, self.seed = library, seed
        self.weakness = weakness or (lambda drill_id: 0.0)
        self.events, self.left_out = [], []
        self.rng = random.Random(f"sortie {seed}")
        self._phase, self._clock, self._story, self._changes = PHASES[0], 0.0, [], False

    def phase(self, name, at):
        """Begin a phase at a clock time."""
        self.close()
        self._phase, self._clock = name, at

    def at(self, minutes):
        """Move the mission clock on; it never goes back."""
        self._clock = max(self._clock, minutes)

    def tell(self, *lines):
        """Say what happens before the next question."""
        self._story += lines

    def disturb(self, *lines):
        """Say what goes wrong."""
        self.close()
        self._story += lines
        self._changes = True

    def close(self):
        """Put what was told and is not followed by a question into an entry of its own."""
        if self._story:
            self._add(None)

    def number(self, night, name, drill_id, text, **slots):
        """Ask for the number ``name`` of ``night`` by the drill of that id; ``slots`` fill the words of its slips."""
        number = NUMBERS[name]
        drill = self._drill(drill_id)
        if drill is None:
            return
        asked = (getattr(drill, "quantity", ""), getattr(drill, "result", ""))
        if asked[0] != number.quantity or (asked[1] or "") != number.result or _needs(drill) - slots.keys():
            self.left_out.append(drill_id)
            return
        self._add(self._given(drill, night.inputs(name) | slots, text), number=name)

    def compute(self, drill_id, text, **inputs):
        """Ask a computed drill with ``inputs``."""
        drill = self._drill(drill_id)
        if drill is None:
            return
        if _needs(drill) <= inputs.keys():
            self._add(self._given(drill, inputs, text))
        else:
            self.left_out.append(drill_id)

    def call(self, drill_id, text="", **inputs):
        """Ask for a call to be made or copied; without ``text`` in the words of the deck."""
        self.compute(drill_id, text, **inputs)

    def flow(self, *drill_ids):
        """Ask for the order of flows."""
        for drill_id in drill_ids:
            self._drawn(drill_id, "order")

    def recall(self, *drill_ids):
        """Ask what is known by heart."""
        for drill_id in drill_ids:
            self._drawn(drill_id, "")

    def some(self, count, *drill_ids):
        """Ask ``count`` of the recall drills, chosen by chance, the weak ones more likely, in the order given."""
        known = [drill_id for drill_id in drill_ids if drill_id in self.library.drills]
        self.left_out += [drill_id for drill_id in drill_ids if drill_id not in known]
        draws = [(self.rng.random() ** (1 / (EVEN + self.weakness(drill_id))), drill_id) for drill_id in known]
        chosen = {drill_id for _, drill_id in sorted(draws)[-count:]}
        self.recall(*[drill_id for drill_id in known if drill_id in chosen])

    def _drill(self, drill_id):
        drill = self.library.drills.get(drill_id)
        if drill is None:
            self.left_out.append(drill_id)
        return drill

    def _seed(self, drill_id):
        return f"{self.seed}/{len(self.events)}/{drill_id}"

    def _given(self, drill, inputs, text):
        return fixed_inputs.question(drill, self.library, inputs, text=text, seed=self._seed(drill.id))

    def _drawn(self, drill_id, form):
        drill = self._drill(drill_id)
        if drill is None:
            return
        try:
            self._add(questions.make(drill, self.library, self._seed(drill_id), form=form))
        except DomainError:
            self.left_out.append(drill_id)

    def _add(self, question, number=""):
        self.events.append(
            Event(
                clock_min=clock(self._clock), phase=self._phase, story=tuple(self._story), question=question,
                number=number, changes=self._changes,
            )
        )  # fmt: skip
        self._story, self._changes = [], False


def _needs(drill):
    """Return the names that the texts of ``drill`` need filled: all slots of a call, those in the words of slips."""
    if isinstance(drill, CallDrill):
        return {draw.name for draw in drill.draws}
    parts = [part for slip in drill.slips for part in placeholders.split(slip.words)]
    own = {spec.name for spec in QUANTITIES[drill.quantity].inputs} if drill.quantity else set()
    return {part.name for part in parts if not isinstance(part, str)} - own - {"answer"}


def say(value, unit):
    """Return a value as it is said: 263°, 3,400 lb, 10:21."""
    return display.value(value, unit)


def klb(pounds):
    """Return a fuel state in thousands and tenths, rounded down as it is given, with the engine's rule."""
    quantity = QUANTITIES["state_spoken"]
    return round(float(stated(quantity.result(), quantity.compute({"fuel_lb": pounds})["state_klb"])), 1)
