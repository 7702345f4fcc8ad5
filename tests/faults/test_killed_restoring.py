"""Restore, erase and backup, killed at every step: the data are there as before or as wanted, and never neither."""

import os
from collections.abc import Iterator

import pytest

from tests.faults.conftest import LONG
from tests.store import invented
from tests.store.conftest import python  # noqa: F401  (a fixture)
from tests.store.invented import fill
from trainer.store import backup
from trainer.store.store import Store

pytestmark = pytest.mark.skipif(os.name != "posix", reason="a killed process leaves its files open on Windows")
CLOCK = invented.clock()

KILLED = """
import os, sys
from pathlib import Path
from tests.store import invented
from trainer.store import backup
count, last, home = 0, int(sys.argv[1]), Path(sys.argv[2])
def hook(event, arguments):
    global count
    count += event in ("os.rename", "os.remove", "os.link", "os.rmdir", "os.truncate", "sqlite3.connect", "shutil.copyfile") or (
        event == "open" and isinstance(arguments[1], str) and any(mark in arguments[1] for mark in "wax+"))
    if count == last:
        os._exit(9)
sys.addaudithook(hook)
{action}
"""  # noqa: E501


def killed_at_each_step(python, action, home, *arguments, stride=1) -> Iterator[int]:  # noqa: F811
    """Yield the exit code of the action, killed at its first step, its second … until it gets through."""
    code, last = 9, 0
    while code != 0:
        last += 1 if LONG or last < 4 else stride
        process = python(KILLED.replace("{action}", action), last, home, *arguments)
        code = process.wait(60)
        assert code in (0, 9) and last < 200
        yield code
    assert last > 4


def content(path):
    with Store.open(path, clock=CLOCK, create=False) as store:
        return [review.seed for review in store.reviews()]


@pytest.mark.parametrize("damage", ["noise", "a page", "none"])
def test_restore(home, tmp_path, python, damage):  # noqa: F811
    with Store.open(home, clock=CLOCK) as store:
        fill(store, 8)
    copy = backup.backup(home, tmp_path / "copy.db", clock=CLOCK)
    with Store.open(home, clock=CLOCK) as store:
        fill(store, 30, start=8)
    data = bytearray((home / "reviews.db").read_bytes())
    if damage == "noise":
        data[:4096] = bytes(4096)
    elif damage == "a page":
        page = data.index(b"Marshal gives you") // 4096 * 4096
        data[page : page + 4096] = bytes(4096)
    action = "backup.restore(home, sys.argv[3], clock=invented.clock())"
    for path in home.glob("reviews*"):
        path.unlink()
    (home / "reviews.db").write_bytes(data)
    for code in killed_at_each_step(python, action, home, copy, stride=1 if damage == "noise" else 4):
        assert (home / "reviews.db").exists(), "no start may take it for a first one"
        now = (home / "reviews.db").read_bytes()
        if code == 0 or (damage == "noise" and now[:16] != bytes(16)):
            assert content(home) == [f"s{number}" for number in range(8)]
        kept = [path.read_bytes() for path in home.rglob("reviews*.db")]
        assert damage == "none" or any(one[4096:] == data[4096:] or one == now for one in kept)
        if code == 0:
            break
        for path in home.rglob("reviews*"):
            if path.is_file():
                path.unlink()
        (home / "reviews.db").write_bytes(data)


def test_erase(home, python):  # noqa: F811
    for code in killed_at_each_step(python, "backup.erase(home)", home):
        left = sorted(path.name for path in home.rglob("*") if path.is_file())
        if code == 0:
            assert left == []
            break
        backup.erase(home)
        assert [path for path in home.rglob("*") if path.is_file()] == [], "erasing again ends it"
        with Store.open(home, clock=CLOCK) as store:
            fill(store, 3)
        backup.daily(home, clock=CLOCK)
        (home / "answers-1.jsonl").write_text("", encoding="utf-8")
