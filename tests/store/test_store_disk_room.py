"""Whether an answer could be stored is known before the first question is asked."""

import errno
import os

import pytest

from tests.store import invented
from tests.store.invented import fill
from trainer.errors import StorageError
from trainer.store import disk_room
from trainer.store.store import Store


def refusing(monkeypatch, number, after=0):
    """Let a file that is opened to be written take ``after`` bytes and then answer with the error ``number``."""

    class Refusing:
        def __init__(self, path, mode, buffering):
            assert (mode, buffering) == ("xb", 0)
            if not after:
                raise OSError(number, os.strerror(number), str(path))
            self.left = after

        def __enter__(self):
            return self

        def __exit__(self, *_):
            pass

        def write(self, content):
            if not self.left:
                raise OSError(number, os.strerror(number))
            taken, self.left = min(self.left, len(content)), 0
            return taken

    monkeypatch.setattr(disk_room, "open", Refusing, raising=False)


@pytest.mark.parametrize("after", [0, 4096])
@pytest.mark.parametrize(
    ("number", "says", "hint"),
    [
        (errno.ENOSPC, "the disk is full", "free some space"),
        (errno.EDQUOT, "the disk is full", "free some space"),
        (errno.EROFS, "can't be written", "--home"),
        (errno.EACCES, "can't be written", "--home"),
        (errno.EIO, os.strerror(errno.EIO), "--home"),
    ],
)
def test_what_could_not_be_stored_is_told_at_the_start(home, monkeypatch, number, says, hint, after):
    with Store.open(home, clock=invented.clock()) as store:
        fill(store, 3)
    content = (home / "reviews.db").read_bytes()
    refusing(monkeypatch, number, after)
    with pytest.raises(StorageError) as caught:
        Store.open(home, clock=invented.clock())
    assert says in caught.value.message and hint in caught.value.hint and str(home) in str(caught.value)
    assert [path.name for path in home.iterdir()] == ["reviews.db"] and (home / "reviews.db").read_bytes() == content
    with Store.open(home, clock=invented.clock(), create=False) as store:
        assert store.count() == 3, "looking needs no room"


def test_a_file_that_may_only_be_read_is_told_at_the_start(home, monkeypatch):
    Store.open(home, clock=invented.clock()).close()
    monkeypatch.setattr(os, "access", lambda path, mode: os.fspath(path) != os.fspath(home / "reviews.db"))
    with pytest.raises(StorageError, match="can't be written"):
        disk_room.require(home / "reviews.db")


def test_nothing_of_the_trial_stays(home):
    home.mkdir()
    (home / "reviews.db.0.part").write_bytes(b"left by a session that was killed")
    disk_room.require(home / "reviews.db")
    assert list(home.iterdir()) == []


def test_an_answer_fits_into_the_room_that_is_asked_for(home):
    """The longest question and answer that can be stored, with a state of every sort, many times over."""
    text = "x" * 2_000
    with Store.open(home, clock=invented.clock()) as store:
        fill(store, 30)
        size = store.path.stat().st_size
        largest = 0
        for number in range(30, 60):
            review = invented.review(number, question=text, typed=text, inputs={"shown": text}, value=text, truth=text)
            store.record(review, lambda states, *_: (dict.fromkeys(states, bytes(4_000)), bytes(4_000)))
            grown = store.path.stat().st_size - size
            log = store.path.with_name("reviews.db-wal").stat().st_size
            largest, size = max(largest, grown + log), size + grown
    assert 20_000 < largest < disk_room.ROOM_BYTES
