"""A disk that is full, a file that may not grow, a folder that can't be written: told in one line, nothing lost."""

import os
import shutil
import subprocess
import sys

import pytest

from tests.faults import driving, killing
from tests.faults.conftest import LONG

pytestmark = pytest.mark.skipif(sys.platform != "linux", reason="limits and mounts as Linux has them")

TYPED = "s\n27\nu\ns\ns\ns\n"
SESSION = ("practice", "--questions", "3")


def limited(home, size_bytes, *, typed=TYPED):
    """Return the finished session of a process none of whose files may grow beyond ``size_bytes``."""
    import resource

    return subprocess.run(
        [*driving.TRAINER, *SESSION], input=typed, capture_output=True, text=True, encoding="utf-8", timeout=60,
        env=driving.environment(home, PYTHONDONTWRITEBYTECODE="1"),
        preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (size_bytes, size_bytes)),
    )  # fmt: skip


def lost_nothing(done, before, after):
    """Assert that a session ended well, or in one line, and that what it showed as judged is stored."""
    assert done.returncode in (0, 3), done.stderr
    assert len(done.stderr.splitlines()) == (done.returncode == 3), done.stderr
    killing.check(before, after, type("Said", (), {"text": lambda: done.stdout}), tally := killing.Tally())
    assert tally.faults == []


def test_a_file_that_may_not_grow(home):
    assert driving.run(*SESSION, home=home, typed=TYPED).returncode == 0
    size = (home / "reviews.db").stat().st_size
    codes = []
    for room in range(-1, 24, 1 if LONG else 8):
        before = killing.stored(home)
        done = limited(home, size + room * 4096)
        lost_nothing(done, before, killing.stored(home))
        codes.append(done.returncode)
    assert 3 in codes
    killing.resumes(home, killing.stored(home), tally := killing.Tally())
    assert tally.faults == []


@pytest.fixture
def disk(tmp_path):
    """Return a function that mounts a small disk of ``size_bytes`` and returns its folder."""
    mounted = []

    def mount(size_bytes):
        folder = tmp_path / f"disk-{len(mounted)}"
        folder.mkdir()
        command = ["mount", "-t", "tmpfs", "-o", f"size={size_bytes}", "tmpfs", str(folder)]
        if os.geteuid() or not shutil.which("mount") or subprocess.run(command, capture_output=True).returncode:
            pytest.skip("only root can mount a small disk, and not in every container")
        mounted.append(folder)
        return folder

    yield mount
    for folder in mounted:
        subprocess.run(["umount", "-l", str(folder)], check=True)


def test_a_full_disk_and_room_again(disk):
    folder = disk(4_000_000)
    home, filler = folder / "home", folder / "filler"
    assert driving.run(*SESSION, home=home, typed=TYPED).returncode == 0
    codes = []
    for free in (0, 40, 104) if not LONG else range(0, 200, 4):
        filler.write_bytes(b"")
        free_bytes = shutil.disk_usage(folder).free
        filler.write_bytes(b"x" * max(0, free_bytes - free * 1024))
        before = killing.stored(home)
        done = driving.run(*SESSION, home=home, typed=TYPED)
        if done.returncode:
            assert "disk" in done.stderr and ("free some space" in done.stderr or "check" in done.stderr), done.stderr
        after = killing.stored(home)
        lost_nothing(done, before, after)
        codes.append(done.returncode)
    assert codes[0] == 3
    filler.unlink()
    killing.resumes(home, killing.stored(home), tally := killing.Tally())
    assert tally.faults == []


def test_a_first_start_on_a_full_disk_leaves_nothing_half_made(disk):
    folder = disk(400_000)
    for free in (0, 16, 64, 120) if LONG else (0, 64):
        (folder / "filler").write_bytes(b"")
        (folder / "filler").write_bytes(b"x" * (shutil.disk_usage(folder).free - free * 1024))
        done = driving.run(*SESSION, home=folder / "home", typed=TYPED)
        assert done.returncode == 3 and len(done.stderr.splitlines()) == 1, done.stderr
        assert "Not known" not in done.stdout or killing.stored(folder / "home").reviews
        (folder / "filler").unlink()
    assert driving.run(*SESSION, home=folder / "home", typed=TYPED).returncode == 0
    assert [path.name for path in (folder / "home").iterdir() if "part" in path.name] == []


def test_a_read_only_disk_is_read_but_not_practised_on(disk):
    folder = disk(2_000_000)
    home = folder / "home"
    assert driving.run(*SESSION, home=home, typed=TYPED).returncode == 0
    subprocess.run(["mount", "-o", "remount,ro", str(folder)], check=True)
    done = driving.run(*SESSION, home=home, typed=TYPED)
    assert done.returncode == 3 and len(done.stderr.splitlines()) == 1 and "--home" in done.stderr, done.stderr
    assert "Not known" not in done.stdout
    for words, code in (
        (("data", "where"), 0),
        (("data", "verify"), 0),
        (("outlook",), 0),
        (("data", "erase", "--yes"), 3),
    ):
        done = driving.run(*words, home=home)
        assert (done.returncode, "Traceback" in done.stderr) == (code, False), done.stderr
    done = driving.run("data", "backup", str(home / "copy.db"), home=home)
    assert done.returncode == 3 and len(done.stderr.splitlines()) == 1, done.stderr
    subprocess.run(["mount", "-o", "remount,rw", str(folder)], check=True)
    killing.resumes(home, killing.stored(home), tally := killing.Tally())
    assert tally.faults == []


def fill(folder, *, free_bytes=0):
    """Fill the disk of ``folder`` but for ``free_bytes`` and return the file that fills it."""
    filler = folder / "filler"
    filler.write_bytes(b"")
    filler.write_bytes(b"x" * (shutil.disk_usage(folder).free - free_bytes))
    return filler


@pytest.fixture
def on_terminal():
    """Start ``trainer`` in a pseudo-terminal; what still runs at the end is killed."""
    started = []

    def start(*words, home):
        started.append(driving.OnTerminal(*words, home=home))
        return started[-1]

    yield start
    for driven in started:
        if driven._code is None:
            driven.kill()
            driven.rest()


WAYS = [
    (("practice", "--questions", "1"), "s", "Not known."),
    (("cram", "--start"), "s", "Not known."),
    (("rehearse", "--seed", "7"), "s", "Not known."),
    (("debrief",), "1m", "right: "),
]


@pytest.mark.parametrize(("words", "line", "stored"), WAYS, ids=[words[0] for words, _, _ in WAYS])
def test_an_answer_on_a_full_disk_is_given_again_once_there_is_room(disk, on_terminal, words, line, stored):
    folder = disk(4_000_000)
    home = folder / "home"
    assert driving.run("cram", "--on", "in 9 days", home=home).returncode == 0
    driven = on_terminal(*words, home=home).until(lambda driven: driven.waiting())
    filler = fill(folder)
    for _ in range(2):
        driven.send(line)
        driven.until("the disk is full").settle()
        driven._raw, driven.seen = b"", ""
        driven._fed = -1
    assert killing.stored(home).reviews == []
    filler.unlink()
    driven.send(line)
    driven.until(stored)
    after = killing.stored(home)
    assert len(after.reviews) == (6 if words == ("debrief",) else 1) and after.problems == []
    driven.settle()
    driven.write(b"q\r")
    driven.settle()
    driven.write(b"q\r")
    assert driven.rest() == 0 and "Traceback" not in driven.text()
    assert len(list((home / "backups").iterdir())) == 1, "each way of answering keeps the copy of the day"


@pytest.mark.parametrize("words", [*(words for words, _, _ in WAYS), ()], ids=lambda words: "".join(words[:1]))
def test_a_full_disk_is_told_before_the_first_question(disk, on_terminal, words):
    folder = disk(4_000_000)
    home = folder / "home"
    assert driving.run("cram", "--on", "in 9 days", home=home).returncode == 0
    assert driving.run(*SESSION, home=home, typed=TYPED).returncode == 0
    before = killing.stored(home)
    fill(folder, free_bytes=60_000)
    driven = on_terminal(*words, home=home)
    assert driven.rest() == 3
    lines = [line for line in driven.text().splitlines() if line]
    assert len(lines) == 1 and lines[0].startswith("trainer: the disk is full") and "free some space" in lines[0]
    assert killing.stored(home) == before


@pytest.mark.parametrize("what", ["reviews.db", ""], ids=["file", "folder"])
@pytest.mark.parametrize("words", [("practice",), ("rehearse",)], ids=" ".join)
def test_what_can_only_be_read_is_told_before_the_first_question(disk, on_terminal, words, what):
    """The question was on the screen already, and only the first answer was refused."""
    folder = disk(4_000_000)
    home = folder / "home"
    assert driving.run(*SESSION, home=home, typed=TYPED).returncode == 0
    subprocess.run(["mount", "--bind", str(home / what), str(home / what)], check=True)
    try:
        subprocess.run(["mount", "-o", "remount,ro,bind", str(home / what)], check=True)
        driven = on_terminal(*words, home=home)
        assert driven.rest() == 3
    finally:
        subprocess.run(["umount", "-l", str(home / what)], check=True)
    lines = [line for line in driven.text().splitlines() if line]
    assert len(lines) == 1 and "can't be written" in lines[0] and "--home" in lines[0]


@pytest.mark.parametrize("words", [("data", "backup", "/proc/x.db"), ("deck", "new", "flow", "/proc/x.toml"),
                                   ("cram", "--on", "in 9 days", "--calendar", "/proc/x.ics"),
                                   ("report", "--out", "/proc/x")])  # fmt: skip
def test_a_place_that_nobody_can_write_to(trainer, words):
    trainer(*SESSION, typed=TYPED)
    done = trainer(*words)
    assert done.code in (1, 2, 3) and len(done.err.splitlines()) == 1, done.err
    assert "Traceback" not in done.err
