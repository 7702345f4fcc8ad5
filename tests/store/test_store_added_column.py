"""A review gains a column: what was stored before it verifies, is salvaged, copied and put back as ever.

The further column of these tests is an invented one.  A process of its own learns it before the store is loaded.
"""

import sqlite3
from contextlib import closing

import pytest

from tests.store import invented
from tests.store.invented import fill, update
from trainer.store import rows
from trainer.store.store import Store

# A trainer of one schema ahead, with one more field in a review; it prints what it found.
NEXT = """
import dataclasses, sys
from pathlib import Path
from trainer import model

known = dataclasses.fields(model.Review)
bare = dataclasses.MISSING
fields = [(f.name, f.type) for f in known if f.default is bare]
fields += [(f.name, f.type, dataclasses.field(default=f.default)) for f in known if f.default is not bare]
model.Review = dataclasses.make_dataclass(
    "Review", [*fields, ("weather", str, dataclasses.field(default="not told"))], frozen=True, kw_only=True)

from trainer.store import connection
connection.SCHEMA += 1
from tests.store import invented
from trainer.store import backup, salvage, schema
from trainer.store.store import Store

released = schema.migrations
def migrations():
    steps = released()
    @steps(name="next: the weather")
    def following(db):
        db.execute("ALTER TABLE review ADD COLUMN weather TEXT NOT NULL DEFAULT 'not told'")
    return steps
schema.migrations = migrations
home, clock = Path(sys.argv[1]), invented.clock()
update = invented.update

def seen(label):
    with Store.open(home, clock=clock) as store:
        assert store._read("PRAGMA user_version") == [(connection.SCHEMA,)]
        faults = store.verify(update)
        weather = [review.weather for review in store.reviews(withdrawn=True)]
    assert faults == [], (label, faults)
    print(label, *weather, flush=True)
"""
SEEN = """
with Store.open(home, clock=clock) as store:
    store.repair(update)  # of another model: its reviews have a field more
seen("opened")
with Store.open(home, clock=clock) as store:
    invented.fill(store, 2, start=3)
    store.record(dataclasses.replace(invented.review(5), weather="haze"), update)
seen("practised")
data = bytearray((home / "reviews.db").read_bytes())
data[:100] = bytes(100)
(home / "reviews.db").write_bytes(data)
done = salvage.salvage(home, update=update, clock=clock)
assert (done.saved, done.proven) == (6, 6), done
backup.restore(home, done.path, clock=clock)
seen("salvaged")
older = backup.folder(home) / "reviews-2026-12-04-3.db"
backup.restore(home, older, clock=clock)
with Store.open(home, clock=clock) as store:
    store.repair(update)
seen("restored")
(home / "reviews.db").write_bytes(bytes(100) + older.read_bytes()[100:])
done = salvage.salvage(home, update=update, clock=clock)
assert (done.saved, done.proven) == (3, 3), done
"""


def test_older_answers_stay_proven_when_a_column_is_added(home, python):
    from trainer.store import backup

    with Store.open(home, clock=invented.clock()) as store:
        fill(store, 3)
    backup.daily(home, clock=invented.clock())
    process = python(NEXT + SEEN, home)
    said, _ = process.communicate(timeout=60)
    untold = "not told"
    assert process.returncode == 0 and said.splitlines() == [
        f"opened {untold} {untold} {untold}",
        f"practised {untold} {untold} {untold} {untold} {untold} haze",
        f"salvaged {untold} {untold} {untold} {untold} {untold} haze",
        f"restored {untold} {untold} {untold}",
    ]


def test_what_was_asked_back_is_kept_and_proven(store, tmp_path):
    fill(store, 1)
    store.record(invented.review(1, asked_back='do you mean "hook down"?'), update)
    assert [review.asked_back for review in store.reviews()] == ["", 'do you mean "hook down"?']
    assert store.verify(update) == []
    with closing(sqlite3.connect(store.path)) as other:
        other.execute("DROP TRIGGER review_stays_update")
        other.execute("UPDATE review SET asked_back = '' WHERE id = 2")
        other.commit()
    assert store.chain_faults(10) == ["Review 2 was changed after it was stored."]


@pytest.mark.parametrize("tail", [(), ("asked",), ("asked", "of a newer trainer", None)], ids=len)
def test_a_review_is_told_by_what_it_holds_and_not_by_how_long_its_row_is(tail):
    row = dict(zip(rows.COLUMNS, rows.to_row(invented.review(seconds=5.0), ["fix-0"]), strict=True))
    first = [value for name, value in row.items() if name not in rows.LATER]
    digest = bytes(range(32))
    found, its_digest = rows.from_record((None, *first, digest, *tail))
    assert its_digest == digest
    assert found == tuple((row | {"asked_back": (*tail, "")[0]}).values())
    assert rows.from_record((None, *first, digest[:-1], *tail)) is None
    assert rows.from_record((7, *first, digest, *tail)) is None
    assert rows.from_record((None, *first[:-1], digest, *tail)) is None
