"""Invented pilots as an instructor meets them: weak, slow but right, away for ten days, three answers, none.

They practise as the sample's pilot does; ``home`` and the clock at the end are what a report is made from.
"""

from collections.abc import Callable
from datetime import timedelta
from pathlib import Path

from tests import sample
from trainer.clock import StillClock
from trainer.commands import report
from trainer.commands.world import World
from trainer.practice.evidence import record as evidence
from trainer.store.store import Store

AWAY_DAYS = 10
SLOW, WEAK = 3.0, 0.55  # times as many seconds, times the chance to know


class Weak(sample.Pilot):
    """Knows about half of what the sample's pilot knows."""

    def _knows(self, drill, day):
        return WEAK * super()._knows(drill, day)


class Slow(sample.Pilot):
    """Answers right nearly always, and takes three times as long."""

    def _knows(self, drill, day):
        return 0.97

    def answer(self, question, drill, shelf, day):
        typed, seconds = super().answer(question, drill, shelf, day)
        return typed, SLOW * seconds


def weak(home: Path, weeks: int) -> StillClock:
    """Let the weak pilot practise; return the clock."""
    return sample.practise(home, weeks=weeks, seed="weak", kind=Weak)


def slow(home: Path, weeks: int) -> StillClock:
    """Let the slow pilot practise."""
    return sample.practise(home, weeks=weeks, seed="slow", kind=Slow)


def away(home: Path, weeks: int) -> StillClock:
    """Let a pilot practise, and then do nothing for ten days."""
    clock = sample.practise(home, weeks=weeks, seed="away")
    clock.instant += timedelta(days=AWAY_DAYS)
    return clock


def three(home: Path, weeks: int) -> StillClock:
    """Let a pilot give three answers."""
    return sample.practise(home, weeks=1, evenings=1, minutes=0.7, seed="three")


def none(home: Path, weeks: int) -> StillClock:
    """Let nobody answer anything: the home is not there."""
    return sample.EveningClock(sample.FIRST_EVENING)


PILOTS: dict[str, Callable[[Path, int], StillClock]] = {
    "weak": weak, "slow": slow, "away": away, "three": three, "none": none,
}  # fmt: skip


def reported(home: Path, clock: StillClock, name: str, formats=("html",)):
    """Return (record, {file name: text}) of the report on the pilot whose data lie in ``home``."""
    with Store.open(home, clock=clock, create=False) as store:
        wish = evidence.Wish(call_sign=f"{name} (invented)")
        return report.made(store, World(home=home, clock=clock, plain=True), wish, formats, stem=name)
