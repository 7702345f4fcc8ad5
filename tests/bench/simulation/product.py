"""The product in the bench: the session's own choosing, one learner at a time, over a store that is kept in mind.

Everything that decides what is asked next is that of ``trainer.practice``: areas, groups, the order of the stage, the
rests, how many drills may be open, the plan of the day or of the event.  Only files and screens are left out
(``tests/bench/months`` goes through those as well).
"""

from datetime import UTC, datetime
from types import SimpleNamespace

import numpy as np

from tests.bench.simulation.baselines import Rule
from trainer.memory import reliability
from trainer.memory.belief import Beliefs
from trainer.memory.event_plan import EventPlan
from trainer.model import Outline
from trainer.practice import knowledge
from trainer.practice.choosing import Choosing, Towards

NO_CHOICE = 100  # a flow of this world is recited whole, so guessing does not help: as if a hundred lines were offered


class Kept:
    """What a store would hold of one learner."""

    def __init__(self):
        self.beliefs, self.person, self.settings, self.answers = {}, None, {}, []

    def states(self):
        """Return {drill id: state}."""
        return self.beliefs

    def learner(self):
        """Return the learner's bytes."""
        return self.person

    def outdated(self, model):
        """Return False: it lives no longer than the model."""
        return False

    def setting(self, name):
        """Return what was kept under ``name``."""
        return self.settings.get(name)

    def set_setting(self, name, value):
        """Keep ``value``."""
        self.settings[name] = value

    def reviews(self, newest_first=False):
        """Return an iterator over all answers."""
        return reversed(self.answers) if newest_first else iter(self.answers)


def outline(spec):
    """Return the ``Outline`` of an item of the bench's world."""
    return Outline(
        id=spec.id, deck="bench", kind=spec.kind, area=spec.area, worth=spec.worth, limit_s=spec.limit_s, after=(),
        group=spec.group, level=1, phase="", line=1, label=spec.id, step_count=0,
        choice_count=NO_CHOICE if spec.kind == "flow" else 0, quantity="",
    )  # fmt: skip


class Product(Rule):
    """The trainer as it is; ``agenda`` says whether it practises daily or towards an event."""

    name = "trainer"

    def __init__(self, people, items, rng, agenda):
        super().__init__(people, items, rng)
        self.agenda, self.order = agenda, tuple(spec.id for spec in items)
        self.outlines = {spec.id: outline(spec) for spec in items}
        self.kept = [Kept() for _ in range(people.learners)]
        self.choosing = [None] * people.learners
        self.past = [[] for _ in range(people.learners)]  # (predicted, right, days since the last) of each answer

    def begin(self, day, minutes):
        """A session of every learner starts."""
        for place, store in enumerate(self.kept):
            if self.choosing[place] is not None:
                self.choosing[place].keep_prices()
            choice = self._daily if self.agenda.endless else self._towards
            self.choosing[place] = choice(store, day, minutes)

    def _daily(self, store, day, minutes):
        return Choosing(self.outlines, store, day=day, minutes=minutes, order=self.order, core=self.order)

    def _towards(self, store, day, minutes):
        beliefs = knowledge.beliefs(self.outlines.values(), store)
        days = [float(one) for one in self.agenda.days if one >= day]
        plan = EventPlan(beliefs, day=day, event_day=self.agenda.event_day, budgets_s=60.0 * minutes, days=days)
        return Towards(SimpleNamespace(drills=self.outlines, beliefs=beliefs, plan=plan), store)

    def pick(self, who, day):
        """Return the drill to ask each of the learners ``who``."""
        return np.array([int(self.choosing[one].pick().removeprefix("drill-")) for one in who])

    def hear(self, who, drill, day, right, answer_s):
        """Take the answers down as a session does."""
        super().hear(who, drill, day, right, answer_s)
        for one, place, when, good, seconds in zip(who, drill, day, right, answer_s, strict=True):
            self._taken_down(one, self.order[place], float(when), bool(good), float(seconds))

    def _taken_down(self, one, name, day, right, seconds):
        store, choosing, drill = self.kept[one], self.choosing[one], self.outlines[name]
        beliefs = choosing.beliefs
        last = beliefs.last_day(name)
        self.past[one].append((beliefs.chance(name, day), right, np.nan if last is None else day - last))
        review = SimpleNamespace(
            drill_id=name, kind=drill.kind, form="", truth=None, guess=None, limit_s=drill.limit_s, score=float(right),
            seconds=seconds, at=datetime.fromtimestamp(day * knowledge.SECONDS_PER_DAY, UTC),
        )  # fmt: skip
        states, store.person = knowledge.after_review({name: store.beliefs.get(name)}, store.person, review)
        store.beliefs.update(states)
        store.answers.append(review)
        choosing.believe(name, states[name], store.person)
        choosing.answered(name, right=right)

    def forecast(self, date):
        """Return the chances [learners, drills] that the outlook gives for ``date`` without further practice."""
        specs = knowledge.specs(self.outlines.values())
        found = []
        for store, past in zip(self.kept, self.past, strict=True):
            own = reliability.recalibration(*np.array(past).T)
            found.append(own.apply(Beliefs(specs, store.beliefs, store.person).chances(date)))
        return np.array(found)

    def first_answers(self):
        """Return (foretold, right): the means over all answers to drills never asked before."""
        first = [answer for past in self.past for answer in past if np.isnan(answer[2])]
        return float(np.mean([one[0] for one in first])), float(np.mean([one[1] for one in first]))
