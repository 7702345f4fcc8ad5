"""Each failure is one line that names the file and says what to do next, and loses nothing."""

import os
import shutil
import sqlite3
import stat
import sys

import pytest

from tests.store import invented
from tests.store.invented import fill, review, standing, update
from trainer.errors import StorageError
from trainer.store import connection as connections
from trainer.store import faults, schema
from trainer.store.store import Store


def refused(home, create=True, wait_s=0.05):
    """Return the line that opening ``home`` is refused with."""
    with pytest.raises(StorageError) as caught:
        Store.open(home, clock=invented.clock(), create=create, wait_s=wait_s)
    line = str(caught.value)
    assert "\n" not in line and caught.value.hint and caught.value.exit_code == 3
    return line


@pytest.fixture
def closed(filled):
    """A home with 60 reviews that nobody has open."""
    return filled(60)


def database(home):
    return home / "reviews.db"


def test_nothing_is_made_by_a_command_that_only_reads(home):
    with Store.open(home, clock=invented.clock(), create=False) as store:
        assert (list(store.reviews()), store.count(), standing(store)) == ([], 0, ({}, None))
        assert store.opening() is None and store.setting("x", 3) == 3 and store.verify(update) == []
        with pytest.raises(StorageError, match="can't be written"):
            store.record(review(), update)
    assert not home.exists()


def test_a_command_that_only_reads_refuses_to_write(closed):
    with Store.open(closed, clock=invented.clock(), create=False) as store:
        assert store.count() == 60
        with pytest.raises(StorageError, match="can't be written"):
            store.record(review(), update)
        assert store.count() == 60
    assert [path.name for path in closed.iterdir()] == ["reviews.db"]


@pytest.mark.parametrize("create", [True, False])
def test_a_file_of_zero_bytes_is_not_taken_for_a_new_one(closed, create):
    database(closed).write_bytes(b"")
    assert "0 bytes" in refused(closed, create)
    assert database(closed).stat().st_size == 0


@pytest.mark.parametrize("create", [True, False])
@pytest.mark.parametrize("content", [b"PNG" * 3000, b"JPEG" * 2048, b"x", b"SQLite format 3\x00" + b"\xff" * 9000])
def test_a_file_that_is_no_database_is_left_alone(closed, create, content):
    database(closed).write_bytes(content)
    assert "not a trainer database" in refused(closed, create)
    assert database(closed).read_bytes() == content


@pytest.mark.parametrize("create", [True, False])
def test_another_programs_database_is_left_alone(closed, create):
    database(closed).unlink()
    other = sqlite3.connect(database(closed))
    other.execute("CREATE TABLE t (x)")
    other.close()
    content = database(closed).read_bytes()
    assert "is not a trainer database" in refused(closed, create)
    assert database(closed).read_bytes() == content and len(list(closed.iterdir())) == 1


@pytest.mark.parametrize("share", [0.25, 0.5, 0.99])
def test_a_file_cut_short_is_told(closed, share):
    content = database(closed).read_bytes()
    database(closed).write_bytes(content[: int(len(content) * share)])
    assert "is damaged" in refused(closed) and "restore" in refused(closed, create=False)
    assert database(closed).stat().st_size == int(len(content) * share)


def test_a_damaged_page_is_told_when_it_is_met(closed):
    content = bytearray(database(closed).read_bytes())
    page = content.index(b"Marshal gives you") // 4096 * 4096
    content[page : page + 4096] = b"\xa5" * 4096
    database(closed).write_bytes(content)
    with Store.open(closed, clock=invented.clock()) as store:
        with pytest.raises(StorageError, match="damaged.*restore"):
            list(store.reviews())
        assert any("damaged" in sentence or "can't be read" in sentence for sentence in store.verify(update))


@pytest.mark.parametrize("create", [True, False])
def test_a_folder_in_place_of_the_file_is_told(home, create):
    database(home).mkdir(parents=True)
    assert "can't be opened" in refused(home, create)


def test_a_home_that_is_a_file_is_told(home):
    home.write_text("not a folder", encoding="utf-8")
    assert str(home) in refused(home)


@pytest.mark.parametrize("create", [True, False])
def test_a_newer_schema_is_left_alone(closed, create):
    newer = sqlite3.connect(database(closed))
    newer.execute(f"PRAGMA user_version={schema.SCHEMA + 1}")
    newer.close()
    content = database(closed).read_bytes()
    assert "newer trainer" in refused(closed, create)
    assert database(closed).read_bytes() == content


@pytest.mark.parametrize("lost", ["TABLE belief", "TRIGGER review_stays_delete", "INDEX review_by_drill"])
def test_a_database_that_lacks_a_part_is_told(closed, lost):
    robbed = sqlite3.connect(database(closed))
    robbed.execute(f"DROP {lost}")
    robbed.close()
    assert lost.split()[1] in refused(closed)


def test_an_old_sqlite_is_told(home, monkeypatch):
    monkeypatch.setattr(sqlite3, "sqlite_version_info", (3, 34, 1))
    assert "SQLite 3.34.1" in refused(home) and not home.exists()
    faults.require_sqlite((3, 37, 0))


def test_a_full_disk_keeps_what_was_there(store):
    fill(store, 10)
    stood = standing(store)
    (pages,) = store._connection.execute("PRAGMA page_count").fetchone()
    store._connection.execute(f"PRAGMA max_page_count={pages}")
    with pytest.raises(StorageError, match="the disk is full.*free some space") as caught:
        fill(store, 100, start=10)
    assert "\n" not in str(caught.value)
    recorded = store.count()
    assert 10 <= recorded < 110 and store.verify(update) == []
    with pytest.raises(StorageError, match="full"):
        store.set_setting("long", "x" * 100_000)
    with pytest.raises(StorageError, match="full"):
        store.set_opening({"text": "x" * 100_000})
    store._connection.execute("PRAGMA max_page_count=10000")
    fill(store, 5, start=recorded)
    assert store.count() == recorded + 5 and store.verify(update) == []
    assert recorded > 10 or standing(store) != stood


@pytest.mark.parametrize("action", ["record", "withdraw", "set_setting", "open"])
def test_a_window_that_holds_the_lock_is_told(closed, action):
    def act(store):
        if action == "open":
            Store.open(closed, clock=invented.clock(), wait_s=0.05)
        elif action == "set_setting":
            store.set_setting("key", 1)
        elif action == "withdraw":
            store.withdraw(60, update)
        else:
            store.record(review(), update)

    with Store.open(closed, clock=invented.clock(), wait_s=0.05) as store:
        other = sqlite3.connect(database(closed), isolation_level=None)
        try:
            other.execute("BEGIN IMMEDIATE")
            with pytest.raises(StorageError, match="another trainer window.*try again"):
                act(store)
            assert store.count() == 60  # reading does not wait
            other.execute("ROLLBACK")
            fill(store, 1)
        finally:
            other.close()


def test_a_bug_keeps_its_traceback(store):
    with pytest.raises(sqlite3.ProgrammingError), faults.told(store.path):
        store._connection.execute("SELECT ?", (1, 2))


def test_an_unknown_answer_of_sqlite_is_still_one_line(home):
    line = str(faults.storage_error(sqlite3.OperationalError("odd\nanswer"), home))
    assert "odd answer" in line and "\n" not in line


UNPRIVILEGED = """
import sys
from pathlib import Path
import sqlite_utils
from tests.store import invented
from trainer.errors import StorageError
from trainer.store.store import Store
from trainer.store import backup

home, create = Path(sys.argv[1]), sys.argv[2] == "write"
try:
    with Store.open(home, clock=invented.clock(), create=create) as store:
        print(store.count(), len(list(store.reviews())), store.verify(invented.update))
        if len(sys.argv) > 3:
            print(backup.backup(home, sys.argv[3], clock=invented.clock()).name)
        store.record(invented.review(), invented.update)
except StorageError as error:
    print(error)
"""


@pytest.fixture
def unprivileged(python):
    """Run the program above as one for whom permissions count: root would walk past them."""

    def run(*arguments):
        if os.name == "posix" and os.geteuid() == 0:
            setpriv = shutil.which("setpriv")
            if not setpriv:
                pytest.skip("root can write everywhere, and there is no setpriv to give that up")
            drop = "-dac_override,-dac_read_search"
            code = (
                "import os, sys\n"
                f"os.execv({setpriv!r}, [{setpriv!r}, '--inh-caps', {drop!r}, '--bounding-set', {drop!r},"
                f" {sys.executable!r}, '-c', {UNPRIVILEGED!r}, *sys.argv[1:]])"
            )
        else:
            code = UNPRIVILEGED
        process = python(code, *arguments)
        return process.communicate(timeout=60)[0].splitlines()

    return run


@pytest.fixture
def protected():
    """Take the right to write from paths, and give it back at the end."""
    taken = []

    def protect(*paths):
        for path in paths:
            taken.append((path, path.stat().st_mode))
            path.chmod(stat.S_IREAD | (stat.S_IEXEC if path.is_dir() else 0))

    yield protect
    for path, mode in reversed(taken):
        path.chmod(mode)


def test_a_read_only_file_is_read_but_not_practised_on(closed, unprivileged, protected):
    protected(database(closed))
    (line,) = unprivileged(closed, "write")
    assert "can't be written" in line and "--home" in line
    counts, line = unprivileged(closed, "read")
    assert counts == "60 60 []" and "can't be written" in line


on_posix = pytest.mark.skipif(os.name != "posix", reason="Windows folders have no read-only mode")


@on_posix
def test_a_read_only_home_is_read_and_copied_but_not_practised_on(closed, unprivileged, protected, tmp_path):
    protected(closed, database(closed))
    (line,) = unprivileged(closed, "write")
    assert "can't be" in line and "--home" in line
    counts, copy, line = unprivileged(closed, "read", tmp_path / "copy.db")
    assert counts == "60 60 []" and copy == "copy.db" and "can't be written" in line
    assert [path.name for path in closed.iterdir()] == ["reviews.db"]


@on_posix
def test_a_read_only_home_with_an_unfinished_log_is_told(closed, unprivileged, protected):
    (closed / "reviews.db-wal").write_bytes(b"x" * 100)
    protected(closed, database(closed), closed / "reviews.db-wal")
    (line,) = unprivileged(closed, "read")
    assert "copy the folder" in line or "can't be" in line


@on_posix
def test_a_home_that_cannot_be_made_is_told(tmp_path, unprivileged, protected):
    protected(tmp_path)
    (line,) = unprivileged(tmp_path / "home", "write")
    assert "Permission denied" in line and "--home" in line
    counts, line = unprivileged(tmp_path / "home", "read")
    assert counts == "0 0 []" and "can't be written" in line


@on_posix
def test_a_read_only_folder_without_a_file_is_told(home, unprivileged, protected):
    home.mkdir()
    protected(home)
    (line,) = unprivileged(home, "write")
    assert "can't be written" in line and "--home" in line


def test_odd_names_of_folders_work(tmp_path):
    for name in ("50% #1 ?x", "ä ö", "a'b;c"):
        if os.name != "posix" and "?" in name:
            continue
        with Store.open(tmp_path / name, clock=invented.clock()) as store:
            fill(store, 1)
        with Store.open(tmp_path / name, clock=invented.clock(), create=False) as store:
            assert store.count() == 1
        assert database(tmp_path / name).is_file()


def test_durability_is_asked_for(store):
    asked = {"journal_mode": "wal", "synchronous": 2, "foreign_keys": 1, "wal_autocheckpoint": 1}
    assert {name: store._read(f"PRAGMA {name}")[0][0] for name in asked} == asked


def test_a_share_that_refuses_wal_is_worked_with(closed, monkeypatch):
    monkeypatch.setattr(connections, "_PRAGMAS", ("journal_mode=DELETE", *connections._PRAGMAS))
    with Store.open(closed, clock=invented.clock()) as store:
        fill(store, 2)
        assert store._read("PRAGMA journal_mode") == [("delete",)]
        assert store.count() == 62
