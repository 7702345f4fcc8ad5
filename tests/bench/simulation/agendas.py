"""Which slots the planner plans with on a day of a course."""

import numpy as np

from trainer.memory import event_slots, planner


class DailyAgenda:
    """Five occasions of the months ahead, the same every day."""

    endless, wishes = True, np.ones(1)

    def today(self, day):
        """Return (roller, days of minutes per slot)."""
        return planner.daily_roller(), planner.BUDGET_DAYS

    def warm(self, prices):
        """Return yesterday's prices to start from."""
        return prices


class EventAgenda:
    """One slot per day that is left before the event."""

    endless, wishes = False, np.array([1.0, 0.0])  # of countdown.KEPT_FOR and ON_THE_DAY

    def __init__(self, days, event_day):
        self.days, self.event_day = days, event_day

    def today(self, day):
        """Return (roller, days of minutes per slot)."""
        left = [float(other) for other in self.days if other >= day]
        runs = event_slots.grouped(left)
        roller = event_slots.roller_until(day, [float(np.mean(run)) for run in runs], self.event_day)
        return roller, [len(run) for run in runs]

    def warm(self, prices):
        """Return yesterday's prices without yesterday's slot, where the slots are days."""
        return None if prices is None or len(self.days) > event_slots.MOST_SLOTS else prices[:, 1:]
