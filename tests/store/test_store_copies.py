"""Copies are told apart by what they hold: a clock that stood a year ahead once must not decide for ever."""

from datetime import timedelta

from tests.store import invented
from tests.store.invented import fill
from trainer.store import backup, copies, faults
from trainer.store.store import Store


def day(number):
    return invented.clock(invented.FIRST + timedelta(days=number))


def practise(home, number, count=1, start=0):
    with Store.open(home, clock=day(number)) as store:
        fill(store, count, start=start)
    return backup.daily(home, clock=day(number))


def test_one_session_with_the_clock_a_year_ahead_decides_nothing(home):
    practise(home, 0, count=3)
    practise(home, 365, start=3)
    made = [practise(home, number, start=3 + number) for number in range(1, 11)]
    kept = copies.listed(home)
    assert kept == made[: -copies.KEPT - 1 : -1], "the fullest seven, the latest answers first"
    assert str(made[-1]) in faults.last_copy(home / "reviews.db")
    assert backup.where(home).backups[0] == made[-1]


def test_copies_of_a_history_that_was_left_stay_and_do_not_pile_up(home):
    first = practise(home, 0, count=9)
    old = backup.backup(home, home / "old.db", clock=day(0))
    for number in range(1, 20):
        practise(home, number, count=2, start=10 * number)
        backup.restore(home, old, clock=day(number))  # what was answered since is another branch each time
        for path in copies.folder(home).glob("reviews-before-*"):
            path.unlink()
    kept = copies.listed(home)
    assert first in kept and len(kept) <= 2 * copies.KEPT


def test_a_copy_that_cannot_be_read_is_not_thrown_away(home):
    practise(home, 0)
    (copies.folder(home) / copies.name("2026-12-01", 99)).write_bytes(b"damaged")
    for number in range(1, 10):
        practise(home, number, start=number)
    assert (copies.folder(home) / copies.name("2026-12-01", 99)).exists()
    assert len(copies.listed(home)) == copies.KEPT + 1
