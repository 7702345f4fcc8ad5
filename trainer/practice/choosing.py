"""Which drill to ask next, in a session of practice.

The plan of the day says what a minute is worth; the rules of a session stand around it: alike drills do not
follow each other, a drill answered right rests until another day (overlearning buys little: Rohrer et al.
2005), one that was missed comes back after a few others, and only a few new drills are met in one session.
"""

from trainer.memory.planner import DailyPlan
from trainer.practice import curriculum, knowledge

APART = 3  # other questions between two of the same drill
PRICES = "daily prices"
HIGHEST_PRICE = 1e6  # right answers a second; no minute can buy more


class Choosing:
    """The choice among ``drills`` (by id) with what ``store`` knows of them on ``day``.

    ``asked`` are ids that count as met already: the question kept for today was drawn from new ones, perhaps.
    ``events`` are (day, ids) of dated events ahead, for which these drills count once more.
    """

    def __init__(self, drills, store, *, day, minutes, new, asked=(), events=()):
        self._drills, self._store, self._day, self._events = drills, store, day, events
        self._budget_s = minutes * 60.0
        self._met = {*knowledge.known(store)[0], *asked} & drills.keys()
        self._new = new
        self._asked = []
        self._resting, self._flagged = set(), set()
        self._plan_anew(_sound(store.setting(PRICES)))

    def _plan_anew(self, prices):
        admitted = curriculum.admitted(list(self._drills.values()), self._met, new=self._new)
        self.beliefs = knowledge.beliefs(admitted, self._store)
        self._plan = DailyPlan(self.beliefs, day=self._day, budget_s=self._budget_s, prices=prices, events=self._events)

    def keep_prices(self):
        """Keep today's prices in the store: tomorrow's are found sooner from them."""
        self._store.set_setting(PRICES, list(self._plan.prices))

    def pick(self):
        """Return the id of the drill to ask, None where nothing may be asked."""
        while True:
            found = self._by_the_rules() or self._by_fewer_rules()
            if found is not None or len(self.beliefs) == len(self._drills):
                return found or self._whatever_is_left()
            self._new += self._new
            self._plan_anew(self._plan.prices)

    def _by_the_rules(self):
        last = self._drills.get(self._asked[-1]) if self._asked else None
        groups = (last.group,) if last else ()
        return self._plan.pick(exclude_groups=groups, exclude_ids=self._not_now())

    def _by_fewer_rules(self):
        return self._plan.pick(exclude_ids=self._not_now())

    def _not_now(self):
        return {*self._asked[-APART:], *self._resting, *self._flagged}

    def _whatever_is_left(self):
        """A small deck runs out: what rests is asked again, last of all the drill that was asked just now."""
        for without in (self._asked[-1:], ()):
            found = self._plan.pick(exclude_ids={*without, *self._flagged})
            if found is not None:
                return found
        return None

    def answered(self, drill_id, *, right):
        """Note that ``drill_id`` was asked; if it was answered ``right`` it rests for today."""
        self._asked.append(drill_id)
        if right:
            self._resting.add(drill_id)

    def taken_back(self, drill_id):
        """Note that the last answer to ``drill_id`` does not count."""
        self._resting.discard(drill_id)

    def flagged(self, drill_id):
        """Leave ``drill_id`` out for the rest of the session."""
        self._flagged.add(drill_id)

    def believe(self, drill_id, state, learner):
        """Take over what the store holds of ``drill_id`` after an answer, or after one was taken back."""
        if self.beliefs.has(drill_id):
            self.beliefs.set(drill_id, state, learner)
            self._plan.refresh(drill_id)

    def still_new(self):
        """Return how many of the drills were never answered."""
        met = sum(self.beliefs.seen(drill_id) for drill_id in self.beliefs.ids)
        return len(self._drills) - met


def _sound(prices):
    """Return ``prices`` if they can be those of an earlier plan, else None: a damaged setting is worth nothing."""
    numbers = isinstance(prices, list) and all(type(price) in (int, float) for price in prices)
    return prices if numbers and all(0.0 <= price <= HIGHEST_PRICE for price in prices) else None


class Towards(Choosing):
    """The choice on the way to a dated event: today's share of its plan, over all of its drills."""

    def __init__(self, prepared, store):
        self._prepared = prepared
        super().__init__(prepared.drills, store, day=prepared.plan.day, minutes=0.0, new=len(prepared.drills))

    def _plan_anew(self, prices):
        self.beliefs, self._plan = self._prepared.beliefs, self._prepared.plan

    def keep_prices(self):
        """Keep nothing: the prices of an event are not those of an ordinary day."""
