"""What is written is for its owner alone, goes where it was meant to go, and is gone when it was erased."""

import os
import stat

import pytest

from tests.faults import driving
from tests.store import invented
from tests.store.invented import fill
from trainer.store import backup, disk_room
from trainer.store.store import Store

pytestmark = pytest.mark.skipif(os.name != "posix", reason="Windows keeps rights in another way")


def open_to_others(folder):
    """Return the files and folders below ``folder``, itself included, that others can read or write."""
    found = [folder, *folder.rglob("*")]
    return [path for path in found if stat.S_IMODE(path.lstat().st_mode) & 0o077]


def test_whatever_the_umask_nobody_else_can_read(home, tmp_path):
    before = os.umask(0)
    try:
        for words in (
            ("practice", "--questions", "1"),
            ("report", "--format", "html,csv,json,md,xapi", "--out", tmp_path / "out"),
            ("data", "backup", tmp_path / "copy.db"), ("brief", "--out", tmp_path / "card.html"),
            ("cram", "--on", "in 9 days", "--calendar", tmp_path / "plan.ics"), ("data", "salvage"),
            ("debrief", "--export", tmp_path / "debriefs.json"), ("deck", "new", "flow", tmp_path / "flow.toml"),
        ):  # fmt: skip
            done = driving.run(*words, home=home, typed="s\n")
            assert done.returncode == 0, done.stderr
    finally:
        os.umask(before)
    assert open_to_others(home) == open_to_others(tmp_path / "out") == []
    written = [path for path in tmp_path.iterdir() if path.is_file()]
    assert len(written) == 5 and [path for path in written if path.stat().st_mode & 0o077] == []


def test_the_data_of_an_older_trainer_are_made_private(home):
    with Store.open(home, clock=invented.clock()) as store:
        fill(store, 1)
    (home / "reviews.db").chmod(0o644)
    with Store.open(home, clock=invented.clock()) as store:
        fill(store, 1, start=1)
        assert {stat.S_IMODE(path.stat().st_mode) for path in home.glob("reviews.db*")} == {0o600}


@pytest.mark.parametrize("target", ["there", "nowhere"])
def test_no_temporary_file_is_written_through_a_link(home, tmp_path, target):
    precious = tmp_path / "precious"
    if target == "there":
        precious.write_text("precious", encoding="utf-8")
    home.mkdir()
    database = home / "reviews.db"
    for name in ("reviews.db.0.part", f"reviews.db.{os.getpid()}.part", f"copy.db.{os.getpid()}.part"):
        (home / name).symlink_to(precious)
    disk_room.require(database)
    with Store.open(home, clock=invented.clock()) as store:
        fill(store, 1)
    backup.backup(home, home / "copy.db", clock=invented.clock())
    assert precious.exists() == (target == "there")
    assert target == "nowhere" or precious.read_text(encoding="utf-8") == "precious"


def test_erase_follows_a_link_and_names_what_it_leaves(home, tmp_path):
    with Store.open(home, clock=invented.clock()) as store:
        fill(store, 1)
    backup.daily(home, clock=invented.clock())
    elsewhere = tmp_path / "elsewhere.db"
    (home / "reviews.db").rename(elsewhere)
    (home / "reviews.db").symlink_to(elsewhere)
    (home / "answers-20261204-1.jsonl").write_text("", encoding="utf-8")
    (home / "decks").mkdir(exist_ok=True)
    done = backup.erase(home)
    assert elsewhere in done.removed and not elsewhere.exists() and not (home / "reviews.db").is_symlink()
    assert done.left == [home / "decks"] and list(home.iterdir()) == [home / "decks"]


def test_a_home_that_was_there_becomes_private_unless_it_holds_other_things(tmp_path):
    for name, private in (("home", True), ("documents", False)):
        folder = tmp_path / name
        folder.mkdir()
        folder.chmod(0o755)
        if not private:
            (folder / "letter.txt").write_text("mine", encoding="utf-8")
        for _ in range(2):
            with Store.open(folder, clock=invented.clock()) as store:
                fill(store, 1, start=store.count())
        assert (stat.S_IMODE(folder.stat().st_mode) == 0o700) is private
        assert stat.S_IMODE((folder / "reviews.db").stat().st_mode) == 0o600
