"""Two computers of one pilot: each review once, in the order of time, whichever way and however often."""

import os
from datetime import timedelta

import pytest

from tests.faults.conftest import LONG
from tests.store import invented
from tests.store.invented import review, standing, update
from trainer.errors import StorageError, UsageError
from trainer.store import backup
from trainer.store.merge import merge
from trainer.store.records import Debrief, Event
from trainer.store.store import Store

CLOCK = invented.clock(invented.FIRST + timedelta(days=9))


def bring(home, file, **how):
    return merge(home, file, update=update, model="m", clock=CLOCK, **how)


def practise(home, *numbers, withdraw=()):
    with Store.open(home, clock=CLOCK) as store:
        kept = {number: store.record(review(number), update, model="m") for number in numbers}
        for number in withdraw:
            store.withdraw(kept[number].id, update, "m", digest=kept[number].digest)


def seen(home):
    """Return what a home holds: seeds in order, those that do not count, states, digests, notes."""
    with Store.open(home, clock=CLOCK) as store:
        assert store.verify(update, "m") == []
        seeds = [one.seed for one in store.reviews(withdrawn=True)]
        gone = sorted(set(seeds) - {one.seed for one in store.reviews()})
        chain = store._read("SELECT digest FROM review"), store._read("SELECT digest FROM withdrawal")
        notes = [one.name for one in store.events()], [one.remarks for one in store.debriefs()]
        flags = [(one.note, one.review_id) for one in store.flags()]
        return {"seeds": seeds, "gone": gone, "states": standing(store), "chain": chain, "notes": notes, "flags": flags}


@pytest.fixture
def two(home, tmp_path):
    """A home of which a copy was taken to another computer after five answers; both went on."""
    other = tmp_path / "laptop"
    practise(home, *range(5), withdraw=(1,))
    with Store.open(home, clock=CLOCK) as store:
        store.add_debrief(Debrief(flown="2026-12-05", remarks="shared"))
    backup.restore(other, backup.backup(home, tmp_path / "c.db", clock=CLOCK), clock=CLOCK)
    practise(home, 5, 8, 9, withdraw=(8,))
    practise(other, 6, 7, 10, withdraw=(10,))
    with Store.open(other, clock=CLOCK) as store:
        store.add_event(Event(name="CQ", at=CLOCK.now(), offset_min=0, minutes_per_day=20))
        store.add_debrief(Debrief(flown="2026-12-06", remarks="on the laptop"))
        named = dict(drill_id="d", deck="d", deck_hash="h", at=CLOCK.now())
        store.flag({"text": "?"}, note="faulty", answer=store.record(review(11), update, model="m"), **named)
    return home, other


IN_ORDER = [f"s{number}" for number in range(12)]


def test_each_review_stands_once_in_the_order_of_time(two):
    home, other = two
    before = {place: seen(place) for place in two}
    done = bring(home, backup.backup(other, other / "mine.db", clock=CLOCK))
    found = seen(home)
    assert (done.new, done.reviews, done.renumbered) == (4, 12, True)
    assert found["seeds"] == IN_ORDER and found["gone"] == ["s1", "s10", "s8"]
    assert found["notes"] == (["CQ"], ["on the laptop", "shared"]) and found["flags"] == [("faulty", 12)]
    assert [count for count, _ in done.ends] == [8, 9]
    assert [head for _, head in done.ends] == [before[place]["chain"][0][-1][0].hex() for place in two]
    assert seen(backup_home(done.kept, home))["seeds"] == before[home]["seeds"], "what was there is kept"
    with Store.open(home, clock=CLOCK) as store:
        (record,) = store.setting("merged")
        assert [end["reviews"] for end in record["ends"]] == [8, 9]


def backup_home(copy, home):
    place = home.with_name("kept")
    backup.restore(place, copy, clock=CLOCK)
    return place


def test_merging_twice_changes_nothing_and_both_ways_come_to_the_same(two, tmp_path):
    home, other = two
    taken = backup.backup(other, tmp_path / "b.db", clock=CLOCK)
    bring(home, taken)
    once = seen(home)
    again = bring(home, taken)
    assert (again.new, again.kept) == (0, None) and seen(home) == once
    assert bring(other, home).new == 3, "another home may be named by its folder"
    here, there = seen(home), seen(other)
    assert here["chain"] == there["chain"] and here["states"] == there["states"] and here["gone"] == there["gone"]
    with Store.open(home, clock=CLOCK) as one, Store.open(other, clock=CLOCK) as two:
        assert one.chain().origin == two.chain().origin, "the pilot is known by the same name on both"


def test_an_answer_taken_back_on_one_computer_does_not_count_on_the_other(home, tmp_path):
    practise(home, 0, 1)
    copy = backup.backup(home, tmp_path / "c.db", clock=CLOCK)
    with Store.open(home, clock=CLOCK) as store:
        store.withdraw(2, update, "m")
    backup.restore(tmp_path / "other", copy, clock=CLOCK)
    assert bring(tmp_path / "other", home).new == 0
    assert seen(tmp_path / "other")["gone"] == ["s1"]


def test_what_only_goes_on_keeps_its_chain_and_its_earlier_exports(home, tmp_path):
    practise(home, 0, 1)
    other = tmp_path / "other"
    backup.restore(other, backup.backup(home, tmp_path / "c.db", clock=CLOCK), clock=CLOCK)
    practise(other, 2, 3)
    with Store.open(home, clock=CLOCK) as store:
        store.set_setting("exports", [["2026-12-04T20:00:00.000Z", 2]])
    before = seen(home)["chain"][0]
    done = bring(home, other)
    assert not done.renumbered and seen(home)["chain"][0][:2] == before
    with Store.open(home, clock=CLOCK) as store:
        assert store.setting("exports") == [["2026-12-04T20:00:00.000Z", 2]]


def test_two_people_are_refused(home, tmp_path):
    other = tmp_path / "other"
    practise(home, 0, 1)
    practise(other, 2, 3)
    before = (home / "reviews.db").read_bytes()
    with pytest.raises(UsageError, match="no answer in common.*--same-pilot"):
        bring(home, other)
    for place, name in ((home, "Wren"), (other, "Heron")):
        with Store.open(place, clock=CLOCK) as store:
            store.set_setting("pilot call sign", name)
    with pytest.raises(UsageError, match="answers of Heron, not of Wren"):
        bring(home, other, same_pilot=True)
    assert seen(home)["seeds"] == ["s0", "s1"] and before != b""
    with Store.open(other, clock=CLOCK) as store:
        store.set_setting("pilot call sign", "Wren")
    assert bring(home, other, same_pilot=True).new == 2


def test_an_answer_given_twice_to_the_letter_stands_twice(home, tmp_path):
    other = tmp_path / "other"
    practise(home, 0, 0, 1)
    practise(other, 0, 0, 0)
    assert bring(home, other).new == 1
    assert seen(home)["seeds"] == ["s0", "s0", "s0", "s1"]


def test_damage_and_an_open_window_are_refused_and_nothing_is_changed(two, tmp_path):
    home, other = two
    sound = seen(home)
    (tmp_path / "bad.db").write_bytes((other / "reviews.db").read_bytes()[:20_000])
    for file in (tmp_path / "bad.db", tmp_path / "none.db", home / "reviews.db", tmp_path):
        with pytest.raises(StorageError):
            bring(home, file)
    with Store.open(home, clock=CLOCK), pytest.raises(StorageError, match="nothing was merged"):
        bring(home, other)
    assert seen(home) == sound


KILLED = """
import os, sys
from pathlib import Path
from tests.store import test_store_merge as merging
count, last = 0, int(sys.argv[3])
def hook(event, arguments):
    global count
    wanted = event in ("os.rename", "os.remove", "os.link", "sqlite3.connect") or (
        event == "open" and isinstance(arguments[1], str) and any(mark in arguments[1] for mark in "wax+"))
    count += wanted
    if count == last:
        os._exit(9)
sys.addaudithook(hook)
merging.bring(Path(sys.argv[1]), Path(sys.argv[2]))
"""


@pytest.mark.skipif(os.name != "posix", reason="a killed process leaves its files open on Windows")
def test_killed_at_any_step_it_is_done_or_not_begun(two, python, tmp_path):
    home, other = two
    before, whole = seen(home), (home / "reviews.db").read_bytes()
    after = None
    for last in range(1, 60, 1 if LONG else 4):
        for path in home.glob("reviews*"):
            path.unlink()
        (home / "reviews.db").write_bytes(whole)
        process = python(KILLED, home, other, last)
        process.wait(60)
        found = seen(home)
        assert found["seeds"] in (before["seeds"], IN_ORDER)
        if found["seeds"] == IN_ORDER:
            after = after or found
            assert found == after
        if process.returncode == 0:
            break
    assert process.returncode == 0 and last > 8 and after
