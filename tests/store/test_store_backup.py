"""Copies are whole, replace only copies, and bring everything back."""

import sqlite3
from contextlib import closing
from datetime import timedelta, timezone

import pytest

from tests.store import invented
from tests.store.invented import FIRST, fill, standing, update
from trainer.errors import StorageError
from trainer.store import backup, files, schema
from trainer.store.records import Unwatched
from trainer.store.store import Store


def on_day(number):
    return invented.clock(FIRST + timedelta(days=number))


@pytest.fixture
def practised(filled):
    """A home with 20 reviews, the last of them withdrawn."""
    home = filled(20)
    with Store.open(home, clock=on_day(0)) as store:
        store.withdraw(20, update)
        store.set_setting("minutes", 5)
    return home


def content(home):
    with Store.open(home, clock=on_day(0), create=False) as store:
        assert store.verify(update) == []
        return list(store.reviews(withdrawn=True)), standing(store), store.count(), store.setting("minutes")


def put(home, copy):
    """Make ``copy`` the database of a new home, as a person would by hand."""
    home.mkdir()
    (home / "reviews.db").write_bytes(copy.read_bytes())
    return home


def test_a_copy_holds_everything_in_one_file(practised, tmp_path):
    target = tmp_path / "usb" / "mine.db"
    assert backup.backup(practised, target, clock=on_day(0)) == target
    assert [path.name for path in target.parent.iterdir()] == ["mine.db"]
    with closing(sqlite3.connect(f"{target.as_uri()}?immutable=1", uri=True)) as copy:
        assert copy.execute("PRAGMA journal_mode").fetchall() == [("delete",)]
    assert content(put(tmp_path / "other", target)) == content(practised)


def test_a_copy_can_be_made_while_a_window_is_open(practised, tmp_path):
    with Store.open(practised, clock=on_day(0)) as store:
        fill(store, 3, start=30)
        backup.backup(practised, tmp_path, clock=on_day(0))
        fill(store, 3, start=40)
    copy = tmp_path / "trainer-reviews-2026-12-04.db"
    assert content(put(tmp_path / "other", copy))[2] == 22


def test_a_copy_replaces_an_older_copy(practised, tmp_path):
    target = backup.backup(practised, tmp_path / "mine.db", clock=on_day(0))
    with Store.open(practised, clock=on_day(0)) as store:
        fill(store, 1, start=30)
    backup.backup(practised, target, clock=on_day(0))
    assert content(put(tmp_path / "other", target)) == content(practised)


@pytest.mark.parametrize("other", [b"a letter", b"", b"SQLite format 3\x00" * 100])
def test_a_copy_never_replaces_another_file(practised, tmp_path, other):
    target = tmp_path / "letter.txt"
    target.write_bytes(other)
    with pytest.raises(StorageError, match="not a copy of reviews"):
        backup.backup(practised, target, clock=on_day(0))
    assert target.read_bytes() == other


def test_the_data_are_never_copied_over_themselves(practised):
    for target in (practised / "reviews.db", practised / "." / "reviews.db"):
        with pytest.raises(StorageError, match="the data themselves"):
            backup.backup(practised, target, clock=on_day(0))
        with pytest.raises(StorageError, match="the data themselves"):
            backup.restore(practised, target, clock=on_day(0))
    assert content(practised)[2] == 19


def test_nothing_to_copy_is_told(home, tmp_path):
    with pytest.raises(StorageError, match="practice once"):
        backup.backup(home, tmp_path / "copy.db", clock=on_day(0))
    assert list(tmp_path.iterdir()) == []


def test_a_copy_that_fails_leaves_the_older_copy(practised, tmp_path, monkeypatch):
    target = backup.backup(practised, tmp_path / "mine.db", clock=on_day(0))
    older = target.read_bytes()
    with Store.open(practised, clock=on_day(0)) as store:
        fill(store, 1, start=30)

    def full(path):
        raise OSError(28, "No space left on device", str(path))

    monkeypatch.setattr(files, "flush_file", full)
    with pytest.raises(StorageError, match="No space left"):
        backup.backup(practised, target, clock=on_day(0))
    assert target.read_bytes() == older and len(list(tmp_path.glob("mine*"))) == 1


def test_one_copy_a_day_and_seven_in_all(practised):
    for day in range(10):
        with Store.open(practised, clock=on_day(day)) as store:
            fill(store, 1, start=100 + day)
            made = backup.daily(practised, clock=on_day(day))
        assert made.name == f"reviews-2026-12-{4 + day:02}-{21 + day}.db"
        assert backup.daily(practised, clock=on_day(day)) is None
    kept = sorted(path.name for path in backup.folder(practised).iterdir())
    assert kept == [f"reviews-2026-12-{day:02}-{17 + day}.db" for day in range(7, 14)]


def test_a_session_without_answers_does_not_take_the_copy_of_the_day(home):
    with Store.open(home, clock=on_day(0)) as store:
        assert backup.daily(home, clock=on_day(0)) is None and not backup.folder(home).exists()
        fill(store, 1)
    assert backup.daily(home, clock=on_day(0)).name == "reviews-2026-12-04-1.db"


def test_an_older_schema_is_copied_and_looked_at_as_it_is(practised, tmp_path, monkeypatch):
    monkeypatch.setattr(schema, "SCHEMA", schema.SCHEMA + 1)
    copy = backup.backup(practised, tmp_path / "mine.db", clock=on_day(0))
    assert backup.where(practised).schema == schema.SCHEMA - 1
    monkeypatch.undo()
    assert content(put(tmp_path / "other", copy))[2] == 19


def test_the_day_of_a_copy_is_the_pilots_day(practised):
    late = invented.clock(FIRST.astimezone(timezone(timedelta(hours=10))).replace(hour=23, minute=30))
    assert backup.daily(practised, clock=late) is not None
    assert backup.daily(practised, clock=invented.clock(late.local() + timedelta(hours=1))) is not None


def test_copies_of_lost_data_are_not_rotated_away(practised, home):
    """The file was lost, a new one was begun, and a week later every good copy was gone."""
    good = backup.daily(practised, clock=on_day(0))
    for path in home.glob("reviews.db*"):
        path.unlink()
    for day in range(1, 12):
        with Store.open(home, clock=on_day(day)) as store:
            fill(store, 1)
        backup.daily(home, clock=on_day(day))
    kept = sorted(backup.folder(home).iterdir())
    assert good in kept and len(kept) == 8


DAMAGE = {
    "a review was changed": "UPDATE review SET typed = typed || ' ' WHERE id = 7",
    "a digest was changed": "UPDATE review SET digest = zeroblob(32) WHERE id = 20",
    "a review is missing": "DELETE FROM review WHERE id = 4",
    "a withdrawal was changed": "UPDATE withdrawal SET at = '2026-12-05T20:02:00.123Z'",
    "a row points nowhere": "UPDATE before SET review_id = 99 WHERE review_id = 19",
    "a page is damaged": "",
}


def damaged(home, sql):
    """Change the data of ``home`` behind the program's back, or zero a page in the middle for no ``sql``."""
    path = home / "reviews.db"
    if not sql:
        whole = path.read_bytes()
        page = whole.index(b"Marshal gives you") // 4096 * 4096
        path.write_bytes(whole[:page] + bytes(4096) + whole[page + 4096 :])
        return
    with closing(sqlite3.connect(path, isolation_level=None)) as connection:
        triggers = connection.execute("SELECT name FROM sqlite_schema WHERE type = 'trigger'").fetchall()
        kept = connection.execute("SELECT sql FROM sqlite_schema WHERE type = 'trigger'").fetchall()
        for (name,) in triggers:
            connection.execute(f"DROP TRIGGER {name}")
        connection.execute(sql)
        for (trigger,) in kept:
            connection.execute(trigger)


@pytest.mark.parametrize("what", DAMAGE)
def test_damaged_data_never_push_out_the_last_good_copy(practised, what):
    """One was copied every day, and after a week no copy was left of the time before the damage."""
    for day in range(8):
        with Store.open(practised, clock=on_day(day)) as store:
            fill(store, 1, start=100 + day)
        backup.daily(practised, clock=on_day(day))
    good = {path: path.read_bytes() for path in backup.folder(practised).iterdir()}
    assert len(good) == 7
    damaged(practised, DAMAGE[what])
    for day in range(8, 20):
        with pytest.raises(StorageError) as caught:
            backup.daily(practised, clock=on_day(day))
    assert {path: path.read_bytes() for path in backup.folder(practised).iterdir()} == good
    assert str(practised / "reviews.db") in caught.value.message and "\n" not in str(caught.value)
    assert f'trainer data restore "{max(good)}"' in caught.value.hint
    backup.restore(practised, max(good), clock=on_day(20))
    assert backup.daily(practised, clock=on_day(20)) is not None and content(practised)[2] == 27


def test_states_that_are_damaged_do_not_keep_reviews_from_being_copied(practised):
    damaged(practised, "UPDATE belief SET state = x'00'")
    assert backup.daily(practised, clock=on_day(0)) is not None


def test_the_check_before_a_copy_is_told_step_by_step(practised):
    steps = []

    class Watching(Unwatched):
        def step(self):
            steps.append(1)

    backup.daily(practised, clock=on_day(0), progress=Watching)
    assert len(steps) == 20


def test_restore_brings_everything_back_and_keeps_what_was_there(practised, tmp_path):
    good = content(practised)
    copy = backup.backup(practised, tmp_path / "mine.db", clock=on_day(0))
    with Store.open(practised, clock=on_day(0)) as store:
        fill(store, 5, start=30)
    later = content(practised)
    kept = backup.restore(practised, copy, clock=on_day(0))
    assert content(practised) == good
    assert kept.name == "reviews-before-restore-2026-12-04-200000.db"
    assert content(put(tmp_path / "other", kept)) == later
    assert backup.restore(practised, kept, clock=on_day(1)) != kept
    assert content(practised) == later


def test_restore_into_a_new_home(practised, tmp_path):
    copy = backup.backup(practised, tmp_path / "mine.db", clock=on_day(0))
    assert backup.restore(tmp_path / "new", copy, clock=on_day(0)) is None
    assert content(tmp_path / "new") == content(practised)


def test_an_open_window_goes_on_with_restored_data(practised, tmp_path):
    copy = backup.backup(practised, tmp_path / "mine.db", clock=on_day(0))
    with Store.open(practised, clock=on_day(0)) as store:
        fill(store, 5, start=30)
        backup.restore(practised, copy, clock=on_day(0))
        assert store.count() == 19
        fill(store, 1, start=50)
        assert store._read("PRAGMA journal_mode") == [("wal",)]
    assert content(practised)[2] == 20


@pytest.mark.parametrize("damage", [b"", b"junk" * 5000, None, "folder"])
def test_restore_over_a_lost_file_sets_it_aside(practised, tmp_path, damage):
    good = content(practised)
    copy = backup.backup(practised, tmp_path / "mine.db", clock=on_day(0))
    path = practised / "reviews.db"
    damage = path.read_bytes()[:9000] if damage is None else damage
    if damage == "folder":
        path.unlink()
        path.mkdir()
        with pytest.raises(StorageError, match="can't be opened"):
            backup.restore(practised, copy, clock=on_day(0))
        return
    path.write_bytes(damage)
    (practised / "reviews.db-wal").write_bytes(b"left over")
    kept = backup.restore(practised, copy, clock=on_day(0))
    assert kept.read_bytes() == damage and kept.parent == practised
    if not damage:  # else SQLite has removed it on the way
        assert kept.with_name(kept.name + "-wal").read_bytes() == b"left over"
    assert content(practised) == good


@pytest.mark.parametrize("file", ["missing", "empty", "junk", "cut", "flipped", "newer", "other"])
def test_a_file_that_is_no_good_copy_is_refused(practised, tmp_path, file):
    copy = backup.backup(practised, tmp_path / "mine.db", clock=on_day(0))
    good, whole = content(practised), bytearray(copy.read_bytes())
    if file == "missing":
        copy.unlink()
    elif file in ("newer", "other"):
        with closing(sqlite3.connect(copy)) as changed:
            pragma = f"user_version={schema.SCHEMA + 1}" if file == "newer" else "application_id=1"
            changed.execute(f"PRAGMA {pragma}")
    else:
        page = whole.index(b"Marshal gives you") // 4096 * 4096
        flipped = whole[:page] + b"\x00" * 4096 + whole[page + 4096 :]
        copy.write_bytes({"empty": b"", "junk": b"junk" * 999, "cut": whole[:-5000], "flipped": flipped}[file])
    with pytest.raises(StorageError) as caught:
        backup.restore(practised, copy, clock=on_day(0))
    assert "\n" not in str(caught.value) and str(copy) in str(caught.value) and caught.value.hint
    assert file != "missing" or "is not there" in str(caught.value)
    assert content(practised) == good


def test_restore_waits_only_so_long_for_another_window(practised, tmp_path, monkeypatch):
    copy = backup.backup(practised, tmp_path / "mine.db", clock=on_day(0))
    open_now = backup.access.to_write
    monkeypatch.setattr(backup.access, "to_write", lambda path: open_now(path, 0.05))
    with closing(sqlite3.connect(practised / "reviews.db", isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(StorageError, match="another trainer window"):
            backup.restore(practised, copy, clock=on_day(0))
        other.execute("ROLLBACK")
    assert content(practised)[2] == 19


def test_erase_leaves_only_what_is_not_ours(practised, tmp_path):
    backup.daily(practised, clock=on_day(0))
    (practised / "decks").mkdir()
    (practised / "decks" / "own.toml").write_text("", encoding="utf-8")
    (practised / "reviews.db.123.part").write_bytes(b"left over")
    outside = backup.backup(practised, tmp_path / "mine.db", clock=on_day(0))
    removed = backup.erase(practised).removed
    assert practised / "reviews.db" in removed and len(removed) == 3
    assert [path.name for path in practised.iterdir()] == ["decks"] and outside.exists()
    assert (practised / "decks" / "own.toml").exists()
    assert backup.erase(practised).removed == []


def test_erase_of_a_damaged_file(practised):
    (practised / "reviews.db").write_bytes(b"junk" * 5000)
    assert backup.erase(practised).removed == [practised / "reviews.db"]


def test_erase_refuses_while_a_window_is_open(practised):
    with Store.open(practised, clock=on_day(0)) as store:
        with pytest.raises(StorageError, match="has .* open.*close it"):
            backup.erase(practised)
        fill(store, 1, start=30)
    assert content(practised)[2] == 20


def test_where_tells_and_makes_nothing(home):
    nothing = backup.where(home)
    assert (nothing.database, nothing.size_bytes, nothing.reviews) == (home / "reviews.db", 0, 0)
    assert not home.exists()


def test_where_lists_the_copies(practised):
    copy = backup.daily(practised, clock=on_day(0))
    found = backup.where(practised)
    assert (found.reviews, found.schema, found.fault, found.backups) == (20, schema.SCHEMA, "", (copy,))
    assert found.size_bytes == (practised / "reviews.db").stat().st_size
    (practised / "reviews.db").write_bytes(b"junk" * 5000)
    broken = backup.where(practised)
    assert (broken.reviews, broken.schema) == (None, None) and "damaged" in broken.fault
