"""Which drill to ask next, in a session of practice.

The plan of the day says what a minute is worth; the rules of a session stand around it: alike drills do not
follow each other, a drill answered right rests until another day (overlearning buys little: Rohrer et al.
2005), one that was missed comes back after a few others, and new drills come in the order of the stage, one at a time,
while keeping alive what was begun leaves minutes for them (``upkeep``).
"""

from collections.abc import Set

from trainer.memory.planner import DailyPlan
from trainer.practice import knowledge, stubborn, upkeep

APART = 3  # other questions between two of the same drill
IN_A_ROW = 3  # as many questions of one area may follow each other, where there is another to be asked
AHEAD = 8  # new drills that are weighed at a time; one of them may be asked, the next in order
# Shares of the minutes that what was begun may take before new drills wait, in the core and beyond it.  In the core
# twice the minutes: on the bench (tuning seeds) a power law's learners kept .78 of the worth with it, .72 without.
CORE_SHARE, BEYOND_SHARE = 2.0, 0.5
OTHERS = 2  # beside them the next ones of other areas
PRICES = "daily prices"
HIGHEST_PRICE = 1e6  # right answers a second; no minute can buy more


class Choosing:
    """The choice among ``drills`` (by id) with what ``store`` knows of them on ``day``.

    ``order`` are ids in the order in which they are met for the first time; what stands in neither it nor the store
    is never asked, nor is what ``rests``.  Beyond the ``core`` new drills wait for more room.  ``first`` are
    asked before all others.  ``asked`` are ids that count as met already: the question kept for today was drawn from
    new ones, perhaps.  ``events`` are (day, ids) of dated events ahead, for which these drills count once more.
    """

    def __init__(self, drills, store, *, day, minutes, order, core=(), rests=(), first=(), asked=(), events=()):
        self._drills, self._store, self._day, self._events = drills, store, day, events
        self._budget_s = minutes * 60.0
        self._met = ({*knowledge.known(store)[0]} - set(rests) | set(asked)) & drills.keys()
        self._new = [drill_id for drill_id in order if drill_id in drills and drill_id not in self._met]
        self._core, self._ahead = frozenset(core), AHEAD
        self._first = [drill_id for drill_id in first if drill_id in drills]
        answers = upkeep.recent_answers(store)
        self._upkeep, self._wrong_days = upkeep.Upkeep(answers), stubborn.among(answers)
        self._asked = []
        self._resting, self._flagged = set(), set()
        self._plan_anew(_sound(store.setting(PRICES)))

    def _plan_anew(self, prices):
        # In the order of the decks, never in that of a set, which is another one in every process.
        met = [drill_id for drill_id in self._drills if drill_id in self._met]
        weighed = dict.fromkeys((*met, *self._first, *self._next_few()))
        self.beliefs = knowledge.beliefs([_in_any_order(self._drills[one]) for one in weighed], self._store)
        self._plan = DailyPlan(self.beliefs, day=self._day, budget_s=self._budget_s, prices=prices, events=self._events)

    def _next_few(self):
        """Return the new drills that are weighed: each makes today's seconds dearer, so they are few."""
        few, rest = self._new[: self._ahead], self._new[self._ahead :]
        area = self._drills[few[-1]].area if few else ""
        others = [name for name in rest if self._drills[name].area != area and name not in self._met]
        return [*few, *others[:OTHERS]]

    def keep_prices(self):
        """Keep today's prices in the store: tomorrow's are found sooner from them."""
        self._store.set_setting(PRICES, list(self._plan.prices))

    def pick(self):
        """Return the id of the drill to ask, None where nothing may be asked."""
        while self._first:
            drill_id = self._first.pop(0)
            if drill_id not in self._not_now():
                return drill_id
        found = self._by_the_rules() or self._by_fewer_rules()
        return self._made_ready(found) if found else self._begin_one_more() or self._whatever_is_left()

    def is_stubborn(self, drill_id):
        """Return whether ``drill_id`` stays wrong however often it is asked."""
        return self._wrong_days.get(drill_id, 0) >= stubborn.WRONG_DAYS

    def _made_ready(self, drill_id):
        """Return ``drill_id``, before a stubborn one an easier drill of its quantity."""
        if not self.is_stubborn(drill_id):
            return drill_id
        first = stubborn.easier(self._drills[drill_id], self._drills, {*self._asked, *self._not_now()})
        if first is None or not self.beliefs.has(first):
            return drill_id
        self._first = [drill_id]
        return first

    def _by_the_rules(self):
        last = self._drills.get(self._asked[-1]) if self._asked else None
        area = self._too_much_of()
        groups = (last.group,) if last else ()
        alike = {name for name, drill in self._drills.items() if drill.area == area} if area else set()
        not_now = self._not_now() | alike
        return self._plan.pick(exclude_groups=groups, exclude_ids=not_now | self._waiting(alike))

    def _by_fewer_rules(self):
        return self._plan.pick(exclude_ids=self._not_now() | self._waiting())

    def _too_much_of(self):
        """Return the area that the last few questions were all of, None where they were mixed."""
        areas = {self._drills[name].area for name in self._asked[-IN_A_ROW:]}
        return areas.pop() if len(self._asked) >= IN_A_ROW and len(areas) == 1 else None

    def _begin_one_more(self):
        """Nothing that was begun may be asked now: rather one new drill too many than one that rests."""
        return next((one for one in self._still_unmet() if one not in self._flagged), None)

    def _still_unmet(self):
        left = [one for one in self._new if one not in self._met]
        if left and not self.beliefs.has(left[0]):
            self._ahead += AHEAD
            self._plan_anew(self._plan.prices)
        return left

    def _waiting(self, alike: Set[str] = frozenset()):
        """Return the new drills that may not be asked now: all but the next that is not ``alike``, if there is room."""
        left = [one for one in self._still_unmet() if one not in self._flagged]
        if left and self._is_full(left[0]):
            return set(left)
        if alike and all(one in alike for one in left if self.beliefs.has(one)):
            self._plan_anew(self._plan.prices)  # those of other areas are used up: the next of them are weighed
        following = [one for one in left if one not in alike and self.beliefs.has(one)]
        return set(left) - set(following[:1])

    def _is_full(self, following):
        """Return whether keeping alive what was begun leaves no minutes for the new drill ``following``."""
        room_s = self._budget_s * (CORE_SHARE if following in self._core else BEYOND_SHARE)
        return self._upkeep.seconds_a_day(self._seconds) > room_s

    def _seconds(self, drill_id):
        return self.beliefs.expected_seconds(drill_id, self._day) if self.beliefs.has(drill_id) else 0.0

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
        """Note that ``drill_id`` was asked; if it was answered ``right``, or is stubborn, it rests for today."""
        self._asked.append(drill_id)
        self._met.add(drill_id)
        self._upkeep.answered(drill_id, float(right), self._day)
        if right or self.is_stubborn(drill_id):
            self._resting.add(drill_id)

    def taken_back(self, drill_id):
        """Note that the last answer to ``drill_id`` does not count."""
        self._resting.discard(drill_id)

    def flagged(self, drill_id):
        """Leave ``drill_id`` out for the rest of the session."""
        self._flagged.add(drill_id)

    @property
    def met(self):
        """Return the ids of the drills that were asked at least once."""
        return frozenset(self._met)

    def believe(self, drill_id, state, learner):
        """Take over what the store holds of ``drill_id`` after an answer, or after one was taken back."""
        if self.beliefs.has(drill_id):
            self.beliefs.set(drill_id, state, learner)
            self._plan.refresh(drill_id)


def _in_any_order(outline):
    """Return ``outline`` without what comes before it: the order in which drills are met has seen to that."""
    return outline._replace(after=())


def _sound(prices):
    """Return ``prices`` if they can be those of an earlier plan, else None: a damaged setting is worth nothing."""
    numbers = isinstance(prices, list) and all(type(price) in (int, float) for price in prices)
    return prices if numbers and all(0.0 <= price <= HIGHEST_PRICE for price in prices) else None


class Towards(Choosing):
    """The choice on the way to a dated event: today's share of its plan, over all of its drills."""

    def __init__(self, prepared, store, *, first=()):
        self._towards = prepared
        super().__init__(prepared.drills, store, day=prepared.plan.day, minutes=0.0, order=(), first=first)

    def _plan_anew(self, prices):
        self.beliefs, self._plan = self._towards.beliefs, self._towards.plan

    def keep_prices(self):
        """Keep nothing: the prices of an event are not those of an ordinary day."""
