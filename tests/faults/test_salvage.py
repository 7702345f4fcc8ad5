"""What can be read of a damaged database is saved, and what can't comes from the last automatic copy."""

import random
import sqlite3
import struct
import time
from contextlib import closing
from datetime import timedelta

import pytest

from tests.faults.conftest import LONG
from tests.store import invented
from tests.store.invented import fill, standing, update
from trainer.errors import StorageError
from trainer.store import backup, beside, copies, raw_pages, rows
from trainer.store.records import Debrief, Event
from trainer.store.salvage import salvage
from trainer.store.store import Store

PAGE = 4096
LATER = invented.clock(invented.FIRST + timedelta(days=3))


@pytest.fixture
def practised(home):
    """A home with 60 answers, two of them taken back, notes, and a copy made after the fortieth."""
    with Store.open(home, clock=invented.clock()) as store:
        fill(store, 40)
        store.withdraw(12, update)
        backup.daily(home, clock=invented.clock())
        later = fill(store, 20, start=40)
        store.withdraw(55, update)
        store.add_event(Event(name="CQ night", at=LATER.now(), offset_min=0, minutes_per_day=20, areas=("fuel",)))
        store.add_debrief(Debrief(flown="2026-12-05", remarks="long in the groove", phases={"groove": 1}))
        store.flag({"text": "?"}, drill_id="fix-1", deck="d", deck_hash="h", answer=later[9], at=LATER.now())
        store.set_setting("minutes", 7)
    return home


def saved(home):
    """Salvage ``home``, put the result in place, and return (``Salvaged``, the seeds of the answers that count)."""
    done = salvage(home, update=update, clock=LATER)
    backup.restore(home, done.path, clock=LATER)
    with Store.open(home, clock=LATER) as store:
        assert store.verify(update) == []
        seeds = [review.seed for review in store.reviews(withdrawn=True)]
        assert len(seeds) == done.saved
        fill(store, 1, start=500)
        assert store.verify(update) == []
    return done, seeds


def damage(home, at, content):
    path = home / "reviews.db"
    data = bytearray(path.read_bytes())
    data[at : at + len(content)] = content
    path.write_bytes(data)


def everything(home):
    with Store.open(home, clock=LATER) as store:
        digests = store._read("SELECT id, digest FROM review"), store._read("SELECT id, digest FROM withdrawal")
        flags = [(flag.drill_id, flag.review_id) for flag in store.flags()]
        events = [(event.name, event.areas, event.minutes_per_day) for event in store.events()]
        debriefs = [(debrief.remarks, debrief.phases) for debrief in store.debriefs()]
        return digests, standing(store), flags, events, debriefs, store.setting("minutes")


def test_nothing_is_lost_of_a_sound_file(practised):
    stood = everything(practised)
    done = salvage(practised, update=update, clock=LATER)
    assert (done.numbered, done.saved, done.proven, done.from_copies, done.withdrawn) == (60, 60, 60, 0, 2)
    assert everything(practised) == stood, "the file itself is left alone"
    backup.restore(practised, done.path, clock=LATER)
    assert everything(practised) == stood


def test_each_page_is_lost_in_turn(practised, tmp_path):
    whole = (practised / "reviews.db").read_bytes()
    with closing(sqlite3.connect(practised / "reviews.db")) as connection:
        page_of = dict(connection.execute("SELECT name, rootpage FROM sqlite_schema WHERE rootpage"))
    rows_a_page = PAGE // 350
    for number in range(0, len(whole) // PAGE, 1 if LONG else 4):
        (practised / "reviews.db").write_bytes(whole)
        damage(practised, number * PAGE, b"\xa5" * PAGE)
        done, seeds = saved(practised)
        assert [seed for seed in seeds if int(seed[1:]) < 40] == [f"s{n}" for n in range(40)], "the copy has these"
        assert done.saved >= 60 - rows_a_page and done.numbered >= done.saved
        assert done.proven >= 40
        assert "s59" in seeds or number != page_of["review"]
        for path in backup.folder(practised).glob("reviews-[bs]*"):
            path.unlink()


@pytest.mark.parametrize("share", [0.3, 0.6, 0.95])
def test_a_file_cut_short(practised, share):
    path = practised / "reviews.db"
    path.write_bytes(path.read_bytes()[: int(path.stat().st_size * share)])
    try:
        done, seeds = saved(practised)
    except StorageError as error:
        assert share < 0.9 and f'restore "{copies.listed(practised)[0]}"' in error.hint
    else:
        assert seeds[:40] == [f"s{n}" for n in range(40)] and done.proven >= 40


def test_an_altered_answer_comes_from_the_copy_or_is_counted_as_unproven(practised):
    content = (practised / "reviews.db").read_bytes()
    for seed, from_copies, proven in (("s7", 1, 60), ("s57", 1, 59)):
        damage(practised, content.index(b"angels 12. How", content.index(seed.encode())), b"angels 13")
        done = salvage(practised, update=update, clock=LATER)
        assert (done.saved, done.from_copies, done.proven) == (60, from_copies, proven)


def test_the_newest_answer_may_be_in_the_log_alone(practised):
    with Store.open(practised, clock=LATER) as store:
        store._connection.execute("PRAGMA wal_autocheckpoint=0")
        fill(store, 3, start=60)
        beside = {name: (practised / name).read_bytes() for name in ("reviews.db", "reviews.db-wal")}
    for name, content in beside.items():
        (practised / name).write_bytes(content)
    damage(practised, 0, b"\xa5" * 100)
    done = salvage(practised, update=update, clock=LATER)
    assert (done.saved, done.proven, done.numbered) == (63, 63, 63)


def test_answers_that_lie_beside_are_saved_with_the_others(practised):
    new = [rows.to_row(invented.review(number), [f"fix-{number % 5}"]) for number in (58, 70, 71)]
    beside.keep(practised / "reviews.db", [(row, None if place < 2 else "2026-12-05T00:00:00.000Z")
                                           for place, row in enumerate(new)], "x")  # fmt: skip
    damage(practised, 0, b"\xa5" * 100)
    done = salvage(practised, update=update, clock=LATER)
    assert (done.saved, done.from_beside, done.numbered) == (60, 2, 60), "one of the three is there already"
    backup.restore(practised, done.path, clock=LATER)
    with Store.open(practised, clock=LATER) as store:
        assert store.verify(update) == [] and store.count() == 62 - 2 - 1
        assert beside.take_in(store, update, "") == 0 and beside.waiting(practised) == []


def test_a_log_of_damaged_page_numbers_is_read_no_further_than_it_is_long(practised):
    """Four bytes of it once made the salvage walk over 4.29 billion pages."""
    with Store.open(practised, clock=LATER) as store:
        store._connection.execute("PRAGMA wal_autocheckpoint=0")
        fill(store, 3, start=60)
        beside = {name: bytearray((practised / name).read_bytes()) for name in ("reviews.db", "reviews.db-wal")}
    frames = range(32, len(beside["reviews.db-wal"]), PAGE + 24)
    for at in frames:
        beside["reviews.db-wal"][at : at + 4] = b"\xff\xff\xff\xff"
        for name, content in beside.items():
            (practised / name).write_bytes(content)
        started = time.process_time()
        done = salvage(practised, update=update, clock=LATER)
        assert time.process_time() - started < 5 and done.saved >= 60
        done.path.unlink()
    assert len(frames) > 5


def test_rows_that_all_claim_the_same_long_tail_are_not_followed_for_ever(tmp_path):
    path = tmp_path / "hostile.db"
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("CREATE TABLE one (id INTEGER PRIMARY KEY, c)")
        connection.execute("INSERT INTO one VALUES (1, zeroblob(900000))")
        connection.commit()
    data = bytearray(path.read_bytes())
    leaf = bytes(data[PAGE : 2 * PAGE])
    (at,) = struct.unpack_from(">H", leaf, 8)
    cells = (PAGE - 8 - (PAGE - at)) // 2
    page = bytearray(leaf)
    struct.pack_into(">H", page, 3, cells)
    for place in range(cells):
        struct.pack_into(">H", page, 8 + 2 * place, at)
    data[PAGE : 2 * PAGE] = page
    for _ in range(40):
        data += page
    path.write_bytes(data)
    started = time.process_time()
    with raw_pages.rows(path) as found:
        count = sum(1 for _ in found)
    assert count >= 1 and time.process_time() - started < 5


def test_a_copy_of_another_history_is_not_mixed_in(practised, tmp_path):
    copies.listed(practised)[0].unlink()
    with Store.open(tmp_path / "other", clock=LATER) as other:
        fill(other, 80, start=300)
    backup.daily(tmp_path / "other", clock=LATER)
    (copy,) = copies.listed(tmp_path / "other")
    (backup.folder(practised) / copy.name).write_bytes(copy.read_bytes())
    damage(practised, 9 * PAGE, b"\0" * PAGE)
    done = salvage(practised, update=update, clock=LATER)
    assert done.from_copies == 0 and done.saved <= 60


@pytest.mark.parametrize("content", [b"", b"x", b"SQLite", b"PNG" * 9000, b"SQLite format 3\0" + b"\xff" * 9000])
def test_a_file_of_something_else_holds_nothing_and_the_last_copy_is_named(practised, content):
    (practised / "reviews.db").write_bytes(content)
    (copy,) = copies.listed(practised)
    with pytest.raises(StorageError) as caught:
        salvage(practised, update=update, clock=LATER)
    assert str(copy) in caught.value.hint and "no review can be read" in caught.value.message
    assert sorted(backup.folder(practised).iterdir()) == [copy], "nothing half made is left"


def test_every_message_about_a_lost_file_names_the_last_copy(practised):
    (copy,) = copies.listed(practised)
    for content in (b"", b"x" * 4096, (practised / "reviews.db").read_bytes()[:-100]):
        (practised / "reviews.db").write_bytes(content)
        with pytest.raises(StorageError) as caught:
            Store.open(practised, clock=LATER)
        assert f'restore "{copy}"' in caught.value.hint and "trainer data salvage" in caught.value.hint


def test_random_damage_never_stops_the_salvage(practised):
    """Bits, bytes and whole runs of them; what comes out is sound however little it is."""
    whole, chance = (practised / "reviews.db").read_bytes(), random.Random(8)
    fewest = 60
    for _ in range(300 if LONG else 20):
        data = bytearray(whole)
        for _ in range(chance.choice((1, 3, 30, 300))):
            at, length = chance.randrange(len(data)), chance.choice((1, 1, 4, 60))
            data[at : at + length] = chance.randbytes(len(data[at : at + length]))
        (practised / "reviews.db").write_bytes(data)
        done = salvage(practised, update=update, clock=LATER)
        fewest = min(fewest, done.saved)
        with closing(sqlite3.connect(done.path)) as connection:
            assert connection.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
            assert connection.execute("SELECT count(*) FROM review").fetchall() == [(done.saved,)]
        done.path.unlink()
    assert fewest >= 40, "the copy alone gives these"


# SQLite's own reading of a file is the second opinion on ours.
VALUES = [None, 0, 1, -1, 127, 128, -129, 2**15, -(2**23), 2**31, -(2**47), 2**62, 5.5, -0.25, 1e300, "", "a", "ä" * 50,
          "x" * 450, "y" * 3_000, "z" * 20_000, b"", b"\0" * 9, bytes(range(256)) * 30]  # fmt: skip


@pytest.mark.parametrize("page_size", [512, 1024, 4096, 65536])
def test_rows_are_read_as_sqlite_reads_them(tmp_path, page_size):
    chance, path = random.Random(page_size), tmp_path / "any.db"
    with closing(sqlite3.connect(path)) as connection:
        connection.execute(f"PRAGMA page_size={page_size}")
        for table, width in (("one", 1), ("four", 4), ("thirty", 30)):
            names = ", ".join(f"c{n}" for n in range(width))
            connection.execute(f"CREATE TABLE {table} (id INTEGER PRIMARY KEY, {names})")
            for _ in range(90):
                row = [chance.choice(VALUES if width < 30 else VALUES[:19]) for _ in range(width)]
                marks = ", ".join("?" * (width + 1))
                number = chance.choice((None, chance.randrange(2**40)))
                connection.execute(f"INSERT INTO {table} VALUES ({marks})", (number, *row))
            connection.execute(f"DELETE FROM {table} WHERE id % 7 = 3")
        connection.commit()
        expected = {
            (number, None, *row)
            for table in ("one", "four", "thirty")
            for number, *row in connection.execute(f"SELECT * FROM {table}")
        }
        schema = connection.execute("SELECT count(*) FROM sqlite_schema").fetchone()[0]
    with raw_pages.rows(path) as found:
        found = list(found)
    ours = {(number, *values) for number, values in found if not (len(values) == 5 and values[0] == "table")}
    assert ours == expected and len(found) == len(expected) + schema
