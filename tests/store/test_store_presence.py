"""A database that is taken from under an open window: noticed before the next verdict, and its answers lie beside."""

import contextlib
import os
import shutil

import pytest

from tests.store import invented
from tests.store.invented import fill, review, update
from trainer.errors import DisplacedError, StorageError
from trainer.store import backup, beside, presence, rows
from trainer.store.store import Store

FIVE = [f"s{number}" for number in range(5)]


def seeds(home, take_in=True):
    with Store.open(home, clock=invented.clock()) as store:
        if take_in:
            beside.take_in(store, update, "")
        assert store.verify(update) == []
        return [one.seed for one in store.reviews(withdrawn=True)]


@pytest.fixture
def copy(home, tmp_path):
    """A copy of the home after its first two answers, made by another hand."""
    with Store.open(home, clock=invented.clock()) as store:
        fill(store, 2)
    return shutil.copy(home / "reviews.db", tmp_path / "copy.db")


def delete(home, copy):
    (home / "reviews.db").unlink()


def delete_all(home, copy):
    shutil.rmtree(home)


def move_all(home, copy):
    home.rename(home.with_name("elsewhere"))


def move(home, copy):
    (home / "reviews.db").rename(home / "reviews (conflict).db")


def replace(home, copy):
    os.replace(copy, home / "reviews.db")


def overwrite(home, copy):
    shutil.copyfile(copy, home / "reviews.db")


def another(home, copy):
    with Store.open(home.with_name("other"), clock=invented.clock()) as other:
        fill(other, 9, start=100)
    shutil.copyfile(home.with_name("other") / "reviews.db", home / "reviews.db")


def garbage(home, copy):
    size = (home / "reviews.db").stat().st_size
    (home / "reviews.db").write_bytes(b"\xa5" * size)


def cut(home, copy):
    os.truncate(home / "reviews.db", 5000)


TAKEN = [delete, delete_all, move_all, move, replace, overwrite, another, garbage, cut]


@pytest.mark.skipif(os.name == "nt", reason="Windows lets nobody take away a file that is open")
@pytest.mark.parametrize("take", TAKEN, ids=lambda take: take.__name__)
def test_no_answer_counts_as_saved_that_is_not(home, copy, take):
    with pytest.raises(DisplacedError) as caught, Store.open(home, clock=invented.clock()) as store:
        fill(store, 2, start=2)
        store.withdraw(3, update, digest=store._read("SELECT digest FROM review WHERE id = 3")[0][0])
        take(home, copy)
        store.record(review(4), update)
    (kept,) = beside.waiting(home)
    assert str(kept) in caught.value.message and "3 answers of this session are kept" in caught.value.message
    assert os.stat(kept).st_mode & 0o077 == 0
    if take in (garbage, cut):
        shutil.copyfile(copy, home / "reviews.db")  # as the hint says: the last copy is put back
    assert seeds(home)[-3:] == FIVE[2:]


@pytest.mark.skipif(os.name == "nt", reason="Windows lets nobody take away a file that is open")
@pytest.mark.parametrize(
    ("take", "stand"),
    [(delete, FIVE[2:]), (move_all, FIVE[2:]), (replace, FIVE), (overwrite, FIVE), (another, None)],
    ids=lambda value: getattr(value, "__name__", ""),
)
def test_the_next_start_takes_the_answers_in_once(home, copy, take, stand):
    with pytest.raises(DisplacedError), Store.open(home, clock=invented.clock()) as store:
        fill(store, 3, start=2)
        store.withdraw(4, update, digest=store._read("SELECT digest FROM review WHERE id = 4")[0][0])
        take(home, copy)
        store.require_saved()
    for _ in range(2):
        found = seeds(home)
        assert found == stand if stand else found[-3:] == FIVE[2:] and len(found) == 12
        with Store.open(home, clock=invented.clock(), create=False) as store:
            assert store.count() == len(found) - 1, "what was taken back stays taken back"
    assert beside.waiting(home) == []


@pytest.mark.skipif(os.name == "nt", reason="Windows lets nobody take away a file that is open")
def test_a_session_that_ends_says_it_too(home, copy):
    with pytest.raises(DisplacedError, match="deleted or moved"), Store.open(home, clock=invented.clock()) as store:
        fill(store, 1)
        delete(home, copy)
    with Store.open(home, clock=invented.clock()) as store:
        delete(home, copy)  # nothing was answered, nothing is lost


def test_a_session_goes_on_with_what_another_window_put_back_or_wrote(home, copy):
    mine = backup.backup(home, home / "mine.db", clock=invented.clock())
    with Store.open(home, clock=invented.clock()) as store, Store.open(home, clock=invented.clock()) as other:
        fill(store, 1, start=2)
        fill(other, 1, start=3)
        fill(store, 1, start=4)
        backup.restore(home, mine, clock=invented.clock(invented.FIRST.replace(hour=21)))
        fill(store, 1, start=5)
        fill(other, 1, start=6)
    assert seeds(home) == ["s0", "s1", "s5", "s6"]


@pytest.mark.skipif(os.name == "nt", reason="Windows lets nobody take away a file that is open")
def test_a_copy_that_was_put_back_before_is_no_excuse(home, copy):
    """The mark of a restore is older than the session, and so is no reason for what is missing."""
    backup.restore(home, backup.backup(home, home / "mine.db", clock=invented.clock()), clock=invented.clock())
    older = shutil.copy(home / "reviews.db", home / "older.db")
    with pytest.raises(DisplacedError, match="overwritten"), Store.open(home, clock=invented.clock()) as store:
        fill(store, 1, start=2)
        overwrite(home, older)
        fill(store, 1, start=3)


def test_answers_that_can_be_kept_nowhere_are_not_called_kept(home, copy, monkeypatch):
    monkeypatch.setattr(beside, "keep", lambda *_: None)
    with pytest.raises(DisplacedError, match="could be kept nowhere"):
        with Store.open(home, clock=invented.clock()) as store:
            fill(store, 1)
            store._presence._file = (0, 0)
            fill(store, 1, start=1)


def test_a_kept_file_with_a_line_that_is_no_answer_stays_under_another_name(home, copy):
    row = rows.to_row(review(7), ["fix-2"])
    kept = beside.keep(home / "reviews.db", [(row, None)], "20261204")
    kept.write_bytes(b'[]\n{"review": {}}\n\xff\n' + kept.read_bytes() + b'{"review": 5, "withdrawn": null}\n')
    assert seeds(home) == ["s0", "s1", "s7"]
    assert [path.suffix for path in home.glob("answers-*")] == [".faulty"]


def test_a_full_disk_is_no_reason_to_keep_answers_beside(home, copy):
    with Store.open(home, clock=invented.clock()) as store:
        fill(store, 1)
        store._connection.execute("PRAGMA max_page_count=1")
        with pytest.raises(StorageError, match="disk is full") as caught:
            fill(store, 200, start=1)
        assert not isinstance(caught.value, DisplacedError)
    assert beside.waiting(home) == []


@pytest.mark.skipif(os.name == "nt", reason="Windows lets nobody take away a file that is open")
@pytest.mark.parametrize("take", [garbage, overwrite], ids=lambda take: take.__name__)
def test_what_happens_between_the_look_and_the_commit_is_noticed_with_it(home, copy, take, monkeypatch):
    looked = presence.Presence.require

    def just_after(self):
        found = looked(self)
        take(home, copy)
        return found

    # An older copy written over it is no loss while all that came since stands in the file beside.
    noticed = contextlib.nullcontext() if take is overwrite else pytest.raises(DisplacedError)
    with noticed, Store.open(home, clock=invented.clock()) as store:
        fill(store, 2, start=2)
        with monkeypatch.context() as patched:
            patched.setattr(presence.Presence, "require", just_after)
            store.record(review(4), update)
        store.record(review(5), update)
    if take is garbage:
        shutil.copyfile(copy, home / "reviews.db")
    assert set(FIVE[2:]) <= set(seeds(home))
